"""Finding a job again."""

import pytest

from optics.records.intake import DatesPart, IdentityPart, IntakePart
from optics.records.job import JobDocument
from optics.records.store import Store
from optics.records.store.jobs import folded
from tests.optics.records.jobs import record
from tests.optics.records.store.conftest import document, titled


@pytest.mark.parametrize(
    ("written", "compared"),
    [
        ("Zoë  ÅNGSTRÖM", "zoe angstrom"),
        ("Straße", "strasse"),
        ("6×9\t½", "6×9 1⁄2"),
        ("a\0b", "a b"),
        ("№ 4", "no 4"),
        ("", ""),
    ],
)
def test_writing_is_compared_without_accents_and_case(written: str, compared: str) -> None:
    """Accents, case, blanks and joined signs make no difference to a search."""
    assert folded(written) == compared


@pytest.mark.parametrize(
    "words",
    [
        "zoe",
        "ÅNGSTRÖM",
        "41 207",
        "ls-0147",
        "scribe 60°",
        "M1.7 notch",
        "IMG_0412",
        "<b>",
        "=1+1",
        "angs vane",
        "",
        "  ",
    ],
)
def test_a_job_is_found_by_whatever_was_written(words: str, store: Store) -> None:
    """Every word anywhere in a job finds it: customer, numbers, notes, photos, parts of words."""
    number = store.add_job(document(record()))
    assert [line.number for line in store.jobs(words)] == [number]
    assert store.count_jobs(words) == 1


@pytest.mark.parametrize("kept", ["41 207", "41207", "41-207", "AB 41.207"])
@pytest.mark.parametrize("words", ["41207", "41 207", "41-207", "41/207"])
@pytest.mark.parametrize("number", ["serial", "lens_serial"])
def test_a_serial_number_is_found_however_it_is_grouped(
    kept: str, words: str, number: str, store: Store
) -> None:
    """Blanks and hyphens only group a serial number, in the records and in the search."""
    named = store.add_job(JobDocument(intake=IntakePart(identity=IdentityPart(**{number: kept}))))
    assert named in [line.number for line in store.jobs(words)]


def test_the_list_sorts_by_the_day_however_it_was_typed(store: Store) -> None:
    """What the list shows of a day is the day; the job keeps it as it was typed."""
    dates = DatesPart(received="30.11.2026", finished="14 Dec 2026")
    number = store.add_job(JobDocument(title="days", intake=IntakePart(dates=dates)))
    line = store.jobs("days")[0]
    assert (line.received, line.finished) == ("2026-11-30", "2026-12-14")
    assert store.job(number).job.intake.dates == dates


@pytest.mark.parametrize("words", ["zoe nobody", "%", "_x", "' OR 1=1 --", "\0zz", "41 208"])
def test_a_job_is_not_found_by_what_was_not_written(words: str, store: Store) -> None:
    """One word that is not there leaves a job out, and no sign has a meaning of its own."""
    store.add_job(document(record(title="plain")))
    assert store.jobs(words) == []


def test_the_last_changed_comes_first_and_pages_do_not_overlap(store: Store) -> None:
    """Jobs are listed from the last changed on, by pages, with their state if one is asked for."""
    for n in range(5):
        store.add_job(titled(f"job {n}"))
    store.save_job(2, titled("job 1 again", work={"state": "waiting"}))
    assert [line.number for line in store.jobs()] == [2, 5, 4, 3, 1]
    assert [line.number for line in store.jobs(limit=2, offset=2)] == [4, 3]
    assert [line.number for line in store.jobs(state="waiting")] == [2]
    assert store.count_jobs("again", state="booked in") == 0
