"""One fault moved on purpose: what every reading would become, in its own unit."""

from dataclasses import dataclass

from optics.errors import ShimwrightError
from optics.finding.causes import AT
from optics.finding.diagnosis.diagnose import Diagnosis
from optics.finding.diagnosis.faults import Faults
from optics.finding.diagnosis.forward import predict
from optics.readings.readings import Reading

# Less than half the last figure shown (mm at the film).
_UNSEEN = 0.0005


@dataclass(frozen=True)
class WouldShow:
    """A reading as it was taken, and what it would show before and after the move.

    `errors` are the focus errors (mm at the film) before and after; `shown` the readings' own
    figures, as `predict` gives them, None where nothing would be sharp.
    """

    reading: Reading
    errors: tuple[float, float]
    shown: tuple[float | None, float | None]

    @property
    def is_moved(self) -> bool:
        """Whether the fault shows in this reading."""
        return abs(self.errors[1] - self.errors[0]) >= _UNSEEN


def what_if(diagnosis: Diagnosis, fault: str, amount: float) -> tuple[WouldShow, ...]:
    """What each reading would show if so much were added to one fault of the leading causes.

    `fault` is a name of `Faults`, `amount` in its unit: mm at the film, rad for a slope, a part
    of the extension for the gain. Limits: those of `predict`.
    """
    now = diagnosis.left.means[0]
    moved = now.copy()
    moved[AT[fault]] += amount
    seen = diagnosis.seen
    # Differences of a few micrometres count here, so both come from the one straight model; what
    # an instrument would show is foretold by the full one.
    before, after = (seen.straight.errors(faults) for faults in (now, moved))
    return tuple(
        WouldShow(
            reading,
            (float(one), float(other)),
            (
                _shown(diagnosis, Faults.of(now), reading),
                _shown(diagnosis, Faults.of(moved), reading),
            ),
        )
        for reading, one, other in zip(seen.readings, before, after, strict=True)
    )


def _shown(diagnosis: Diagnosis, faults: Faults, reading: Reading) -> float | None:
    try:
        return predict(diagnosis.camera, faults, reading)
    except ShimwrightError:
        return None
