"""From a job's rangefinder, where everything is text, to the bench's."""

import math
from dataclasses import replace

from optics.camera.camera import Camera
from optics.measure.uncertainty import Estimate, exact, from_distances, within
from optics.rangefinder.acuity import PRESETS, Acuity, stated
from optics.rangefinder.model import (
    GAIN,
    ZERO,
    Compensator,
    CounterWedges,
    Mirror,
    Rangefinder,
    SlidingWedge,
    SwungLens,
)
from optics.rangefinder.part import (
    ApartPart,
    CompensatorPart,
    CounterWedgesPart,
    MirrorPart,
    RangefinderPart,
    RoundPart,
    SlidingWedgePart,
    SwungLensPart,
)
from optics.rangefinder.readings import Apart, Coincidence, Reading, apart_on_target
from optics.rangefinder.set_up import CoupledCamera, Round, SetUp, set_up
from optics.typed import fields
from optics.typed.fields import Typed
from optics.typed.part import value
from optics.units import Understood, format_distance

_SAME_ANGLE = 1e-9


def bench_of(part: RangefinderPart, camera: Camera) -> CoupledCamera:
    """The rangefinder on the bench, before anything was read."""
    camera.refuse_supposed("the travels of a front cell that a rangefinder follows")
    rangefinder = Rangefinder(
        base=value(fields.RANGEFINDER_BASE, part.base),
        base_to_film=value(fields.BASE_TO_FILM, part.base_to_film),
        magnification=value(fields.MAGNIFICATION, part.magnification),
        compensator=_compensator_of(part.compensator),
        zero_adjuster=replace(ZERO, is_eccentric=part.infinity_adjuster == "eccentric"),
        gain_adjuster=replace(GAIN, is_eccentric=part.near_adjuster == "eccentric"),
    )
    return CoupledCamera(
        camera, rangefinder, acuity_of(part.acuity), value(fields.NEAR_END, part.near_end)
    )


def set_up_of(part: RangefinderPart, camera: Camera) -> SetUp | None:
    """The set-up worked out; None where nothing was read yet."""
    bench = bench_of(part, camera)
    tape = value(fields.TAPE_LIMIT, part.tape)
    met = _coincidences_of(part.pairs, tape) if part.pairs else ()
    readings: list[Reading] = [
        *met,
        *(_apart_of(one, bench.rangefinder, tape) for one in part.apart),
    ]
    if not readings:
        return None
    ends = _ends(part)
    return set_up(bench, readings, [_round_of(one, ends) for one in part.rounds])


def _ends(part: RangefinderPart) -> tuple[Understood, Understood]:
    """The far and the near target, as typed; at least one was."""
    met = [true for true, _ in fields.COINCIDENCES.read(part.pairs)] if part.pairs else []
    met += [fields.APART_TARGET.read(one.target) for one in part.apart]
    ordered = sorted(met, key=lambda one: one.value)
    return ordered[-1], ordered[0]


def acuity_of(text: str) -> Acuity:
    """A usual eye where its figure was typed, else one as stated."""
    angle = value(fields.ACUITY, text)
    usual = (p for p in PRESETS if math.isclose(p.angle, angle, rel_tol=_SAME_ANGLE))
    return next(usual, stated(angle))


def _coincidences_of(pairs: str, tape: float) -> tuple[Coincidence, ...]:
    """The distances at which the images met, with tape and repeats in their uncertainty."""
    return tuple(
        Coincidence(
            true=_taped(true.value, tape),
            scale=from_distances(
                [one.value for one in scale],
                0.0,
                f"lens scale on the target at {format_distance(true.value)}",
            ),
        )
        for true, scale in fields.COINCIDENCES.read(pairs)
    )


def _apart_of(part: ApartPart, rangefinder: Rangefinder, tape: float) -> Apart:
    """A gap between the images, as an angle before the finder."""
    target, scale = fields.APART_TARGET.read(part.target), fields.APART_SCALE.read(part.scale)
    fields.ask_unit(target, (scale,))
    true = _taped(target.value, tape)
    gap = exact(value(part.typed, part.apart))
    return Apart(
        true=true,
        scale=exact(scale.value),
        angle=gap if part.typed is fields.APART_ANGLE else apart_on_target(rangefinder, true, gap),
        ring=part.ring,
    )


def _compensator_of(part: CompensatorPart) -> Compensator:
    match part:
        case MirrorPart():
            return Mirror()
        case SwungLensPart():
            return SwungLens(value(fields.SWUNG_FOCAL_LENGTH, part.focal_length))
        case CounterWedgesPart():
            return CounterWedges(
                value(fields.WEDGE_INDEX, part.index),
                value(fields.WEDGE_ANGLE, part.wedge_angle),
            )
        case SlidingWedgePart():
            return SlidingWedge(
                value(fields.WEDGE_DEVIATION, part.deviation),
                value(fields.WEDGE_FOCAL_LENGTH, part.focal_length),
            )


def _taped(distance: float, tape: float) -> Estimate:
    if math.isinf(distance):
        return exact(distance)
    return within(distance, tape, f"tape at {format_distance(distance)}")


def _round_of(part: RoundPart, ends: tuple[Understood, Understood]) -> Round:
    """A round; a bare figure far off from its target is asked about, as in the first readings."""

    def reads(field: Typed, text: str, target: Understood) -> Estimate:
        found = field.read(text)
        if far_end.value > near_end.value:  # With one target the round is refused as it is.
            fields.ask_unit(target, found)
        return from_distances([one.value for one in found], 0.0, field.words)

    far_end, near_end = ends
    zero = fields.INFINITY_TURNED.read(part.infinity_turned)
    gain = fields.NEAR_TURNED.read(part.near_turned)
    return Round(
        zero=zero.value,
        gain=gain.value,
        far=reads(fields.FAR_READS, part.far_reads, far_end),
        near=reads(fields.NEAR_READS, part.near_reads, near_end),
        typed=(_turned_words(zero), _turned_words(gain)),
    )


def _turned_words(turned: Understood) -> str:
    """The turn as it was typed, with its way round in words; without the arrow of the echo."""
    return turned.echo.lstrip("↻↺ ")
