"""From a page to the classroom with its numbers."""

import pytest
import streamlit as st

from optics.records.lantern_street import CAMERAS
from optics.records.to_bench import camera_of
from optics.teaching.classroom.sections import SCALE
from optics.theory.lens import mark_error
from optics.theory.scale import scale_mark
from ui.school.why import camera_figures, carry


@pytest.fixture
def state(monkeypatch: pytest.MonkeyPatch) -> dict[str, str]:
    """What the page would remember."""
    remembered: dict[str, str] = {}
    monkeypatch.setattr(st, "session_state", remembered)
    return remembered


def test_numbers_are_carried_as_text(state: dict[str, str]) -> None:
    """The classroom is set to the relation and its unknown, and every figure reads as typed."""
    figures = {"sharp_distance": 18733.25, "mark_distance": float("inf"), "focal_length": 47.0}
    carry(mark_error.solve_for("focus_error"), figures)
    assert state == {
        "class.section": "Thin and thick lens",
        "class.lens.relation": "Mark error",
        "class.lens.mark_error.find": "e · focus error at the film",
        "class.lens.sharp_distance": "18.73325 m",
        "class.lens.mark_distance": "∞",
        "class.lens.focal_length": "47 mm",
    }


def test_other_figures_stay(state: dict[str, str]) -> None:
    """What was typed in the classroom for quantities that are not carried is left alone."""
    state["class.scale.film_distance"] = "3 ft 6"
    carry(scale_mark.solve_for("mark_angle"), {"lead": 18.0})
    assert state["class.scale.film_distance"] == "3 ft 6"
    assert state["class.scale.lead"] == "18 mm"
    assert state["class.section"] == SCALE.title


@pytest.mark.parametrize(
    ("place", "names"),
    [(0, {"lead", "starts"}), (1, {"lead", "group_focal_length", "cell_to_film"}), (2, set())],
)
def test_camera_brings_what_it_has(place: int, names: set[str]) -> None:
    """A helicoid brings its starts, a front cell its group, a bed neither thread nor group."""
    figures = camera_figures(camera_of(CAMERAS[place]))
    assert names <= set(figures)
    others = {"lead", "starts", "group_focal_length", "cell_to_film"} - names
    assert others & set(figures) == set()
    assert {"focal_length", "f_number", "circle_of_confusion"} <= set(figures)
