"""What a job's typed figures were understood as."""

import json

from optics.records.echoed_figures import understood
from optics.records.files import read_job
from tests.optics.records.jobs import HELICOID, job, record


def test_bare_numbers_are_told_with_their_unit() -> None:
    """A 10 on the ring is 10 m and a 47 of the lens 47 mm, and both are said."""
    document = job(HELICOID, {"kind": "mark", "mark": "10", "sharp_at": "9; 9.5"})
    document["camera"]["lens"]["focal_length"] = "47"
    said = understood(read_job(json.dumps(document).encode()))
    assert "focal length: 47 mm" in said
    assert "ring mark: 10 m" in said
    assert "distance really sharp: 2 readings: 9 m; 9.5 m" in said
    assert "ring diameter: 52 mm" in said


def test_what_is_only_kept_is_not_told() -> None:
    """Readings, days and shims kept for the record are not worked with and not told."""
    document = record() | {"readings": [], "workshop": {}}
    said = understood(read_job(json.dumps(document).encode()))
    assert not any(word in line for line in said for word in ("shims", "really sharp", "day"))
    assert "lead: 18 mm" in said
