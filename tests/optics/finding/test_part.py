"""What a job says for the diagnosis: kept as typed, and refused where it makes no sense."""

import json
from typing import Any

import pytest
from pydantic import TypeAdapter

from optics.errors import Unreadable
from optics.finding.causes import ALL
from optics.finding.part import CauseName, SuspectPart, cause_of
from optics.records.files import read_job, write_job
from tests.optics.records.diagnoses import GAUGE, NEAR, READINGS, STOP, document, job

EVERYTHING: dict[str, Any] = {
    "picture": "24 x 36",
    "infinity_screw": "0,2",
    "near_screw": "−0.1 mm",
    "standard_screws": "50 × 40",
    "seen_blur": "0.008",
    "most_causes": "2",
    "suspects": [
        {"cause": "ring", "chance": "30 %", "usual": "0.01", "wrong": "0.5 mm"},
        {"cause": "standard", "wrong": "8"},
        {"cause": "rangefinder gain", "wrong": "5 %", "chance": "15"},
    ],
}


def test_everything_is_kept_as_it_was_typed() -> None:
    """A diagnosis with all of its fields is written back text for text."""
    placed = [{**GAUGE, "place": "top left"}, STOP, {**NEAR, "judged": "on film"}]
    written = json.loads(write_job(job(*placed, diagnosis=EVERYTHING)))
    assert written["diagnosis"] == EVERYTHING
    for reading, typed in zip(written["readings"], placed, strict=True):
        assert reading.items() >= typed.items()


def test_a_job_of_before_reads_as_it_did() -> None:
    """A job without a word of places and diagnosis is written back without one."""
    typed = document(*({k: v for k, v in r.items() if k != "where"} for r in READINGS))
    del typed["diagnosis"]
    written = json.loads(write_job(read_job(json.dumps(typed).encode())))
    assert "diagnosis" not in written
    for reading in written["readings"]:
        assert {"where", "judged", "place"} & set(reading) == set()


def test_every_cause_has_a_name() -> None:
    """Each cause that the diagnosis weighs can be named in a job, and no other."""
    known = TypeAdapter(CauseName).json_schema()["enum"]
    assert [cause_of(name) for name in known] == ALL


@pytest.mark.parametrize(
    ("part", "why"),
    [
        ({"frame": "24 × 36"}, r"^In diagnosis → frame: this field is not known"),
        ({"picture": "24"}, r"write width and height"),
        ({"seen_blur": "0"}, r"must be more than 0 mm"),
        ({"most_causes": "0"}, r"must be at least 1"),
        ({"suspects": [{"cause": "gremlin"}]}, r"^In diagnosis → suspects no\. 1 → cause"),
        ({"suspects": [{"cause": "ring", "wrong": "5 %"}]}, r"cannot be understood"),
        ({"suspects": [{"cause": "ring", "chance": "often"}]}, r"chance of the cause"),
    ],
)
def test_what_makes_no_sense_is_refused(part: dict[str, Any], why: str) -> None:
    """Unknown fields, sizes in the wrong unit and impossible figures are refused in a sentence."""
    with pytest.raises(Unreadable, match=why):
        job(*READINGS, diagnosis=part)


@pytest.mark.parametrize(
    "spoilt",
    [
        {**GAUGE, "where": "at the stop"},
        {**STOP, "where": "somewhere"},
        {**NEAR, "judged": "by eye"},
        {**NEAR, "place": "3"},
        {"kind": "parallax", "image_moves": "not at all", "place": "middle"},
    ],
)
def test_a_reading_is_only_where_it_can_be(spoilt: dict[str, str]) -> None:
    """A gauge has no stop, parallax no place, and places are written as places are."""
    with pytest.raises(Unreadable, match=r"^In readings no\. 1"):
        job(spoilt)


def test_sizes_are_read_in_the_unit_of_their_fault() -> None:
    """A bare number is mm for a ring, minutes of arc for the standard, per cent for the gain."""
    read = {
        cause: SuspectPart.model_validate({"cause": cause}).typed[1].read("6").value
        for cause in ("ring", "standard", "rangefinder gain")
    }
    # 6′ is a tenth of a degree: π/1800.
    assert read == {
        "ring": pytest.approx(6.0),
        "standard": pytest.approx(0.0017453, abs=1e-7),
        "rangefinder gain": pytest.approx(0.06),
    }
