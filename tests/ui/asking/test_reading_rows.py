"""What the rows of readings make of a job, without a browser."""

import pytest

from optics.records.job import JobDocument
from optics.records.lantern_street import CAMERAS
from ui.asking import whole_camera_examples as rows
from ui.asking.reading_rows import ASKED, PLACES, Found

TYPED = {
    "register": {"measured": "28.8", "nominal": "28.8", "limit": "0.015"},
    "corner": {"place": "top left", "measured": "28.8", "nominal": "28.8", "limit": "0.015"},
    "mark": {"sharp_at": "20 m"},
    "rotation": {"turned": "2", "sense": "clockwise"},
    "collimator": {"shift": "1.2", "collimator_focal_length": "300"},
    "ruler": {"aim": "1.5 m", "offset": "12"},
}


def made(place: str, kind: str, **more: str) -> Found:
    """What one row makes of a job."""
    found = Found()
    found.add(kind, PLACES[place], TYPED[kind] | more)
    return found


def test_a_row_takes_the_collimators_distance() -> None:
    """What is typed of the distance between the lenses reaches the job, and may be left out."""
    asked = [one for line in ASKED["collimator"] for one in line if one.name == "to_lens"]
    assert [one.optional for one in asked] == [True]
    for more in ({}, {"to_lens": "60"}):
        (reading,) = JobDocument.model_validate(
            made(rows.INFINITY, "collimator", **more).parts
        ).readings
        assert getattr(reading, "to_lens", "") == more.get("to_lens")


WAYS = [
    (place, kind) for place, one in PLACES.items() for kind in one.ways.values() if kind in TYPED
]


@pytest.mark.parametrize(("place", "kind"), WAYS)
def test_every_way_of_reading_makes_a_reading_of_a_job(place: str, kind: str) -> None:
    """Whatever is chosen, the row becomes a reading that the job document takes."""
    more = {"mark": "1.5 m"} if PLACES[place].near and kind != "collimator" else {}
    job = JobDocument.model_validate(made(place, kind, **more).parts)
    (reading,) = job.readings
    said = reading.model_dump()
    assert said["where" if place == rows.STOP else "kind"] in ("at the stop", said["kind"])
    assert (said.get("judged") == "on film") == place.startswith("on film")
    if "mark" in said:
        assert said["mark"] == ("1.5 m" if PLACES[place].near else "inf")


def test_gate_and_rangefinder_have_one_row_each() -> None:
    """A second row for what the job has once is said, never quietly dropped."""
    found = Found()
    for kind, place in (("gate", rows.GATE), ("pairs", rows.FINDER)):
        found.add(kind, PLACES[place], {})
        assert found.problems == []
        found.add(kind, PLACES[place], {})
        assert "has one row" in found.problems.pop()


def test_examples_are_rows_that_can_be_chosen() -> None:
    """Every example belongs to a camera of the shelf and fills fields that its row has."""
    assert set(rows.EXAMPLES) == {camera.name for camera in CAMERAS}
    for row in (row for example in rows.EXAMPLES.values() for row in example):
        kind = PLACES[row.place].ways[row.kind]
        assert set(row.texts) <= {one.name for line in ASKED[kind] for one in line}
