"""Reports of whole jobs, plain and awkward, for the sheets that tell a job."""

import json
from typing import Any

from optics.records.files import read_job
from optics.records.report import report_of
from optics.report.job_report import JobReport
from tests.optics.records.bench_jobs import BUDGET, GATE, STANDARD, WITNESS
from tests.optics.records.jobs import record
from tests.optics.records.rangefinders import RANGEFINDER


def report(**changed: Any) -> JobReport:
    """Work a whole job out, with a few parts changed."""
    return report_of(read_job(json.dumps(record(**changed)).encode()))


def left(measured: str, limit: str = "0.005 mm") -> list[dict[str, Any]]:
    """Give a register reading as left, nominal 28.80 mm."""
    part = {"kind": "register", "measured": measured, "nominal": "28.80 mm", "limit": limit}
    return [{"reading": part, "instrument": "Depth gauge"}]


SCALE = {"marks": "∞ = 0; 3 m = 17; 1 m = 50", "depth_marks": "f/16 = 19", "limit": "0.2"}
CAM = {
    "body": {"kind": "a straight follower", "gain": "58"},
    "turn": "52",
    "lifts": "0 = 0; 20 = 1.1; 40 = 2.2",
}
BARE = {"found": [], "intake": None, "trays": [], "work": None}
LONG = {
    "found": [{**record()["found"][0], "note": "a long note " * 300}] * 6,
    "trays": [{"part": f"part {n}", "place": "x" * 200, "note": "y " * 99} for n in range(40)],
    "work": {
        "done": [{"done": f"step {n} " + "work " * 60, "quantity": "q" * 200} for n in range(30)]
    },
}
ODD = {
    "title": "<script>alert(1)</script> \u202e =1+1 שלום 🙂",
    "intake": {
        "customer": {"name": "a\tb\nc\0", "reference": "W" * 200},
        "identity": {"serial": "W" * 200, "marks": "{{x}} %s \\n"},
        "condition": {"note": "é" * 4000},
    },
}
CASES: dict[str, dict[str, Any]] = {
    "whole": {},
    "bare": BARE,
    "long": LONG,
    "odd": ODD,
    "checked": {
        "standard": STANDARD,
        "gate": GATE,
        "witness": WITNESS,
        "budget": BUDGET,
        "rangefinder": RANGEFINDER | {"cam": CAM},
        "scale": SCALE,
    },
    "far out": {"left": left("31.8")},
    "exact": {"left": left("28.80", "0 mm")},
}
