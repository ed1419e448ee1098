"""The drawing of the barrel has every mark and place of entry where it is."""

import math

import pytest

from optics.body.witness import Mark, Thread, barrel_drawing, rank
from optics.camera.camera import Turn
from optics.measure.uncertainty import within

MARKS = [Mark("B", math.radians(10)), Mark("A", 0.0), Mark("C", math.radians(-14))]


def test_marks_and_entries_are_where_they_are() -> None:
    """Marks keep their angles, entries lie 60° apart from where the thread lets go."""
    thread = Thread(18.0, 6, Turn.COUNTER_CLOCKWISE, ring_diameter=52.0)
    ranking = rank(thread, MARKS, "A", within(6.48, 0.02, "reading"), spread=0.042)
    found = barrel_drawing(ranking, math.radians(40))
    assert [m.mark.name for m in found.marks] == ["C", "A", "B"]
    assert [m.mark.name for m in found.marks if m.is_present] == ["A"]
    assert [m.mark.name for m in found.marks if m.is_first] == ["B"]
    angles = {e.starts_moved: round(math.degrees(e.angle)) for e in found.entries}
    assert angles == {(-3, 3): 220, (-2,): 280, (-1,): 340, (0,): 40, (1,): 100, (2,): 160}
    assert [e.starts_moved for e in found.entries if e.is_present] == [(0,)]
    # 6.48 mm out: 0.5 mm by the ring, clockwise, and two starts in.
    assert [e.starts_moved for e in found.entries if e.is_first] == [(-2,)]
    assert (found.extends, found.ring_diameter) == (Turn.COUNTER_CLOCKWISE, 52.0)


def test_probabilities_add_up_round_the_barrel() -> None:
    """Marks and entries each share out the whole probability."""
    thread = Thread(18.0, 5, Turn.CLOCKWISE)
    ranking = rank(thread, MARKS, "A", within(1.0, 0.3, "reading"), spread=0.3)
    found = barrel_drawing(ranking)
    assert math.fsum(m.probability for m in found.marks) == pytest.approx(1)
    assert math.fsum(e.probability for e in found.entries) == pytest.approx(1)
    assert len(found.entries) == 5
