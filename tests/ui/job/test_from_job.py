"""A job put into the calculators' fields comes out of them as it went in."""

import json
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from optics.rangefinder.part import MirrorPart, RangefinderPart, SlidingWedgePart
from optics.records.files import read_job
from optics.records.job import CameraPart, JobDocument, TakenPart, WorkshopPart
from optics.records.lantern_street import CAMERAS, JOBS, RANGEFINDERS
from optics.records.store import Store
from optics.typed.part import Part
from tests.optics.records.bench_jobs import BUDGET, GATE, STANDARD, WITNESS
from tests.optics.records.diagnoses import GAUGE, NEAR, RANGEFINDER, STOP
from tests.optics.records.diagnoses import job as diagnosed
from tests.optics.records.jobs import FOCUSINGS, READINGS, job
from tests.ui.windows import open_window
from ui.asking.part_form import texts_of
from ui.asking.reading_rows import row_texts, rows_of
from ui.job.from_job import fill, job_texts, open_here
from ui.job.rows_of_job import ROWS
from ui.kept import drafts
from ui.kept.open_job import open_job

SCALE = {
    "marks": "∞ = 0; 3 m = 17",
    "depth_marks": "f/16 = 19",
    "limit": "0.2",
    "across": False,
    "negative": "6x6",
    "reference": "ring mark",
}


def form_page() -> None:
    """Draw the forms of all calculators for one job, filled in; keep what they give."""
    import streamlit as st

    from ui.asking.camera_form import camera_form, workshop_form
    from ui.asking.reading_form import choose_reading, reading_form
    from ui.body.budget_form import budget_form
    from ui.body.gate_form import gate_form
    from ui.depth.scale_form import scale_form

    name = "Job 1"
    for key, text in st.session_state["texts"].items():
        if f"{name}.{key}" not in st.session_state:
            st.session_state[f"{name}.{key}"] = text
    st.session_state["given"] = {
        "camera": camera_form(name).part,
        "workshop": workshop_form(name).part,
        "reading": reading_form(name, choose_reading(name))[0],
        "scale": scale_form(name).part,
        "budget": budget_form(name).part,
        "gate": gate_form(name).part,
    }


def given(document: dict[str, Any]) -> tuple[JobDocument, dict[str, Any]]:
    """The job, and what the forms give once they are filled in from it."""
    typed = read_job(json.dumps(document).encode())
    page = AppTest.from_function(form_page)
    page.session_state["texts"] = job_texts(typed) | row_texts(rows_of(typed), ROWS)
    page.run()
    assert not page.exception
    return typed, dict(page.session_state["given"])


@pytest.mark.parametrize("focusing", FOCUSINGS, ids=lambda one: one["kind"])
def test_camera_and_shims_come_back_as_they_were(focusing: dict[str, str]) -> None:
    """Whatever way a camera focuses, the fields hold the job's own texts."""
    typed, parts = given(job(focusing))
    assert CameraPart.model_validate(parts["camera"]) == typed.camera
    assert WorkshopPart.model_validate(parts["workshop"]) == typed.workshop


@pytest.mark.parametrize("reading", READINGS, ids=lambda one: one["kind"])
def test_a_reading_comes_back_as_it_was(reading: dict[str, str]) -> None:
    """Each kind of reading is chosen and filled in from the job."""
    typed, parts = given(job() | {"readings": [reading]})
    assert TakenPart.model_validate({"reading": parts["reading"]}).reading == typed.readings[0]


def test_scale_gate_and_budget_come_back_as_they_were() -> None:
    """What stands on a page in other words than in the job is put into the page's words."""
    gate = GATE | {"plate": "sprung", "glass": "against the plate", "glass_thickness": "0.15"}
    typed, parts = given(job() | {"scale": SCALE, "gate": gate, "budget": BUDGET})
    for name in ("scale", "gate", "budget"):
        part = getattr(typed, name)
        assert type(part).model_validate(parts[name]) == part


