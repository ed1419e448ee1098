"""Marks as they are measured on a ring: angles, arcs, chords, repeats and limits."""

import math

import pytest

from optics.errors import NoAnswer, OutOfRange
from optics.measure.uncertainty import exact, within
from optics.scales.ring_marks import Along, measure_depth, measure_scale

MARKS = (math.inf, 3000.0, 1000.0)
FIFTY = exact(50.0)


def test_arcs_and_chords_are_the_angles_they_span() -> None:
    """On a ring of 50 mm a sixth of a turn is an arc of 26.180 mm and a chord of 25 mm."""
    by_arc = measure_scale((1000.0,), [[26.1799]], 0.05, Along.ARC, FIFTY)
    by_chord = measure_scale((1000.0,), [[25.0]], 0.05, Along.CHORD, FIFTY)
    assert by_arc[0].angle.value == pytest.approx(math.radians(60), abs=5e-6)
    assert by_chord[0].angle.value == pytest.approx(math.radians(60), abs=1e-12)
    # 0.05 mm at the edge of a radius of 25 mm is 0.002 rad either way.
    assert by_arc[0].angle.standard == pytest.approx(0.002 / math.sqrt(3), rel=1e-9)


def test_marks_before_the_reference_are_negative() -> None:
    """A mark on the far side of the reference keeps its sign through arc and chord."""
    for along, reading in ((Along.ARC, -26.1799), (Along.CHORD, -25.0)):
        (mark,) = measure_scale((math.inf,), [[reading]], 0.05, along, FIFTY)
        assert mark.angle.value == pytest.approx(-math.radians(60), abs=5e-6)


def test_an_uncertain_diameter_moves_all_marks_together() -> None:
    """The ring's diameter is one source shared by all arcs, in proportion to each."""
    diameter = within(50.0, 0.5, "ring diameter")
    marks = measure_scale(MARKS, [[0.0], [10.0], [30.0]], 0.05, Along.ARC, diameter)
    (source,) = diameter.parts
    parts = [mark.angle.parts.get(source, 0.0) for mark in marks]
    assert parts[0] == 0
    assert parts[2] == pytest.approx(3 * parts[1])


def test_an_uncertain_reference_moves_all_marks_alike() -> None:
    """What the reference may be out by is one source with the same part in every mark."""
    marks = measure_scale(MARKS, [[0.0], [0.3], [0.9]], 0.01, reference_limit=0.02)
    shared = set.intersection(*(set(mark.angle.parts) for mark in marks))
    (source,) = shared
    for mark in marks:
        assert mark.angle.parts[source] == pytest.approx(0.02 / math.sqrt(3))


def test_repeats_are_pooled_over_all_marks() -> None:
    """Every mark gets the spread of all repeats together: here a mean square of 1 over 3."""
    # Deviations ±1 in each of three pairs: six squares of 1, three degrees of freedom.
    marks = measure_scale(MARKS, [[-1, 1], [9, 11], [29, 31]], 0.0)
    for mark, mean in zip(marks, (0, 10, 30), strict=True):
        assert mark.angle.value == mean
        assert mark.angle.standard == pytest.approx(math.sqrt(6 / 3 / 2))
        assert mark.angle.dof == pytest.approx(1)


def test_a_mark_read_once_gets_the_spread_of_the_others() -> None:
    """A single reading among repeats is as uncertain as one reading, not exact."""
    once, twice = measure_scale((1000.0, 2000.0), [[5.0], [1.0, 3.0]], 0.0)
    assert once.angle.standard == pytest.approx(math.sqrt(2))
    assert twice.angle.standard == pytest.approx(1.0)


def test_depth_marks_may_be_measured_across() -> None:
    """Mark to mark across the index is twice the angle, and twice the uncertainty."""
    (one_side,) = measure_depth((8.0,), [[0.1]], 0.002)
    (across,) = measure_depth((8.0,), [[0.2]], 0.004, across=True)
    assert across.angle.value == pytest.approx(one_side.angle.value)
    assert across.angle.standard == pytest.approx(one_side.angle.standard)


def test_what_cannot_be_measured_so_is_refused() -> None:
    """Arcs without a diameter, chords beyond it and marks without readings are refused."""
    with pytest.raises(NoAnswer, match=r"needs the ring's diameter: got none; .*\.$"):
        measure_scale(MARKS, [[0.0], [1.0], [2.0]], 0.05, Along.ARC)
    with pytest.raises((NoAnswer, OutOfRange)):
        measure_scale((1000.0,), [[51.0]], 0.05, Along.CHORD, FIFTY)
    with pytest.raises(OutOfRange, match=r"at least one reading: got 3 marks and 2 .*\.$"):
        measure_scale(MARKS, [[0.0], [1.0], []], 0.05)
