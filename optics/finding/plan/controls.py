"""How each cause is put right: from a wanted change to an adjustment a hand can make."""

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TypeAlias

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid
from optics.camera.cautions import SPRINGS
from optics.finding.diagnosis.faults import Cause, film_factor, marked_focal
from optics.finding.diagnosis.forward import TrueLens
from optics.finding.diagnosis.sensitivity import MOST_FOCAL
from optics.finding.plan.adjustment import Adjustment, Blocked
from optics.finding.plan.at_hand import AtHand, Screw
from optics.finding.plan.standard_shims import square_the_standard
from optics.measure.uncertainty import Estimate, exact, within
from optics.rangefinder.correction import is_far_out
from optics.rangefinder.wording import far_out_line
from optics.readings.remedies.offer import NotApplicable, Offer
from optics.readings.remedies.shim import shim
from optics.readings.remedies.stops import stops
from optics.readings.remedies.turning import (
    front_cell_turn,
    ring,
    said_degrees,
    sense_of_turn,
    settable_step,
    thread_start,
)
from optics.theory import helicoid
from optics.units import format_distance, format_length, format_turns

Wanted: TypeAlias = Mapping[str, float]
Outcome: TypeAlias = Adjustment | Blocked
# What a feeler or a leaf can be set to (mm), and a screw (rad); common practice, no source.
_FEELER = 0.01
EIGHTH = 2 * math.pi / 8
_TOOLS = {
    Cause.GATE: "depth gauge and feelers",
    Cause.START: "scriber, mark the place where the threads let go",
    Cause.SEAT: "lens spanner, micrometer for the leaves",
    Cause.STOP: "small screwdriver, ground glass or collimator to check",
    Cause.RING: "small screwdriver, degree scale or dividers on the ring",
    Cause.FOCAL: "dividing head or a printed scale",
    Cause.ZERO: "screwdriver for the rangefinder's infinity screw",
    Cause.GAIN: "screwdriver for the rangefinder's near screw",
}
_travel = helicoid.ring_rotation.solve_for(helicoid.travel)
_rotation = helicoid.ring_rotation.solve_for(helicoid.rotation)


