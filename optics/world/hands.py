"""A plan's steps done on a traced camera by a pair of hands, which miss what they set.

A plan comes as the result that `shimwright solve --json` prints: `changes` say what each step
adds, in mm at the film, slopes, or a part of the follower's way. What hands can do is to turn a
thread, put in leaves, push a stop or turn a screw; so each change goes back, by the figures that
were typed, to how far that is, and does on the camera what it does there.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from optics.errors import Unreadable
from optics.world.camera import TracedCamera
from optics.world.document import SCREWS
from optics.world.scale import NewCellScale, NewScale
from optics.world.typed import Typed

Step = Mapping[str, Any]


@dataclass(frozen=True)
class Hands:
    """How far a hand misses what it sets: limits either way (mm; of a screw, in turns).

    `leaf` is what a pack of leaves is off, `turn` what a ring or cell is, by a third of a degree,
    as a part of a turn.
    """

    leaf: float = 0.008
    turn: float = 0.35 / 360
    stop: float = 0.02
    film: float = 0.012
    screw: float = 1 / 24
    scale: float = 0.05


STEADY = Hands(0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
"""What nobody has: hands that never miss."""


@dataclass
class _Work:
    camera: TracedCamera
    typed: Typed
    hands: Hands
    chance: np.random.Generator

    def miss(self, limit: float) -> float:
        """How far a hand misses this time."""
        return float(self.chance.uniform(-limit, limit))

    def add(self, **more: float) -> None:
        """Move a fault by so much."""
        now = self.camera.faults
        self.camera = self.camera.with_faults(
            **{name: getattr(now, name) + by for name, by in more.items()}
        )

    @property
    def focused_by(self) -> float:
        """What focuses, for 1 mm at the film, by the figures that were typed."""
        return 1 / self.typed.film_effect if self.camera.lens.front_cell else 1.0

    @property
    def slip(self) -> float:
        """What a hand misses on a thread, or with a pointer on a bed."""
        build = self.camera.build
        return self.hands.film if build.focusing == "bed" else self.hands.turn * build.lead


def carry_out(
    camera: TracedCamera, result: Step, typed: Typed, hands: Hands, chance: np.random.Generator
) -> TracedCamera:
    """Do every step of a result's plan, in its order.

    Errors: Unreadable for a change that no hand knows how to make.
    """
    work = _Work(camera, typed, hands, chance)
    for step in result["diagnosis"]["plan"]["steps"]:
        changes = {name: float(change["value"]) for name, change in step["changes"].items()}
        if "tilt_x" in changes:
            _square(work, changes)
            continue
        for name, change in changes.items():
            if name not in _DONE:
                raise Unreadable(
                    f"No hand would know what to do: got a change of {name!r}; say which part.",
                    quantity="changes",
                    value=name,
                )
            _DONE[name](work, change)
    return work.camera


def _seat(work: _Work, change: float) -> None:
    work.add(seat=change + work.miss(work.hands.leaf))


def _start(work: _Work, change: float) -> None:
    starts = work.camera.faults.starts + round(change / work.camera.build.pitch)
    work.camera = work.camera.with_faults(starts=starts)


def _ring(work: _Work, change: float) -> None:
    # The thread is turned by an angle worked out from the lead that was typed.
    true = work.camera.build.lead / work.typed.lead
    work.add(ring=change * work.focused_by * true + work.miss(work.slip))


def _stop(work: _Work, change: float) -> None:
    work.add(stop=change * work.focused_by + work.miss(work.hands.stop * work.focused_by))


def _gate(work: _Work, change: float) -> None:
    work.add(gate=change + work.miss(work.hands.film))


def _square(work: _Work, changes: Mapping[str, float]) -> None:
    """Leaves under the standard's four screws, each a little off."""
    at_screws = np.array(
        [[1.0, x * SCREWS[0] / 2, y * SCREWS[1] / 2] for x in (-1, 1) for y in (-1, 1)]
    )
    packs = at_screws @ [changes.get("seat", 0.0), changes["tilt_x"], changes["tilt_y"]]
    packs = packs + work.chance.uniform(-work.hands.leaf, work.hands.leaf, 4)
    raised, right, top = np.linalg.lstsq(at_screws, packs, rcond=None)[0]
    leans = work.camera.faults.tilt
    work.add(seat=float(raised))
    tilt = (leans[0] + float(right), leans[1] + float(top))
    work.camera = work.camera.with_faults(tilt=tilt)


def _scale(work: _Work, change: float) -> None:
    """A new scale for another focal length than was typed, printed a little long or short."""
    typed, off = work.typed, work.miss(work.hands.scale)
    scale = (
        NewCellScale(typed.cell - change + off, typed.cell_to_film)
        if work.camera.lens.front_cell
        else NewScale(typed.focal_length - change + off, typed.hiatus)
    )
    work.camera = replace(work.camera, new_scale=scale)


def _zero(work: _Work, change: float) -> None:
    turns = change / work.typed.zero_turn + work.miss(work.hands.screw)
    work.add(zero=turns * work.typed.zero_turn * work.camera.unmodelled.screws[0])


def _gain(work: _Work, change: float) -> None:
    """The near screw, some of whose work shows at infinity."""
    camera = work.camera
    near = camera.build.works.needs(camera.build.marks[1])
    turns = change * near / work.typed.near_turn + work.miss(work.hands.screw)
    done = turns * work.typed.near_turn * camera.unmodelled.screws[1]
    work.add(gain=done / near, zero=done * camera.unmodelled.spill)


_DONE: dict[str, Callable[[_Work, float], None]] = {
    "seat": _seat,
    "start": _start,
    "ring": _ring,
    "stop": _stop,
    "gate": _gate,
    "focal": _scale,
    "zero": _zero,
    "gain": _gain,
}
