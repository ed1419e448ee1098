"""A reading as it is typed: what every kind has in common."""

import math
from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Annotated, ClassVar, Literal

from optics.camera.camera import Camera
from optics.camera.instruments import Instrument
from optics.measure.uncertainty import Estimate, exact, from_repeats
from optics.readings.directions import Direction
from optics.readings.readings import Reading
from optics.typed import fields
from optics.typed.ask import Ask, asked, kind_of
from optics.typed.fields import Typed
from optics.typed.part import Part, value
from optics.typed.places import PLACE


class ReadFrom(StrEnum):
    """Where on the camera a row of readings is taken, in words."""

    GAUGED = "register (depth gauge)"
    STOP = "at the infinity stop"
    INFINITY = "at the ∞ mark"
    NEAR = "at a near mark"
    FILM_INFINITY = "on film, at the ∞ mark"
    FILM_NEAR = "on film, at a near mark"
    OFF_MIDDLE = "corner depth"
    GATE = "at the film gate"
    FINDER = "through the rangefinder"


ON_FILM = frozenset({ReadFrom.FILM_INFINITY, ReadFrom.FILM_NEAR})
AT_NEAR = frozenset({ReadFrom.NEAR, ReadFrom.FILM_NEAR})


@dataclass(frozen=True)
class Way:
    """How a kind is read at a place: in what words, and how soon it is offered there."""

    words: str = ""
    rank: int = 0


class ReadingPart(Part):
    """What every kind of reading says of itself as it is typed.

    `is_measured` is false of one that tells the direction alone. `ways` are the rows of readings
    in which it is asked for, `row_starts` what such a row holds at first.
    """

    kind: str
    title: ClassVar[str]
    is_measured: ClassVar[bool] = True
    ways: ClassVar[Mapping[ReadFrom, Way]] = {}
    row_starts: ClassVar[Mapping[str, str]] = {}

    @abstractmethod
    def read(self, camera: Camera) -> Reading | Direction:
        """The reading with its uncertainty; the camera tells which sense of turning extends."""

    @property
    @abstractmethod
    def said_figures(self) -> str:
        """The tries as they were understood, and which way."""

    @property
    def said_thing(self) -> str:
        """What was read, by which it is told from other readings: ``Ring at 1.2 m``."""
        return self.title

    @classmethod
    def kind_name(cls) -> str:
        """What it is called in job files."""
        return kind_of(cls)

    @classmethod
    def asked_alone(cls) -> tuple[str, ...]:
        """What is asked for where it is the only reading."""
        return tuple(one.name for one in asked(cls) if one.name != "place")

    @classmethod
    def asked_at(cls, place: ReadFrom) -> tuple[str, ...]:
        """What a row asks for at a place: the ring's mark near by only."""
        return tuple(n for n in cls.asked_alone() if n != "mark" or place in AT_NEAR)

    @classmethod
    def said_at(cls, place: ReadFrom) -> dict[str, str]:
        """What a row says at a place without being asked."""
        said = {"kind": cls.kind_name()}
        has_mark = "mark" in cls.model_fields and place not in AT_NEAR
        return said | ({"mark": "inf"} if has_mark else {})

    @classmethod
    def remark(cls, texts: Mapping[str, str]) -> str:
        """What stands under its fields, those being as they are."""
        del texts
        return ""

    @property
    def read_from(self) -> ReadFrom | None:
        """In the row of which place it was read; None where it has no row."""
        return None

    @property
    def said_in_full(self) -> str:
        """What was read and the tries: ``Ring at 1.2 m: sharp at 1.18 m; 1.19 m``."""
        return f"{self.said_thing}: {self.said_figures}"

    @property
    def named_gauge(self) -> Instrument | None:
        """The instrument it was taken with, where it names one that is known."""
        return None

    @property
    def said_limit(self) -> str | None:
        """The limit of what it was read by, as typed; None where it has none."""
        limit: str | None = getattr(self, "limit", None)
        return limit

    @property
    def ring_mark(self) -> str:
        """The ring mark from which it was read, as typed."""
        return str(getattr(self, "mark", "inf"))


class PlacedPart(ReadingPart):
    """Where on the picture a reading was taken: its middle, unless a place is given.

    `place` is ``x, y`` in mm from the middle, plus right and up, or a corner or side by name,
    seen from the front; only a diagnosis asks for it.
    """

    place: Annotated[str, PLACE, Ask(hint="top left; −16, 11")] | None = None

    @property
    def said_place(self) -> str:
        """Where on the picture, as it ends what was read."""
        return f", {self.place.strip()}" if self.place else ""


class SeenPart(PlacedPart):
    """How the lens stood and what the image was judged on; only a diagnosis asks for it.

    `where` is left out where the lens stood at its mark, `judged` where it was judged on the
    ground glass.
    """

    where: Literal["at the mark", "at the stop"] | None = None
    judged: Literal["on the ground glass", "on film"] | None = None

    @property
    def said_thing(self) -> str:
        """The ring's mark or the stop, on film or not, and where on the picture."""
        mark = fields.RING_MARK.read(self.ring_mark)
        name = "∞" if math.isinf(mark.value) else mark.echo
        where = "infinity stop" if self.where == "at the stop" else f"ring at {name}"
        film = "on film, " if self.judged == "on film" else ""
        said = f"{film}{where}{self.said_place}"
        return f"{said[0].upper()}{said[1:]}"

    @classmethod
    def said_at(cls, place: ReadFrom) -> dict[str, str]:
        """At the stop, and on film, is said beside."""
        said = super().said_at(place)
        said |= {"where": "at the stop"} if place is ReadFrom.STOP else {}
        return said | ({"judged": "on film"} if place in ON_FILM else {})

    @property
    def read_from(self) -> ReadFrom | None:
        """By its mark, by what it was judged on, and by the stop."""
        is_near = math.isfinite(fields.RING_MARK.read(self.ring_mark).value)
        if self.judged == "on film" or ON_FILM.issuperset(self.ways):
            place = ReadFrom.FILM_NEAR if is_near else ReadFrom.FILM_INFINITY
        elif is_near:
            place = ReadFrom.NEAR
        else:
            place = ReadFrom.STOP if self.where == "at the stop" else ReadFrom.INFINITY
        return place if place in self.ways else None


def values(field: Typed, text: str) -> list[float]:
    """The figures that a text of several tries stands for, in core units."""
    return [one.value for one in field.read(text)]


def repeated(field: Typed, text: str, limit_field: Typed, limit: str) -> Estimate:
    """Several tries of a figure, with the limit of what it was read by."""
    return from_repeats(values(field, text), value(limit_field, limit), field.words)


def given(field: Typed, text: str) -> Estimate:
    """A figure as it was given, without a limit."""
    return exact(value(field, text))


def tries(field: Typed, text: str) -> str:
    """Several tries as they were understood."""
    return "; ".join(one.echo for one in field.read(text))
