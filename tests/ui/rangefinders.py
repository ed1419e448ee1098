"""Rangefinders worked out from what is typed, for the panels and drawings."""

from optics.rangefinder.part import RangefinderPart, RoundPart
from optics.rangefinder.set_up import SetUp
from optics.records.job import JobDocument
from optics.records.lantern_street import OSTRIN
from optics.records.solve import solve

RIGHT = "∞ = ∞; 1 m = 1"


def set_up_from(pairs: str, *rounds: RoundPart, base: str = "41", near_end: str = "0.9") -> SetUp:
    """Set the Ostrin's rangefinder up from its readings."""
    part = RangefinderPart(
        base=base,
        base_to_film="24",
        magnification="0.6",
        near_end=near_end,
        pairs=pairs,
        rounds=rounds,
    )
    found = solve(JobDocument(camera=OSTRIN, rangefinder=part)).set_up
    assert found is not None
    return found
