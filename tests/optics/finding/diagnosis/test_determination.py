"""What is named as not to be told."""

import pytest

from optics.finding.causes.focal import FOCAL
from optics.finding.causes.gain import GAIN
from optics.finding.causes.gate import GATE as THE_GATE
from optics.finding.causes.ring import RING
from optics.finding.causes.seat import SEAT
from optics.finding.causes.start import START
from optics.finding.causes.stop import STOP as THE_STOP
from optics.finding.causes.tilt import TILT
from optics.finding.causes.zero import ZERO
from optics.finding.diagnosis import Faults, diagnose
from optics.finding.diagnosis.determination import LookAlike
from tests.optics.teaching.bench_day import (
    FAR_PAIR,
    FULL_ROUND,
    GAUGE,
    HELICOID,
    INFINITY,
    MIDDLE,
    NEAR,
    STOP,
    all_shown,
)


def told(*readings: object) -> object:
    """Give what these readings can tell of a ring that slipped."""
    return diagnose(HELICOID, all_shown(HELICOID, Faults(ring=0.1), readings)).determination


def test_a_full_round_leaves_nothing_unread() -> None:
    """A full round touches every cause, each strongly enough and like no other."""
    found = told(*FULL_ROUND)
    assert (found.unread, found.faint, found.look_alikes) == ((), (), ())  # type: ignore[attr-defined]


def test_seat_and_ring_look_alike_at_the_marks() -> None:
    """At the marks alone seat and ring look alike, and either is named."""
    found = told(INFINITY, MIDDLE, NEAR)
    assert LookAlike(SEAT, (RING,)) in found.look_alikes  # type: ignore[attr-defined]
    assert LookAlike(RING, (SEAT,)) in found.look_alikes  # type: ignore[attr-defined]
    assert found.confused_with(SEAT) == {RING}  # type: ignore[attr-defined]


@pytest.mark.parametrize("further", [GAUGE, STOP], ids=["gauge", "stop"])
def test_gauge_or_stop_tells_seat_from_ring(further: object) -> None:
    """One reading at the gauge or at the stop tells the seat from the ring."""
    found = told(INFINITY, MIDDLE, NEAR, further)
    assert RING not in found.confused_with(SEAT)  # type: ignore[attr-defined]


def test_without_a_gauge_the_seat_is_like_ring_and_stop_together() -> None:
    """A seat out of place looks like ring and stop slipped alike until it is gauged."""
    together = LookAlike(SEAT, (RING, THE_STOP))
    assert together in told(STOP, INFINITY, NEAR).look_alikes  # type: ignore[attr-defined]
    assert together not in told(STOP, INFINITY, NEAR, GAUGE).look_alikes  # type: ignore[attr-defined]


def test_what_no_reading_meets_is_named() -> None:
    """Readings at gauge and stop say nothing of ring, focal length, film or rangefinder."""
    assert set(told(GAUGE, STOP).unread) == {  # type: ignore[attr-defined]
        RING,
        FOCAL,
        TILT,
        THE_GATE,
        ZERO,
        GAIN,
    }


def test_gain_is_too_faint_on_a_far_target() -> None:
    """A coincidence 12 m away, where the lens has moved 0.2 mm, hardly meets the gain."""
    found = told(GAUGE, STOP, INFINITY, FAR_PAIR)
    assert GAIN in found.faint  # type: ignore[attr-defined]


def test_a_start_is_told_by_its_size() -> None:
    """A thread start looks like the ring, but 3 mm tell it by its size alone."""
    found = told(INFINITY, MIDDLE, NEAR)
    assert START not in found.confused_with(RING)  # type: ignore[attr-defined]
