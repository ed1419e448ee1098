"""A camera to be measured and put right by hand, which knows none of the program's formulas.

Everything has a place along the axis, counted from the film towards the subject, and every ring
an angle, counted clockwise as seen from the front. What is sharp is found by halving intervals
on the thin-lens equation, one group after the other; what a remedy does is done to the parts.
"""

import math
import re
from collections.abc import Callable
from dataclasses import dataclass, field

CLOCKWISE, COUNTER_CLOCKWISE = "clockwise", "counter-clockwise"
FARTHEST = 1e12


def halved(wrong: Callable[[float], float], low: float, high: float) -> float:
    """Find where a steady function changes its sign."""
    rising = wrong(high) > wrong(low)
    for _ in range(300):
        middle = (low + high) / 2
        if (wrong(middle) > 0) == rising:
            high = middle
        else:
            low = middle
    return (low + high) / 2


def image_behind(focal_length: float, subject: float) -> float:
    """Return how far behind a thin group the image of a subject before it is formed."""
    return 1 / (1 / focal_length - 1 / subject)


@dataclass
class WholeLens:
    """A lens that moves whole; it is carried by its rear principal plane."""

    focal_length: float
    hiatus: float

    def fault(self, carried: float, cell: float, subject: float) -> float:
        """Return how far in front of the film the image of a subject lies (film at 0)."""
        assert cell == 0.0
        before = subject - carried - self.hiatus
        return carried - image_behind(self.focal_length, before)

    @property
    def home(self) -> float:
        """Return where the lens is carried when infinity is sharp."""
        return self.focal_length

    def front_focus(self, carried: float, cell: float) -> float:
        """Return the place of the front focal point."""
        return carried + self.hiatus + self.focal_length


@dataclass
class FrontCellLens:
    """Two thin groups; the front one can be moved out from its place by itself."""

    front: float
    rear: float
    gap: float

    def fault(self, carried: float, cell: float, subject: float) -> float:
        """Return how far in front of the film the image of a subject lies (film at 0)."""
        front_place = carried + self.gap + cell
        first = image_behind(self.front, subject - front_place)
        second = image_behind(self.rear, front_place - carried - first)
        return carried - second

    @property
    def home(self) -> float:
        """Return where the rear group stands when infinity is sharp."""
        return image_behind(self.rear, self.gap - self.front)

    @property
    def focal_length(self) -> float:
        """Return the focal length of both, from the height at which one ray meets each group."""
        slope = -1 / self.front
        height = 1 + slope * self.gap
        return -1 / (slope - height / self.rear)

    def front_focus(self, carried: float, cell: float) -> float:
        """Return the place of the front focal point of both groups together.

        From there the front group throws its image into the rear group's front focal point.
        """
        return carried + self.gap + cell + image_behind(self.front, self.gap + cell - self.rear)


