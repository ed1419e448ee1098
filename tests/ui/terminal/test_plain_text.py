"""The answer as plain text: complete, in order, and no line too long for a terminal."""

import json
import re
from typing import Any

import pytest

from optics.records.files import read_job
from optics.records.solve import solve
from tests.optics.records.jobs import BED, FOCUSINGS, HELICOID, READINGS, job
from ui.terminal.plain_text import solution_text


def text_of(document: dict[str, Any]) -> str:
    """Solve a document and say it."""
    return solution_text(solve(read_job(json.dumps(document).encode())))


def everything(focusing: dict[str, str]) -> str:
    """Say all that a camera can be asked."""
    return text_of(
        job(focusing, *(r for r in READINGS if not (focusing is BED and r["kind"] == "rotation")))
    )


REGISTER = {"kind": "register", "measured": "45.76", "nominal": "45.46", "limit": "0.005"}


def test_each_part_stands_in_its_order() -> None:
    """The text gives the answer, what would be seen, what to do, the working and the cautions."""
    text = text_of(job(HELICOID, REGISTER))
    parts = [
        "Spring clean, No. 12 — Ostrin 35 — the “grey” one",
        "Register: 45.76 mm, made for 45.46 mm",
        "The lens is 0.300 mm too far out, ± 0.006 mm at 95 % (k = 1.96).",
        "What you would see",
        "- Ring at ∞: sharp at ",
        "- Ring at 1.524 m: sharp at ",
        "What to do",
        "- Shim under the lens seat: ",
        "- Focusing ring: ",
        "- Thread start: ",
        "Working",
        "e = R − R₀ = 45.76 − 45.46 = 0.3 mm",
        "Take care",
        "Local rules and licensed practice come before anything said here.",
        "Understood as",
        "- register measured: 45.76 mm",
    ]
    found = [text.find(part) for part in parts]
    assert -1 not in found, parts[found.index(-1)]
    assert found == sorted(found)


@pytest.mark.parametrize("focusing", FOCUSINGS, ids=lambda f: f["kind"])
def test_no_line_is_longer_than_a_terminal(focusing: dict[str, str]) -> None:
    """No line but the title is longer than 96 signs, and none ends in a blank."""
    for line in everything(focusing).splitlines()[1:]:
        assert len(line) <= 96, line
        assert line == line.rstrip()


@pytest.mark.parametrize("focusing", FOCUSINGS, ids=lambda f: f["kind"])
def test_a_sense_is_never_broken_over_two_lines(focusing: dict[str, str]) -> None:
    """Counter-clockwise stays in one piece, whatever the line's length."""
    assert not re.search(r"counter-\s", everything(focusing))


@pytest.mark.parametrize("focusing", FOCUSINGS, ids=lambda f: f["kind"])
def test_every_reading_has_its_heading(focusing: dict[str, str]) -> None:
    """Each reading is answered below a heading of its own, in the order of the job."""
    headings = [
        "Ring at ∞: sharp at 18 m; 18.7 m; 19.5 m",
        "Ring at 3 m: sharp at 2.896 m = 9 ft 6 in",
        "Register: 45.52 mm, made for 45.46 mm",
        "Ring at ∞: collimator's reticle moved 1.2 mm away from its lens",
        "Ring at 1.5 m: slanting ruler at 1.5 m, sharpest 12 mm; 14 mm; 13 mm farther",
        "Parallax on the ground glass: the image moves with the eye",
    ]
    text = everything(focusing)
    found = [text.find(f"\n\n{heading}\n") for heading in headings]
    assert -1 not in found
    assert found == sorted(found)


def test_a_job_without_names_begins_with_its_reading() -> None:
    """Where neither the job nor the camera has a name, no empty title is made."""
    document = job(BED, {"kind": "parallax", "image_moves": "not at all"})
    document["title"] = document["camera"]["name"] = ""
    assert text_of(document).startswith(
        "Parallax on the ground glass: the image stands still\n"
        "No parallax: for this target the image lies on the glass.\n"
    )
