"""What whoever reads the camera knows, or believes, of it: the figures that go into a job.

Mm. Engraved and guessed figures are off by what the camera says; told, they are those for which
the scale was cut, as well as they can be measured. Where the ground glass lies, what the follower
rides on and whether lever or cam joins it have no field in a job of version 1, and are not told.
"""

from dataclasses import dataclass, replace

import numpy as np

from optics.world.camera import TracedCamera
from optics.world.lens import Stand
from optics.world.scale import NewCellScale, NewScale

# How well each is known once it was measured (standard deviations; parts and mm).
_FOCAL, _CELL, _PLANES, _APART = 0.001, 0.005, 0.3, 5.0
# What the eye that sets the rangefinder's images tells apart (rad), and a screw's usual effect.
ZERO_TURN, NEAR_TURN = 0.20, 0.20


@dataclass(frozen=True)
class Typed:
    """The figures as they will be typed.

    `collimator` is how far it stood before the lens, None where that is not told; `tape` where
    the tape began, before the film.
    """

    focal_length: float
    hiatus: float
    lead: float
    cell: float
    cell_to_film: float
    collimator: float | None
    tape: float
    zero_turn: float = ZERO_TURN
    near_turn: float = NEAR_TURN

    @property
    def film_effect(self) -> float:
        """What 1 mm of the front cell is believed to do at the film, (f/f₁)²."""
        return (self.focal_length / self.cell) ** 2


def exactly(camera: TracedCamera) -> Typed:
    """Every figure as it truly is of the lens that the scale was cut for."""
    works = camera.build.works
    return _as_scaled(
        camera,
        Typed(
            focal_length=works.glass.focal_length,
            hiatus=works.glass.hiatus,
            lead=camera.build.lead,
            cell=works.glass.cell_focal_length,
            cell_to_film=works.first_face(Stand()) - works.glass.cell_plane,
            collimator=camera.unmodelled.collimator,
            tape=0.0,
        ),
    )


def typed(camera: TracedCamera, told: bool, chance: np.random.Generator) -> Typed:
    """The figures as a bench has them, told or not.

    Not told, focal lengths are as engraved and guessed, the hiatus is left at nothing, the
    collimator's place is left out, and the tape began where it did.
    """
    true, hidden = exactly(camera), camera.unmodelled
    off = [float(one) for one in chance.normal(0.0, 1.0, 5)]
    if told:
        found = replace(
            true,
            focal_length=true.focal_length * (1 + _FOCAL * off[0]),
            hiatus=true.hiatus + _PLANES * off[1],
            cell=true.cell * (1 + _CELL * off[2]),
            cell_to_film=true.cell_to_film + _PLANES * off[3],
            collimator=hidden.collimator + _APART * off[4],
        )
    else:
        found = replace(
            true,
            focal_length=true.focal_length * (1 + hidden.engraved),
            hiatus=0.0,
            lead=true.lead * (1 + hidden.lead),
            cell=true.cell * (1 + hidden.guessed),
            cell_to_film=true.cell_to_film + 4 * _PLANES * off[3],
            collimator=None,
            tape=hidden.tape,
        )
    return _as_scaled(camera, found)


def _as_scaled(camera: TracedCamera, typed: Typed) -> Typed:
    """A scale that was made anew says itself for which focal length."""
    match camera.new_scale:
        case NewScale(focal_length):
            return replace(typed, focal_length=focal_length)
        case NewCellScale(focal_length):
            return replace(typed, cell=focal_length)
    return typed
