"""Every kind of reading is found by its file, and a kind is nothing but its file."""

from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from optics.finding.diagnosis import Faults, diagnose, predict
from optics.finding.diagnosis.reading_wording import read_lines, said_reading
from optics.readings.directions import Direction
from optics.readings.kinds import ALL, Kind
from optics.readings.kinds.registry import add, drop, usual_candidates
from optics.readings.readings import Reading
from optics.records.echoed_figures import understood
from optics.records.job import JobDocument, TakenPart
from optics.records.report import report_of
from optics.records.solve import solve
from optics.sheets.bench_sheet import bench_sheet
from optics.sheets.certificate import certificate
from optics.teaching.practice import Level, Read, Sitting, wording
from optics.typed.ask import asked
from tests.optics.readings.kinds.made_up import BARE_KIND, LEDGE_KIND
from tests.optics.records.jobs import job
from tests.optics.teaching.bench_day import HELICOID
from tests.optics.teaching.practice.stands import OSTRIN

LEDGE = {"kind": "ledge", "depth": "30.12; 30.13; 30.11", "right": "30", "limit": "0.01"}
HEADING: dict[str, Any] = {"made": date(2026, 3, 6), "workshop": "Lantern Street Camera Works"}


def look_again() -> None:
    """Make the documents anew that hold a reading of any kind."""
    TakenPart.model_rebuild(force=True)
    JobDocument.model_rebuild(force=True)


@pytest.fixture
def with_ledge() -> Iterator[None]:
    """Have one made-up kind more, as if its file stood in the folder."""
    add(LEDGE_KIND)
    look_again()
    yield
    drop(LEDGE_KIND)
    look_again()


@pytest.mark.usefixtures("with_ledge")
def test_a_kind_is_understood_and_worded_from_its_file_alone() -> None:
    """A made-up reading of a job is read, echoed, solved and told in its own words."""
    typed = JobDocument.model_validate(job() | {"readings": [LEDGE]})
    (reading,) = typed.readings
    assert reading.said_in_full == "Ledge by gauge: ledge 30.12 mm; 30.13 mm; 30.11 mm"
    assert any(line.startswith("depth of the ledge: ") for line in understood(typed))
    (answer,) = solve(typed).answers
    assert not isinstance(answer, Direction)
    assert answer.error.value == pytest.approx(0.12, abs=1e-9)


@pytest.mark.usefixtures("with_ledge")
def test_a_kind_is_weighed_from_its_file_alone() -> None:
    """A made-up reading is among those weighed, foretold, offered as the next and named."""
    typed = JobDocument.model_validate(job() | {"readings": [LEDGE], "diagnosis": {}})
    whole = solve(typed).whole
    assert whole is not None
    assert [one.kind for one in whole.diagnosis.seen.readings] == ["ledge"]
    assert "0.120 mm too far out" in read_lines(whole.diagnosis)[0]
    usual = {one.words: one.reading for one in usual_candidates(HELICOID)}
    figure = predict(HELICOID, Faults(seat=0.1), usual["the ledge gauged"])
    said = said_reading(usual["the ledge gauged"], figure, HELICOID)
    assert said == "ledge 30.100 mm deep"
    assert diagnose(HELICOID, whole.diagnosis.seen.readings).seen.readings


@pytest.mark.usefixtures("with_ledge")
@pytest.mark.parametrize("sheet", [certificate, bench_sheet])
def test_a_kind_is_printed_from_its_file_alone(sheet: Any, read_back: Any) -> None:
    """A made-up reading as found stands on the sheets with its figures."""
    taken = {"day": "2026-03-05", "reading": LEDGE}
    typed = JobDocument.model_validate(job() | {"found": [taken], "left": [taken]})
    text = " ".join(str(read_back(sheet(report_of(typed), **HEADING)).text).split())
    assert "ledge 30.12 mm; 30.13 mm; 30.11 mm" in text


@pytest.mark.usefixtures("with_ledge")
def test_a_kind_is_practised_from_its_file_alone() -> None:
    """A made-up reading lies on the practice bench, is taken there and told in the log."""
    stand = type(OSTRIN)(OSTRIN.camera, OSTRIN.at_hand, OSTRIN.finder)
    assert wording.offered_words(stand.offered["ledge"]) == "Ledge (ledge gauge)"
    (entry,) = Sitting(stand, Level(1), 3).then(Read("ledge")).entries
    assert entry.reading is not None
    assert entry.reading.said_as_read(stand.camera).startswith("ledge 30.")


def test_a_kind_that_is_gone_is_known_no_more() -> None:
    """Without its file a reading of a job is refused, as it ever was."""
    with pytest.raises(ValueError, match="ledge"):
        JobDocument.model_validate(job() | {"readings": [LEDGE]})


def lacks(kind: Kind) -> list[str]:
    """Name everything that a kind is to say and does not."""
    name, reading, part = kind.name, kind.reading, kind.part
    found = [f"what it is: {one.__name__}" for one in (reading, part) if one and not one.__doc__]
    undone = sorted(getattr(reading, "__abstractmethods__", ()))
    found += [f"{name}: {one}" for one in undone]
    if issubclass(reading, Reading):
        words = ("figure_name", "by", "nowhere", "taken_with")
        found += [f"{name}: {one}" for one in words if not getattr(reading, one, "")]
    if part is not None:
        found += [f"{name} as typed: title"] * (not getattr(part, "title", ""))
        found += [f"{name} as typed: ways"] * (getattr(part, "is_measured", True) and not part.ways)
        own = vars(part)
        found += [f"{name} as typed: {one}" for one in ("read", "said_figures") if one not in own]
        found += [
            f"{name} as typed: example of {one.name}"
            for one in asked(part)
            if not (one.is_optional or one.choices or one.ask.example or one.ask.starts)
        ]
    if not (Path(__file__).with_name(f"test_{name}.py")).is_file():
        found.append(f"{name}: tests beside it")
    return found


@pytest.mark.parametrize("kind", ALL, ids=lambda kind: kind.name)
def test_no_kind_lacks_anything(kind: Kind) -> None:
    """Every kind has its words, prediction, title, example, way of being read, and tests."""
    assert lacks(kind) == []


def test_what_a_kind_lacks_is_named() -> None:
    """A file that was begun and not finished is told all that is missing, one by one."""
    assert lacks(BARE_KIND) == [
        "bare: foretold",
        "bare: said",
        "bare: steps",
        "bare: taken",
        "bare: figure_name",
        "bare: by",
        "bare: nowhere",
        "bare as typed: title",
        "bare as typed: ways",
        "bare as typed: read",
        "bare as typed: said_figures",
        "bare as typed: example of depth",
        "bare: tests beside it",
    ]
