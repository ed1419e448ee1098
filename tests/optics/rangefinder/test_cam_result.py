"""The cam in a result document."""

import json
import math

import pytest

from optics.rangefinder.cam_result import cam_out
from tests.optics.rangefinder.test_cam_part import answered


def test_no_cam_is_null() -> None:
    """A job without a cam has no such result."""
    assert cam_out(None) is None


def test_the_table_has_a_row_every_five_degrees() -> None:
    """From infinity to the end of a turn of 52° there are eleven rows of 5° and the end."""
    found = cam_out(answered())
    assert found is not None
    assert found.stoning is None
    assert [round(math.degrees(row.rotation), 6) for row in found.table] == [*range(0, 51, 5), 52]
    assert found.table[0].sharp_at == "inf"
    assert found.table[4].lift == pytest.approx(1.0)  # 18 mm a turn, 20°


def test_cuts_and_what_they_leave_are_there() -> None:
    """A high place has its metal, and the film error it gave is gone after; all of it is JSON."""
    found = cam_out(answered(lifts="0 = 0; 20 = 1.03; 40 = 2"))
    assert found is not None
    assert found.stoning is not None
    high = json.loads(found.model_dump_json())["stoning"]["cuts"][1]
    assert high["in_all"] == pytest.approx(0.03)
    assert high["first_pass"] == pytest.approx(0.02)  # two thirds
    # More lift than needed: the images meet with the lens too far in, a hundredth for each.
    assert high["focus_error_now"]["value"] == pytest.approx(-0.03, abs=1e-6)
    assert high["focus_error_after"]["value"] == pytest.approx(0, abs=1e-6)
    assert any("Take off at most" in line for line in found.stoning.words)
