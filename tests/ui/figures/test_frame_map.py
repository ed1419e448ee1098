"""The map of the frame: what is drawn where."""

import pytest

from optics.records.solve import Solution
from tests.optics.records.bench_jobs import STANDARD, solved, spoilt
from tests.ui.figures.drawn import corners, image_of, of_kind, strokes, texts
from ui.figures.frame_map import frame_map, sharp_part


def drawn_standard(**changes: str) -> Solution:
    """The worked example with some fields changed."""
    return solved(standard=spoilt(STANDARD, **changes))


def test_corners_carry_figure_sense_and_sign() -> None:
    """Each corner says how far out it is, which way in words, and whether it is sharp."""
    answer = drawn_standard().standard
    assert answer is not None
    said = texts(strokes(frame_map(answer.view)))
    # The four figures of the worked example.
    for figure in ("−0.238 mm ✕", "+0.311 mm ✕", "+0.238 mm ✕", "−0.311 mm ✕"):
        assert figure in said
    assert said.count("too far out") == said.count("too far in") == 2
    assert "top right +0.311 mm ✕ soft" in image_of(frame_map(answer.view))["alt"]


def test_sharp_part_ends_at_the_depth_of_focus() -> None:
    """Where the shaded part ends inside the frame, the error is just the depth of focus."""
    answer = drawn_standard().standard
    assert answer is not None
    plane, view = answer.standard.plane, answer.view
    inner = [(x, y) for x, y in sharp_part(view) if (abs(x), abs(y)) != (42, 28)]
    assert len(inner) == 4
    for x, y in inner:
        error = plane.height(x, y).value - plane.middle.value
        assert abs(error) == pytest.approx(view.depth)


def test_square_standard_is_sharp_all_over() -> None:
    """A standard that is square is shaded all over and has no line in focus across it."""
    answer = drawn_standard(
        depths="top left = 0.1; top right = 0.1; bottom left = 0.1; bottom right = 0.1"
    ).standard
    assert answer is not None
    root = strokes(frame_map(answer.view))
    assert "sharp all over" in texts(root)
    assert of_kind(root, "line", "zero") == []
    assert len(corners(of_kind(root, "polygon", "band")[0])) == 4


def test_nothing_is_sharp_where_all_is_too_far_out() -> None:
    """A square standard far from where it should be has no sharp part, and the map says so."""
    answer = drawn_standard(
        depths="top left = 1; top right = 1; bottom left = 1; bottom right = 1", nominal="0.1"
    ).standard
    assert answer is not None
    assert "nothing is sharp" in texts(strokes(frame_map(answer.view)))
