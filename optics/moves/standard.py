"""The lens standard squared by leaves under its screws."""

from collections import Counter
from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from optics.camera import mount
from optics.camera.plane import Plane
from optics.camera.shims import Pack
from optics.measure.places import CORNERS
from optics.measure.uncertainty import exact, within
from optics.moves.record import Case, Control, Made, Move, Outcome
from optics.moves.setting import FEELER, THICKER
from optics.units import Leaves, format_length

# Places of the screws: corners by (x, y). Slopes: (x, y). Packs and rises: one for a corner.
Vector = NDArray[np.float64]
# Less taken off a lean than a tenth of it is not worth four screws.
_HELPS = 0.9


def _controls(case: Case) -> Iterator[Control]:
    """A leaf under one of four screws: the plane nearest to the four places is what results."""
    to_side, to_top = case.at_hand.standard_screws
    for corner, (side, up) in CORNERS.items():
        yield Control(
            f"shim the standard, {corner} screw,",
            f"shimmed the standard, {corner} screw,",
            "mm",
            THICKER,
            {"seat": 0.25, "tilt_x": side / (4 * to_side), "tilt_y": up / (4 * to_top)},
            FEELER / 2,
            "The middle of the lens goes out by a quarter of the leaf.",
            there=0.0,
        )


def _make(case: Case) -> Outcome:
    """Leaves under the low screws alone; what they lift the middle is left to the next step.

    From the drawer, where it is known, else in hundredths; refused where no leaves of the
    drawer would make the standard squarer.
    """
    places = np.array(list(CORNERS.values())) * np.array(case.at_hand.standard_screws)
    slopes = np.array([case.wanted["tilt_x"], case.wanted["tilt_y"]])
    packs = _packs(places, slopes, case.at_hand.workshop.drawer)
    thick = np.array([pack.thickness for pack in packs])
    # The screws stand in a rectangle about the middle, so each slope of the nearest plane is
    # the sum of place times leaf over the sum of squared places.
    made = places.T @ thick / (places**2).sum(axis=0)
    if not thick.any() and np.ptp(places @ slopes) < FEELER:
        return case.refused("The standard is square within 0.01 mm: leave it alone.")
    if np.ptp(places @ (made - slopes)) > _HELPS * np.ptp(places @ slopes):
        return case.refused(
            "No leaves in the drawer make the standard squarer: thinner ones are needed."
        )
    return _shimmed(case, places, packs, made)


def _packs(places: Vector, slopes: Vector, drawer: Leaves) -> Sequence[Pack]:
    """What goes under each screw, the lowest wanted leaf being none."""
    rise = places @ slopes
    if not any(count for _, count in drawer):
        leaves = np.round((rise - rise.min()) / FEELER).astype(int).tolist()
        return [Pack(((FEELER * number, 1),) if number else ()) for number in leaves]
    leaning = Plane(exact(0.0), exact(-float(slopes[0])), exact(-float(slopes[1])))
    screws = [mount.MountScrew(float(x), float(y)) for x, y in places]
    planned = mount.plan_shims(
        leaning, screws, moved=-float(rise.min()), drawer=drawer, near_enough=FEELER / 2
    )
    return [shim.pack or Pack(()) for shim in planned.shims]


def _shimmed(case: Case, places: Vector, packs: Sequence[Pack], slope: Vector) -> Made:
    limit, why = FEELER / 2, "shims under the standard"
    # Four leaves missed independently sway the plane by the root of the summed squares.
    sway = limit / np.sqrt((places**2).sum(axis=0))
    middle = float(np.mean([pack.thickness for pack in packs]))
    each = zip(CORNERS, case.controls, packs, strict=True)
    put = [(name, control, pack) for name, control, pack in each if pack.leaves]
    said = (f"{_thickness(pack)} at the {name}{_of(pack)}" for name, _, pack in put)
    return Made(
        move=case.move,
        instruction=f"Put shims under the standard's screws: {', '.join(said)}, seen from the "
        "front.",
        settings=tuple((control, pack.thickness) for _, control, pack in put),
        changes={
            "tilt_x": within(float(slope[0]), float(sway[0]), why),
            "tilt_y": within(float(slope[1]), float(sway[1]), why),
            "seat": within(middle, limit / 2, why),
        },
        amounts=tuple((name.capitalize(), _thickness(pack)) for name, _, pack in put),
        leaves=tuple(sum((Counter(dict(p.leaves)) for p in packs), Counter()).items()),
    )


def _thickness(pack: Pack) -> str:
    return format_length(pack.thickness)


def _of(pack: Pack) -> str:
    """The leaves, where there is more than one."""
    if pack.count < 2:
        return ""
    each = (f"{n} × {t:g}" if n > 1 else f"{t:g}" for t, n in pack.leaves)
    return f" ({' + '.join(each)})"


STANDARD = Move(
    name="standard",
    title="Standard",
    order=20,
    puts_right=("tilt_x", "tilt_y"),
    tool="depth gauge, micrometer for the leaves",
    controls=_controls,
    make=_make,
)
