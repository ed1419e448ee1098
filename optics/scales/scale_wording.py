"""A scale check in the words of the workshop."""

import math
from collections.abc import Sequence

from optics.camera.camera import Turn
from optics.camera.confusion import Convention
from optics.measure.uncertainty import Estimate
from optics.readings.readings import Sense
from optics.scales.depth_marks import ConfusionFound, DepthMarkCheck
from optics.scales.explanations import IMPLAUSIBLE, Explanation, Reference, ScaleFault
from optics.scales.scale_check import ScaleCheck
from optics.scales.scale_fit import ZERO, MarkCheck, RingScale, ScaleFit, threaded
from optics.units import format_angle, format_distance, format_length, format_uncertainty
from optics.units.printing import fixed

CAUSES = {
    ScaleFault.RIGHT: "the ring is right",
    ScaleFault.SLIPPED: "the ring has slipped",
    ScaleFault.OTHER_LENS: "the ring is from another lens",
    ScaleFault.OTHER_LEAD: "the ring is from a thread of another lead",
    ScaleFault.WRONG_MARK: "a single mark is wrong",
}
EXPLANATIONS = "What could explain the marks"
MARKS = "Each mark against this camera as stated"
FITTED = "The marks among themselves"
DEPTH_MARKS = "Depth marks"
PLUS = "Plus: towards the near end of the scale; set there, the lens is too far out."
FIGURES = {
    ZERO: "the ring's zero",
    "focal_length": "focal length",
    "group_focal_length": "focal length of the front group",
    "lead": "lead",
}


def scale_headline(check: ScaleCheck) -> str:
    """What answers the repairer: what was found, and what to do about it."""
    return " ".join((found_line(check), *order_lines(check)))


def found_line(check: ScaleCheck) -> str:
    """What the marks show, without what to do about it."""
    found = check.verdict
    if found is None:
        return _cannot_tell(check)
    return {
        ScaleFault.RIGHT: _right,
        ScaleFault.SLIPPED: _slipped,
        ScaleFault.OTHER_LENS: _other,
        ScaleFault.OTHER_LEAD: _other,
        ScaleFault.WRONG_MARK: _wrong_mark,
    }[found.cause](check, found)


def order_lines(check: ScaleCheck) -> tuple[str, ...]:
    """What to do next at the bench, if anything."""
    found = check.verdict
    if found is None:
        return (_how_to_tell(check),)
    if found.cause is ScaleFault.SLIPPED:
        zero = found.found[ZERO].value
        return (
            "Loosen the ring, hold the lens still and turn the ring "
            f"{said_turn(abs(zero))} {turn_back(check, zero)}, seen from the front.",
        )
    return ("Measure this one again.",) if found.cause is ScaleFault.WRONG_MARK else ()


def _right(check: ScaleCheck, found: Explanation) -> str:
    del found
    if check.reference is Reference.RING_MARK:
        return (
            "The ring is this lens's own: its marks agree with focal length and thread. Whether "
            "it sits at its place cannot be told from a mark on the ring."
        )
    return "The ring is right: its marks agree with this lens, this thread and the index."


def _slipped(check: ScaleCheck, found: Explanation) -> str:
    zero = found.found[ZERO]
    return (
        f"The ring has slipped: {_off_by(check, zero)}. With the ring on ∞ the lens stands "
        f"{_at_film(RingScale.of(check.camera).at_film(zero.value))}."
    )


def turn_back(check: ScaleCheck, zero: float) -> Turn:
    """Which way round a ring that stands `zero` too far towards its near end goes back."""
    extends = threaded(check.camera).extends
    return extends if zero > 0 else extends.opposite


def _other(check: ScaleCheck, found: Explanation) -> str:
    name = next(name for name in found.found if name != ZERO)
    from_what = "another lens" if found.cause is ScaleFault.OTHER_LENS else "another thread"
    return (
        f"The ring is from {from_what}: its marks fit a {figure(name, found.found[name])}, "
        f"not {format_length(RingScale.of(check.camera).given[name], places=1)}."
    )


