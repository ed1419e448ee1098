"""What is supposed of a camera before it is measured: how often and how far parts go wrong.

All of it is data, to be read and changed. The sizes are the trade's classes: a wrong start is
millimetres, a slipped ring tenths, shims hundredths to tenths (common practice, no source);
the chances are the author's own guess and bear only on causes that the readings leave open.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from optics.camera.camera import Camera
from optics.finding.causes import ALL, NAMES, Cause, Prior, Steps, Vector, places


@dataclass(frozen=True)
class Priors:
    """Every cause's prior, and how many causes are looked for together.

    `steps` are those of each cause that goes by whole steps, each count of them as likely.
    """

    by_cause: Mapping[Cause, Prior]
    most_causes: int = 3
    steps: Mapping[Cause, Steps] = field(default_factory=dict)

    def spread(self, causes: Iterable[Cause]) -> Vector:
        """The standard deviation of each fault, (faults,), when these causes are at work."""
        at_work = set(causes)
        spread = np.zeros(len(NAMES))
        for cause, prior in self.by_cause.items():
            spread[places(cause)] = prior.wrong if cause in at_work else prior.usual
        return spread

    def step(self, cause: Cause) -> float:
        """The size (mm) of one step of a cause; 0 where it goes by no steps."""
        return self.steps[cause].size if cause in self.steps else 0.0

    def typical(self, cause: Cause) -> float:
        """How far off the cause usually puts its part: a whole step where it goes by steps."""
        return self.step(cause) or self.by_cause[cause].wrong

    def changed(self, cause: Cause, **figures: float) -> "Priors":
        """The same with one cause's figures changed."""
        by_cause = dict(self.by_cause)
        by_cause[cause] = replace(by_cause[cause], **figures)
        return replace(self, by_cause=by_cause)


def usual_priors(camera: Camera) -> Priors:
    """The default suppositions for a camera: of every cause that it can have."""
    # In the order of drawing: seeds of practice cameras that were given out hang on it.
    in_draw = sorted(ALL, key=lambda cause: cause.drawn)
    supposed = {cause: cause.supposed_of(camera) for cause in in_draw}
    by_cause = {cause: prior for cause, prior in supposed.items() if prior is not None}
    steps = {cause: cause.steps(camera) for cause in by_cause if cause.steps}
    return Priors(by_cause, steps=steps)
