"""The circle of confusion behind a depth scale, on rings drawn by the rule of three."""

import math

import numpy as np
import pytest

from optics.camera.camera import Bed, Camera, Lens
from optics.camera.confusion import FORMATS, conventions
from optics.camera.stops import Stops
from optics.errors import NoAnswer, OutOfRange
from optics.scales.depth_marks import infer_confusion
from optics.scales.ring_marks import measure_depth
from optics.scales.scale_layout import depth_row
from tests.optics.scales.rings import CORVANE, DEGREE, OSTRIN

STOPS = (4.0, 5.6, 8.0, 11.0, 16.0)
# What the marks count as: 4√2 for f/5.6 and 8√2 for f/11.
EXACT = {4.0: 4.0, 5.6: 5.656854249492381, 8.0: 8.0, 11.0: 11.313708498984761, 16.0: 16.0}
LIMIT = 0.1 * DEGREE
# A turn of 18 mm for 360°: at f/8 and 0.03 mm the lens moves 0.24 mm, 4.8°.
PER_STOP = 0.6 * DEGREE


def test_the_maker_s_circle_of_confusion_comes_back() -> None:
    """Marks 0.6° for each f-number on a lead of 18 mm were made for 0.03 mm."""
    found = infer_confusion(
        OSTRIN, measure_depth(STOPS, [[PER_STOP * EXACT[stop]] for stop in STOPS], LIMIT)
    )
    assert found.value.value == pytest.approx(0.03, rel=1e-9)
    assert found.chi_square < 1e-9
    assert found.dof == 4


def test_a_scale_drawn_here_is_found_again() -> None:
    """Marks measured on a scale of the bench's own give its circle, not 1 to 3 % beside it."""
    row = depth_row(OSTRIN, 50.0)
    marks = measure_depth([m.marked for m in row.marks], [[m.angle] for m in row.marks], LIMIT)
    found = infer_confusion(OSTRIN, marks)
    assert found.value.value == pytest.approx(OSTRIN.circle_of_confusion, rel=1e-9)
    # f/11 alone, taken as engraved: 0.03 · 11.3137/11.
    alone = infer_confusion(OSTRIN, measure_depth([11.0], [[6.788225 * DEGREE]], LIMIT))
    assert alone.value.value == pytest.approx(0.03, rel=1e-5)
    assert alone.as_engraved == pytest.approx(0.030856, abs=5e-7)
    as_marked = infer_confusion(OSTRIN, marks, Stops.MARKED)
    assert as_marked.value.value == as_marked.as_engraved


def test_a_front_cell_s_marks_stand_closer() -> None:
    """A cell needs only (51/75)² of the movement: on a lead of 9 mm, 0.9249° for each stop."""
    # c 0.05 mm: 360° × 0.05/9 × (51/75)² = 0.92480°
    readings = [[0.92480 * DEGREE * EXACT[stop]] for stop in STOPS]
    found = infer_confusion(CORVANE, measure_depth(STOPS, readings, LIMIT))
    assert found.value.value == pytest.approx(0.05, rel=1e-5)


def test_one_pair_of_marks_gives_a_figure_without_a_test() -> None:
    """A single aperture gives the circle of confusion, and nothing to compare it with."""
    found = infer_confusion(OSTRIN, measure_depth((8.0,), [[4.8 * DEGREE]], LIMIT))
    assert found.value.value == pytest.approx(0.03)
    # The limit of 0.1° in 4.8°, as a rectangular one.
    assert found.value.standard == pytest.approx(0.03 * 0.1 / 4.8 / math.sqrt(3), rel=1e-6)
    assert (found.dof, found.probability) == (0, 1.0)
    assert found.marks[0].standardised is None


def test_a_wrong_pair_of_depth_marks_is_called_wrong() -> None:
    """Marks of f/8 a degree too wide disagree, and those of the other stops do not."""
    readings = [[PER_STOP * EXACT[stop] + (DEGREE if stop == 8 else 0)] for stop in STOPS]
    found = infer_confusion(OSTRIN, measure_depth(STOPS, readings, LIMIT))
    worst = max(found.marks, key=lambda mark: abs(mark.standardised or 0))
    assert worst.f_number == 8
    assert worst.disagrees
    assert worst.residual > 0
    assert found.probability < 0.001


def test_conventions_are_told_apart_or_not() -> None:
    """Readings to 0.05° tell 0.03 mm from its neighbours; readings to a degree do not."""
    listed = conventions(FORMATS["24x36"])
    readings = [[PER_STOP * EXACT[stop]] for stop in STOPS]
    fine = infer_confusion(OSTRIN, measure_depth(STOPS, readings, 0.05 * DEGREE))
    coarse = infer_confusion(OSTRIN, measure_depth(STOPS, readings, DEGREE))
    assert [c.value for c in fine.agreeing(listed)] == [0.03]
    assert len(coarse.agreeing(listed)) > 1
    assert fine.nearest(listed)[0].value == 0.03


def test_intervals_cover_the_maker_s_figure() -> None:
    """Over 1,000 seeded scales the 95 % interval holds the maker's figure 93 to 97 times in 100."""
    chance = np.random.default_rng(11)
    hits = 0
    for _ in range(1000):
        noise = chance.uniform(-LIMIT, LIMIT, len(STOPS))
        readings = [[PER_STOP * EXACT[s] + n] for s, n in zip(STOPS, noise, strict=True)]
        value = infer_confusion(OSTRIN, measure_depth(STOPS, readings, LIMIT)).value
        hits += abs(value.value - 0.03) <= value.expanded
    assert 930 <= hits <= 970


def test_what_has_no_depth_scale_is_refused() -> None:
    """A lens on a bed has no ring, and marks without any uncertainty cannot be weighed."""
    marks = measure_depth((8.0,), [[0.1]], 0.01)
    with pytest.raises(NoAnswer):
        infer_confusion(Camera("bed", Lens(105.0, 3.5), Bed(), 0.06), marks)
    with pytest.raises(OutOfRange, match="uncertainty of its own"):
        infer_confusion(OSTRIN, measure_depth((8.0,), [[0.1]], 0.0))
