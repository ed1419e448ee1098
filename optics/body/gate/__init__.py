"""The film gate: where the emulsion lies, and what that leaves of the tolerance."""

from optics.body.gate.emulsion import Gate, GateResult, Plate, against_plate, in_back, measure_gate
from optics.body.gate.films import FILMS, HOLDER_SLOT, HOLDERS, Film, Holder

__all__ = [
    "FILMS",
    "HOLDERS",
    "HOLDER_SLOT",
    "Film",
    "Gate",
    "GateResult",
    "Holder",
    "Plate",
    "against_plate",
    "in_back",
    "measure_gate",
]