@dataclass
class SimulatedCamera:
    """Seat, shims, thread, entry, barrel and scale ring, as they are put together.

    `right_hand` says that turning clockwise moves out. The scale ring is clamped to what
    turns, `slip` from where the maker clamped it. `entered` is the angle at which the thread
    was entered, `entries` apart; `maker_entered` where it should have been.
    """

    lens: WholeLens | FrontCellLens
    lead: float
    starts: int
    right_hand: bool
    seat: float
    leaves: list[float]
    maker_shims: float
    maker_entered: float = 500.0
    angle: float = 0.0
    slip: float = 0.0
    stop: float = 0.0
    entered: float = field(default=math.nan)

    def __post_init__(self) -> None:
        """Enter the thread where the maker did."""
        self.maker_seat = self.seat
        self.entered = self.maker_entered if math.isnan(self.entered) else self.entered

    # -------------------------------------------------------------- the parts' places

    def _height(self, angle: float) -> float:
        """Return how far the thread has come out from where the maker's infinity is."""
        outward = angle if self.right_hand else -angle
        # Screwed in from the place of entry: the farther on it was entered, the farther in.
        entry = self.entered - self.maker_entered
        late = entry if self.right_hand else -entry
        return (outward - late) / 360 * self.lead

    def fault(self, subject: float, angle: float | None = None) -> float:
        """Return how far in front of the film a subject's image lies, the ring at an angle."""
        carried, cell = self._places(self.angle if angle is None else angle)
        return self.lens.fault(carried, cell, subject)

    def _places(self, angle: float) -> tuple[float, float]:
        """Return where the lens is carried, and how far its front cell is out."""
        height = self._height(angle)
        seat = self.seat - self.maker_seat + sum(self.leaves) - self.maker_shims + self.stop
        if isinstance(self.lens, FrontCellLens):
            return self.lens.home + seat, height
        return self.lens.home + seat + height, 0.0

    @property
    def nearest(self) -> float:
        """Return a distance safely beyond the nearest the lens can serve, right or wrong."""
        if isinstance(self.lens, FrontCellLens):
            return self.lens.home + self.lens.gap + 6 * self.lens.front
        return 6 * self.lens.focal_length + self.lens.hiatus

    @property
    def cell_to_film(self) -> float:
        """Return the front group's distance from the film at infinity."""
        assert isinstance(self.lens, FrontCellLens)
        return self.lens.home + self.lens.gap

    # -------------------------------------------------------------- what a hand can do

    def engraved(self, distance: float) -> float:
        """Return the angle, from the infinity mark, at which the maker engraved a distance."""
        if math.isinf(distance):
            return 0.0
        right = SimulatedCamera(
            self.lens,
            self.lead,
            self.starts,
            self.right_hand,
            self.maker_seat,
            [self.maker_shims],
            self.maker_shims,
        )
        turn = halved(lambda a: right.fault(distance, right.outward(a)), 0.0, self.farthest_turn)
        return right.outward(turn)

    @property
    def farthest_turn(self) -> float:
        """Return a turn in degrees farther than any mark needs."""
        longest = self.lens.front if isinstance(self.lens, FrontCellLens) else self.lens.home
        return longest / 2 / self.lead * 360

    def outward(self, turn: float) -> float:
        """Return the clockwise angle of a turn that moves out."""
        return turn if self.right_hand else -turn

    def set_to(self, distance: float) -> None:
        """Set the ring to a mark."""
        self.angle = self.engraved(distance) + self.slip

    def true_error(self) -> float:
        """Return how far the lens is out at the film with the ring at infinity: the truth."""
        self.set_to(math.inf)
        return self.fault(math.inf)

    # -------------------------------------------------------------- readings

    def sharp_at(self, mark: float) -> float | None:
        """Set the ring to a mark and find the distance that is sharp; None where none is."""
        self.set_to(mark)
        if self.fault(math.inf) <= 0:
            return None
        near = self.nearest / 1.4
        if self.fault(near) > 0:
            return None
        place = halved(lambda inverse: self.fault(1 / inverse), 1 / FARTHEST, 1 / near)
        return 1 / place

    def turned_until_sharp(self, mark: float, target: float) -> tuple[float, str]:
        """Set the ring to a mark and turn it until a target is sharp: degrees and sense."""
        self.set_to(mark)
        start = self.angle
        is_cell = isinstance(self.lens, FrontCellLens)
        reach = self.farthest_turn * (0.8 if is_cell else 3)
        turn = halved(lambda a: self.fault(target, start + a), -reach, reach)
        return abs(turn), CLOCKWISE if turn > 0 else COUNTER_CLOCKWISE

    def register(self) -> float:
        """Gauge from the lens seat, shims and all, to the film."""
        return self.seat + sum(self.leaves) + self.stop

    def reticle_shift(self, collimator: float, apart: float = 60.0) -> tuple[float, str]:
        """Set the ring to infinity and shift a collimator's reticle until it is sharp.

        The collimator's lens stands so far before the front principal plane: no nearer than the
        focal length where the lens may be far too far out, for then no shift reaches it.
        """
        self.set_to(math.inf)
        front = self.lens.front_focus(*self._places(self.angle)) - self.lens.focal_length
        place = front + apart

        def fault(inside: float) -> float:
            # Rays go from the reticle through the collimator's lens: its image, seen from
            # the camera, stands behind that lens (or beyond infinity, and minus).
            virtual = -image_behind(collimator, collimator - inside) if inside else math.inf
            return self.fault(place + virtual)

        shift = halved(fault, -20 * collimator, 0.99 * collimator)
        return abs(shift), "its lens" if shift > 0 else "away from its lens"

    def ruler_offset(self, mark: float, aim: float, slope: float) -> tuple[float, str] | None:
        """Photograph a slanting ruler whose zero is at the aim: sharpest place, and its side."""
        sharp = self.sharp_at(mark)
        if sharp is None:
            return None
        along = (aim - sharp) / math.cos(slope)
        return abs(along), "nearer" if along > 0 else "farther"

    def parallax(self, target: float) -> str:
        """Look at the glass from behind, move the eye up, and say how the image moves."""
        error = self.fault(target)
        eye, height = -250.0, 10.0
        # Where the line from the eye to the image, which lies on the axis, meets the glass.
        seen = height + (0.0 - height) * (0.0 - eye) / (error - eye)
        if abs(seen) < 1e-12:
            return "not at all"
        return "with the eye" if seen > 0 else "against the eye"

    # -------------------------------------------------------------- doing as told

    def do(self, instruction: str) -> None:
        """Carry an instruction out by its words alone."""
        for pattern, act in (
            (
                r"^Loosen the scale ring and hold it on its mark; turn the lens barrel "
                r"([\d.]+)° (clockwise|counter-clockwise), seen from the front",
                self._turn,
            ),
            (
                r"^Loosen the scale ring's screws and hold the ring on its mark; turn the front "
                r"cell ([\d.]+)° (clockwise|counter-clockwise), seen from the front",
                self._turn,
            ),
            (
                r"enter it again (\d+) starts? \(([\d.]+)°\) further "
                r"(clockwise|counter-clockwise), seen from the front",
                self._enter,
            ),
            (
                r"^Fit (.+) under the lens seat in place of (.+): (add|remove) ([\d.]+) mm in all",
                self._exchange,
            ),
            (r"^Add (.+) under the lens seat, ([\d.]+) mm in all", self._add),
            (
                r"^Take (.+) out from under the lens seat and fit none: remove ([\d.]+) mm in all",
                self._take_out,
            ),
            (r"^Remove ([\d.]+) mm of shim from under the lens seat", self._remove),
            (
                r"^Move both infinity stops ([\d.]+) mm (towards the film|away from the film)",
                self._move_stops,
            ),
        ):
            found = re.search(pattern, instruction)
            if found:
                act(*found.groups())
                return
        raise AssertionError(f"no hand would know what to do: {instruction}")

    def _turn(self, degrees: str, sense: str) -> None:
        signed = float(degrees) * (1 if sense == CLOCKWISE else -1)
        self.angle += signed
        self.slip += signed  # the scale ring was held, so it now sits elsewhere on what turned

    def _enter(self, count: str, degrees: str, sense: str) -> None:
        turn = int(count) * 360 / self.starts
        assert abs(turn - float(degrees)) <= 0.05, "words and degrees of the entry disagree"
        self.entered += turn if sense == CLOCKWISE else -turn

    def _exchange(self, new: str, old: str, verb: str, amount: str) -> None:
        before = sum(self.leaves)
        assert sorted(leaves_of(old)) == sorted(self.leaves), "these leaves are not fitted"
        self.leaves = leaves_of(new)
        self._check_amount(before, float(amount) * (1 if verb == "add" else -1))

    def _add(self, new: str, amount: str) -> None:
        before = sum(self.leaves)
        self.leaves = self.leaves + leaves_of(new)
        self._check_amount(before, float(amount))

    def _take_out(self, old: str, amount: str) -> None:
        before = sum(self.leaves)
        assert sorted(leaves_of(old)) == sorted(self.leaves), "these leaves are not fitted"
        self.leaves = []
        self._check_amount(before, -float(amount))

    def _check_amount(self, before: float, said: float) -> None:
        assert abs(sum(self.leaves) - before - said) <= 0.0006, "the leaves differ from the sum"

    def _remove(self, amount: str) -> None:
        self.leaves = [*self.leaves, -float(amount)]

    def _move_stops(self, amount: str, way: str) -> None:
        self.stop += float(amount) * (-1 if way == "towards the film" else 1)


def leaves_of(words: str) -> list[float]:
    """Read a pack in words, such as 0.1 + 2 × 0.02 mm, as single leaves."""
    if words == "no shim":
        return []
    leaves: list[float] = []
    for term in words.removesuffix(" mm").split(" + "):
        count, _, size = term.rpartition(" × ")
        leaves += [float(size)] * int(count or 1)
    return leaves
