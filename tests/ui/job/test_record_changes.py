"""The record with what was typed since it was saved."""

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from optics.records.files import read_job
from optics.records.job import JobDocument
from tests.optics.records.jobs import record
from ui.job.record_changes import Collision, changed, collisions, flat, with_changes
from ui.job.record_panel import said_path

JOB = read_job(json.dumps(record()).encode())
SHIMS = "intake.condition.shims"


def test_nothing_typed_changes_nothing() -> None:
    """A job read into its texts and put together again is the job, odd blanks and all."""
    for job in (JOB, JobDocument()):
        assert with_changes(job, flat(JOB)) == JOB


def test_an_empty_job_grows_from_its_paths() -> None:
    """Paths alone make the parts, the rows and the choices that a job needs for them."""
    job = with_changes(
        JobDocument(),
        {
            "intake.customer.reference": "LS-1",
            f"{SHIMS}.0.leaves": "0.1",
            "intake.condition.findings.1.name": "M1.7",
            "work.state": "waiting",
        },
    )
    assert job.intake is not None
    assert job.work is not None
    assert job.intake.customer.reference == "LS-1"
    assert [one.leaves for one in job.intake.condition.shims] == ["0.1"]
    (finding,) = job.intake.condition.findings
    assert (finding.what, finding.fault, finding.name) == ("screw", "loose", "M1.7")
    assert job.work.state == "waiting"


def test_a_row_that_was_emptied_is_gone() -> None:
    """With its texts taken out a row is left out, and those after it move up."""
    trays = [path for path in flat(JOB) if path.startswith("trays.0.")]
    job = with_changes(JOB, dict.fromkeys(trays, " "))
    assert [tray.part for tray in job.trays] == ["mount ring"]


def test_a_figure_without_a_meaning_is_refused() -> None:
    """A text that its field cannot read does not get into a job."""
    with pytest.raises(ValidationError, match="shims found"):
        with_changes(JOB, {f"{SHIMS}.0.leaves": "thin"})


def test_only_what_both_changed_otherwise_collides() -> None:
    """A text changed on one side, or to the same on both, is no collision."""
    before = {"a": "1", "b": "1", "c": "1", "d": "1"}
    now = {"a": "1", "b": "2", "c": "3", "d": "2", "e": "5"}
    mine = {"a": "9", "c": "9", "d": "2", "e": "9"}
    assert collisions(mine, before, now) == [
        Collision("c", "1", "9", "3"),
        Collision("e", "", "9", "5"),
    ]


@given(typed=st.dictionaries(st.sampled_from(sorted(flat(JOB))), st.text(max_size=5)))
def test_a_change_is_a_text_that_differs(typed: dict[str, str]) -> None:
    """What is kept already is no change; every other text is, an empty one too."""
    kept = flat(JOB)
    found = changed(typed, kept)
    assert all(kept[path] != text for path, text in found.items())
    assert kept | found == kept | typed


def test_paths_are_said_in_words() -> None:
    """A path is said without the names of the document, rows counted from one."""
    assert said_path(f"{SHIMS}.0.leaves") == "condition, shims 1, leaves"
    assert said_path("intake.identity.lens_serial") == "identity, lens serial"
