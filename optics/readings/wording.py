"""Results in the words a repairer uses; every face of the program says the same."""

import math
from collections.abc import Iterator

from optics.camera.camera import Camera, FrontCell, Helicoid
from optics.measure.uncertainty import Estimate
from optics.measure.verdict import Verdict
from optics.readings.by_eye import eyes_blur, said_rule
from optics.readings.correction import Correction, Sight
from optics.readings.readings import Reading, Sense
from optics.readings.remedies import Remedy
from optics.units import format_distance, format_length

NO_TAPE_TO_INFINITY = "A tape's limit says nothing of infinity and is not in the ±."
NOT_KNOWN = "± not known"
CONVENTIONS = (
    "Distances are from the film plane. Plus, “too far out”: the lens stands farther from the "
    "film than it should; minus, “too far in”: nearer. A shim added moves the lens away from "
    "the film. Turns are as seen from the front. The full aperture counts as engraved, other stops "
    "exact."
)

_READ_ONCE = "Read once: what the hand adds is not in the ±; three tries show it."


def said_camera(camera: Camera) -> str:
    """The camera's figures in one line."""
    focusing, lens = camera.focusing, camera.lens
    parts = [f"{_trim(lens.focal_length)} f/{lens.full_aperture:.3g}"]
    if isinstance(focusing, Helicoid):
        starts = f"{focusing.starts} start{'s' if focusing.starts > 1 else ''}"
        parts += [f"helicoid, lead {_trim(focusing.lead)}, {starts}"]
    elif isinstance(focusing, FrontCell):
        about = "about " if focusing.group_limit else ""
        group = f"front cell {about}{_trim(focusing.group_focal_length)}"
        parts += [f"{group}, lead {_trim(focusing.lead)}"]
    else:
        parts += ["lens on a bed or struts"]
    if isinstance(focusing, Helicoid | FrontCell):
        parts[-1] += f", extends {focusing.extends}"
    return " · ".join([*parts, f"circle of confusion {_trim(camera.circle_of_confusion)}"])


def _trim(mm: float) -> str:
    return f"{mm:.6g} mm"


def said_error(error: Estimate) -> str:
    """The size of an error with its sense: 0.119 mm too far out."""
    sense = Sense.of(error.value)
    if sense is Sense.RIGHT:
        return "right"
    return f"{format_length(abs(error.value), places=3)} {sense.words}"


def said_uncertainty(error: Estimate) -> str:
    """Expanded uncertainty with its coverage factor, or that it is not known."""
    if not error.standard:
        return NOT_KNOWN
    # Beyond a hundred the factor k no longer depends on them to two decimals.
    count = f"{error.dof:.3g}"
    dof = f", {count} degree{'s' * (count != '1')} of freedom" if error.dof < 100 else ""
    return f"{said_half_width(error.expanded)} at 95 % (k = {error.coverage:.2f}{dof})"


def said_half_width(mm: float) -> str:
    """Half the width of an interval as it is said; never 0."""
    if mm < 0.0005:
        return "± less than 0.001 mm"
    return f"± {format_length(mm, places=3)}"


def said_offset(mm: float) -> str:
    """A focus error as it is said: 0.080 mm too far in, or right."""
    sense = Sense.of(mm)
    if sense is Sense.RIGHT:
        return "right"
    return f"{format_length(abs(mm), places=3)} {sense.words}"


def headline(correction: Correction) -> str:
    """The one sentence that answers the repairer."""
    error = correction.error
    return f"The lens is {said_error(error)}, {said_uncertainty(error)}."


def tolerance_line(correction: Correction) -> str:
    """How the error stands to the tolerance and to the depth of focus, and what its ± rests on."""
    camera = correction.camera
    stated = "stated" if camera.tolerance is not None else "half the depth of focus"
    held = (
        f"{correction.verdict.words.capitalize()}: allowed ± "
        f"{format_length(camera.allowed_error, places=3)} ({stated}); depth of focus N·c at "
        f"f/{camera.lens.full_aperture:.3g} as engraved ± "
        f"{format_length(camera.depth_of_focus, places=3)}."
    )
    return " ".join((held, *rests_on(camera, correction.reading, correction.error)))


