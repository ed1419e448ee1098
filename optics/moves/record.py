"""What a move is: one record that says all there is to say of it."""

import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from fractions import Fraction
from typing import Any, TypeAlias

from optics.camera.camera import Camera
from optics.camera.cautions import Caution
from optics.measure.uncertainty import Estimate
from optics.moves.at_hand import AtHand
from optics.units import Leaves

Wanted: TypeAlias = Mapping[str, float]
"""The change wanted of each fault, by its name (mm at the film, rad, or a part)."""

# Amounts are kept to so much; what lies nearer to a fraction of a turn is that fraction.
_LAST_DIGIT = 1e-6
_FINEST = 64


class Picture(StrEnum):
    """What a small drawing beside an instruction shows, and which way its plus amount goes."""

    TURN = "a ring seen from the front, plus clockwise"
    LEAF = "a leaf between seat and flange, plus put in"
    STOP = "a stop on its bed, plus away from the film"


@dataclass(frozen=True)
class Control:
    """One thing on one camera to turn, move or shim by a signed amount.

    Words: `name` is what is done and `past` what was done, `unit` what the amount is in,
    `ways` the words for a plus and a minus amount, `does` what one unit does where the amount
    does not say so itself.
    State: `effects` is what one plus unit adds to each fault, `height` (rad) to the
    rangefinder's height, `engraves` (mm) to the focal length that the scale is made for.
    Hand: `limit` is how far it misses at most either way, in the unit. Of leaves no more come
    out than lie `there` (mm); None where what is set is no pack.
    """

    name: str
    past: str
    unit: str
    ways: tuple[str, str]
    effects: Mapping[str, float]
    limit: float
    does: str = ""
    height: float = 0.0
    engraves: float = 0.0
    is_whole: bool = False
    there: float | None = None
    cautions: tuple[Caution, ...] = ()

    def said(self, amount: float, typed: str = "") -> str:
        """An amount with its unit and way: 4.5° clockwise, 1/8 turn clockwise.

        A turn stays as it was `typed`, 0.21 or 1/8, where it was typed in turns.
        """
        way = self.ways[0] if amount > 0 else self.ways[1]
        size = abs(amount)
        number = typed or said_turns(size) if self.unit == "turns" else said_plain(size)
        one = {"turns": " turn", "starts": " start", "°": "°"}.get(self.unit, f" {self.unit}")
        many = "s" if size > 1 and self.unit in ("turns", "starts") else ""
        return f"{number}{one}{many} {way}"

    def before(self, amount: float, typed: str = "") -> str:
        """What is to be done: turn the barrel 3.5° clockwise."""
        return f"{self.name} {self.said(amount, typed)}"

    def after(self, amount: float, typed: str = "") -> str:
        """What was done: turned the barrel 3.5° clockwise."""
        return f"{self.past} {self.said(amount, typed)}"


def said_turns(size: float) -> str:
    """So many turns, whole, mixed or a fraction of up to 64 parts; else as a decimal."""
    exact = Fraction(size).limit_denominator(_FINEST)
    if not math.isclose(exact, size, abs_tol=_LAST_DIGIT):
        return said_plain(size)
    whole, part = divmod(exact, 1)
    return " ".join(str(x) for x in (whole, part) if x) or "0"


def said_plain(size: float) -> str:
    """A size to four decimals, without closing noughts."""
    return f"{size:.4f}".rstrip("0").rstrip(".")


@dataclass(frozen=True, kw_only=True)
class Made:
    """A move with the amounts that a hand can set, worked out for one camera.

    `settings` are its controls with their signed amounts, and `changes` what these add to each
    fault, with what the hand misses by; `instruction` says so in words. `amounts` are lines
    for a table as (label, text), `figures` the same as numbers in mm, rad or counts. `leaves`
    are those it takes from the drawer, so that no later step counts on them. `only_if` is what
    must first be seen to hold; empty where it can be done at once.
    """

    move: "Move"
    instruction: str
    settings: tuple[tuple[Control, float], ...]
    changes: dict[str, Estimate]
    amounts: tuple[tuple[str, str], ...] = ()
    figures: dict[str, float | str] = field(default_factory=dict)
    notes: tuple[str, ...] = ()
    leaves: Leaves = ()
    only_if: str = ""

    @property
    def kind(self) -> str:
        """The move's name in results."""
        return self.move.name

    @property
    def title(self) -> str:
        """What it is headed with."""
        return self.move.title

    @property
    def tool(self) -> str:
        """What it is done with."""
        return self.move.tool

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """What could hurt hand, eye or camera."""
        return self.move.cautions

    @property
    def after(self) -> str:
        """What was done, when it is done."""
        return "; ".join(control.after(amount) for control, amount in self.settings)