def adjust(cause: Cause, camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    """Put a cause right by the changes wanted of its faults, rounded to what a hand can set."""
    return _MAKERS[cause](camera, at_hand, wanted)


def step_of(cause: Cause, camera: Camera, at_hand: AtHand) -> float:
    """The smallest change of the fault that a hand can set; 0 where leaves or starts decide."""
    focusing = camera.focusing
    if cause in (Cause.RING, Cause.STOP) and not isinstance(focusing, Bed):
        factor = film_factor(camera)
        turn = settable_step(camera, focusing.lead, factor)
        return factor * _travel.value(rotation=turn, lead=focusing.lead)
    screw = {Cause.ZERO: at_hand.zero_screw, Cause.GAIN: at_hand.gain_screw}.get(cause)
    if screw is not None:
        return abs(screw.per_turn) / 8
    return 0.0 if cause in (Cause.SEAT, Cause.START, Cause.TILT) else _FEELER


def _from_offer(cause: Cause, offer: Offer) -> Outcome:
    if isinstance(offer, NotApplicable):
        return Blocked(cause, offer.reason)
    return Adjustment(
        cause=cause,
        title=offer.title,
        instruction=offer.instruction,
        changes={cause.value: offer.change},
        amounts=offer.amounts,
        tool=_TOOLS[cause],
        notes=offer.notes,
        cautions=offer.cautions,
        figures=dict(offer.figures),
    )


def _seat(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    return _from_offer(Cause.SEAT, shim(camera, exact(-wanted["seat"]), at_hand.workshop))


def _start(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del at_hand
    assert isinstance(camera.focusing, Helicoid)
    return _from_offer(Cause.START, thread_start(camera, camera.focusing, exact(-wanted["start"])))


def _ring(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del at_hand
    error, focusing = exact(-wanted["ring"]), camera.focusing
    if isinstance(focusing, Helicoid):
        return _from_offer(Cause.RING, ring(camera, focusing, error))
    if isinstance(focusing, FrontCell):
        return _from_offer(Cause.RING, front_cell_turn(camera, focusing, error))
    return _bed_scale(wanted["ring"])


def _bed_scale(wanted: float) -> Outcome:
    # The pointer rides on the standard: shifted towards the film, it meets a mark only when
    # the standard stands farther out.
    amount = round(abs(wanted) / _FEELER) * _FEELER
    if not amount:
        return Blocked(Cause.RING, "The bed's scale is less than 0.01 mm off: leave it alone.")
    way = "towards the film" if wanted > 0 else "away from the film"
    said = format_length(amount)
    return _made(
        Cause.RING,
        "Bed scale",
        f"Move the pointer of the bed's scale on the standard {said} {way}.",
        {"ring": within(math.copysign(amount, wanted), _FEELER / 2, "setting of the scale")},
        (("Move", f"{said} {way}"),),
    )


def _stop(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del at_hand
    focusing = camera.focusing
    if isinstance(focusing, Bed):
        return _from_offer(Cause.STOP, stops(camera, exact(-wanted["stop"])))
    factor = film_factor(camera)
    step = settable_step(camera, focusing.lead, factor)
    turn = _rotation.value(travel=wanted["stop"] / factor, lead=focusing.lead)
    turn = round(turn / step) * step
    if not turn:
        return Blocked(Cause.STOP, "The stop is off by less than can be set: leave it alone.")
    moved, setting = (
        factor * _travel.value(rotation=a, lead=focusing.lead) for a in (turn, step / 2)
    )
    sense = sense_of_turn(focusing.extends, turn)
    part = "barrel" if isinstance(focusing, Helicoid) else "front cell"
    return _made(
        Cause.STOP,
        "Infinity stop",
        f"Loosen the infinity stop and move it so that the {part} comes to rest "
        f"{said_degrees(turn)} further {sense}, seen from the front; tighten it.",
        {"stop": within(moved, setting, "setting of the stop")},
        (("Move", f"{said_degrees(turn)} {sense}"),),
    )


def _gate(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del camera, at_hand
    amount = round(abs(wanted["gate"]) / _FEELER) * _FEELER
    if not amount:
        return Blocked(Cause.GATE, "The film lies within 0.01 mm of its place: leave it alone.")
    way = "nearer the lens" if wanted["gate"] < 0 else "farther from the lens"
    said = format_length(amount)
    change = math.copysign(amount, wanted["gate"])
    return _made(
        Cause.GATE,
        "Film gate",
        f"Bring the film {said} {way} by its rails or pressure plate.",
        {"gate": within(change, _FEELER / 2, "setting of the gate")},
        (("Move", f"{said} {way}"),),
    )


def _focal(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    """A scale for the true focal length; the lens itself cannot be changed."""
    del at_hand
    focal = round(marked_focal(camera) - wanted["focal"], 2)
    change = marked_focal(camera) - focal
    if not round(change, 2):
        return Blocked(Cause.FOCAL, "The scale fits the lens within 0.01 mm of focal length.")
    if abs(change) > MOST_FOCAL * marked_focal(camera):
        return Blocked(
            Cause.FOCAL,
            f"The readings would ask for a lens of {focal:.2f} mm, which cannot be: they "
            "contradict each other, so take them again.",
        )
    what = "front group" if isinstance(camera.focusing, FrontCell) else "lens"
    marks = ", ".join(_new_marks(camera, -change))
    return _made(
        Cause.FOCAL,
        "Focusing scale",
        f"Make a new focusing scale for a {what} of {focal:.2f} mm; from ∞: {marks}.",
        {"focal": within(change, _FEELER / 2, "focal length of the scale")},
        (("Focal length", f"{focal:.2f} mm"),),
    )


def _new_marks(camera: Camera, focal: float) -> list[str]:
    true, focusing = TrueLens(camera, focal), camera.focusing
    times = (100.0, 60.0, 30.0)
    said = []
    for distance in (round(t * camera.lens.focal_length, -3) or 1000.0 for t in times):
        travel = true.needs(distance) / film_factor(camera)
        place = format_length(travel)
        if not isinstance(focusing, Bed):
            place = said_degrees(_rotation.value(travel=travel, lead=focusing.lead))
        said.append(f"{format_distance(distance)} at {place}")
    return said


def _zero(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del camera
    return _screwed(Cause.ZERO, "infinity", at_hand.zero_screw, wanted["zero"])


def _gain(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del camera
    made = _screwed(Cause.GAIN, "near", at_hand.gain_screw, wanted["gain"])
    change = exact(wanted["gain"])
    if not is_far_out(change):
        return made
    look = far_out_line(change)
    if isinstance(made, Blocked):
        return replace(made, reason=look)
    said = f"{look} Only if all of these are in order: {made.instruction}"
    return replace(made, instruction=said)


def _screwed(cause: Cause, name: str, screw: Screw | None, wanted: float) -> Outcome:
    if screw is None:
        return Blocked(
            cause,
            f"How much a turn of the rangefinder's {name} screw does is not known: give it a "
            "quarter turn, read the rangefinder again, and the amount follows.",
        )
    eighths = round(8 * wanted / screw.per_turn)
    if not eighths:
        return Blocked(cause, f"The {name} screw is within half of an eighth of a turn: leave it.")
    sense = "clockwise" if eighths > 0 else "counter-clockwise"
    turns = format_turns(abs(eighths) * EIGHTH)
    return _made(
        cause,
        f"Rangefinder, {name} screw",
        f"Turn the rangefinder's {name} screw {turns} {sense}.",
        {
            cause.value: within(
                eighths * screw.per_turn / 8, abs(screw.per_turn) / 32, f"setting of {name} screw"
            )
        },
        (("Turn", f"{turns} {sense}"),),
    )


def _made(
    cause: Cause,
    title: str,
    instruction: str,
    changes: dict[str, Estimate],
    amounts: tuple[tuple[str, str], ...],
) -> Adjustment:
    cautions = {Cause.STOP: (SPRINGS,), Cause.GATE: (SPRINGS,)}
    return Adjustment(
        cause, title, instruction, changes, amounts, _TOOLS[cause],
        cautions=cautions.get(cause, ()),
    )  # fmt: skip


_MAKERS: dict[Cause, Callable[[Camera, AtHand, Wanted], Outcome]] = {
    Cause.GATE: _gate,
    Cause.TILT: square_the_standard,
    Cause.START: _start,
    Cause.SEAT: _seat,
    Cause.STOP: _stop,
    Cause.RING: _ring,
    Cause.FOCAL: _focal,
    Cause.ZERO: _zero,
    Cause.GAIN: _gain,
}
