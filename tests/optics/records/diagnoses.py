"""Jobs whose readings are weighed together, as documents to read and to spoil."""

import json
from typing import Any

from optics.records.files import read_job
from optics.records.job import JobDocument
from optics.records.lantern_street import OSTRIN, WORKSHOP
from optics.records.solve import Solution, solve

# The readings of worked_examples/three_readings_one_cause.md, where they are worked by hand.
GAUGE = {
    "kind": "register",
    "measured": "28.918; 28.921; 28.920",
    "nominal": "29.000",
    "instrument": "dial_over_10",
}
STOP = {
    "kind": "rotation",
    "turned": "1.5; 1.75; 1.5; 1.75°",
    "sense": "counter-clockwise",
    "limit": "0.25",
    "where": "at the stop",
}
NEAR = {
    "kind": "mark",
    "mark": "1.5 m",
    "sharp_at": "1.580; 1.586; 1.575; 1.583 m",
    "limit": "2 mm",
}
READINGS = (GAUGE, STOP, NEAR)
# The standard of worked_examples/standard_put_square.md, its corners 60 × 50 mm apart.
STANDARD = {
    "depths": "top left = 0.020; top right = 0.413; bottom right = 0.347; bottom left = −0.044",
    "limit": "0.02",
    "frame": "84 × 56",
    "corners": "60 × 50",
    "nominal": "0.185",
    "screws_apart": "48 × 40",
}
RANGEFINDER = {
    "base": "41 mm",
    "base_to_film": "24 mm",
    "magnification": "0.6",
    "near_end": "1 m",
    "pairs": "∞ = 22; 3 m = 2.6; 1 m = 0.985",
    "tape": "5 mm",
}


def document(*readings: dict[str, Any], **parts: Any) -> dict[str, Any]:
    """Give a job of the Ostrin that asks for a diagnosis; parts of None are left out."""
    whole = {
        "format": "shimwright job",
        "version": 1,
        "camera": OSTRIN.model_dump(mode="json", exclude_none=True),
        "workshop": {"drawer": WORKSHOP.drawer, "fitted": "0.2; 0.1"},
        "readings": list(readings),
        "diagnosis": {},
    }
    return {name: part for name, part in (whole | parts).items() if part is not None}


def job(*readings: dict[str, Any], **parts: Any) -> JobDocument:
    """Read such a job as a file would be."""
    return read_job(json.dumps(document(*readings, **parts)).encode())


def solved(*readings: dict[str, Any], **parts: Any) -> Solution:
    """Solve such a job."""
    return solve(job(*(readings or READINGS), **parts))