def rows_page() -> None:
    """Draw the forms of the Whole camera and the Rangefinder for one job, filled in."""
    import streamlit as st

    from ui.asking.reading_rows import rows_form
    from ui.kept import drafts
    from ui.rangefinder.cam_form import cam_form, cam_part
    from ui.rangefinder.rangefinder_form import rangefinder_form, readings_form

    name = "Job 1"
    if "given" not in st.session_state:
        for key, text in st.session_state["texts"].items():
            drafts.put(f"{name}.{key}", text)
    known, read = rangefinder_form(name).part, readings_form(name, is_needed=True)[0]
    st.session_state["given"] = {
        "rows": rows_form(name),
        "rangefinder": known | read | {"cam": cam_part(cam_form(name))},
    }


APART = {
    "target": "10 m",
    "scale": "∞",
    "measured": "on the target",
    "apart": "12 mm",
    "ring": "towards nearer",
}
CAM = {
    "body": {"kind": "a straight follower", "gain": "61"},
    "turn": "52",
    "lifts": "0 = 0; 20 = 1.1",
    "gain_less": "5",
    "cutting": "raises the lift",
}


def rows_given(typed: JobDocument) -> dict[str, Any]:
    """What the rows and the rangefinder's forms give once they are filled in from a job."""
    page = AppTest.from_function(rows_page, default_timeout=30)
    page.session_state["texts"] = job_texts(typed) | row_texts(rows_of(typed), ROWS)
    page.run()
    assert not page.exception
    return dict(page.session_state["given"])


def test_rows_of_the_whole_camera_come_back_as_they_were() -> None:
    """Each reading has its row, where and how it was taken, and gives the same reading again."""
    corner = {
        "kind": "register",
        "measured": "29.1",
        "nominal": "29",
        "limit": "0.015",
        "place": "top left",
    }
    gauge = {name: text for name, text in GAUGE.items() if name != "instrument"}
    film = {"kind": "mark", "mark": "3 m", "sharp_at": "2.9 m", "judged": "on film"}
    typed = diagnosed(gauge | {"limit": "0.015"}, STOP, NEAR, film, corner)
    rows = rows_given(typed)["rows"]
    assert rows.problems == []
    again = typed.model_validate(typed.model_dump() | {"readings": rows.readings})
    assert [r.model_dump(exclude_none=True) for r in again.readings] == [
        r.model_dump(exclude_none=True) for r in typed.readings
    ]


def test_a_gauge_of_the_bench_brings_its_limit_into_the_row() -> None:
    """A row asks no instrument: what the gauge is good for stands in it as if typed."""
    rows = rows_given(diagnosed(GAUGE | {"instrument": "dial_over_10"}, STOP, NEAR))["rows"]
    assert rows.problems == []
    assert rows.readings[0]["limit"] == "0.015 mm"


def test_rangefinder_and_cam_come_back_as_they_were() -> None:
    """Compensator, gaps, pairs, rounds and cam give the same part again."""
    part = RANGEFINDER | {
        "compensator": {"kind": "swung lens", "focal_length": "55 mm"},
        "apart": [APART],
        "rounds": [{"infinity_turned": "1/4", "far_reads": "30", "near_reads": "0.99"}],
        "cam": CAM,
    }
    typed = diagnosed(NEAR, rangefinder=part).rangefinder
    given = rows_given(diagnosed(NEAR, rangefinder=part))["rangefinder"]
    assert RangefinderPart.model_validate(given) == typed


def test_every_part_has_its_texts() -> None:
    """Standard, starts and rangefinder are put into fields too."""
    parts = {"standard": STANDARD, "witness": WITNESS}
    rangefinder = next(iter(RANGEFINDERS.values()))
    typed = JobDocument.model_validate(parts).model_copy(update={"rangefinder": rangefinder})
    texts = job_texts(typed) | row_texts(rows_of(typed), ROWS)
    assert texts["depths.more"] == STANDARD["depths"]
    assert texts["witness.error"] == WITNESS["error"]
    assert texts["rangefinder.pairs"] == rangefinder.pairs


