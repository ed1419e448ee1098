"""Accounts on the command line: what a repairer reads in the terminal."""

import json
from pathlib import Path

import pytest

from tests.optics.records.rangefinders import rangefinder_job
from ui.command import main


def text(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], *readings: object, **changed: object
) -> str:
    """Solve a job at the command line and return its words on one line."""
    file = tmp_path / "job.json"
    job = rangefinder_job(**changed) | {"readings": readings}
    file.write_text(json.dumps(job), encoding="utf-8")
    assert main(["solve", str(file)]) == 0
    return " ".join(capsys.readouterr().out.split())


def test_the_command_line_says_what_to_turn(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A solved job prints both errors, the next turn, the rounds, where to set near, cautions."""
    said = text(tmp_path, capsys)
    parts = (
        "Coupled rangefinder When the two images meet the lens is",
        "Next - ",
        "Rounds so far - As found: far",
        "Round 1, infinity adjuster 1/4 turn clockwise: far",
        "Zero and gain - Zero:",
        "Take care - Never look at the Sun",
        "Where to set near Set far at",
        "Exact at ∞ and at 91.44 cm",
        "What the base can tell The eye leaves",
    )
    places = [said.index(part) for part in parts]
    assert places == sorted(places)


def test_without_readings_it_says_what_the_base_can_tell(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A rangefinder that was not read yet is still told where to be set and what it can tell."""
    said = text(tmp_path, capsys, pairs=None, rounds=None)
    assert "Where to set near" in said
    assert "Next" not in said


def register(measured: str) -> dict[str, str]:
    """Give a register that should be 45.46 mm."""
    return {"kind": "register", "measured": measured, "nominal": "45.46 mm", "limit": "0.01"}


def test_a_lens_that_is_out_is_put_right_first(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A lens read outside its tolerance is told with its amount before any adjuster."""
    # 45.61 − 45.46 = 0.15 mm, U = 1.96 × 0.01/√3.
    said = text(tmp_path, capsys, register("45.61 mm"))
    first = "The lens itself was read 0.150 mm ± 0.011 mm too far out at infinity, outside its"
    assert said.index("Next") < said.index(first) < said.index("Turn the infinity")
    assert "Put the lens scale right first: what it is out by counts here" in said


def test_a_lens_that_is_right_leaves_the_general_word(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """With the lens inside its tolerance, or not read, only the order of work is said."""
    for readings in ([register("45.46 mm")], []):
        said = text(tmp_path, capsys, *readings)
        assert "The lens itself was read" not in said
        assert "Put the lens scale right first" in said
