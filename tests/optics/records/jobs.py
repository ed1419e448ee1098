"""Jobs to read, and to spoil: one of every way of focusing, with every kind of reading."""

import copy
from typing import Any

HELICOID = {
    "kind": "helicoid",
    "lead": "18 mm",
    "starts": "6",
    "extends": "counter-clockwise",
    "ring_diameter": "52 mm",
}
FRONT_CELL = {
    "kind": "front cell",
    "group_focal_length": "51 mm",
    "lead": "9 mm",
    "extends": "clockwise",
    "cell_to_film": "92 mm",
}
BED = {"kind": "bed"}
FOCUSINGS = (HELICOID, FRONT_CELL, BED)

READINGS: tuple[dict[str, str], ...] = (
    {"kind": "mark", "mark": "inf", "sharp_at": "18 m; 18,7 m; 19.5 m", "limit": "0.2 m"},
    {"kind": "mark", "mark": "3 m", "sharp_at": "9 ft 6"},
    {
        "kind": "rotation", "turned": "2.5°; 3°", "sense": "clockwise", "limit": "30'",
        "target": "∞", "mark": "inf",
    },
    {"kind": "register", "measured": "45.52", "nominal": "45.46", "limit": "0.01 mm"},
    {
        "kind": "register", "measured": "1 25/32 in", "nominal": "45.1 mm",
        "instrument": "caliper_depth_rod",
    },
    {
        "kind": "collimator", "shift": "1.2 mm", "towards": "away from its lens",
        "limit": "0.1", "collimator_focal_length": "300 mm",
    },
    {
        "kind": "ruler", "mark": "1.5 m", "aim": "1.5 m", "offset": "12; 14; 13 mm",
        "side": "farther", "slope": "45°", "limit": "1 mm",
    },
    {"kind": "parallax", "image_moves": "with the eye"},
)  # fmt: skip


def job(focusing: dict[str, str] = HELICOID, *readings: dict[str, str]) -> dict[str, Any]:
    """Give a whole job as a document, without readings unless some are given."""
    return copy.deepcopy(
        {
            "format": "shimwright job",
            "version": 1,
            "title": "Spring clean, No. 12",
            "camera": {
                "name": "Ostrin 35 — the “grey” one",
                "lens": {
                    "focal_length": " 47 mm",
                    "full_aperture": "F/2,8",
                    "hiatus": "−0.6 mm",
                    "pupil_magnification": "1.02",
                },
                "focusing": focusing,
                "circle_of_confusion": "0.03 mm",
                "tolerance": "0.04",
            },
            "marks": ["3 m", "5'"],
            "workshop": {"drawer": "0.05 x 4; 0.02 × 6; 2 thou", "fitted": "0.1"},
            "readings": list(readings),
        }
    )