def test_opening_fills_in_once_and_never_over_what_was_typed(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Opened again, a job leaves the fields that were typed in; asked to, it fills them anew."""
    number = records.add_job(JobDocument(camera=CAMERAS[0]))
    session = open_window(monkeypatch)
    open_here(number)
    key = f"Job {number}.lens.focal_length"
    assert (session["camera"], session[key]) == (f"Job {number}", "47 mm")
    drafts.put(key, "48")
    open_here(number)
    assert session[key] == "48"
    kept = open_job()
    assert kept is not None
    fill(kept)
    assert session[key] == "47 mm"


def test_rows_that_were_typed_in_are_left_alone_together(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One row typed for a job keeps the job from mixing its own readings into the others."""
    number = records.add_job(diagnosed(STOP, NEAR))
    session = open_window(monkeypatch)
    open_here(number)
    rows = f"Job {number}.whole.row"
    assert session[f"{rows}.used"] == "0 1"
    other = records.add_job(diagnosed(STOP, NEAR))
    drafts.put(f"Job {other}.whole.row0.place", "register (depth gauge)")
    open_here(other)
    rows = f"Job {other}.whole.row"
    assert f"{rows}.used" not in session
    assert session[f"{rows}0.place"] == "register (depth gauge)"
    assert session[f"Job {other}.lens.focal_length"] == "47 mm"


def test_asked_for_the_jobs_rows_replace_those_typed_which_can_be_put_back(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The job's readings get rows of their own; the row typed before them is kept, put away."""
    number = records.add_job(diagnosed(STOP, NEAR))
    session = open_window(monkeypatch)
    rows = f"Job {number}.whole.row"
    drafts.put(f"{rows}0.place", "register (depth gauge)")
    open_here(number)
    kept = open_job()
    assert kept is not None
    fill(kept)
    assert session[f"{rows}.used"] == "1 2"
    assert drafts.draft().texts[f"{rows}.removed"] == "0 0"
    assert session[f"{rows}0.place"] == "register (depth gauge)"


def test_a_job_without_readings_takes_no_row_away(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Filled in from a job that has nothing to weigh, the rows typed for it stay."""
    number = records.add_job(JobDocument(camera=CAMERAS[0]))
    open_window(monkeypatch)
    drafts.put(f"Job {number}.whole.row0.place", "register (depth gauge)")
    open_here(number)
    kept = open_job()
    assert kept is not None
    fill(kept)
    assert f"Job {number}.whole.row.removed" not in drafts.draft().texts


def whole_page() -> None:
    """Draw a part of any kind, with what is put into its fields; keep what it gives."""
    import streamlit as st

    from ui.asking.part_form import PartForm

    form = PartForm(st.session_state["kind"], "it")
    form.draw()
    st.session_state["given"] = form.part


@pytest.mark.parametrize(
    "part",
    [
        *CAMERAS,
        *(part for job in JOBS.values() for _, part in job if isinstance(part, Part)),
        *(read_job(json.dumps(job() | {"readings": READINGS}).encode()).readings),
        *(MirrorPart(), SlidingWedgePart(deviation="3", focal_length="60")),
    ],
    ids=lambda part: type(part).__name__,
)
def test_any_part_goes_through_its_fields_unchanged(part: Part) -> None:
    """Whatever is asked for of a part of a job comes out of its own form as it went in."""
    page = AppTest.from_function(whole_page)
    page.session_state["kind"] = type(part)
    for key, text in texts_of(part, "it").items():
        page.session_state[key] = text
    page.run()
    assert not page.exception
    fixed = {name: getattr(part, name) for name in type(part).model_fields}
    assert type(part).model_validate(fixed | page.session_state["given"]) == part
