"""A visit: read, solved by whoever is handed in, and done on the camera."""

from typing import Any

import pytest

from optics.errors import OutOfRange
from optics.world.build import Faults
from optics.world.camera import TracedCamera
from optics.world.draw import BUILDS, draw
from optics.world.visit import visit


def promising(*steps: dict[str, float]) -> dict[str, Any]:
    """A result that promises to conform after these changes."""
    made = [{"changes": {name: {"value": by} for name, by in step.items()}} for step in steps]
    return {"diagnosis": {"plan": {"will_conform": True, "steps": made}}}


def test_a_right_plan_is_kept_and_a_wrong_one_is_not() -> None:
    """Of a slipped ring the plan that turns it back keeps its word, one for the seat does not."""
    camera = TracedCamera(BUILDS[4], Faults(ring=0.3 / BUILDS[4].film_effect))
    right = visit(camera, (1, 0), lambda _: promising({"ring": -0.3}), careful=True, told=True)
    wrong = visit(camera, (1, 0), lambda _: promising({"seat": -0.3}), careful=True, told=True)
    tolerance = camera.build.tolerance
    assert right.promised and right.within(tolerance)  # noqa: PT018
    assert wrong.promised and not wrong.within(tolerance)  # noqa: PT018
    assert wrong.worst == pytest.approx(0.3, abs=0.03)


def test_a_refused_job_leaves_the_camera_as_it_was() -> None:
    """Where the solver refuses in words nothing is promised and nothing moved."""

    def refuse(document: dict[str, Any]) -> dict[str, Any]:
        raise OutOfRange("The figures cannot be.", quantity="any")

    found = visit(draw(3), (3, 0), refuse, careful=False, told=False)
    assert found.result is None
    assert not found.promised
    assert found.camera == draw(3)


def test_a_visit_is_the_same_each_time_and_the_next_is_another() -> None:
    """Seed and number fix what is read; another number is another day at the bench."""
    documents = [
        visit(draw(5), (5, number), lambda _: promising(), careful=True, told=False).document
        for number in (0, 0, 1)
    ]
    assert documents[0] == documents[1]
    assert documents[0]["readings"] != documents[2]["readings"]
    assert documents[0]["camera"] == documents[2]["camera"]
