"""The plan in the words of the shop."""

from optics.finding.diagnosis.duties import Duty
from optics.finding.diagnosis.wording import (
    accused_lines,
    begun,
    further_line,
    joined,
    open_lines,
    percent,
    reading_words,
)
from optics.finding.plan.planning import Alternative, Plan, PlanStep
from optics.finding.plan.state import Expected
from optics.measure.places import place_name
from optics.measure.verdict import Verdict, judge
from optics.readings.spots import Spot
from optics.readings.wording import said_half_width, said_offset
from optics.units import format_distance, format_length

_NO_MORE = "no one further reading would tell much more"
LAST = "Last of all: a film test, and the as-left readings into the record."
"""What comes after every plan."""


def duty_words(duty: Duty) -> str:
    """Where a duty is, as it is said."""
    if duty.spot is Spot.NEAR:
        return f"the {format_distance(duty.distance)} mark"
    if duty.spot is Spot.COINCIDENCE:
        return f"the rangefinder at {format_distance(duty.distance)}"
    if duty.place != (0.0, 0.0):
        return f"the {place_name(*duty.place)} corner"
    return f"the {duty.words}"


def expected_line(expected: Expected) -> str:
    """One duty: what is expected there, and how probable it is to be inside."""
    half = said_half_width((expected.high - expected.low) / 2)
    return (
        f"{duty_words(expected.duty)}: {said_offset(expected.mean)}, {half} at 95 %; inside "
        f"with {percent(expected.inside)}"
    )


def step_lines(step: PlanStep) -> tuple[str, ...]:
    """One step: what to do, with what, and what is to be expected after it."""
    done = step.adjustment
    lines = [
        f"{step.number}. {step.bench_step.words.capitalize()} ({order_words(step)}). "
        f"{done.instruction}",
        f"Tool: {done.tool}.",
        *done.notes,
        *(f"{c.heading}: {c.text}" for c in done.cautions),
        after_line(step),
    ]
    return tuple(lines)


def order_words(step: PlanStep) -> str:
    """Where a step stands among all that a bench may do."""
    return f"step {int(step.bench_step)} of the bench's order"


def after_line(step: PlanStep) -> str:
    """What is to be expected after a step."""
    return (
        f"Then the least sure is {expected_line(step.after.worst)}; all inside with "
        f"{percent(step.after.all_inside)}."
    )


def promise_line(plan: Plan) -> str:
    """Whether the camera will conform when the plan is done."""
    state, tolerance = plan.final, plan.final.expected[0].duty.tolerance
    within = f"within ± {format_length(tolerance, places=3)}"
    where = joined(dict.fromkeys(duty_words(e.duty) for e in state.expected))
    if plan.will_conform:
        when = "When this is done it will conform" if plan.steps else "It conforms"
        return f"{when}: {where} {within}, with {percent(state.all_inside)} probability."
    return (
        f"Conformity cannot be promised: all {within} with {percent(state.all_inside)}; the "
        f"least sure is {expected_line(state.worst)}."
    )


def needs_line(plan: Plan) -> str:
    """What to do before anything can be promised; empty when it can."""
    if plan.will_conform:
        return ""
    if plan.diagnosis.is_accused:
        return accused_lines(plan.diagnosis)[0]
    if plan.blocked:
        return " ".join(blocked.reason for blocked in plan.blocked)
    return further_line(plan.diagnosis) or f"{begun(_NO_MORE)}."


def nothing_line(plan: Plan) -> str:
    """Why nothing is moved, and what of the readings lies out of tolerance all the same.

    Empty where there is something to do; what blocks a step is told apart from this.
    """
    if plan.steps:
        return ""
    outside = _read_outside(plan)
    if not outside:
        return NOTHING if plan.will_conform else f"{_AS_READ} {_next(plan)}".rstrip()
    said = f"Read out of tolerance: {'; '.join(outside)}. {_why_not(plan)} {_next(plan)}"
    return said.rstrip()


NOTHING = "Nothing is to be moved."
_AS_READ = "The plan moves nothing, for no reading lies out of tolerance; that is not proof enough."


def _read_outside(plan: Plan) -> list[str]:
    """Each reading whose figure lies beyond the tolerance, and whether that is proved."""
    found, allowed = plan.diagnosis, plan.diagnosis.camera.allowed_error
    said = []
    for reading, error in zip(found.seen.readings, found.seen.errors, strict=True):
        if abs(error.value) <= allowed:
            continue
        sure = "" if judge(error, allowed) is Verdict.OUTSIDE else ", too close to tell"
        known = said_half_width(error.expanded)
        said.append(f"{reading_words(reading)}, {said_offset(error.value)} ({known}{sure})")
    return said


def _why_not(plan: Plan) -> str:
    """Why the plan moves nothing although something was read out of tolerance."""
    if plan.diagnosis.is_accused:
        return "The plan moves nothing before readings that cannot all be true are taken again."
    if plan.blocked:
        return "The plan moves nothing yet, for something stands in the way."
    if plan.will_conform:
        return "The plan moves nothing, for all readings together put that down to scatter."
    if plan.diagnosis.named:
        return "The plan moves nothing, for no step makes it likelier that all is within tolerance."
    return "The plan moves nothing, for the readings together do not say which part is at fault."


def _next(plan: Plan) -> str:
    """What to read next; empty where something else must be done first."""
    if plan.blocked and not plan.diagnosis.is_accused:
        return ""
    again = "Read again what was read out of tolerance, three times."
    return needs_line(plan) or further_line(plan.diagnosis) or again


def alternative_line(alternative: Alternative) -> str:
    """Another way and its price."""
    doing = " ".join(a.instruction for a in alternative.adjustments)
    left = [f"{duty_words(duty)} stays {said_offset(mean)}" for duty, mean in alternative.leaves]
    price = f" Price: {joined(left)}." if left else ""
    start = alternative.avoids[0].without
    return f"{start}: {doing} Inside elsewhere with {percent(alternative.inside)}.{price}"


def jumped_line(plan: Plan) -> str:
    """The earlier steps that no reading checked; empty when there are none."""
    if not plan.jumped:
        return ""
    steps = joined(f"{int(step)} ({step.words})" for step in plan.jumped)
    return f"Not checked, and presumed right: step {steps} of the bench's order."


def unsettled_line(plan: Plan) -> str:
    """That a step rests on a cause which is not certain, and what would settle it; else empty."""
    if not plan.is_unsettled:
        return ""
    settled = f"The causes are not settled ({percent(plan.diagnosis.named_probability)})"
    further = further_line(plan.diagnosis)
    if not further:
        return f"{settled}, and {_NO_MORE}."
    return f"{settled}, so read once more before anything is moved. {further}"


def further_lines(plan: Plan) -> tuple[str, ...]:
    """What the readings leave open, and the one further reading that would tell most of it."""
    left = open_lines(plan.diagnosis)
    asked = plan.is_unsettled or not plan.will_conform or plan.diagnosis.open
    if not asked or first_line(plan):
        return left
    further = further_line(plan.diagnosis)
    return (*left, further) if further else left


def first_line(plan: Plan) -> str:
    """What to do before anything is moved; empty when the plan can be carried out."""
    return needs_line(plan) if plan.diagnosis.is_accused else unsettled_line(plan)