def _wrong_mark(check: ScaleCheck, found: Explanation) -> str:
    if found.mark is None or found.shift is None:
        return "A single mark is wrong."
    name = format_distance(check.as_it_stands.marks[found.mark].distance)
    return (
        f"The {name} mark is wrong, or was misread: {_off_by(check, found.shift)}; "
        "the other marks agree."
    )


def _cannot_tell(check: ScaleCheck) -> str:
    first, second = check.explanations[:2]
    if first.probability < IMPLAUSIBLE:
        return "No single cause fits these marks."
    return (
        f"These marks cannot tell whether {CAUSES[first.cause]} ({first.weight:.0%}) or "
        f"{CAUSES[second.cause]} ({second.weight:.0%})."
    )


def _how_to_tell(check: ScaleCheck) -> str:
    first, second = check.explanations[:2]
    if first.probability < IMPLAUSIBLE:
        return "Measure them again, and look for two faults at once."
    causes = {first.cause, second.cause}
    if causes == {ScaleFault.OTHER_LENS, ScaleFault.OTHER_LEAD}:
        return (
            "Either way ring and barrel do not belong together as stated: measure the travel of "
            "one turn, and read the marks more finely."
        )
    if ScaleFault.WRONG_MARK in causes:
        return "Measure the doubtful mark again, and more marks beside it."
    return "Read the marks more finely, the near ones above all."


def explanation_line(check: ScaleCheck, explanation: Explanation) -> str:
    """One explanation with its weight, its figures and what it takes for granted."""
    return f"{said_weight(explanation)}: {said_explanation(check, explanation)}."


def said_weight(explanation: Explanation) -> str:
    """How much speaks for an explanation."""
    return _per_cent(explanation.weight)


def said_explanation(check: ScaleCheck, explanation: Explanation) -> str:
    """An explanation with its figures and what it takes for granted."""
    words = CAUSES[explanation.cause]
    if explanation.mark is not None and explanation.shift is not None:
        distance = check.as_it_stands.marks[explanation.mark].distance
        words += f": {format_distance(distance)}, {_off_by(check, explanation.shift)}"
    figures = [figure(name, estimate) for name, estimate in explanation.found.items()]
    said = f"; {', '.join(figures)}" if figures else ""
    return f"{words}{said} (assumes that {explanation.assumes})"


def figure(name: str, estimate: Estimate) -> str:
    """A fitted figure in words with its expanded uncertainty."""
    if name == ZERO:
        return f"{FIGURES[name]} at {_angle_within(estimate.value, estimate.expanded)}"
    return f"{FIGURES[name]} of {format_uncertainty(estimate.value, estimate.expanded, 'mm')}"


def mark_line(mark: MarkCheck) -> str:
    """One mark of the ring in one sentence."""
    edge = "" if mark.arc is None else f" ({format_length(abs(mark.arc))} along the edge)"
    side = "near" if mark.residual > 0 else "far"
    verdict = (
        "more than the readings explain" if mark.disagrees else "within what the readings allow"
    )
    if mark.standardised is None:
        verdict = "it alone carries the fit and cannot be tested"
    place = f"{said_turn(abs(mark.residual))}{edge} towards the {side} end"
    if said_turn(mark.residual) == "0°":
        place = "where it belongs"
    return (
        f"{format_distance(mark.distance)}: {place}; set there the lens is "
        f"{_at_film(mark.at_film)}; {verdict}."
    )


def fit_line(fit: ScaleFit) -> str:
    """What was fitted, and how well it fits."""
    figures = ", ".join(figure(name, estimate) for name, estimate in fit.found.items())
    said = figures or "nothing fitted"
    return (
        f"{said[0].upper()}{said[1:]}; chi-square {fit.chi_square:.1f} with {fit.dof} "
        f"degree{'s' * (fit.dof != 1)} of freedom, chance {_per_cent(fit.probability)}."
    )


def _per_cent(share: float) -> str:
    """With one decimal, and never none at all or certain."""
    if share < 0.0005:
        return "under 0.1%"
    return "over 99.9%" if share > 0.9995 else f"{share:.1%}"


