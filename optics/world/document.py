"""A round of readings as a job document of version 1: plain text, as it would be typed."""

import math
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import Any

from optics.world.bench import COLLIMATOR, RULER_SLOPE, Bench
from optics.world.build import Place
from optics.world.camera import TracedCamera
from optics.world.lens import Stand
from optics.world.typed import Typed

DRAWER = "0.02 × 8; 0.03 × 6; 0.05 × 6; 0.1 × 6; 0.2 × 4"
EXTENDS = "counter-clockwise"
# Where a gauge is set down off the middle, and half of what parts the standard's screws (mm).
GAUGED_AT: tuple[Place, ...] = ((20.0, 15.0), (-20.0, 15.0), (-20.0, -15.0), (20.0, -15.0))
SCREWS = (50.0, 40.0)
_NEARER = (math.inf, 30e3, 10e3, 5e3)


def job(bench: Bench, typed: Typed, careful: bool) -> dict[str, Any]:
    """The camera described, read round, and asked to be weighed together.

    A careful round gauges the corners too, reads the stop and every mark, tests on film and
    meets the finder's images at three distances; a usual one leaves corners, film, the farther
    mark and the finder's middle out.
    """
    camera = bench.camera
    build = camera.build
    whole: dict[str, Any] = {
        "format": "shimwright job",
        "version": 1,
        "title": build.name,
        "camera": _described(camera, typed),
        "marks": [_distance(mark) for mark in build.marks],
        "workshop": {"drawer": DRAWER},
        "readings": [*_readings(bench, typed, careful)],
        "diagnosis": {
            "picture": f"{build.frame[0]:g} × {build.frame[1]:g}",
            "standard_screws": f"{SCREWS[0]:g} × {SCREWS[1]:g}",
        },
    }
    finder = _finder(bench, careful)
    if finder is not None:
        whole["rangefinder"] = finder
        whole["diagnosis"] |= {
            "infinity_screw": _mm(typed.zero_turn),
            "near_screw": _mm(typed.near_turn),
        }
    return whole


def _described(camera: TracedCamera, typed: Typed) -> dict[str, Any]:
    build = camera.build
    focusing: dict[str, Any] = {"kind": build.focusing}
    if build.focusing != "bed":
        focusing |= {"lead": _mm(typed.lead), "extends": EXTENDS}
    if build.focusing == "helicoid":
        focusing["starts"] = str(build.starts)
    if build.focusing == "front cell":
        focusing |= {
            "group_focal_length": _mm(typed.cell),
            "cell_to_film": _mm(typed.cell_to_film),
        }
    return {
        "name": build.name,
        "lens": {
            "focal_length": _mm(typed.focal_length),
            "full_aperture": f"f/{build.f_number:g}",
            "hiatus": _mm(typed.hiatus),
        },
        "focusing": focusing,
        "circle_of_confusion": _mm(build.confusion),
    }


def _readings(bench: Bench, typed: Typed, careful: bool) -> Iterator[dict[str, Any]]:
    camera, habits = bench.camera, bench.habits
    register = round(camera.lens.home, 2)
    for place in ((0.0, 0.0), *(GAUGED_AT if careful else ())):
        yield {
            "kind": "register",
            "measured": "; ".join(map(_mm, bench.gauged(place, register))),
            "nominal": _mm(register),
            "limit": _mm(habits.gauge),
            "place": f"{place[0]:g}, {place[1]:g}",
        }
    infinity: list[tuple[Callable[[float], Stand], dict[str, str]]] = [
        (camera.at_stop, {"where": "at the stop"}),
        (partial(bench.camera.at_mark, math.inf), {}),
    ]
    if careful:
        infinity.append((infinity[1][0], {"judged": "on film"}))
    for stand, taken in infinity:
        found = _at_infinity(bench, typed, stand, taken)
        if found is not None:
            yield found
    yield from _near(bench, careful)
    if careful and camera.unmodelled.looks_aside:
        yield from _aside(bench, typed)


