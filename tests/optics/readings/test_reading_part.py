"""What was read, so that nobody takes one reading for another."""

from typing import Any

import pytest
from pydantic import TypeAdapter

from optics.records.job import AnyReading
from tests.optics.records.jobs import READINGS

MARK, TURN = READINGS[0], READINGS[2]
READING: TypeAdapter[Any] = TypeAdapter(AnyReading)
SAID = [
    (MARK, "Ring at ∞", "sharp at 18 m; 18.7 m; 19.5 m"),
    (MARK | {"mark": "1.2"}, "Ring at 1.2 m", "sharp at 18 m; 18.7 m; 19.5 m"),
    (MARK | {"where": "at the stop"}, "Infinity stop", "sharp at 18 m; 18.7 m; 19.5 m"),
    (MARK | {"judged": "on film"}, "On film, ring at ∞", "sharp at 18 m; 18.7 m; 19.5 m"),
    (TURN, "Ring at ∞", "turned 2.5°; 3° clockwise until sharp"),
    (
        TURN | {"target": "20 m"},
        "Ring at ∞",
        "turned 2.5°; 3° clockwise until sharp, target at 20 m",
    ),
    (READINGS[3], "Register", "45.52 mm, made for 45.46 mm"),
    (READINGS[3] | {"place": "top left"}, "Register, top left", "45.52 mm, made for 45.46 mm"),
    (READINGS[5], "Ring at ∞", "collimator's reticle moved 1.2 mm away from its lens"),
    (
        READINGS[5] | {"to_lens": "6 cm"},
        "Ring at ∞",
        "collimator's reticle moved 1.2 mm away from its lens, 60 mm = 6 cm from lens to lens",
    ),
    (
        READINGS[6],
        "Ring at 1.5 m",
        "slanting ruler at 1.5 m, sharpest 12 mm; 14 mm; 13 mm farther",
    ),
    (READINGS[7], "Parallax on the ground glass", "the image moves with the eye"),
]


@pytest.mark.parametrize(("typed", "thing", "figures"), SAID)
def test_thing_and_tries_are_told(typed: dict[str, str], thing: str, figures: str) -> None:
    """Mark, stop, film and place tell readings apart, and the tries stand as understood."""
    part = READING.validate_python(typed)
    assert (part.said_thing, part.said_figures) == (thing, figures)
    assert part.said_in_full == f"{thing}: {figures}"
