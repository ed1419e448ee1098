"""What was measured on a ring: distance marks and depth marks, as angles, arcs or chords."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import partial

from optics.errors import NoAnswer, OutOfRange
from optics.measure.uncertainty import Estimate, Source, combine, within
from optics.theory import helicoid, scale

Readings = Sequence[Sequence[float]]


class Along(StrEnum):
    """How marks were measured: an angle (rad), an arc along the edge or a chord (mm)."""

    ANGLE = "angle"
    ARC = "arc"
    CHORD = "chord"


@dataclass(frozen=True)
class ScaleMark:
    """An engraved distance and the angle (rad) at which it stands, + towards nearer marks."""

    distance: float
    angle: Estimate


@dataclass(frozen=True)
class DepthMark:
    """An aperture engraved on the depth scale and its angle (rad) from the index."""

    f_number: float
    angle: Estimate


def measure_scale(
    distances: Sequence[float],
    readings: Readings,
    limit: float,
    along: Along = Along.ANGLE,
    ring_diameter: Estimate | None = None,
    reference_limit: float = 0.0,
) -> tuple[ScaleMark, ...]:
    """Distance marks from one or more readings of each, all from one reference.

    `readings` and the ± limits are in rad for angles and in mm for arcs and chords, with the
    sign + in the direction of the nearer marks; `reference_limit` is how far the reference
    itself may be out, which moves all marks alike.
    Errors: OutOfRange for a mark without readings or with neither limit nor repeats; NoAnswer
    for arcs or chords without a ring diameter, or a chord longer than it.
    Limits: a chord must span less than half a turn.
    """
    angles = _angles(distances, readings, limit, along, ring_diameter, reference_limit)
    return tuple(ScaleMark(*both) for both in zip(distances, angles, strict=True))


def measure_depth(
    f_numbers: Sequence[float],
    readings: Readings,
    limit: float,
    along: Along = Along.ANGLE,
    ring_diameter: Estimate | None = None,
    across: bool = False,
) -> tuple[DepthMark, ...]:
    """Depth marks from readings on either side of the index, all without sign.

    `across` says that each reading goes from an aperture's one mark to its other, which spares
    the index; else the readings to the left and to the right are entered as repeats.
    Errors and units: as `measure_scale`.
    """
    angles = _angles(f_numbers, readings, limit, along, ring_diameter, 0.0)
    share = 0.5 if across else 1.0
    halved = (Estimate(0.0).plus(angle, share) for angle in angles)
    return tuple(DepthMark(*both) for both in zip(f_numbers, halved, strict=True))


def _angles(
    marks: Sequence[float],
    readings: Readings,
    limit: float,
    along: Along,
    ring_diameter: Estimate | None,
    reference_limit: float,
) -> tuple[Estimate, ...]:
    _refuse_unequal(marks, readings)
    reference = within(0.0, reference_limit, "place of the reference mark")
    spread = _pooled_spread(readings)
    convert = partial(_as_angle, along=along, diameter=ring_diameter)
    found = []
    for mark, several in zip(marks, readings, strict=True):
        name = f"reading of the mark {mark:g}"
        found.append(convert(_mean(several, limit, spread, name).plus(reference)))
    return tuple(found)


def _refuse_unequal(marks: Sequence[float], readings: Readings) -> None:
    if len(marks) != len(readings) or not all(readings):
        raise OutOfRange(
            f"Every mark needs at least one reading: got {len(marks)} marks and "
            f"{sum(map(bool, readings))} readings; fill in the missing ones.",
            quantity="readings",
            value=len(readings),
            limit=len(marks),
        )


def _pooled_spread(readings: Readings) -> tuple[float, float]:
    """Standard deviation of one reading, from all repeats together, and its share of dof."""
    dof = sum(len(several) - 1 for several in readings)
    if not dof:
        return 0.0, math.inf
    means = [math.fsum(several) / len(several) for several in readings]
    squares = math.fsum(
        (r - mean) ** 2 for several, mean in zip(readings, means, strict=True) for r in several
    )
    # One pooled spread serves all marks; giving each its share of the degrees of freedom makes
    # them add up again, never to too many, when the marks are combined (Welch-Satterthwaite).
    return math.sqrt(squares / dof), max(1.0, dof / len(readings))


def _mean(
    several: Sequence[float], limit: float, spread: tuple[float, float], name: str
) -> Estimate:
    known = within(math.fsum(several) / len(several), limit, name)
    deviation, dof = spread
    if not deviation:
        return known
    source = Source(f"spread of the {name}", dof)
    return Estimate(known.value, known.parts | {source: deviation / math.sqrt(len(several))})


def _as_angle(reading: Estimate, along: Along, diameter: Estimate | None) -> Estimate:
    if along is Along.ANGLE:
        return reading
    if diameter is None:
        raise NoAnswer(
            f"A mark measured as {along.value} needs the ring's diameter: got none; "
            "measure it at the edge on which the marks stand.",
            quantity="ring_diameter",
        )
    if along is Along.ARC:
        arc = helicoid.ring_arc.solve_for(helicoid.rotation)
        return combine(arc, arc=reading, ring_diameter=diameter)
    chord = scale.ring_chord.solve_for(scale.mark_angle)
    return combine(chord, chord=reading, ring_diameter=diameter)