def wrong_line(fit: ScaleFit) -> str:
    """Which marks are called wrong, and which could be wrong instead."""
    if not fit.wrong:
        return "Every mark agrees with the rest."
    names = _names(fit, fit.wrong)
    instead = f" It could be {_names(fit, fit.rivals, 'or')} instead." if fit.rivals else ""
    verb = "disagrees" if len(fit.wrong) == 1 else "disagree"
    return f"{names} {verb} with the rest.{instead}"


def fitted_lines(check: ScaleCheck) -> list[str]:
    """What the marks say of themselves, whatever the camera is said to be."""
    own = [] if check.fit is None else [fit_line(check.fit), wrong_line(check.fit)]
    return [*own, both_line(check)]


def both_line(check: ScaleCheck) -> str:
    """Whether focal length and lead can be told apart, and what they would be."""
    if check.both is None:
        return "These marks cannot give focal length and lead at once: measure more of them."
    figures = [figure(n, e) for n, e in check.both.found.items() if n != ZERO]
    if check.both_determined:
        return f"Fitted together: {', '.join(figures)}."
    return (
        f"These marks hardly tell focal length from lead ({', '.join(figures)}): "
        f"measure one of them by itself."
    )


def confusion_line(found: ConfusionFound, conventions: Sequence[Convention]) -> str:
    """The maker's circle of confusion and the conventions it agrees with."""
    value = found.value
    agreeing = [convention.name for convention in found.agreeing(conventions)]
    near = found.nearest(conventions)[:1]
    compared = ""
    if agreeing:
        compared = f" It agrees with {'; '.join(agreeing)}."
    elif near:
        compared = f" It agrees with no convention listed; the nearest is {near[0].name}."
    said = format_uncertainty(value.value, value.expanded, "mm")
    other = format_length(found.as_engraved, places=4)
    differs = other != format_length(value.value, places=4)
    engraved = f" With the f-numbers as engraved it would be {other}." if differs else ""
    return (
        f"The depth marks were made for a circle of confusion of {said}, reckoned with "
        f"{found.stops.words}.{engraved}{compared}"
    )


def depth_mark_line(mark: DepthMarkCheck) -> str:
    """One pair of depth marks in one sentence."""
    verdict = (
        "more than the readings explain" if mark.disagrees else "within what the readings allow"
    )
    side = "wide" if mark.residual > 0 else "narrow"
    out_by = said_turn(abs(mark.residual))
    place = "where it belongs" if out_by == "0°" else f"{out_by} too {side}"
    return f"f/{mark.f_number:.3g}: {said_turn(mark.measured)} from the index, {place}; {verdict}."


def _off_by(check: ScaleCheck, error: Estimate) -> str:
    side = "near" if error.value > 0 else "far"
    diameter = threaded(check.camera).ring_diameter
    edge = (
        ""
        if diameter is None
        else f" ({format_length(abs(error.value) * diameter / 2)} along the edge)"
    )
    size = abs(error.value), error.expanded
    return f"it stands {_angle_within(*size)}{edge} too far towards the {side} end"


def said_turn(rad: float) -> str:
    """A turn of the ring, in degrees however small, as rings are measured: 0.31°."""
    degrees = math.degrees(rad)
    size = abs(degrees)
    if size < 0.001:
        return format_angle(rad)
    places = 3 if size < 0.1 else 2 if size < 10 else 1
    return f"{fixed(degrees, places)}°"


def _angle_within(angle: float, expanded: float) -> str:
    """An angle and its uncertainty in one unit, so that they can be compared at a glance."""
    return format_uncertainty(math.degrees(angle), math.degrees(expanded), "°").replace(" °", "°")


def _at_film(error: float) -> str:
    sense = Sense.of(error)
    if sense is Sense.RIGHT:
        return "right"
    return f"{format_length(abs(error), places=3)} {sense.words}"


def _names(fit: ScaleFit, places: Sequence[int], joint: str = "and") -> str:
    names = [f"the {format_distance(fit.marks[i].distance)} mark" for i in places]
    text = f" {joint} ".join(names)
    return text if joint == "or" else text[0].upper() + text[1:]
