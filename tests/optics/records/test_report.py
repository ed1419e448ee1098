"""From a job to its report."""

import json
import re
from typing import Any

import pytest

from optics.errors import NoAnswer, ShimwrightError, Unreadable
from optics.measure.verdict import Guard, Verdict
from optics.readings.correction import Correction
from optics.records.files import read_job
from optics.records.report import report_of
from optics.records.solve import solve
from tests.optics.records.jobs import BED, READINGS, job, record


def told(typed: dict[str, Any]) -> Any:
    """Tell a job."""
    return report_of(read_job(json.dumps(typed).encode()))


def test_readings_as_found_and_left_are_answered_as_anywhere_else() -> None:
    """Each reading as found and as left has the answer it would have when solved by itself."""
    report = told(record())
    for name, taken in (("found", report.found), ("left", report.left)):
        readings = [one["reading"] for one in record()[name]]
        alone = solve(read_job(json.dumps(record(readings=readings)).encode())).answers
        for one, other in zip(taken, alone, strict=True):
            assert type(one.answer) is type(other)
            if isinstance(other, Correction):
                assert one.answer.error.value == other.error.value
                assert one.answer.error.expanded == other.error.expanded
                assert one.decision.verdict is other.verdict
    assert report.verdict is Verdict.INSIDE
    assert (len(report.corrections_found), len(report.corrections_left)) == (1, 1)


def test_what_was_written_is_told() -> None:
    """Condition, trays, work, instruments, dates and names are told in rows, none left out."""
    report = told(record())
    assert report.condition[0] == ("Loose: screw", "M1.7 × 3 · front plate, 2 o'clock · 2 of them")
    assert ("Shims found", "0.05 mm × 2; 0.1 mm · paper · behind the mount") in report.condition
    assert report.work[0].quantity == "−0.05 mm · added 0.05 mm · removed 0.1 mm"
    assert [(i.name, i.limit, i.source) for i in report.instruments] == [
        ("Bench tape", "± 5 mm", "marked class II"),
        ("Depth micrometer 3", "± 0.005 mm", "stated with the reading"),
    ]
    assert [i.calibrated_by for i in report.instruments] == ["marked class II", ""]
    assert [t.tray for t in report.trays] == ["A1", "A2"]
    assert report.next_service == "2029-03-01 · grease"
    assert (report.customer, report.reference, report.decided_by) == (
        "Zoë Ångström",
        "LS-0147",
        "R. Vane",
    )


def test_a_known_instrument_brings_its_limit_and_source() -> None:
    """A gauge chosen from the list is told with the limit and the source that the list gives."""
    part = {"kind": "register", "measured": "28.81", "nominal": "28.8", "instrument": "caliper"}
    report = told({**job(), "left": [{"reading": part}]})
    (used,) = report.instruments
    # DIN 862: 0.02 mm.
    assert (used.name, used.limit) == ("Caliper", "± 0.020 mm")
    assert used.source.startswith("DIN 862")
    assert used.calibrated_by == ""


@pytest.mark.parametrize("reading", READINGS, ids=lambda r: r["kind"])
def test_every_kind_of_reading_can_be_told(reading: dict[str, str]) -> None:
    """A reading of every kind, with an instrument of its own, is told with its limit."""
    taken = {"reading": reading, "instrument": "the one in the drawer"}
    report = told({**job(), "left": [taken]})
    assert report.instruments[0].name == "the one in the drawer"
    limits = {"rotation": "0.5°", "mark": "0.2 m"}
    expected = limits.get(reading["kind"])
    if expected and "limit" in reading:
        assert expected in report.instruments[0].limit


def test_the_guard_band_is_the_one_decided_on() -> None:
    """Without a guard band a figure close to the edge is decided, with one it is left open."""
    part = {"kind": "register", "measured": "28.839", "nominal": "28.8", "limit": "0.005"}
    for name, guard, verdict in (
        ("none", Guard.NONE, Verdict.INSIDE),
        ("expanded uncertainty", Guard.EXPANDED, Verdict.UNSURE),
    ):
        typed = {**job(), "left": [{"reading": part}], "work": {"decision": {"guard_band": name}}}
        assert (told(typed).guard, told(typed).verdict) == (guard, verdict)


def test_a_job_just_booked_in_can_be_told() -> None:
    """A job without a camera is told; with readings but no camera it is refused."""
    bare = {"format": "shimwright job", "version": 1, "intake": {"identity": {"camera": "A"}}}
    report = told(bare)
    assert (report.camera, report.camera_name, report.verdict) == (None, "A", None)
    with pytest.raises(Unreadable, match="The job has no camera"):
        told({**bare, "left": record()["left"]})


def test_a_reading_that_makes_no_sense_is_refused() -> None:
    """A rotation on a bed is refused in its own sentence."""
    with pytest.raises(NoAnswer, match="This camera has no focusing thread to turn"):
        told({**job(BED), "found": [{"reading": READINGS[2]}]})


@pytest.mark.parametrize("limit", ["0", "0 mm", "0 in"])
def test_a_limit_of_nothing_is_not_stated(limit: str) -> None:
    """An instrument whose limit was left at 0 is not printed as one without error."""
    part = {"kind": "mark", "sharp_at": "∞", "limit": limit}
    listed = {"instruments": [{"name": "Old tape", "limit": limit}]}
    report = told({**job(), "left": [{"reading": part, "instrument": "Tape"}], "work": listed})
    assert [(i.name, i.limit) for i in report.instruments] == [
        ("Old tape", "not stated"),
        ("Tape", "not stated"),
    ]
    (tape,) = (i for i in report.instruments if i.name == "Tape")
    assert tape.source == ""


@pytest.mark.parametrize("kind", ["register", "collimator", "ruler"])
def test_a_limit_that_solves_also_prints(kind: str) -> None:
    """A limit of 1,005 mm is read by the report as by the answer, whatever the reading."""
    (reading,) = [one | {"limit": "1,005"} for one in READINGS if one["kind"] == kind][:1]
    typed = job()
    solve(read_job(json.dumps({**typed, "readings": [reading]}).encode()))
    report = told({**typed, "left": [{"reading": reading, "instrument": "its own"}]})
    assert report.instruments[0].limit == "± 1.005 mm"


def test_a_day_is_told_in_one_way() -> None:
    """Days typed in any way stand on the papers as year, month and day."""
    typed = record()
    typed["intake"]["dates"]["received"] = "2 Mar 2026"
    typed["left"][0]["day"] = "5.3.2026"
    report = told(typed)
    assert ("Received", "2026-03-02") in report.dates
    assert report.left[0].day == "2026-03-05"


@pytest.mark.parametrize(
    ("reading", "asked"),
    [
        ({"kind": "mark", "mark": "1.5 m", "sharp_at": "143.5"}, "metres or centimetres?"),
        ({"kind": "register", "measured": "287.4", "nominal": "28.8"}, "is it in millimetres"),
    ],
)
def test_a_figure_in_another_unit_is_asked_about_at_the_bench(
    reading: dict[str, str], asked: str
) -> None:
    """What its neighbour shows to be in another unit is solved and told by nobody."""
    found = read_job(json.dumps({**job(), "readings": [reading]}).encode())
    for work in (solve, lambda _: told({**job(), "found": [{"reading": reading}]})):
        with pytest.raises(ShimwrightError, match=re.escape(asked)):
            work(found)
