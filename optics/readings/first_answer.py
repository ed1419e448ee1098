"""What a reading says before all of the camera is told: the fewest figures bring an answer.

Which result hangs on which figure of the camera:

- which way the lens is off: on none, but for a ring turned between two distances;
- the turn that puts a ring right: for a ring turned until what stands at its own mark was
  sharp on none, for it is turned back by as much; else on the error and the lead;
- the error in mm, and the shim: see `Reading.hangs_on`;
- what the eye adds to a single try, and the verdict: on full aperture and circle of confusion.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from optics.camera.camera import Bed, Camera, Focusing, FrontCell, Helicoid
from optics.measure.uncertainty import Estimate
from optics.measure.verdict import Verdict, judge_read
from optics.readings import by_eye
from optics.readings.missing import Missing
from optics.readings.readings import Judged, Reading, Sense
from optics.readings.remedies import Workshop
from optics.readings.remedies.shim import by_amount
from optics.readings.remedies.turning import said_degrees, sense_of_turn, turn_wanted
from optics.units import format_distance, format_length

# Less than this (rad) would be said as 0.0°.
_LEAST_TURN = math.radians(0.05)


# What the eye does not see, in mm at the film, hangs on these.
_FOR_EYE = (Missing.FOCAL_LENGTH, Missing.FULL_APERTURE, Missing.CONFUSION)


@dataclass(frozen=True)
class Told:
    """A camera as far as it is told; in the place of each figure that is missing stands 1."""

    camera: Camera
    missing: tuple[Missing, ...] = ()

    def lacks(self, figures: Iterable[Missing]) -> tuple[Missing, ...]:
        """Those of some figures that are missing."""
        return tuple(figure for figure in figures if figure in self.missing)

    @property
    def has(self) -> tuple[Missing, ...]:
        """Those figures that are told."""
        return tuple(figure for figure in Missing if figure not in self.missing)

    @property
    def without_tolerance(self) -> tuple[Missing, ...]:
        """What is missing before a verdict is possible; nothing where a tolerance is stated."""
        if self.camera.tolerance is not None:
            return ()
        return self.lacks((Missing.FULL_APERTURE, Missing.CONFUSION))


@dataclass(frozen=True)
class Wait:
    """Figures that are still needed, and what they would add."""

    figures: tuple[Missing, ...]
    adds: str


@dataclass(frozen=True)
class FirstAnswer:
    """What one reading says so far.

    `sense` is None where even that is not known yet; so are `error` (mm at the film), `turn`
    (rad, of lens or cell against its ring, plus in the sense that extends) and `verdict`.
    `to_do` holds (title, instruction) in the shop's units.
    """

    told: Told
    reading: Reading
    sense: Sense | None
    error: Estimate | None
    turn: Estimate | None
    verdict: Verdict | None
    to_do: tuple[tuple[str, str], ...]
    waits: tuple[Wait, ...]

    @property
    def is_spread_known(self) -> bool:
        """Whether repeats, or a gauge's own limit, say how well the figure is known."""
        figure = self.turn if self.error is None else self.error
        if figure is None or not figure.standard:
            return False
        # One try by eye has no scatter, and what the eye does not see is not told yet.
        is_once = math.isinf(figure.dof) and self.reading.judged is Judged.BY_EYE
        return not (is_once and self.lacking_for_eye)

    @property
    def lacking_for_eye(self) -> tuple[Missing, ...]:
        """What is missing before it is known what the eye does not see, in mm or in degrees."""
        return self.told.lacks(tuple(Missing) if self.error is None else _FOR_EYE)


def first_answer(told: Told, reading: Reading, workshop: Workshop) -> FirstAnswer:
    """What a reading says with what is told of the camera, and what each further figure adds.

    Errors: OutOfRange or NoAnswer, one sentence each, for figures that cannot be.
    """
    # In the place of figures on which the error does not hang, any would give the same.
    found = reading.steps(told.camera)[-1].result
    error = None if told.lacks(reading.hangs_on(told.camera)) else found
    if error is not None and not told.lacks(_FOR_EYE):
        error = by_eye.focus_error(reading, told.camera)
    turn = _turn(told, reading, error)
    verdict = None
    if error is not None and not told.without_tolerance:
        verdict = judge_read(error, told.camera.allowed_error)
    return FirstAnswer(
        told,
        reading,
        _sense(reading, found, error),
        error,
        turn,
        verdict,
        tuple(_to_do(told, reading, error, turn, workshop)),
        tuple(_waits(told, reading, error, turn)),
    )


