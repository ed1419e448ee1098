"""Cameras drawn from a seed: which was built, what is wrong with it, what its bench does not know.

Chances and sizes are stated here and nowhere else; they are common experience, no source. A
seed gives the same camera for ever: draws are only ever added at the end.
"""

from dataclasses import replace

import numpy as np

from optics.world.build import Build, Faults, Unmodelled
from optics.world.camera import TracedCamera
from optics.world.coupling import Coupling
from optics.world.prescriptions import (
    DOUBLE_GAUSS,
    FAST_DOUBLE_GAUSS,
    SLOW_TRIPLET,
    TELEPHOTO,
    TRIPLET,
    TRIPLET_AND_CEMENTED_PAIR,
)
from optics.world.trace import Seen

_SMALL, _SQUARE, _LARGE = (36.0, 24.0), (56.0, 56.0), (84.0, 56.0)
_OSTRIN, _TARNBROOK = Coupling(41.0, 24.0, 0.6, 1000.0), Coupling(50.0, 30.0, 0.5, 1500.0)
_NEAR, _FARTHER = (3000.0, 1000.0), (4000.0, 1500.0)

BUILDS = (
    Build("Ostrin 35", TRIPLET_AND_CEMENTED_PAIR, "helicoid", 50.0, 4.0, 0.03, _SMALL, _NEAR,
          18.0, 6, _OSTRIN),
    Build("Ostrin 35", DOUBLE_GAUSS, "helicoid", 50.0, 2.8, 0.03, _SMALL, _NEAR, 18.0, 6, _OSTRIN),
    Build("Ostrin 35", FAST_DOUBLE_GAUSS, "helicoid", 50.0, 2.8, 0.03, _SMALL, _NEAR, 12.0, 6,
          _OSTRIN),
    Build("Corvane 6×6", TRIPLET, "front cell", 75.0, 4.0, 0.05, _SQUARE, _FARTHER, 9.0),
    Build("Corvane 6×6", SLOW_TRIPLET, "front cell", 80.0, 6.3, 0.05, _SQUARE, _FARTHER, 9.0),
    Build("Tarnbrook 6×9", TRIPLET_AND_CEMENTED_PAIR, "bed", 105.0, 4.5, 0.06, _LARGE, _FARTHER,
          coupling=_TARNBROOK),
    Build("Tarnbrook 6×9", TELEPHOTO, "bed", 150.0, 5.6, 0.06, _LARGE, (6000.0, 2500.0),
          coupling=replace(_TARNBROOK, near=2500.0)),
)  # fmt: skip

# Each fault's chance, how far a right part stands from its place, and how far a wrong one does
# (standard deviations; mm at the film, parts, slopes).
SIZES = {
    "seat": (0.25, 0.005, 0.12),
    "ring": (0.25, 0.010, 0.40),
    "stop": (0.15, 0.010, 0.30),
    "focal": (0.06, 0.001, 0.012),
    "gate": (0.12, 0.005, 0.08),
    "zero": (0.25, 0.010, 0.25),
    "gain": (0.12, 0.002, 0.04),
}
TILT = (0.12, 0.0002, 0.002)
WRONG_START, NOT_HOME, ANOTHER_CAM = 0.05, 0.06, 0.04
MOST_FAULTS = 5
_OF_THE_FINDER = {"zero", "gain"}


def draw(seed: int) -> TracedCamera:
    """The camera of a seed, with none to five faults."""
    chance = np.random.default_rng(seed)
    build = _coupled(BUILDS[seed % len(BUILDS)], chance)
    while True:
        faults, count = _faults(build, chance)
        if count <= MOST_FAULTS:
            return TracedCamera(build, faults, _unmodelled(build, chance))


def _coupled(build: Build, chance: np.random.Generator) -> Build:
    """Half of the finders on a thread have a straight lever, one of four a carriage's follower.

    Over a bed's long way a straight lever bows too far to be sold, so that beds have cams.
    """
    if build.coupling is None:
        return build
    is_lever, on_lens = chance.random(2) < (0.5, 0.75)
    coupling = replace(
        build.coupling,
        joined="lever" if is_lever and build.focusing != "bed" else "cam",
        follows="lens" if on_lens or build.focusing == "bed" else "carriage",
    )
    return replace(build, coupling=coupling)


def _faults(build: Build, chance: np.random.Generator) -> tuple[Faults, int]:
    """The faults, and how many there are."""
    count, sizes = 0, {}
    for name, (often, right, wrong) in SIZES.items():
        is_wrong = chance.random() < often
        size = float(chance.normal(0.0, wrong if is_wrong else right))
        if name in _OF_THE_FINDER and build.coupling is None:
            continue
        count += is_wrong
        # Ring and stop are drawn at the film; a cell moves less than what it does there.
        sizes[name] = size / (build.film_effect if name in ("ring", "stop") else 1.0)
    often, right, wrong = TILT
    leans = chance.random() < often
    slopes = chance.normal(0.0, wrong if leans else right, 2)
    wrong_start, not_home, another = chance.random(3) < (WRONG_START, NOT_HOME, ANOTHER_CAM)
    way = float(chance.choice((-1.0, 1.0)))
    off, part = float(chance.uniform(0.03, 0.15)), float(chance.uniform(0.015, 0.05))
    starts = int(way) if wrong_start and build.pitch else 0
    # Only a thread lets a cell stand out; screwed home it cannot go farther in.
    cell = off if not_home and build.focusing != "front cell" else 0.0
    cam = way * part if another and build.coupling and build.coupling.joined == "cam" else 0.0
    count += leans + sum(map(bool, (starts, cell, cam)))
    tilt = (float(slopes[0]), float(slopes[1]))
    return Faults(starts=starts, tilt=tilt, cell=cell, cam=cam, **sizes), int(count)


def _unmodelled(build: Build, chance: np.random.Generator) -> Unmodelled:
    """What nobody tells, as every bench has it."""

    def either(least: float, most: float) -> float:
        return float(chance.choice((-1.0, 1.0)) * chance.uniform(least, most))

    stopped_down, one_side, at_film = chance.random(3) < (0.25, 0.6, 0.88)
    eye = Seen(
        build.f_number * (2**0.5 if stopped_down else 1.0), float(chance.choice((6.0, 10.0, 16.0)))
    )
    hidden = Unmodelled(
        glass=either(0.02, 0.05),
        engraved=either(0.005, 0.02),
        guessed=either(0.05, 0.10),
        register=float(chance.normal(0.0, 0.01)),
        eye=eye,
        lost=float(chance.uniform(0.0, 0.03)),
        slack=float(chance.uniform(0.0, 0.02)),
        one_side=bool(one_side),
        collimator=float(chance.uniform(60.0, 600.0)),
        tape=0.0 if at_film else build.focal_length + float(chance.uniform(0.0, 25.0)),
        screws=(float(chance.normal(1.0, 0.1)), float(chance.normal(1.0, 0.1))),
        spill=float(chance.normal(0.0, 0.05)),
        hollow=float(chance.uniform(0.0, 0.08)),
        lead=float(chance.normal(0.0, 0.003)),
    )
    return replace(hidden, looks_aside=bool(chance.random() < 0.2))
