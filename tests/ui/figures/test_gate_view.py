"""The film gate in section: what is drawn where."""

import pytest

from optics.records.lantern_street import OSTRIN
from tests.optics.records.bench_jobs import GATE, solved
from tests.ui.figures.drawn import of_kind, strokes, texts
from ui.figures.gate_view import gate_view


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
