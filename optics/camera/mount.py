"""Shims under the screws of a mount, so that the standard stands square to the film."""

import itertools
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from optics.camera.instruments import INSTRUMENTS
from optics.camera.plane import Plane, design, least_squares
from optics.camera.shims import DIGITS, THICKEST_PACK, Pack, make_up
from optics.errors import OutOfRange
from optics.measure.places import check_places, place_name
from optics.measure.uncertainty import Estimate, combine, exact, within
from optics.relation import Array
from optics.theory import standard
from optics.units import Leaves

_shim = standard.screw_shim.solve_for(standard.shim_under_screw)
_MOST_SCREWS = 4
# What a hand can measure off where no leaves are stated (mm).
_SETTABLE = 0.01
_ROUNDING = 1e-6

Choice: TypeAlias = tuple[Pack, ...]


@dataclass(frozen=True)
class MountScrew:
    """A screw of the mount, its place in mm seen from the front, and the leaves under it now.

    `fitted` None stands for not known.
    """

    x: float
    y: float
    fitted: Leaves | None = ()
    label: str = ""

    @property
    def name(self) -> str:
        """The label, or else the place in words."""
        return self.label.strip() or place_name(self.x, self.y)


@dataclass(frozen=True)
class ScrewShim:
    """What one screw gets: the change wanted and made (mm, plus to add), and its pack.

    `pack` is None where the drawer is empty or the leaves fitted are not known.
    """

    screw: MountScrew
    wanted: Estimate
    change: float
    pack: Pack | None

    @property
    def left(self) -> float:
        """How far the change made misses the one wanted (mm, plus: too thick)."""
        return self.change - self.wanted.value


@dataclass(frozen=True)
class MountPlan:
    """Shims under all screws and the plane they leave.

    `moved` is the move of the middle that was asked for, `raised` what had to be added to
    it under every screw because no more could be taken out, `gap` how far one of four screws
    stands clear when the other three carry, `near_enough` what counts as hit; all in mm.
    """

    before: Plane
    shims: tuple[ScrewShim, ...]
    moved: float
    raised: float
    after: Plane
    gap: float
    near_enough: float

    @property
    def shift(self) -> Estimate:
        """How far the middle moves, which is what the focus error changes by."""
        return self.after.middle.plus(self.before.middle, -1.0)


def plan_shims(
    plane: Plane,
    screws: Sequence[MountScrew],
    *,
    moved: float = 0.0,
    drawer: Leaves = (),
    near_enough: float,
) -> MountPlan:
    """Shims under three or four screws that make the standard square to the film.

    The middle keeps its height, or is moved by `moved` mm (minus the focus error makes that
    0). Shims cannot become thinner than none: where one would, the whole mount is raised.
    Among the packs that come within `near_enough` mm of what is wanted, gap included, those
    with the fewest leaves are taken; else the nearest.
    Errors: OutOfRange for two screws, five, screws on one line, or packs beyond 10 mm.
    Limits: a flat standard; a scarce drawer is shared out by trying the thickest pack first.
    """
    places = [(s.x, s.y) for s in screws]
    check_places(places, "screw", _MOST_SCREWS)
    level = plane.middle.plus(exact(moved))
    wanted = [_wanted(plane, screw, level) for screw in screws]
    fitted = [_thickness(screw) for screw in screws]
    is_known = all(s.fitted is not None for s in screws)
    lacking = -min(f + w.value for f, w in zip(fitted, wanted, strict=True))
    raised = lacking if is_known and lacking > near_enough else 0.0
    wanted = [w.plus(exact(raised)) for w in wanted]
    warp = _warp(places)
    packs: Choice | None = None
    if is_known and any(number for _, number in drawer):
        targets = [max(0.0, f + w.value) for f, w in zip(fitted, wanted, strict=True)]
        packs = _packs(targets, _pool(screws, drawer), warp, near_enough)
        changes = [p.thickness - f for p, f in zip(packs, fitted, strict=True)]
    else:
        changes = [round(w.value / _SETTABLE) * _SETTABLE for w in wanted]
        if is_known:
            # Rounded, a change may ask for a little more than there is to take out.
            changes = [max(c, 0.0 - f) for c, f in zip(changes, fitted, strict=True)]
    shims = tuple(
        ScrewShim(s, w, c, None if packs is None else packs[i])
        for i, (s, w, c) in enumerate(zip(screws, wanted, changes, strict=True))
    )
    left = np.array([shim.left for shim in shims])
    return MountPlan(
        before=plane,
        shims=shims,
        moved=moved,
        raised=raised,
        after=_after(plane, shims),
        gap=float(_gaps(left, warp)),
        near_enough=near_enough,
    )


