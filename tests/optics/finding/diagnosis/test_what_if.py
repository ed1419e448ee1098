"""One fault moved: every reading follows the table, in its own unit."""

import math

import pytest

from optics.finding.causes import ALL, Cause
from optics.finding.causes.tilt import TILT
from optics.finding.diagnosis import Faults, diagnose
from optics.finding.diagnosis.what_if import what_if
from tests.optics.teaching.bench_day import FULL_ROUND, GAUGE, HELICOID, TURNED, all_shown

FOUND = diagnose(HELICOID, all_shown(HELICOID, Faults(seat=0.05), FULL_ROUND))


@pytest.mark.parametrize("cause", [c for c in ALL if c is not TILT])
def test_a_moved_fault_shows_where_the_table_says(cause: Cause) -> None:
    """Exactly the readings that a cause can disturb become others when it is moved."""
    for would in what_if(FOUND, cause.name, 0.02):
        assert would.is_moved == cause.disturbs(would.reading), would.reading


def test_a_shim_is_seen_by_the_gauge_as_thick_as_it_is() -> None:
    """A shim of 0.1 mm more moves the register by 0.1 mm, and every error by as much."""
    gauge, *_ = what_if(FOUND, "seat", 0.1)
    assert gauge.reading.kind == "register"
    assert gauge.shown[0] is not None
    assert gauge.shown[1] == pytest.approx(gauge.shown[0] + 0.1)
    assert gauge.errors[1] - gauge.errors[0] == pytest.approx(0.1)


def test_a_slipped_ring_is_turned_back_by_its_angle() -> None:
    """On a lead of 18 mm a ring 0.5 mm farther out needs 10° less turning, worked by hand."""
    found = diagnose(HELICOID, all_shown(HELICOID, Faults(), (GAUGE, TURNED)))
    _, turned = what_if(found, "ring", 0.5)
    assert turned.shown[1] is not None
    assert turned.shown[0] == pytest.approx(0.0, abs=1e-6)
    assert turned.shown[1] == pytest.approx(-math.radians(10), abs=1e-6)


def test_nothing_sharp_is_said() -> None:
    """A mark that nothing could be sharp at any more has no figure."""
    gauge, *rest = what_if(FOUND, "seat", -3.0)
    assert gauge.shown[1] is not None
    assert None in [would.shown[1] for would in rest if would.reading.kind == "mark"]
