"""What an eye adds to a reading that it made once: the blur that it does not see.

Several tries scatter as the eye does, and speak for themselves. One try has no scatter of its
own, and without the eye's blur its ± would be that of tape or protractor alone, which are far
finer. Everything that asks how well a reading is known asks here, so that a reading has the
same ± wherever it is shown.
"""

import math

from optics.camera.camera import SEEN_PART, Camera
from optics.measure.uncertainty import Estimate, Source, exact, within
from optics.readings.readings import Judged, Reading


def eyes_blur(reading: Reading, camera: Camera) -> Estimate:
    """What the eye adds to a reading's focus error (mm at the film); nothing to one by gauge.

    Equation: rectangular within ± N·c/4, or ± N times the blur that the camera's description
    says is seen. Tries that all came out alike have shown no scatter, and count as one.
    """
    if reading.judged is not Judged.BY_EYE or _has_scatter(reading.steps(camera)[-1].result):
        return exact(0.0)
    return within(0.0, camera.alike_to_the_eye, f"the eye's blur, {said_rule(camera)}, tried once")


def focus_error(reading: Reading, camera: Camera) -> Estimate:
    """A reading's focus error with all that is known to bear on it, the eye's blur too."""
    return reading.steps(camera)[-1].result.plus(eyes_blur(reading, camera))


def said_rule(camera: Camera) -> str:
    """The rule for the blur in letters: N·c/4, or N times the blur stated."""
    return f"N·c/{1 / SEEN_PART:g}" if camera.seen_blur is None else "N times the blur stated"


def _has_scatter(error: Estimate) -> bool:
    return any(_is_scatter(source) for source in error.parts)


def _is_scatter(source: Source) -> bool:
    """Only repeats are known with a limited number of degrees of freedom."""
    return math.isfinite(source.dof)
