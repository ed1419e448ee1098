"""Map of the frame, mount, gate and barrel: what is drawn where."""

import itertools
import math

import pytest

from optics.bench.witness import Finding
from optics.records.lantern_street import OSTRIN
from optics.records.solve import Solution
from optics.records.witness import drawing_of
from tests.optics.records.bench_jobs import GATE, STANDARD, WITNESS, solved, spoilt
from tests.ui.figures.drawn import corners, image_of, of_kind, strokes, texts
from ui.figures.barrel_view import barrel_view, spread
from ui.figures.frame_map import frame_map, sharp_part
from ui.figures.gate_view import gate_view
from ui.figures.mount_view import mount_view


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


def test_screws_stand_where_they_are() -> None:
    """Each screw's change stands above or below its place, with its sign."""
    answer = solved(standard=STANDARD, workshop={"drawer": "0.02 × 9; 0.03 × 9; 0.05 × 9"}).standard
    assert answer is not None
    assert answer.plan is not None
    root = strokes(mount_view(answer.plan))
    screws = of_kind(root, "circle", "screw")
    places = [(float(s.get("cx", "")), float(s.get("cy", ""))) for s in screws]
    (left, top), (right, _), (_, bottom), _ = places
    assert left < right
    assert top < bottom
    assert sum(text.startswith("+") for text in texts(root)) == 2
    assert sum(text.startswith("−") for text in texts(root)) == 2


def test_gate_shows_the_films_room() -> None:
    """The arrow of the emulsion is as long as the play, measured against the film's thickness."""
    gate = solved(OSTRIN, gate=GATE).gate
    assert gate is not None
    root = strokes(gate_view(gate))
    film = next(e for e in root.iter() if e.tag.endswith("rect") and e.get("class") == "glass")
    ticks = [float(e.get("x1", "")) for e in of_kind(root, "line", "tick")]
    # 0.05 mm of play beside 0.15 mm of film.
    assert (ticks[1] - ticks[0]) / float(film.get("width", "")) == pytest.approx(1 / 3, abs=0.01)
    assert "emulsion: 0.050 mm of play" in texts(root)


def test_held_film_has_no_room() -> None:
    """A sprung plate leaves no play, and no arrow."""
    gate = solved(OSTRIN, gate={"plate": "sprung"}).gate
    assert gate is not None
    root = strokes(gate_view(gate))
    assert "the emulsion lies on the rails" in texts(root)
    assert of_kind(root, "line", "tick") == []


def barrel(**changes: str) -> tuple[Solution, str]:
    """The worked example's barrel, some fields changed."""
    solution = solved(OSTRIN, witness=spoilt(WITNESS, **changes))
    part, ranking = solution.job.witness, solution.witness
    assert part is not None
    assert ranking is not None
    told = ranking.finding is Finding.TOLD
    return solution, barrel_view(drawing_of(part, ranking), told, part.parted_at is not None)


def test_barrel_marks_stand_at_their_angles() -> None:
    """A mark 10° clockwise stands to the right of the top, one at −14° to the left."""
    _, html = barrel()
    root = strokes(html)
    tips = [
        (float(e.get("x2", "")) - 165, 152 - float(e.get("y2", "")))
        for kind in ("mark", "error")
        for e in of_kind(root, "line", kind)
    ]
    found = sorted(math.degrees(math.atan2(x, y)) for x, y in tips)
    assert found == pytest.approx([-14, 0, 10], abs=0.1)
    assert "B at 10.0° likeliest" in image_of(html)["alt"]
    assert "A (now)" in texts(root)


def test_start_to_enter_lies_the_way_it_extends() -> None:
    """Two starts farther in lie 120° on in the sense that extends: to the left of the top."""
    _, html = barrel()
    (right,) = of_kind(strokes(html), "circle", "error filled")
    x, y = float(right.get("cx", "")) - 165, 152 - float(right.get("cy", ""))
    assert math.degrees(math.atan2(x, y)) == pytest.approx(-120, abs=0.2)


def test_barrel_shows_nothing_as_right_that_cannot_be_told() -> None:
    """Two marks too close to tell apart: no mark and no entry is filled in."""
    _, html = barrel(marks="A = 0; B = 10; C = 11.5")
    root = strokes(html)
    assert of_kind(root, "circle", "error filled") == []
    assert of_kind(root, "line", "error") == []
    assert "likeliest" not in image_of(html)["alt"]


def test_names_do_not_run_into_one_another() -> None:
    """However close the marks, their names are spread, and stay in their order."""
    close = [math.radians(a) for a in (10, 11.5, 359, 0, 180)]
    found = spread(close)
    order = sorted(range(5), key=lambda i: (found[i] - found[2]) % math.tau)
    assert order == [2, 3, 0, 1, 4]
    gaps = [(found[b] - found[a]) % math.tau for a, b in itertools.pairwise(order)]
    assert min(gaps) > 0.24
