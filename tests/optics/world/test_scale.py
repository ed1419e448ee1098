"""What is engraved, against focusing worked by hand."""

import math

import pytest

from optics.world.draw import BUILDS
from optics.world.scale import NewCellScale, NewScale, WorksScale


# D = 2f + h + x + f²/x: 180 + 10 + 810, 270 + 15 + 1215, 100 + 2.7864 + 897.2136.
@pytest.mark.parametrize(
    ("focal_length", "distance", "out"),
    [(90.0, 1000.0, 10.0), (135.0, 1500.0, 15.0), (50.0, 1000.0, 2.7864)],
)
def test_a_new_scale(focal_length: float, distance: float, out: float) -> None:
    """A lens without hiatus is marked where it must stand, and infinity at nothing."""
    scale = NewScale(focal_length, 0.0)
    assert scale.out(distance) == pytest.approx(out, abs=5e-5)
    assert scale.mark_at(scale.out(distance)) == pytest.approx(distance, rel=1e-12)
    assert (scale.out(math.inf), scale.mark_at(0.0)) == (0.0, math.inf)


def test_a_new_scale_for_a_front_cell() -> None:
    """A cell of 50 mm, 2 mm out and then 102 mm from the film, is marked 1402 mm."""
    # From the cell: 50 + 50²/2 = 1300; with the cell 100 mm from the film at infinity, 1402.
    scale = NewCellScale(50.0, 100.0)
    assert scale.mark_at(2.0) == pytest.approx(1402.0, abs=1e-9)
    assert scale.out(1402.0) == pytest.approx(2.0, abs=1e-12)
    assert (scale.out(math.inf), scale.mark_at(0.0)) == (0.0, math.inf)


@pytest.mark.parametrize("build", BUILDS, ids=lambda one: f"{one.name}, {one.prescription.kind}")
def test_the_works_scale_reads_back(build) -> None:  # type: ignore[no-untyped-def]
    """What the works engraved for a distance is read as that distance."""
    scale = WorksScale(build.works)
    for mark in build.marks:
        assert scale.mark_at(scale.out(mark)) == pytest.approx(mark, rel=1e-8)
