"""A job with a rangefinder, to read and to spoil."""

from typing import Any

from tests.optics.records.jobs import BED, job

ROUND = {"infinity_turned": "1/4 clockwise", "far_reads": "40", "near_reads": "0,995; 0,998"}
RANGEFINDER: dict[str, Any] = {
    "base": "41 mm",
    "base_to_film": "2,4 cm",
    "magnification": "0,6",
    "acuity": "1'",
    "near_end": "3 ft",
    "pairs": "∞ = 22; 23; 22.5; 3 m = 8 ft 6; 1 m = 0.985",
    "tape": "5 mm",
    "rounds": [ROUND],
}


def rangefinder_job(**changed: Any) -> dict[str, Any]:
    """Give a job with a rangefinder and nothing else; a field set to None is left out."""
    part = {**RANGEFINDER, **changed}
    known = {name: value for name, value in part.items() if value is not None}
    return job(BED) | {"rangefinder": known}
