"""Corrections of the invented workshop, for the sheets to print."""

import json
from collections.abc import Callable, Iterator
from typing import Any

import pytest

from optics.readings.correction import Correction
from optics.records.files import read_job
from optics.records.solve import solve

CAMERAS: dict[str, dict[str, Any]] = {
    "Ostrin 35": {
        "lens": {"focal_length": "47 mm", "full_aperture": "2.8"},
        "focusing": {
            "kind": "helicoid",
            "lead": "18 mm",
            "starts": "6",
            "extends": "counter-clockwise",
            "ring_diameter": "52 mm",
        },
        "circle_of_confusion": "0.03 mm",
    },
    "Corvane 6×6": {
        "lens": {"focal_length": "75 mm", "full_aperture": "3.5"},
        "focusing": {
            "kind": "front cell",
            "group_focal_length": "48 mm",
            "lead": "9 mm",
            "extends": "clockwise",
            "cell_to_film": "92 mm",
            "ring_diameter": "38 mm",
        },
        "circle_of_confusion": "0.05 mm",
    },
    "Tarnbrook 6×9": {
        "lens": {"focal_length": "105 mm", "full_aperture": "3.5"},
        "focusing": {"kind": "bed"},
        "circle_of_confusion": "0.06 mm",
    },
}
READINGS: dict[str, dict[str, str]] = {
    "mark": {
        "kind": "mark",
        "mark": "inf",
        "sharp_at": "18.4 m; 18.9 m; 18.6 m",
        "limit": "0.1 m",
    },
    "rotation": {
        "kind": "rotation",
        "turned": "3.5°; 3.8°; 3.4°",
        "sense": "counter-clockwise",
        "limit": "0.5°",
        "target": "40 m",
    },
    "register": {
        "kind": "register",
        "measured": "28.86 mm; 28.87 mm; 28.85 mm",
        "nominal": "28.80 mm",
        "instrument": "dial_over_10",
    },
    "register right": {
        "kind": "register",
        "measured": "28.80 mm",
        "nominal": "28.80 mm",
        "limit": "0 mm",
    },
    "register one start out": {
        "kind": "register",
        "measured": "31.74 mm",
        "nominal": "28.80 mm",
        "instrument": "caliper",
    },
    "collimator": {
        "kind": "collimator",
        "shift": "2.4 mm; 2.5 mm; 2.45 mm",
        "towards": "away from its lens",
        "limit": "0.1 mm",
        "collimator_focal_length": "200 mm",
    },
    "ruler": {
        "kind": "ruler",
        "mark": "1.5 m",
        "aim": "1.5 m",
        "offset": "22 mm; 25 mm; 19 mm",
        "limit": "2 mm",
    },
}
TWELVE_MARKS = [f"{metres} m" for metres in (20, 15, 10, 7, 5, 4, 3, 2.5, 2, 1.8, 1.5, 1.2)]


def correction_of(camera: str, reading: str, **job: Any) -> Correction:
    """One camera and one reading of the invented workshop, worked out."""
    document = {
        "format": "shimwright job",
        "version": 1,
        "camera": {"name": camera, **CAMERAS[camera]},
        "readings": [READINGS[reading]],
        "workshop": {"drawer": "0.02 x 4; 0.05 x 3; 0.1 x 4", "fitted": "0.1 mm; 0.05 mm"},
        **job,
    }
    (answer,) = solve(read_job(json.dumps(document).encode())).answers
    assert isinstance(answer, Correction)
    return answer


def all_cases() -> Iterator[tuple[str, str]]:
    """Every camera with every kind of reading it can be given."""
    for camera, parts in CAMERAS.items():
        for name, reading in READINGS.items():
            if reading["kind"] != "rotation" or parts["focusing"]["kind"] != "bed":
                yield camera, name


@pytest.fixture
def solved() -> Callable[..., Correction]:
    """Works out a camera's reading by their names."""
    return correction_of


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    """Run a test that asks for a camera and a reading with every pair there is."""
    if {"camera", "reading"} <= set(metafunc.fixturenames):
        metafunc.parametrize(("camera", "reading"), list(all_cases()))
    if "page_size" in metafunc.fixturenames:
        metafunc.parametrize("page_size", ["A4", "Letter"])


@pytest.fixture
def twelve_marks() -> list[str]:
    """As many ring marks as a job can hold."""
    return TWELVE_MARKS
