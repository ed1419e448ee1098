"""The rangefinder's results in the words of the bench."""

import math

from optics.camera.cautions import SUN, Caution
from optics.measure.uncertainty import Estimate
from optics.measure.verdict import Verdict
from optics.rangefinder.acuity import Acuity, Goal, Service
from optics.rangefinder.adjusters import (
    AdjusterFinding,
    AdjusterStep,
    Advice,
    Done,
    EndErrors,
    Stuck,
    Surprise,
    Trial,
    Which,
    adjuster_of,
)
from optics.rangefinder.correction import CouplingChange
from optics.rangefinder.coupling import Coupling
from optics.rangefinder.curve import FarTarget
from optics.rangefinder.fit import Fit
from optics.rangefinder.model import Rangefinder
from optics.rangefinder.near_setting import NearAdvice, Setting
from optics.readings.readings import Sense
from optics.units import format_angle, format_distance, format_length
from optics.units.printing import fixed

CAUTIONS: tuple[Caution, ...] = (SUN,)
CONVENTIONS = (
    "Too far out: when the two images meet, the lens stands farther from the film than it "
    "should, and the picture is sharp nearer than the subject. Turns of an adjuster are as you "
    "look at its head. The full aperture counts as engraved."
)
LOOK_FOR = (
    "look for a follower off its cam or its arm, another lens's cam, or a moved lever pivot; a "
    "wrong thread start shifts the zero, hardly the gain"
)
_NEGLIGIBLE = 0.0005


def said_acuity(acuity: Acuity) -> str:
    """An acuity with whose eye it is and who says so."""
    return f"{format_angle(acuity.angle)} ({acuity.name}; {acuity.source})"


def film_line(error: float, acuity: Acuity) -> str:
    """The focus error that the eye leaves."""
    return (
        f"The eye leaves up to ± {_mm(error)} at the film, the same at every distance: "
        f"{said_acuity(acuity)}."
    )


def service_lines(found: Service) -> tuple[str, ...]:
    """What the base can serve, and whether it is enough for this lens."""
    verdict = "enough" if found.is_enough else "not enough"
    return (
        f"The lens needs an effective base of {found.needed_base:.1f} mm; this one is "
        f"{found.effective_base:.1f} mm: {verdict}.",
        f"It serves this lens from f/{found.widest_aperture:.2g} on, and at this aperture a "
        f"focal length up to {found.longest_focal_length:.0f} mm.",
    )


def goal_line(goal: Goal, verdict: Verdict) -> str:
    """Whether the set-up is what it is held to, and why that."""
    said = verdict.words.capitalize()
    return f"{said}: allowed ± {_mm(goal.error)} at the film, {goal.reason}."


def fit_lines(fit: Fit, design: Coupling) -> tuple[str, ...]:
    """Zero, gain and curvature as found, and what is missing."""
    share = 100 * (fit.gain.value / design.gain - 1)
    doubt = 100 * fit.gain.expanded / design.gain
    side = "more" if share > 0 else "less"
    lines = [f"Zero: {_arcminutes(fit.zero.value)} ± {_arcminutes(fit.zero.expanded)} at 95 %."]
    if fit.gain.parts:
        lines.append(
            f"Gain: {abs(share):.1f} % {side} than designed, ± {doubt:.1f} % at 95 %; correlated "
            f"with the zero by {_signed(fit.correlation, 2)}."
        )
    if fit.curvature.parts:
        lines.append("The linkage is not straight: the readings show a curvature.")
    if fit.scatter > 2:
        lines.append(
            f"The readings scatter {fit.scatter:.1f} times what the eye and the tape account "
            "for: look for play in the linkage or a slip in a reading."
        )
    return (*lines, *fit.missing)


def correction_lines(correction: CouplingChange) -> tuple[str, ...]:
    """What is to be changed, in angle and in extension."""
    return (
        f"Far: the images meet with the lens {said_state_error(correction.far)}; the zero is to "
        f"change by {_arcminutes(correction.zero.value)}.",
        f"Near: the images meet with the lens {said_state_error(correction.near)}; the gain is "
        f"to change by {_signed(100 * correction.gain_ratio.value, 1)} %, "
        f"{_arcminutes(correction.near_angle.value)} at that distance.",
    )


def far_out_line(gain: Estimate) -> str:
    """That a gain out by so much (a part of the right one) is not put right by turning a screw."""
    known = f" ± {100 * gain.expanded:.1f} %" if gain.standard else ""
    return (
        f"The gain is out by {100 * abs(gain.value):.1f} %{known}, a tenth or more, and that is no "
        f"adjuster's job. Before an adjuster is turned, {LOOK_FOR}."
    )


def said_state_error(error: Estimate) -> str:
    """A film error with its sense and its uncertainty."""
    known = f" ± {_mm(error.expanded)}" if error.standard else ""
    sense = Sense.of(error.value)
    return (
        f"{sense.words}{known}"
        if sense is Sense.RIGHT
        else f"{_mm(abs(error.value))}{known} {sense.words}"
    )


