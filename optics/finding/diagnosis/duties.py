"""What the camera must do when it leaves the bench, as far as the readings speak of it."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from optics.camera.camera import Camera
from optics.camera.where_taken import Surface, Taken
from optics.finding.causes import ALL, Vector, places
from optics.finding.diagnosis.observations import Observations
from optics.finding.diagnosis.sensitivity import Straight, coupled_row
from optics.measure.uncertainty import exact
from optics.readings.kinds.gate import GateReading
from optics.readings.kinds.mark import MarkReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.readings import Reading
from optics.readings.spots import Spot


@dataclass(frozen=True)
class Duty:
    """Somewhere the error must be within ± `tolerance`; it is row · faults (mm).

    `row` is of shape (faults,).
    """

    words: str
    spot: Spot
    row: Vector
    tolerance: float
    distance: float = math.inf
    place: tuple[float, float] = (0.0, 0.0)


def duties(seen: Observations, camera: Camera, about: Vector) -> tuple[Duty, ...]:
    """Everywhere the readings looked: seat, stop, ∞ mark, near marks, corners, rangefinder.

    On film where a reading was taken on film, else on the ground glass. What no reading met
    is not promised. `about` are the faults about which the model is straight.
    """
    on_film = any(r.taken.surface is Surface.FILM for r in seen.readings)
    surface = Surface.FILM if on_film else Surface.GLASS
    return tuple(
        Duty(
            words,
            spot,
            _row(camera, spot, distance, taken, about),
            camera.allowed_error,
            distance,
            taken.place,
        )
        for words, spot, distance, taken in _wanted(seen, surface)
    )


def _wanted(seen: Observations, surface: Surface) -> Iterator[tuple[str, Spot, float, Taken]]:
    spots = {reading.spot for reading in seen.readings}
    middle = Taken(surface=surface)
    if Spot.GAUGE in spots:
        yield "register", Spot.GAUGE, math.inf, Taken()
    if Spot.GATE in spots:
        yield "film gate", Spot.GATE, math.inf, Taken(surface=surface)
    if Spot.STOP in spots:
        yield "infinity stop", Spot.STOP, math.inf, Taken(at_stop=True, surface=surface)
    if spots & {Spot.INFINITY, Spot.NEAR}:
        yield "∞ mark", Spot.INFINITY, math.inf, middle
    # Each near mark that was read: one figure cannot vouch for another distance, since lens and
    # scale may be wrong in proportion.
    for distance in _distances(seen, Spot.NEAR):
        yield "near mark", Spot.NEAR, distance, middle
    for place in _corners(seen):
        spot = Spot.INFINITY if spots & {Spot.INFINITY, Spot.NEAR} else Spot.GAUGE
        yield "corner", spot, math.inf, Taken(surface=surface, place=place)
    for distance in _ends(_distances(seen, Spot.COINCIDENCE)):
        yield "rangefinder", Spot.COINCIDENCE, distance, middle


def _distances(seen: Observations, spot: Spot) -> list[float]:
    return sorted({r.seen_at for r in seen.readings if r.spot is spot}, reverse=True)


def _ends(ordered: Sequence[float]) -> list[float]:
    return [*ordered[:1], *(ordered[-1:] if len(ordered) > 1 else [])]


def _corners(seen: Observations) -> list[tuple[float, float]]:
    """The corners of the least frame that holds every place read; none for a middle only."""
    places = np.abs([r.taken.place for r in seen.readings]).max(axis=0)
    x, y = float(places[0]), float(places[1])
    return [(x, y), (-x, y), (-x, -y), (x, -y)] if x and y else []


def _row(camera: Camera, spot: Spot, distance: float, taken: Taken, about: Vector) -> Vector:
    register, mark = exact(camera.lens.focal_length), exact(distance)
    reading: Reading = MarkReading(mark, mark, taken)
    if spot is Spot.GAUGE:
        reading = RegisterReading(register, register, taken)
    elif spot is Spot.GATE:
        reading = GateReading(exact(0.0), taken)
    row: Vector = Straight.of(camera, [reading]).slopes(about)[0]
    if spot is Spot.COINCIDENCE:
        # The lens stands where its coupling puts it, whatever ring, seat and start say.
        for cause in ALL:
            if Spot.COINCIDENCE in cause.spots:
                row[places(cause)] = 0.0
        row += coupled_row(camera, distance)
    return row
