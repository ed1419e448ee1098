"""What is supposed of a camera before it is measured: how often and how far parts go wrong.

All of it is data, to be read and changed. The sizes are the trade's classes: a wrong start is
millimetres, a slipped ring tenths, shims hundredths to tenths (common practice, no source);
the chances are the author's own guess and bear only on causes that the readings leave open.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from optics.camera.camera import Camera
from optics.camera.true_lens import pitch_of
from optics.finding.causes import ALL, NAMES, Cause, Prior, Vector, places
from optics.finding.causes.start import START


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
            spread[places(cause)] = prior.wrong if cause in at_work else prior.usual
        return spread

    def typical(self, cause: Cause) -> float:
        """How far off the cause usually puts its part: a whole pitch for a start."""
        return self.pitch if cause is START else self.by_cause[cause].wrong

    def changed(self, cause: Cause, **figures: float) -> "Priors":
        """The same with one cause's figures changed."""
        by_cause = dict(self.by_cause)
        by_cause[cause] = replace(by_cause[cause], **figures)
        return replace(self, by_cause=by_cause)


def usual_priors(camera: Camera) -> Priors:
    """The default suppositions for a camera: of every cause that it can have."""
    in_draw = sorted(ALL, key=lambda cause: cause.drawn)
    supposed = {cause: cause.supposed_of(camera) for cause in in_draw}
    by_cause = {cause: prior for cause, prior in supposed.items() if prior is not None}
    pitch = pitch_of(camera)
    if not pitch:
        return Priors(by_cause)
    most = getattr(camera.focusing, "starts", 1) - 1
    starts = tuple(k for k in range(-most, most + 1) if k)
    return Priors(by_cause, starts=starts, pitch=pitch)
