"""Corrections to draw and to say, made by the real solver from a register reading."""

from optics.readings.correction import Correction
from optics.readings.kinds.register import RegisterPart
from optics.records.job import JobDocument, WorkshopPart
from optics.records.lantern_street import OSTRIN
from optics.records.solve import solve

NOMINAL = 28.8


def correction(
    error: float, limit: str = "0.005", *, name: str = OSTRIN.name, drawer: str = "0.05 × 9"
) -> Correction:
    """The correction of a lens that stands so far (mm) out; minus is too far in."""
    reading = RegisterPart(
        measured=f"{NOMINAL + error:.6f}", nominal=f"{NOMINAL}", instrument="other", limit=limit
    )
    job = JobDocument(
        camera=OSTRIN.model_copy(update={"name": name}),
        workshop=WorkshopPart(drawer=drawer),
        readings=(reading,),
    )
    (answer,) = solve(job).answers
    assert isinstance(answer, Correction)
    return answer