def said_allowed(camera: Camera) -> str:
    """The tolerance in force, and the aperture it rests on where it follows from N·c."""
    allowed = f"± {format_length(camera.allowed_error, places=3)}"
    if camera.tolerance is not None:
        return f"{allowed} (stated)"
    stop = f"f/{camera.lens.full_aperture:.3g} as engraved"
    return f"{allowed} (half the depth of focus N·c at {stop})"


def rests_on(camera: Camera, reading: Reading, error: Estimate) -> Iterator[str]:
    """What a reading made once leaves out of its ±, or has in it for want of other tries.

    `error` is its focus error with the eye's blur, as `by_eye.focus_error` gives it.
    """
    if eyes_blur(reading, camera).standard:
        blur = format_length(camera.alike_to_the_eye, places=3)
        yield (
            f"Tried once, or alike each time: the eye's blur, {said_rule(camera)} = {blur} either "
            "way, is in the ±; three tries that differ speak for themselves."
        )
    elif error.standard and math.isinf(error.dof):
        yield _READ_ONCE
    if reading.is_bound_at_infinity:
        yield NO_TAPE_TO_INFINITY
    if left_open := reading.left_open(camera):
        yield left_open


def mark_name(mark: float) -> str:
    """A ring mark as it is engraved."""
    return format_distance(mark)


def sharp_where(sight: Sight) -> str:
    """Where it is sharp with the ring at a mark, with its 95 % interval."""
    if sight.sharp_at is None:
        nothing = "" if sight.looks_sharp else "nothing is sharp, "
        return f"{nothing}the focus lies beyond infinity"
    near = format_distance(sight.nearest) if sight.nearest is not None else "—"
    far = format_distance(sight.farthest) if sight.farthest is not None else "beyond ∞"
    between = "" if near == far else f" ({near} to {far})"
    return f"sharp at {format_distance(sight.sharp_at)}{between}"


def blur_at(sight: Sight) -> str:
    """How the marked distance itself looks at full aperture."""
    looks = "looks sharp" if sight.looks_sharp else "looks soft"
    return (
        f"{mark_name(sight.mark)} itself {looks}, a disc of {format_length(sight.blur, places=3)}"
    )


def sight_line(sight: Sight) -> str:
    """One ring mark in one sentence."""
    return f"Ring at {mark_name(sight.mark)}: {sharp_where(sight)}; {blur_at(sight)}."


def residual_line(remedy: Remedy) -> str:
    """What a remedy leaves and how that stands to the tolerance."""
    left = remedy.residual
    size = "no error" if Sense.of(left.value) is Sense.RIGHT else said_error(left)
    depth = "inside" if remedy.within_depth_of_focus else "outside"
    # The hand's own error is no ± of a figure that nothing is known of.
    width = said_half_width(left.expanded) if remedy.error.standard else NOT_KNOWN
    known = f", {width}" if left.standard or not remedy.error.standard else ""
    return f"Leaves {size}{known}: {remedy.verdict.words}, {depth} the depth of focus."


FIRST_OF_ALL = {
    Verdict.INSIDE: "The lens is where it should be: leave it, and go on to the next check.",
    Verdict.UNSURE: "The reading cannot tell whether the lens is inside tolerance: repeat it, or "
    "take it with a finer instrument, before changing anything.",
}
"""What comes before every remedy, whichever there are."""


def advice(correction: Correction) -> str:
    """What to do first, in one sentence."""
    if correction.verdict in FIRST_OF_ALL:
        return FIRST_OF_ALL[correction.verdict]
    if correction.verdict is Verdict.NOT_STATED:
        outside = "out of tolerance: what follows stands on that figure alone"
        where = outside if correction.is_read_outside else "where it should be"
        return (
            f"As read, {NOT_KNOWN}, the lens is {where}. To prove it, read three times or more, "
            "or say how good the instrument is."
        )
    good = (Verdict.INSIDE, Verdict.NOT_STATED)
    inside = [_called(r) for r in correction.remedies if r.verdict in good]
    if not inside:
        return "No single remedy at hand is sure to bring the lens inside tolerance."
    if len(inside) == 1:
        return f"This brings it inside tolerance: {inside[0]}."
    return f"Any one of these brings it inside tolerance: {', '.join(inside)}."


def _called(remedy: Remedy) -> str:
    """A remedy's title within a sentence, with what must first be seen to hold."""
    title = remedy.title.lower()
    return f"{title} (only {remedy.only_if})" if remedy.only_if else title