def _aside(bench: Bench, typed: Typed) -> Iterator[dict[str, Any]]:
    """At the ∞ mark, towards two corners that face each other."""
    x, y = (round(0.7 * side / 2) for side in bench.camera.build.frame)
    for place in ((x, y), (-x, -y)):
        named = {"place": f"{place[0]}, {place[1]}"}
        found = _at_infinity(bench, typed, partial(bench.camera.at_mark, math.inf), named)
        if found is not None and found["kind"] == "collimator":
            yield found


def _at_infinity(
    bench: Bench, typed: Typed, stand: Callable[[float], Stand], taken: dict[str, str]
) -> dict[str, Any] | None:
    """By collimator; beyond its reach by turning, which a film cannot tell nor a bed do."""
    on_film = "judged" in taken
    x, _, y = taken.get("place", "0, 0").partition(", ")
    shifts = bench.reticle(stand, on_film, (float(x), float(y)))
    if shifts is not None:
        apart = {} if typed.collimator is None else {"to_lens": _mm(typed.collimator)}
        return {
            "kind": "collimator",
            "shift": "; ".join(map(_mm, shifts)),
            "limit": _mm(bench.habits.slide),
            "collimator_focal_length": _mm(COLLIMATOR),
            **apart,
            **taken,
        }
    if on_film or bench.camera.build.focusing == "bed":
        return None
    return {
        "kind": "rotation",
        "turned": "; ".join(f"{math.degrees(angle):.2f}" for angle in bench.turned(stand)),
        "sense": EXTENDS,
        "limit": f"{math.degrees(bench.habits.angle):g}",
        **taken,
    }


def _near(bench: Bench, careful: bool) -> Iterator[dict[str, Any]]:
    camera = bench.camera
    for mark in camera.build.marks if careful else camera.build.marks[1:]:
        sharp = bench.sharp(partial(camera.at_mark, mark))
        if sharp is not None:
            yield {
                "kind": "mark",
                "mark": _distance(mark),
                "sharp_at": "; ".join(map(_distance, sharp)),
                "limit": _mm(bench.habits.tape),
            }
    aim = camera.build.marks[1]
    offsets = bench.along_ruler(camera.at_mark(aim), aim) if careful else None
    if offsets is not None:
        yield {
            "kind": "ruler",
            "mark": _distance(aim),
            "aim": _distance(aim),
            "offset": "; ".join(map(_mm, offsets)),
            "slope": f"{math.degrees(RULER_SLOPE):g}°",
            "limit": _mm(bench.habits.tape),
        }


def _finder(bench: Bench, careful: bool) -> dict[str, Any] | None:
    """The finder and where its images met: as far away as the ring shows it, and near."""
    build, coupling = bench.camera.build, bench.camera.build.coupling
    if coupling is None:
        return None
    wanted: Sequence[Sequence[float]] = [_NEARER, *((m,) for m in build.marks[not careful :])]
    pairs = []
    for targets in wanted:
        read = ((target, bench.met(target)) for target in targets)
        for target, shown in read:
            if shown is not None:
                told = _distance(target - bench.tape)
                pairs.append(f"{told} = {'; '.join(map(_distance, shown))}")
                break
    if not pairs:
        return None
    return {
        "base": _mm(coupling.base),
        "base_to_film": _mm(coupling.before_film),
        "magnification": f"{coupling.magnification:g}",
        "near_end": _distance(build.marks[1]),
        "pairs": "; ".join(pairs),
        "tape": _mm(bench.habits.tape),
    }


def _mm(value: float) -> str:
    return f"{value:.3f} mm"


def _distance(mm: float) -> str:
    if math.isinf(mm):
        return "inf"
    # A tape is read to a millimetre, a scale far out to a hundredth of a metre at best.
    return f"{mm / 1000:.2f} m" if mm >= 10e3 else f"{mm / 1000:.3f} m"