def _sense(reading: Reading, found: Estimate, error: Estimate | None) -> Sense | None:
    if error is not None:
        return Sense.of(error.value)
    if not reading.tells_sense:
        return None
    # A lens of any focal length, on any lead, is off the same way; only how far is not told.
    return Sense.of(found.value, least=0.0)


def _turn(told: Told, reading: Reading, error: Estimate | None) -> Estimate | None:
    """How far lens or cell is to be turned against its ring; None where that is not known."""
    if reading.turned_back is not None:
        return reading.turned_back
    focusing = told.camera.focusing
    if error is None or isinstance(focusing, Bed):
        return None
    needs = (Missing.LEAD, *((Missing.FOCAL_LENGTH,) if isinstance(focusing, FrontCell) else ()))
    return None if told.lacks(needs) else turn_wanted(told.camera, focusing, error)


def _to_do(
    told: Told,
    reading: Reading,
    error: Estimate | None,
    turn: Estimate | None,
    workshop: Workshop,
) -> Iterable[tuple[str, str]]:
    focusing = told.camera.focusing
    if not isinstance(focusing, Bed) and turn is not None:
        yield "Focusing ring", _turned(reading, focusing, turn.value)
    elif reading.came_sharp_at is not None:
        yield "Focusing ring", _set_alone(_part_of(focusing), reading.came_sharp_at)
    if error is not None:
        yield "Shim under the lens seat", by_amount(error.value, workshop)
        amount = format_length(abs(error.value))
        if isinstance(focusing, Bed) and round(error.value, 2):
            way = "towards the film" if error.value > 0 else "away from the film"
            yield "Infinity stops", f"Move both infinity stops {amount} {way}."


def _part_of(focusing: Focusing) -> str:
    return "front cell" if isinstance(focusing, FrontCell) else "lens barrel"


def _set_alone(part: str, target: float) -> str:
    """The lens is right for its target where it stands; its ring alone says otherwise."""
    return (
        f"Leave the {part} where it came sharp, loosen the scale ring, set the ring alone to "
        f"{format_distance(target)} and tighten it."
    )


def _turned(reading: Reading, thread: Helicoid | FrontCell, turn: float) -> str:
    part = _part_of(thread)
    if abs(turn) < _LEAST_TURN:
        return "The turn is less than 0.1°: leave the ring alone."
    if abs(turn) >= 2 * math.pi:
        return (
            f"The turn is {said_degrees(turn)}, a whole turn or more: look for a wrong start, a "
            "wrong lens or a slip in the reading first."
        )
    sense, amount = sense_of_turn(thread.extends, turn), said_degrees(turn)
    if reading.turned_back is not None and reading.came_sharp_at is not None:
        mark = format_distance(reading.came_sharp_at)
        return (
            f"Leave the {part} where it came sharp, loosen the scale ring and turn the ring alone "
            f"{amount} back, {sense.opposite}, seen from the front, to its mark {mark}; tighten "
            f"it. With the ring held on its mark it is the {part} that turns {amount} {sense}."
        )
    return (
        f"Loosen the scale ring and hold it on its mark; turn the {part} {amount} {sense}, seen "
        "from the front, then tighten the ring."
    )


def _waits(
    told: Told, reading: Reading, error: Estimate | None, turn: Estimate | None
) -> Iterable[Wait]:
    named: set[Missing] = set()
    for figures, adds in _adds(told, reading, error, turn):
        wanted = tuple(f for f in told.lacks(figures) if f not in named)
        if wanted:
            named |= {*wanted}
            yield Wait(wanted, adds)


def _adds(
    told: Told, reading: Reading, error: Estimate | None, turn: Estimate | None
) -> Iterable[tuple[tuple[Missing, ...], str]]:
    needs = reading.hangs_on(told.camera)
    if error is None:
        is_last = turn is None and Missing.LEAD in (*needs, *told.has)
        also = ", and the turn of the ring" if is_last else ""
        yield needs, f"how far the lens is off in mm and the shim that puts it right{also}"
    yield (Missing.LEAD,), "the turn of the ring"
    adds = ["the depth of focus"]
    if reading.judged is Judged.BY_EYE:
        adds.append("what the eye does not see in a single try")
    if told.without_tolerance:
        adds.append("whether the lens is inside its tolerance")
    yield (Missing.FULL_APERTURE, Missing.CONFUSION), said_names(adds)
    also = " and the turn of the front cell" if isinstance(told.camera.focusing, FrontCell) else ""
    yield (Missing.FOCAL_LENGTH,), f"where it is sharp with the ring at each mark{also}"


def said_names(names: Iterable[str]) -> str:
    """Names in a row: focal length, full aperture and lead."""
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last
