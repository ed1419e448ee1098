"""The barrel from the front: what is drawn where."""

import itertools
import math

import pytest

from optics.body.witness import RankingFinding
from optics.body.witness.part import drawing_of
from optics.records.lantern_street import OSTRIN
from optics.records.solve import Solution
from tests.optics.records.bench_jobs import WITNESS, solved, spoilt
from tests.ui.figures.drawn import image_of, of_kind, strokes, texts
from ui.figures.barrel_view import barrel_view, spread


def barrel(**changes: str) -> tuple[Solution, str]:
    """The worked example's barrel, some fields changed."""
    solution = solved(OSTRIN, witness=spoilt(WITNESS, **changes))
    part, ranking = solution.job.witness, solution.witness
    assert part is not None
    assert ranking is not None
    told = ranking.finding is RankingFinding.TOLD
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