def _wanted(plane: Plane, screw: MountScrew, level: Estimate) -> Estimate:
    return combine(_shim, wanted_height=level, found_height=plane.height(screw.x, screw.y))


def _thickness(screw: MountScrew) -> float:
    return Pack(tuple(screw.fitted or ())).thickness


def _pool(screws: Sequence[MountScrew], drawer: Leaves) -> Counter[float]:
    """All leaves that can be shared out: those in the drawer and those that come out."""
    counts: Counter[float] = Counter()
    for thickness, number in itertools.chain(drawer, *(s.fitted or () for s in screws)):
        counts[round(thickness, DIGITS)] += number
    return +counts


def _warp(places: Sequence[tuple[float, float]]) -> Array:
    """With four screws, the weights of their heights that are 0 for every plane; else zeros."""
    if len(places) < _MOST_SCREWS:
        return np.zeros(len(places))
    null: Array = np.linalg.svd(design(places))[0][:, 3]
    scaled: Array = null / np.abs(null).max()
    return scaled


def _gaps(left: Array, warp: Array) -> Array:
    gaps: Array = np.abs(left @ warp)
    return gaps


def _packs(targets: Sequence[float], pool: Counter[float], warp: Array, near: float) -> Choice:
    """The packs for all screws together, no leaf used twice."""
    if max(targets) > THICKEST_PACK:
        raise OutOfRange(
            f"A shim under a screw must be at most {THICKEST_PACK:g} mm thick: got "
            f"{max(targets):.3f} mm; check the readings and their unit.",
            quantity="screw_shim",
            value=max(targets),
            limit=THICKEST_PACK,
        )
    choices = [c for c in _choices(targets, pool, near) if _is_in_stock(c, pool)]
    away = np.array([[p.thickness for p in c] for c in choices]) - np.array(targets)
    worst = np.maximum(np.abs(away).max(axis=1), _gaps(away, warp))
    leaves = np.array([sum(p.count for p in c) for c in choices])
    # All that are near enough count alike, so that the fewest leaves decide among them.
    order = np.lexsort((worst, leaves, np.where(worst <= near + _ROUNDING, near, worst)))
    return choices[int(order[0])]


def _choices(targets: Sequence[float], pool: Counter[float], near: float) -> Iterator[Choice]:
    yield _shared_out(targets, pool, near)
    yield _shared_out(targets, pool, 0.0)
    for choice in itertools.product(*(_candidates(t, pool, near) for t in targets)):
        yield tuple(choice)


def _candidates(target: float, pool: Counter[float], near: float) -> Iterable[Pack]:
    """Packs at and a little beside a target: a bit more here can undo a bit less there."""
    step = min(pool) / 2
    leaves = tuple(pool.items())
    found: dict[Pack, None] = {}
    for aim, within_reach in [(target, near), *((target + k * step, 0.0) for k in range(-2, 3))]:
        if 0 <= aim <= THICKEST_PACK:
            found[make_up(aim, leaves, within_reach).best] = None
    return found


def _shared_out(targets: Sequence[float], pool: Counter[float], near: float) -> Choice:
    """One pack after the other from what is left, the thickest first."""
    rest, packs = Counter(pool), [Pack(())] * len(targets)
    for i in sorted(range(len(targets)), key=lambda i: -targets[i]):
        packs[i] = make_up(max(targets[i], 0.0), tuple((+rest).items()), near).best
        rest.subtract(dict(packs[i].leaves))
    return tuple(packs)


def _is_in_stock(choice: Choice, pool: Counter[float]) -> bool:
    used: Counter[float] = Counter()
    for pack in choice:
        used.update(dict(pack.leaves))
    return all(number <= pool[thickness] for thickness, number in used.items())


def _after(plane: Plane, shims: Sequence[ScrewShim]) -> Plane:
    limit = INSTRUMENTS["outside_micrometer"].limit
    assert limit is not None
    heights = []
    for shim in shims:
        # Every leaf handled carries the limit of the micrometer that measured it.
        count = shim.pack.count if shim.pack else 1
        added = within(shim.change, limit * count**0.5, f"shim under {shim.screw.name}")
        heights.append(plane.height(shim.screw.x, shim.screw.y).plus(added))
    return least_squares([(s.screw.x, s.screw.y) for s in shims], heights)
