"""The mount and its screws: what is drawn where."""

from tests.optics.records.bench_jobs import STANDARD, solved
from tests.ui.figures.drawn import of_kind, strokes, texts
from ui.figures.mount_view import mount_view


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
