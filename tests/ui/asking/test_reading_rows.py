"""What the rows of readings make of a job, without a browser."""

import pytest

from optics.readings.kinds.registry import parts
from optics.readings.reading_part import AT_NEAR, ReadFrom
from optics.records.job import JobDocument
from optics.records.lantern_street import CAMERAS
from optics.records.lantern_street_readings import WHOLE
from ui.asking.reading_rows import Found, row_texts, rows_of, ways

TYPED = {
    "register": {"measured": "28.8", "nominal": "28.8", "limit": "0.015"},
    "corner": {"place": "top left", "measured": "28.8", "nominal": "28.8", "limit": "0.015"},
    "mark": {"sharp_at": "20 m"},
    "rotation": {"turned": "2", "sense": "clockwise"},
    "collimator": {"shift": "1.2", "collimator_focal_length": "300"},
    "ruler": {"aim": "1.5 m", "offset": "12"},
}
WAYS = [(p, way) for p in ReadFrom for way, asked in ways(p).items() if asked.step in TYPED]


def made(place: ReadFrom, way: str, **more: str) -> Found:
    """What one row makes of a job."""
    found, asked = Found(), ways(place)[way]
    near = {"mark": "1.5 m"} if "mark" in asked.names else {}
    found.add(asked, TYPED[asked.step] | near | more)
    return found


def test_a_row_takes_the_collimators_distance() -> None:
    """What is typed of the distance between the lenses reaches the job, and may be left out."""
    way = "collimator's reticle shifted"
    assert "to_lens" in ways(ReadFrom.INFINITY)[way].names
    for more in ({}, {"to_lens": "60"}):
        found = made(ReadFrom.INFINITY, way, **more)
        (reading,) = JobDocument.model_validate(found.parts).readings
        assert getattr(reading, "to_lens", "") == more.get("to_lens")


@pytest.mark.parametrize(("place", "way"), WAYS)
def test_every_way_of_reading_makes_a_reading_of_a_job(place: ReadFrom, way: str) -> None:
    """Whatever is chosen, the row becomes a reading that the job document takes."""
    (reading,) = JobDocument.model_validate(made(place, way).parts).readings
    said = reading.model_dump()
    assert said["where" if place is ReadFrom.STOP else "kind"] in ("at the stop", said["kind"])
    assert (said.get("judged") == "on film") == place.startswith("on film")
    if "mark" in said:
        assert said["mark"] == ("1.5 m" if place in AT_NEAR else "inf")


@pytest.mark.parametrize(("place", "way"), WAYS)
def test_a_reading_goes_back_into_the_row_it_was_typed_in(place: ReadFrom, way: str) -> None:
    """A reading of a job stands in its row again, at the same place and by the same way."""
    job = JobDocument.model_validate(made(place, way).parts)
    (row,) = rows_of(job)
    assert (row.place, row.way) == (place, way)
    asked = ways(place)[way]
    texts = row_texts([row], "row")
    assert {texts[f"row0.{asked.step}.{name}"] for name in TYPED[asked.step]} == {
        *TYPED[asked.step].values()
    }


def test_every_measured_kind_that_is_typed_has_a_row() -> None:
    """No kind of reading that can be weighed is without a place at which a row asks for it."""
    rowed = {asked.part for place in ReadFrom for asked in ways(place).values()}
    assert {part for part in parts() if part.is_measured} <= rowed


def test_gate_and_rangefinder_have_one_row_each() -> None:
    """A second row for what the job has once is said, never quietly dropped."""
    found = Found()
    for place in (ReadFrom.GATE, ReadFrom.FINDER):
        (asked,) = ways(place).values()
        found.add(asked, {})
        assert found.problems == []
        found.add(asked, {})
        assert "has one row" in found.problems.pop()


def test_examples_are_rows_that_can_be_chosen() -> None:
    """Every example belongs to a camera of the shelf, and all that it holds has its row."""
    assert set(WHOLE) == {camera.name for camera in CAMERAS}
    counts = {name: len(list(rows_of(job))) for name, job in WHOLE.items()}
    assert list(counts.values()) == [5, 2, 7]
