"""The rangefinder on the command line: what a repairer reads in the terminal."""

import json
from pathlib import Path

import pytest

from tests.optics.records.rangefinders import rangefinder_job
from ui.command import main


def text(tmp_path: Path, capsys: pytest.CaptureFixture[str], **changed: object) -> str:
    """Solve a job at the command line and return its words on one line."""
    file = tmp_path / "job.json"
    file.write_text(json.dumps(rangefinder_job(**changed)), encoding="utf-8")
    assert main(["solve", str(file)]) == 0
    return " ".join(capsys.readouterr().out.split())


def test_the_command_line_says_what_to_turn(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A solved job prints both errors, the next turn, the rounds, where to set near, cautions."""
    said = text(tmp_path, capsys)
    parts = (
        "Coupled rangefinder When the two images meet the lens is",
        "What to turn next - ",
        "What is to change - Zero:",
        "Rounds so far - As found: far",
        "Round 1, infinity adjuster 1/4 turn clockwise: far",
        "Where to set near - Exact at ∞ and at 91.44 cm",
        "What the base can tell - The eye leaves",
        "Take care - Never look at the Sun",
    )
    places = [said.index(part) for part in parts]
    assert places == sorted(places)


def test_without_readings_it_says_what_the_base_can_tell(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A rangefinder that was not read yet is still told where to be set and what it can tell."""
    said = text(tmp_path, capsys, pairs=None, rounds=None)
    assert "Where to set near" in said
    assert "What to turn next" not in said
