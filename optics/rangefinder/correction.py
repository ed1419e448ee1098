"""What is wrong with a coupling as read, in angle and in extension."""

from dataclasses import dataclass

from optics.measure.uncertainty import Estimate, exact
from optics.rangefinder.coupling import Coupling
from optics.rangefinder.fit import Fit

# A gain out by as much has a cause that no adjuster's range serves (common practice, no source).
NO_ADJUSTERS_JOB = 0.1


@dataclass(frozen=True)
class CouplingChange:
    """What is to be changed so that the coupling becomes the wanted one.

    `zero` (rad) and `gain_ratio` (parts of the wanted gain) are the changes to make, wanted
    less found; `far` and `near` the film errors (mm, + too far out) that are to vanish at the
    two distances the wanted coupling is exact at.
    """

    zero: Estimate
    gain_ratio: Estimate
    near_angle: Estimate
    far: Estimate
    near: Estimate

    @property
    def is_gain_far_out(self) -> bool:
        """Whether the gain is out by a tenth or more, and more than its own uncertainty."""
        return is_far_out(self.gain_ratio)


def is_far_out(gain: Estimate) -> bool:
    """Whether a gain (as a part of the right one) is out by too much for an adjuster."""
    return abs(gain.value) >= max(NO_ADJUSTERS_JOB, gain.expanded)


def correct(found: Fit, wanted: Coupling, far: float, near: float) -> CouplingChange:
    """The changes that turn the coupling found into the one wanted.

    `far` and `near` are the film distances (mm) at which the rangefinder is to be set;
    `near_angle` (rad) is by how much the gain alone must change the angle at the near one.
    """
    zero = exact(wanted.zero).plus(found.zero, -1.0)
    gain = exact(wanted.gain).plus(found.gain, -1.0)
    return CouplingChange(
        zero=zero,
        gain_ratio=exact(0.0).plus(gain, 1 / wanted.gain),
        near_angle=exact(0.0).plus(gain, found.extension(near)),
        far=found.film_error(far),
        near=found.film_error(near),
    )
