"""What is supposed of a camera before it is measured: how often and how far parts go wrong.

All of it is data, to be read and changed. The sizes are the trade's classes: a wrong start is
millimetres, a slipped ring tenths, shims hundredths to tenths (common practice, no source);
the chances are the author's own guess and bear only on causes that the readings leave open.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from optics.camera.camera import Camera
from optics.errors import OutOfRange
from optics.finding.diagnosis.faults import NAMES, Cause, Vector, marked_focal, pitch_of


@dataclass(frozen=True)
class Prior:
    """One cause: its chance, and the standard deviation when the part is right and when wrong.

    `usual` is how nearly a sound part stands to where it should; `wrong` how far a faulty one
    is off. Both in the unit of the fault; every deviation normal about zero.
    """

    chance: float
    usual: float
    wrong: float

    def __post_init__(self) -> None:
        """Refuse what is no chance, or no size."""
        if not 0 < self.chance < 1:
            raise OutOfRange(
                f"The chance of a cause must lie between 0 and 1: got {self.chance:g}; "
                "enter how many of such cameras in all have it.",
                quantity="chance",
                value=self.chance,
            )
        if not 0 <= self.usual <= self.wrong:
            raise OutOfRange(
                f"A part that is right must be nearer its place than one that is wrong: got "
                f"{self.usual:g} and {self.wrong:g}; enter the smaller first.",
                quantity="usual",
                value=self.usual,
                limit=self.wrong,
            )


_SIZES: dict[Cause, Prior] = {
    Cause.SEAT: Prior(0.20, 0.005, 0.10),
    Cause.START: Prior(0.05, 0.0, 0.0),
    Cause.RING: Prior(0.20, 0.010, 0.40),
    Cause.STOP: Prior(0.15, 0.010, 0.30),
    Cause.TILT: Prior(0.10, 0.0002, 0.002),
    Cause.GATE: Prior(0.10, 0.005, 0.08),
    Cause.ZERO: Prior(0.20, 0.010, 0.25),
    Cause.GAIN: Prior(0.10, 0.002, 0.04),
}
# Focal lengths as a part of the marked one: makers sort to about a thousandth, and a lens from
# elsewhere is off by a hundredth (common practice, no source).
_FOCAL = Prior(0.08, 0.001, 0.012)


@dataclass(frozen=True)
class Priors:
    """Every cause's prior, and how many causes are looked for together.

    The number of thread starts a helicoid may be off is one of `starts`, each as likely.
    """

    by_cause: Mapping[Cause, Prior]
    most_causes: int = 3
    starts: tuple[int, ...] = ()
    pitch: float = 0.0

    def spread(self, causes: Iterable[Cause]) -> Vector:
        """The standard deviation of each fault when these causes are at work."""
        at_work = set(causes)
        spread = np.zeros(len(NAMES))
        for cause, prior in self.by_cause.items():
            spread[cause.places] = prior.wrong if cause in at_work else prior.usual
        return spread

    def typical(self, cause: Cause) -> float:
        """How far off the cause usually puts its part: a whole pitch for a start."""
        return self.pitch if cause is Cause.START else self.by_cause[cause].wrong

    def changed(self, cause: Cause, **figures: float) -> "Priors":
        """The same with one cause's figures changed."""
        by_cause = dict(self.by_cause)
        by_cause[cause] = replace(by_cause[cause], **figures)
        return replace(self, by_cause=by_cause)


def usual_priors(camera: Camera) -> Priors:
    """The default suppositions for a camera; a start can be wrong on a threaded lens alone."""
    marked = marked_focal(camera)
    by_cause = dict(_SIZES)
    by_cause[Cause.FOCAL] = Prior(_FOCAL.chance, _FOCAL.usual * marked, _FOCAL.wrong * marked)
    pitch = pitch_of(camera)
    if not pitch:
        del by_cause[Cause.START]
        return Priors(by_cause)
    most = getattr(camera.focusing, "starts", 1) - 1
    starts = tuple(k for k in range(-most, most + 1) if k)
    return Priors(by_cause, starts=starts, pitch=pitch)