def advice_lines(advice: Advice, rangefinder: Rangefinder) -> tuple[str, ...]:
    """What to do next with the adjusters."""
    match advice:
        case Done(state):
            return (f"Set: {_said_state(state)}. Lock both adjusters and read once more.",)
        case Trial():
            return (_trial_line(advice, rangefinder),)
        case Stuck(which):
            return (_stuck_line(which, rangefinder),)
        case AdjusterStep():
            return _step_lines(advice, rangefinder)


def _trial_line(trial: Trial, rangefinder: Rangefinder) -> str:
    why = "The last turn changed too little to learn from. " if trial.again else ""
    turn = adjuster_of(rangefinder, trial.which).control.before(trial.turns)
    return (
        f"{why}{turn.capitalize()} as a trial, count it from a mark, and read far and near again."
    )


def _stuck_line(which: Which | None, rangefinder: Rangefinder) -> str:
    if which is None:
        return (
            "Both adjusters move far and near in the same proportion, so they cannot set both: "
            "look for a third adjustment, or for a wrong screw taken for one of the two."
        )
    return (
        f"The {adjuster_of(rangefinder, which).name} changes nothing that the eye can see: look "
        "for a lock left tight, a stripped thread or a linkage that does not follow."
    )


def _step_lines(step: AdjusterStep, rangefinder: Rangefinder) -> tuple[str, ...]:
    turned = [
        adjuster_of(rangefinder, which).control.before(turns)
        for which, turns in ((Which.ZERO, step.zero), (Which.GAIN, step.gain))
        if turns
    ]
    if not turned:
        return ("Nothing finer can be set by hand: read again, and leave it if it repeats.",)
    lines = [f"{turned[0].capitalize()} and read far and near again."]
    if len(turned) > 1:
        lines.append(f"Then, unless the new reading says otherwise, {turned[1]} and read again.")
    lines.append(f"Expected: {_said_state(step.foretold)}.")
    if step.is_limited:
        lines.append("More is wanted, but no more has been tried yet: go by steps.")
    if step.finding:
        lines.append(finding_line(step.finding, rangefinder))
    return tuple(lines)


def finding_line(finding: AdjusterFinding, rangefinder: Rangefinder) -> str:
    """An adjuster that has reversed, or hardly acts."""
    name = adjuster_of(rangefinder, finding.which).name
    if finding.surprise is Surprise.REVERSED:
        return (
            f"The {name} now acts the other way: an eccentric past its dead point. Turn it back "
            "over the dead point and do the rest on that side; beyond it, clockwise and "
            "counter-clockwise change places."
        )
    return (
        f"The {name} did only {max(finding.share, 0):.0%} of what it did before: it nears a dead "
        "point, or slips. Turn it back and look at its lock."
    )


def near_lines(advice: NearAdvice) -> tuple[str, ...]:
    """Where to set near, and what is gained."""
    usual, best, pair = advice.usual, advice.best_near, advice.best_pair
    far = format_distance(advice.far)
    near = format_distance(advice.near)
    return (
        f"Exact at {far} and at {near}: worst {_mm(usual.worst)} at the film, near "
        f"{format_distance(usual.worst_at)}.",
        f"Exact at {far} and at {_places(best, skip=1)}: worst {_mm(best.worst)}, "
        f"{_mm(advice.gained)} less.",
        f"Exact at {_places(pair)}: worst {_mm(pair.worst)}, with {far} out by as much.",
    )


def _places(setting: Setting, skip: int = 0) -> str:
    return " and ".join(format_distance(d) for d in setting.exact_at[skip:])


def far_target_line(target: FarTarget) -> str:
    """How good an infinity a distant target is."""
    told = (
        "the eye cannot tell it from infinity"
        if target.of_acuity < 1
        else f"{target.of_acuity:.1f} times what the eye can tell"
    )
    return (
        f"A target at {format_distance(target.film_distance)} is {_mm(target.lens_error)} short "
        f"of infinity at the film, and {_arcminutes(target.angle)} in the rangefinder: {told}."
    )


def height_line(film_error: float, lean: float) -> str:
    """What a height error does on a leaning edge."""
    if abs(film_error) < _NEGLIGIBLE:
        return "Upright edges show no height error: the focus is not touched."
    return (
        f"On an edge leaning {format_angle(abs(lean))} the height error counts as "
        f"{_mm(abs(film_error))} at the film: set height before zero, and focus on upright edges."
    )


def _said_state(state: EndErrors) -> str:
    far, near = (said_state_error(Estimate(e)) for e in (state.far, state.near))
    return f"far {far}, near {near}"


def _mm(length: float) -> str:
    return format_length(length, places=3)


def _arcminutes(angle: float) -> str:
    return f"{_signed(math.degrees(angle) * 60, 2)}′"


def _signed(value: float, places: int) -> str:
    return fixed(value, places)