@dataclass(frozen=True)
class Refused:
    """A move that cannot serve here, or is not called for, and why."""

    move: "Move"
    reason: str

    @property
    def kind(self) -> str:
        """The move's name in results."""
        return self.move.name

    @property
    def title(self) -> str:
        """What it is headed with."""
        return self.move.title


Outcome: TypeAlias = Made | Refused


@dataclass(frozen=True)
class Case:
    """A move to be made on one camera with what is at hand, for the changes wanted."""

    move: "Move"
    camera: Camera
    at_hand: AtHand
    wanted: Wanted = field(default_factory=dict)

    @property
    def change(self) -> float:
        """The change wanted of the one fault that it puts right."""
        (fault,) = self.move.puts_right
        return self.wanted[fault]

    @property
    def controls(self) -> tuple[Control, ...]:
        """What hands can set here."""
        given = self.move.controls
        return given if isinstance(given, tuple) else tuple(given(self))

    def made(self, instruction: str, amount: float, change: Estimate, **more: Any) -> Made:
        """The move by an amount of its one control, which changes its one fault."""
        (control,), (fault,) = self.controls, self.move.puts_right
        return Made(
            move=self.move,
            instruction=instruction,
            settings=((control, amount),),
            changes={fault: change},
            **more,
        )

    def refused(self, reason: str) -> Refused:
        """That it is not made, and why."""
        return Refused(self.move, reason)


# Compared and hashed as the very thing it is: two moves are never alike.
@dataclass(frozen=True, eq=False)
class Move:
    """One kind of thing that hands do to a camera, and all that the bench knows of it.

    Words: `name` in results, `title` over an instruction, `tool` it is done with, `cautions`.
    Place: `order` among the moves, which is the bench's; `as_remedy` its rank among the
    remedies of a single reading, the most usual first, None where it is none.
    Use: `puts_right` names the faults that it is there to change, on a camera that it
    `serves`; `needs_finder` says that it is done to a rangefinder. `controls` are what hands
    set, with what that does, the same on every camera or worked out for one. `make` works out
    the amounts for the changes wanted, in steps no finer than `smallest` (of the fault, in its
    unit); None where nothing is planned with it. `picture` is drawn beside it on paper.
    """

    name: str
    title: str
    order: int
    puts_right: tuple[str, ...]
    tool: str
    controls: tuple[Control, ...] | Callable[[Case], Iterable[Control]]
    make: Callable[[Case], Outcome] | None
    serves: Callable[[Camera], bool] = lambda _: True
    smallest: float | Callable[[Case], float] = 0.0
    cautions: tuple[Caution, ...] = ()
    as_remedy: int | None = None
    needs_finder: bool = False
    picture: Picture | None = None

    def __str__(self) -> str:
        return self.name

    def __repr__(self) -> str:
        return f"Move({self.name})"

    def on(self, camera: Camera, at_hand: AtHand) -> tuple[Control, ...]:
        """What hands can set on a camera; nothing where it does not serve."""
        return Case(self, camera, at_hand).controls if self.serves(camera) else ()

    def least(self, camera: Camera, at_hand: AtHand) -> float:
        """The smallest change of its fault that a hand can set; 0 where nothing is so small."""
        case = Case(self, camera, at_hand)
        return self.smallest if isinstance(self.smallest, float) else self.smallest(case)

    def made(self, camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
        """It by amounts a hand can set, as near as may be to the changes wanted."""
        assert self.make is not None, f"{self} is done by eye"
        return self.make(Case(self, camera, at_hand, wanted))
