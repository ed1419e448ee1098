"""What was read, what is supposed, and what a reading would become, in the words of the shop."""

from dataclasses import replace

from optics.camera.camera import Camera
from optics.finding.causes import ALL, Cause
from optics.finding.causes.start import START
from optics.finding.diagnosis.diagnose import Diagnosis
from optics.finding.diagnosis.priors import Priors
from optics.finding.diagnosis.what_if import WouldShow
from optics.finding.diagnosis.wording import begun, percent, reading_words
from optics.measure.places import place_name
from optics.readings.readings import Reading
from optics.readings.wording import said_half_width, said_offset
from optics.units import format_length

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
    middle = reading.taken_so(replace(reading.taken, place=(0.0, 0.0)))
    return f"{reading_words(middle)}, {place_name(*reading.taken.place)}"


def supposed_lines(priors: Priors) -> tuple[str, ...]:
    """What is supposed of each cause: how often it is met, and how far parts stand off."""
    return tuple(supposed_line(priors, cause) for cause in ALL if cause in priors.by_cause)


def supposed_line(priors: Priors, cause: Cause) -> str:
    """What is supposed of one cause."""
    prior = priors.by_cause[cause]
    often = f"{begun(cause.words)}: {percent(prior.chance)} of cameras"
    if cause is START:
        return f"{often}; one start is {format_length(priors.pitch)}."
    wrong, usual = (cause.size.spread(v) for v in (prior.wrong, prior.usual))
    return f"{often}; off by {wrong} where it is the cause, {usual} where it is not."


def said_reading(reading: Reading, figure: float | None, camera: Camera) -> str:
    """What a reading would show, as it would be written down; `figure` as `predict` gives it."""
    return NOTHING_SHARP if figure is None else reading.said(figure, camera)


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
