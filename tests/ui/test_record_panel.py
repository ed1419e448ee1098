"""What the record asks for, from the readings of the job."""

import json

import pytest

from optics.records.files import read_job
from tests.optics.records.jobs import HELICOID, job
from ui.record_panel import planned


@pytest.mark.parametrize(
    ("sharp_at", "is_asked"), [("18 m; 18.7 m; 19.5 m", True), ("400; 900; 500 m", False)]
)
def test_a_reading_inside_tolerance_asks_for_nothing(sharp_at: str, is_asked: bool) -> None:
    """Only a reading that is not inside tolerance brings remedies to note as done."""
    reading = {"kind": "mark", "mark": "inf", "sharp_at": sharp_at}
    ((said, remedies),) = planned(read_job(json.dumps(job(HELICOID, reading)).encode()))
    assert bool(remedies) is is_asked
    assert ("nothing need be done" in said) is not is_asked
