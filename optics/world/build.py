"""How a camera was built, what is wrong with it, and what its bench does not know.

Sizes in mm; a fault's plus is too far out (a film's: farther from the lens). Nothing here is
supposed by whoever reads the camera, and no figure of theirs is used.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from optics.world.coupling import Coupling
from optics.world.glass import glass_of
from optics.world.lens import Lens
from optics.world.prescriptions import Prescription
from optics.world.trace import Seen

Place = tuple[float, float]


@dataclass(frozen=True)
class Build:
    """The camera as the works built it; `focal_length` is that of their usual lens."""

    name: str
    prescription: Prescription
    focusing: Literal["helicoid", "front cell", "bed"]
    focal_length: float
    f_number: float
    confusion: float
    frame: tuple[float, float]
    marks: tuple[float, float]
    lead: float = 18.0
    starts: int = 1
    coupling: Coupling | None = None

    @cached_property
    def works(self) -> Lens:
        """The usual lens, for which scale and cam are cut."""
        return self.lens(self.focal_length)

    def lens(self, focal_length: float) -> Lens:
        """The same lens of another focal length."""
        glass = glass_of(self.prescription).scaled(focal_length)
        return Lens(glass, self.f_number, self.focusing == "front cell")

    @property
    def tolerance(self) -> float:
        """Half the depth of focus, N·c/2."""
        return self.f_number * self.confusion / 2

    @property
    def pitch(self) -> float:
        """What one thread start shifts."""
        return self.lead / self.starts if self.starts > 1 else 0.0

    @property
    def film_effect(self) -> float:
        """What 1 mm of what focuses does at the film, by the works' figures."""
        return self.works.cell_effect if self.works.front_cell else 1.0

    @property
    def corners(self) -> dict[str, Place]:
        """The picture's corners, seen from the front."""
        x, y = self.frame[0] / 2, self.frame[1] / 2
        return {
            "top right": (x, y),
            "top left": (-x, y),
            "bottom left": (-x, -y),
            "bottom right": (x, -y),
        }


@dataclass(frozen=True)
class Faults:
    """What is wrong; all 0 is a camera that is right.

    `ring` and `stop` are mm of what focuses; `focal` is a part of the focal length, `gain` of the
    follower's way; `starts` are whole; `tilt` two slopes, out at the right and at the top; `cell`
    is a front cell not screwed home (mm of cell); `cam` the focal length that another lens's cam
    was cut for, as a part more.
    """

    seat: float = 0.0
    starts: int = 0
    ring: float = 0.0
    stop: float = 0.0
    focal: float = 0.0
    tilt: tuple[float, float] = (0.0, 0.0)
    gate: float = 0.0
    zero: float = 0.0
    gain: float = 0.0
    cell: float = 0.0
    cam: float = 0.0


@dataclass(frozen=True)
class Unmodelled:
    """What a bench has and nobody tells; as it stands here there is nothing of it.

    `glass` is how far behind the rails the ground side lies; `engraved` and `guessed` how far the
    engraved focal length and the guessed one of the front cell are off, as a part; `register` how
    far the published register is; `eye` how sharpness is judged on the ground glass; `lost` and
    `slack` the whole lost motion of thread and of coupling; `one_side` whether the hand always
    comes from the same side; `collimator` how far before the glass the collimator stands;
    `tape` where the tape began, before the film; `screws` what the rangefinder's two screws do
    for what is said of them; `spill` what part of the near screw's work shows at infinity;
    `hollow` what part of the Petzval sag is left at the corners, and `looks_aside` whether a
    careful bench also looks there on the glass; `lead` how far the lead that is told is off, as a
    part.
    """

    glass: float = 0.0
    engraved: float = 0.0
    guessed: float = 0.0
    register: float = 0.0
    eye: Seen | None = None
    lost: float = 0.0
    slack: float = 0.0
    one_side: bool = True
    collimator: float = 300.0
    tape: float = 0.0
    screws: tuple[float, float] = (1.0, 1.0)
    spill: float = 0.0
    hollow: float = 0.0
    lead: float = 0.0
    looks_aside: bool = False
