"""Two readings of one target in the rangefinder that cannot both be true.

The fit would share a slip out among zero, gain and curvature, and an adjuster would be turned for
it; so the pair is named before anything is turned.
"""

from dataclasses import dataclass
from itertools import combinations

from optics.camera.camera import Camera
from optics.measure.uncertainty import Estimate, chance_apart
from optics.rangefinder.acuity import Acuity
from optics.rangefinder.model import Rangefinder
from optics.rangefinder.readings import Coincidence, Reading, eyes_part
from optics.readings.kinds.coincidence import CoincidenceReading
from optics.units import format_distance, format_length


@dataclass(frozen=True)
class TargetContradiction:
    """Two coincidences of one target, how far apart they put the lens and how far they may; mm."""

    one: Coincidence
    other: Coincidence
    apart: Estimate
    allowed: float


def contradictions(
    camera: Camera, rangefinder: Rangefinder, acuity: Acuity, readings: tuple[Reading, ...]
) -> tuple[TargetContradiction, ...]:
    """The pairs of coincidences of one target that lie too far apart, the widest first.

    Equation: |e₁ − e₂| > k·u(e₁ − e₂), e the lens's error at the film where the images met, with
    tape, repeats and the eye's acuity in u, as `chance_apart`.
    Limits: one state of the rangefinder, before an adjuster is turned.
    """
    met = [one for one in readings if isinstance(one, Coincidence)]
    pairs = [p for p in combinations(met, 2) if p[0].true.value == p[1].true.value]
    errors = {
        id(one): CoincidenceReading(target=one.true, set_to=one.scale)
        .steps(camera)[-1]
        .result.plus(eyes_part(camera, rangefinder, acuity, one))
        for one in met
    }
    apart = [errors[id(one)].plus(errors[id(other)], -1.0) for one, other in pairs]
    compared = (
        TargetContradiction(*pair, far, chance_apart(far, len(pairs)))
        for pair, far in zip(pairs, apart, strict=True)
    )
    wrong = (pair for pair in compared if abs(pair.apart.value) > pair.allowed)
    return tuple(sorted(wrong, key=lambda pair: -abs(pair.apart.value)))


def contradiction_line(found: TargetContradiction) -> str:
    """What was read twice, both that the scale showed, and what to do before anything else."""
    target, first, second = (
        format_distance(one.value) for one in (found.one.true, found.one.scale, found.other.scale)
    )
    apart, allowed = (format_length(mm, places=3) for mm in (abs(found.apart.value), found.allowed))
    return (
        f"The target at {target} was read twice, and the two cannot both be true: the images met "
        f"with the lens scale at {first} and at {second}. They lie {apart} apart at the film, and "
        f"both ± together allow {allowed}. Take both again before an adjuster is turned."
    )
