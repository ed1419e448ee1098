"""The lens standard out of square, and shims under its screws from the leaves there are."""

from collections import Counter
from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import NDArray

from optics.body.standard.mount import Screw, plan_shims
from optics.body.standard.plane import Plane
from optics.camera.camera import Camera
from optics.camera.shims import Pack
from optics.camera.taken import Taken
from optics.finding.causes.at_hand import AtHand
from optics.finding.causes.bench_order import BenchStep
from optics.finding.causes.prior import Prior
from optics.finding.causes.record import Added, Adjustment, Blocked, Cause
from optics.finding.causes.size import Lean
from optics.measure.places import CORNERS
from optics.measure.uncertainty import exact, within
from optics.readings.readings import Judged, Reading
from optics.readings.spots import Spot
from optics.units import Leaves, format_length

Vector = NDArray[np.float64]
# What a leaf can be set to (mm); common practice, no source.
_LEAF = 0.01
# Less taken off a lean than a tenth of it is not worth four screws.
_HELPS = 0.9


def square_the_standard(
    camera: Camera, at_hand: AtHand, wanted: Mapping[str, float]
) -> Adjustment | Blocked:
    """Leaves under the low screws alone; what they lift the middle is left to the next step.

    From the drawer, where it is known, else in hundredths; refused where no leaves of the
    drawer would make the standard squarer.
    """
    del camera
    places = np.array(list(CORNERS.values())) * np.array(at_hand.standard_screws)
    slopes = np.array([wanted["tilt_x"], wanted["tilt_y"]])
    packs = _packs(places, slopes, at_hand.workshop.drawer)
    thick = np.array([pack.thickness for pack in packs])
    made = places.T @ thick / (places**2).sum(axis=0)
    if not thick.any() and np.ptp(places @ slopes) < _LEAF:
        return Blocked(TILT, "The standard is square within 0.01 mm: leave it alone.")
    if np.ptp(places @ (made - slopes)) > _HELPS * np.ptp(places @ slopes):
        return Blocked(
            TILT,
            "No leaves in the drawer make the standard squarer: thinner ones are needed.",
        )
    return _adjustment(places, packs, made)


def _packs(places: Vector, slopes: Vector, drawer: Leaves) -> Sequence[Pack]:
    """What goes under each screw, the lowest wanted leaf being none."""
    rise = places @ slopes
    if not any(count for _, count in drawer):
        leaves = np.round((rise - rise.min()) / _LEAF).astype(int).tolist()
        return [Pack(((_LEAF * number, 1),) if number else ()) for number in leaves]
    leaning = Plane(exact(0.0), exact(-float(slopes[0])), exact(-float(slopes[1])))
    screws = [Screw(float(x), float(y)) for x, y in places]
    mount = plan_shims(
        leaning, screws, moved=-float(rise.min()), drawer=drawer, near_enough=_LEAF / 2
    )
    return [shim.pack or Pack(()) for shim in mount.shims]


def _adjustment(places: Vector, packs: Sequence[Pack], slope: Vector) -> Adjustment:
    limit, why = _LEAF / 2, "shims under the standard"
    sway = limit / np.sqrt((places**2).sum(axis=0))
    middle = float(np.mean([pack.thickness for pack in packs]))
    named = {name: pack for name, pack in zip(CORNERS, packs, strict=True) if pack.leaves}
    said = (f"{_thickness(pack)} at the {name}{_of(pack)}" for name, pack in named.items())
    return Adjustment(
        cause=TILT,
        title="Standard",
        instruction=f"Put shims under the standard's screws: {', '.join(said)}, seen from the "
        "front.",
        changes={
            "tilt_x": within(float(slope[0]), float(sway[0]), why),
            "tilt_y": within(float(slope[1]), float(sway[1]), why),
            "seat": within(middle, limit / 2, why),
        },
        amounts=tuple((name.capitalize(), _thickness(pack)) for name, pack in named.items()),
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


def tilt_factor(camera: Camera, reading: Reading) -> float:
    """How much steeper than the standard the focus tilts: 1 + m for the lens, 1 for the gauge."""
    if reading.judged is Judged.BY_GAUGE:
        return 1.0
    return 1.0 + camera.magnification_at(reading.seen_at)


def _holds(camera: Camera, reading: Reading) -> Added:
    factor = tilt_factor(camera, reading)
    x, y = reading.taken.place
    return {"tilt_x": factor * x, "tilt_y": factor * y}


def _off_centre(taken: Taken) -> bool:
    return taken.is_off_centre


# A standard out of square leaves the middle alone.
TILT = Cause(
    name="tilt",
    in_jobs="standard",
    words="standard out of square",
    figures={
        "tilt_x": "standard, farther out at the right",
        "tilt_y": "standard, farther out at the top",
    },
    order=60,
    step=BenchStep.STANDARD,
    size=Lean(),
    prior=Prior(0.10, 0.0002, 0.002),
    spots=frozenset({Spot.GAUGE, Spot.STOP, Spot.INFINITY, Spot.NEAR}),
    shows=_off_centre,
    holds=_holds,
    tool="depth gauge, micrometer for the leaves",
    put_right=square_the_standard,
)
