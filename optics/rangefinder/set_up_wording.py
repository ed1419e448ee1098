"""The whole set-up of a rangefinder in the words of the bench."""

import math

from optics.errors import ShimwrightError
from optics.measure.uncertainty import Estimate
from optics.measure.verdict import Verdict, judge, worst_of
from optics.rangefinder import wording
from optics.rangefinder.acuity import (
    PRESETS,
    Acuity,
    film_uncertainty,
    looks_infinite_from,
    service,
)
from optics.rangefinder.adjusters import Done
from optics.rangefinder.contradiction import TargetContradiction, contradiction_line, contradictions
from optics.rangefinder.model import Compensator, CounterWedges, Mirror, SlidingWedge, SwungLens
from optics.rangefinder.near_setting import NearAdvice, Setting
from optics.rangefinder.set_up import CoupledCamera, Round, SetUp
from optics.readings.wording import NOT_KNOWN
from optics.units import format_angle, format_distance, format_length

_NO_ANGLE = math.radians(0.02 / 60)
MEET = "when the two images meet"
SCALE_FIRST = "Put the lens scale right first: what it is out by counts here as the rangefinder's."
STOP = "If the far images do not meet even at the ∞ stop, enter how far they stand apart there."


def lens_first_line(lens: Estimate) -> str:
    """That a lens read out of its tolerance at infinity, by so much, is put right first."""
    known = "outside its tolerance" if lens.standard else f"{NOT_KNOWN}, beyond its tolerance"
    return (
        f"The lens itself was read {wording.said_state_error(lens)} at infinity, {known}: put "
        "that right before an adjuster is turned, and read the rangefinder again."
    )


def headline(found: SetUp) -> str:
    """Where the rangefinder leads the lens, far and near, as it stands now."""
    far = said_end(found.correction.far, found.far)
    near = said_end(found.correction.near, found.near)
    return f"{MEET.capitalize()} the lens is {far}, and {near}."


def said_end(error: Estimate, distance: float) -> str:
    """The error at one target with its sense."""
    return f"{wording.said_state_error(error)} at {format_distance(distance)}"


def said_excess(angle: float) -> str:
    """By how much the two sights converge wrongly, and which way."""
    if abs(angle) < _NO_ANGLE:
        return "converges right"
    return f"converges {format_angle(abs(angle))} too {'much' if angle > 0 else 'little'}"


def verdict(found: SetUp) -> Verdict:
    """Whether both ends are inside the goal, each with its guard band."""
    allowed = found.bench.goal.error
    ends = (found.correction.far, found.correction.near)
    return worst_of(judge(end, allowed) for end in ends)


def next_lines(found: SetUp) -> tuple[str, ...]:
    """What to look for or to turn next, or what must be read before that can be said."""
    wrong = contradicting(found)
    if wrong:
        return tuple(map(contradiction_line, wrong))
    if found.advice is None:
        return found.found.missing
    said = wording.advice_lines(found.advice, found.bench.rangefinder)
    if found.correction.is_gain_far_out and not isinstance(found.advice, Done):
        first = wording.far_out_line(found.correction.gain_ratio)
        return (first, f"Only if all of these are in order: {said[0]}", *said[1:])
    if isinstance(found.advice, Done) and verdict(found) is not Verdict.INSIDE:
        return (*said, "More readings of each target tell whether it is inside tolerance.")
    return said


def contradicting(found: SetUp) -> tuple[TargetContradiction, ...]:
    """What the first readings contradict, until a round has read both targets anew."""
    bench = found.bench
    if found.rounds:
        return ()
    return contradictions(bench.camera, bench.rangefinder, bench.acuity, found.readings)


def round_line(found: SetUp, number: int) -> str:
    """One row of the history: what was turned, and where that left far and near."""
    state = found.states[number]
    ends = f"far {said_plain(state.far)}, near {said_plain(state.near)}"
    if number == 0:
        return f"As found: {ends}."
    return f"Round {number}, {said_round(found, found.rounds[number - 1])}: {ends}."


def said_round(found: SetUp, one: Round) -> str:
    """What was turned in a round."""
    rangefinder = found.bench.rangefinder
    said = [
        f"{adjuster.name} {typed or adjuster.control.said(turns)}"
        for adjuster, turns, typed in zip(
            (rangefinder.zero_adjuster, rangefinder.gain_adjuster),
            (one.zero, one.gain),
            one.typed,
            strict=True,
        )
        if turns
    ]
    return " and ".join(said) or "nothing turned"


