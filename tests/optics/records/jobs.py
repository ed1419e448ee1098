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
        "kind": "rotation",
        "turned": "2.5°; 3°",
        "sense": "clockwise",
        "limit": "30'",
        "target": "∞",
        "mark": "inf",
    },
    {"kind": "register", "measured": "45.52", "nominal": "45.46", "limit": "0.01 mm"},
    {
        "kind": "register",
        "measured": "1 25/32 in",
        "nominal": "45.1 mm",
        "instrument": "caliper_depth_rod",
    },
    {
        "kind": "collimator",
        "shift": "1.2 mm",
        "towards": "away from its lens",
        "limit": "0.1",
        "collimator_focal_length": "300 mm",
    },
    {
        "kind": "ruler",
        "mark": "1.5 m",
        "aim": "1.5 m",
        "offset": "12; 14; 13 mm",
        "side": "farther",
        "slope": "45°",
        "limit": "1 mm",
    },
    {"kind": "parallax", "image_moves": "with the eye"},
)


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
            "workshop": {"drawer": "0.05 mm x 4; 0.02 mm × 6; 2 thou", "fitted": "0.1"},
            "readings": list(readings),
        }
    )


# Everything that can be written down about a job, with odd blanks and signs to be kept.
RECORD: dict[str, Any] = {
    "intake": {
        "customer": {"reference": "LS-0147", "name": "Zoë Ångström", "contact": "by post "},
        "identity": {
            "camera": "Ostrin 35",
            "serial": "No 41 207",
            "lens_serial": "88-1123",
            "marks": "“W.H.” scratched\tinside the back",
        },
        "dates": {"received": "2026-03-02", "promised": " 2026-03-20", "finished": "2026-03-06"},
        "wanted": "soft at a distance; please  look",
        "condition": {
            "findings": [
                {
                    "what": "screw",
                    "fault": "loose",
                    "name": "M1.7 × 3",
                    "place": "front plate, 2 o'clock",
                    "quantity": "2",
                },
                {"what": "screw", "fault": "wrong", "name": "brass in steel", "place": "top cover"},
                {"what": "part", "fault": "missing", "name": "light trap", "note": "felt gone"},
            ],
            "old_marks": [{"place": "helicoid", "note": "two scribe lines, 60° apart"}],
            "shims": [
                {"leaves": "0,05 x 2; 0.1", "place": "behind the mount", "material": "paper"}
            ],
            "earlier_repairs": "re-glued leather; <b>not</b> by us",
            "note": "=1+1 is only text",
        },
        "photos": [{"file": "IMG_0412.jpg", "day": "2026-03-02", "note": "as found"}],
    },
    "trays": [
        {
            "part": "front plate",
            "place": "body",
            "screw": "M1.7 × 3 brass",
            "quantity": "4",
            "tray": "A1",
        },
        {"part": "mount ring", "place": "under the front plate", "tray": "A2", "note": "notch up"},
    ],
    "work": {
        "state": "finished",
        "done": [
            {
                "done": "One 0.1 paper shim taken out, 0.05 brass put in",
                "quantity": "−0.05 mm",
                "added": "0.05",
                "removed": "0.1",
                "day": "2026-03-05",
            },
            {"done": "Helicoid cleaned and greased", "quantity": "0.3 g"},
        ],
        "instruments": [
            {
                "name": "Bench tape",
                "limit": "5 mm",
                "source": "marked class II",
                "checked": "2026-01-10",
            }
        ],
        "decision": {"guard_band": "expanded uncertainty", "by": "R. Vane", "day": "2026-03-06"},
        "next_service": {"due": "2029-03-01", "note": "grease"},
        "note": "one roll shot",
    },
    "found": [
        {
            "day": "2026-03-02",
            "reading": {"kind": "mark", "sharp_at": "18,4 m; 18.9 m; 18.6 m", "limit": "0.1 m"},
            "instrument": "Bench tape",
            "note": "ring at the stop",
        },
        {"reading": {"kind": "parallax", "image_moves": "with the eye"}},
    ],
    "left": [
        {
            "day": "2026-03-06",
            "reading": {
                "kind": "register",
                "measured": "28.802; 28.801; 28.803",
                "nominal": "28.80 mm",
                "limit": "0.005 mm",
            },
            "instrument": "Depth micrometer 3",
        }
    ],
}


def record(**changed: Any) -> dict[str, Any]:
    """Give a whole job with everything that was written down about it."""
    return {**job(HELICOID, READINGS[0]), **copy.deepcopy(RECORD), **changed}
