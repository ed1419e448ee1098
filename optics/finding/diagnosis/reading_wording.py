"""What was read, what is supposed, and what a reading would become, in the words of the shop."""

import math
from dataclasses import replace

from optics.camera.camera import Camera, FrontCell, Helicoid
from optics.finding.causes import ALL, Cause
from optics.finding.diagnosis.diagnose import Diagnosis
from optics.finding.diagnosis.priors import Priors
from optics.finding.diagnosis.what_if import WouldShow
from optics.finding.diagnosis.wording import begun, percent, reading_words
from optics.measure.places import place_name
from optics.readings.readings import (
    CoincidenceReading,
    CollimatorReading,
    GateReading,
    MarkReading,
    RegisterReading,
    RotationReading,
    RulerReading,
    Sense,
)
from optics.readings.spots import Reading
from optics.readings.wording import said_half_width, said_offset
from optics.units import format_distance, format_length

NOTHING_SHARP = "nothing sharp"


def read_lines(diagnosis: Diagnosis) -> tuple[str, ...]:
    """Each reading: where it was taken, what it shows at the film, what the causes foretell."""
    seen = diagnosis.seen
    rows = zip(seen.readings, seen.errors, diagnosis.foretold, strict=True)
    return tuple(
        f"{begun(placed_words(reading))}: {said_offset(error.value)}, "
        f"{said_half_width(error.expanded)} at 95 %; expected "
        f"{said_offset(float(told))}."
        for reading, error, told in rows
    )


def placed_words(reading: Reading) -> str:
    """A reading by its place, and off the middle by where on the picture."""
    if not reading.taken.is_off_centre:
        return reading_words(reading)
    middle = replace(reading, taken=replace(reading.taken, place=(0.0, 0.0)))
    return f"{reading_words(middle)}, {place_name(*reading.taken.place)}"


def supposed_lines(priors: Priors) -> tuple[str, ...]:
    """What is supposed of each cause: how often it is met, and how far parts stand off."""
    return tuple(supposed_line(priors, cause) for cause in ALL if cause in priors.by_cause)


def supposed_line(priors: Priors, cause: Cause) -> str:
    """What is supposed of one cause."""
    prior = priors.by_cause[cause]
    often = f"{begun(cause.words)}: {percent(prior.chance)} of cameras"
    return f"{often}; {cause.size.supposed(prior.wrong, prior.usual, priors.step(cause))}."


def said_reading(reading: Reading, figure: float | None, camera: Camera) -> str:
    """What a reading would show, as it would be written down; `figure` as `predict` gives it."""
    if figure is None:
        return NOTHING_SHARP
    match reading:
        case MarkReading():
            return f"sharp at {format_distance(figure)}"
        case RotationReading():
            return _turned(figure, camera)
        case RegisterReading():
            return _depth(reading, figure)
        case CollimatorReading():
            way = "towards its lens" if figure > 0 else "away from its lens"
            return f"reticle {format_length(abs(figure))} {way}"
        case RulerReading():
            side = "nearer" if figure > 0 else "farther"
            return f"sharpest {format_length(abs(figure), places=1)} {side} on the ruler"
        case CoincidenceReading():
            return f"images meet at {format_distance(figure)}"
        case GateReading():
            side = "behind" if figure > 0 else "in front of"
            return f"film {format_length(abs(figure), places=3)} {side} the glass"


def _depth(reading: RegisterReading, figure: float) -> str:
    """The register as gauged; off the middle, where depths are compared, what it is off by."""
    if not reading.taken.is_off_centre:
        return f"register {format_length(figure, places=3)}"
    off = figure - reading.nominal.value
    if Sense.of(off) is Sense.RIGHT:
        return "as deep as it should be"
    side = "too deep" if off > 0 else "too shallow"
    return f"{format_length(abs(off), places=3)} {side}"


def _turned(angle: float, camera: Camera) -> str:
    assert isinstance(camera.focusing, Helicoid | FrontCell)
    extends = camera.focusing.extends
    said = f"{abs(math.degrees(angle)):.2f}°"
    if float(said[:-1]) == 0:
        return "no turn"
    return f"turned {said} {extends if angle > 0 else extends.opposite}"


def would_show_cells(would: WouldShow, camera: Camera) -> tuple[str, str, str, str]:
    """A row of the what-if: the reading, what it would show now and then, the error then."""
    now, then = (said_reading(would.reading, figure, camera) for figure in would.shown)
    words = placed_words(would.reading)
    if not would.is_moved:
        return words, now, "the same", said_offset(would.errors[1])
    return words, now, then, said_offset(would.errors[1])


def movable_faults(diagnosis: Diagnosis) -> tuple[str, ...]:
    """The faults of this camera that can be moved on purpose."""
    causes = diagnosis.priors.by_cause
    return tuple(name for cause in ALL if cause in causes for name in cause.figures)