def said_plain(error: float) -> str:
    """An error of no stated uncertainty."""
    return wording.said_state_error(Estimate(error))


def found_lines(found: SetUp) -> tuple[str, ...]:
    """Zero and gain as they stand, and what is to change in angle and extension."""
    fitted = wording.fit_lines(found.now, found.wanted)
    known = [line for line in fitted if line not in found.now.missing]
    return (
        *known,
        *found.found.missing,
        *wording.correction_lines(found.correction),
        compensator_line(found),
    )


def compensator_line(found: SetUp) -> str:
    """What the compensator does between the two targets, and what the change of zero is to it.

    Where it cannot turn the sights so far, that is the answer.
    """
    try:
        whole, zero = _compensator_moves(found)
    except ShimwrightError as refusal:
        return f"The compensator as described does not serve this base. {refusal}"
    name, is_turn = _COMPENSATORS[type(found.bench.rangefinder.compensator)]
    does = "turns" if is_turn else "travels"
    whole_said, zero_said = (
        format_angle(move) if is_turn else format_length(move, places=3) for move in (whole, zero)
    )
    targets = f"from {format_distance(found.far)} to {format_distance(found.near)}"
    return f"{name} {does} {whole_said} {targets}; the change of zero is {zero_said} of it."


def _compensator_moves(found: SetUp) -> tuple[float, float]:
    """How far it moves from far to near, and for the change of zero; without sign."""
    finder = found.bench.rangefinder
    far, near = finder.convergence(found.far), finder.convergence(found.near)
    turned = far + found.correction.zero.value
    stands = finder.compensator_movement(far)
    # A compensator moves as far one way as the other for the same angle.
    changed = math.copysign(finder.compensator_movement(abs(turned)), turned)
    return abs(finder.compensator_movement(near) - stands), abs(changed - stands)


_COMPENSATORS: dict[type[Compensator], tuple[str, bool]] = {
    Mirror: ("The turning mirror", True),
    CounterWedges: ("Each wedge", True),
    SwungLens: ("The swung lens", False),
    SlidingWedge: ("The sliding wedge", False),
}


def eyes(acuity: Acuity) -> tuple[Acuity, ...]:
    """The eye stated, and beside it the usual ones."""
    return (acuity, *(preset for preset in PRESETS if preset.angle != acuity.angle))


def base_lines(bench: CoupledCamera) -> tuple[str, ...]:
    """What the base can tell: at the film for each eye, and which lenses it serves."""
    camera, rangefinder, acuity = bench.camera, bench.rangefinder, bench.acuity
    infinite = format_distance(looks_infinite_from(rangefinder, acuity))
    return (
        *(
            wording.film_line(film_uncertainty(camera, rangefinder, eye), eye)
            for eye in eyes(acuity)
        ),
        *wording.service_lines(service(camera, rangefinder, acuity)),
        f"Beyond {infinite} a target cannot be told from infinity in the rangefinder.",
    )


def near_headline(advice: NearAdvice) -> str:
    """Where to set near, and what it saves."""
    usual = format_length(advice.usual.worst, places=3)
    return (
        f"Set {near_places(advice)}: at worst "
        f"{format_length(advice.best_near.worst, places=3)} at the film instead of {usual}."
    )


def near_places(advice: NearAdvice) -> str:
    """Where the best near mark is set, far and near."""
    best = format_distance(advice.best_near.exact_at[-1])
    return f"far at {format_distance(advice.far)} and near at {best}"


def near_note(advice: NearAdvice) -> str:
    """The range that is weighed, and what the best pair costs."""
    return (
        f"From {format_distance(advice.far)} to {format_distance(advice.near)}. The best pair "
        "gives up the exact infinity for less error everywhere else."
    )


def setting_row(setting: Setting) -> tuple[str, str, str]:
    """Where a setting is exact, the worst it leaves, and where that is."""
    exact = " and ".join(format_distance(distance) for distance in setting.exact_at)
    worst = format_length(setting.worst, places=3)
    return exact, f"± {worst}", f"at {format_distance(setting.worst_at)}"
