"""The documented result: what was released stays, and what was added since is listed."""

from optics.records.result import ResultDocument
from tests.optics.records.result_lines import ADDED, RELEASED, lines_of


def _now() -> set[str]:
    return set(lines_of(ResultDocument.model_json_schema(mode="serialization")))


def test_released_lines_stand() -> None:
    """Nothing that a reader of the result could rely on was removed or means something else."""
    released = RELEASED.read_text(encoding="utf-8").splitlines()
    assert sorted(set(released) - _now()) == []


def test_additions_are_listed() -> None:
    """All that the result says beyond what was released is listed, and the list holds no more."""
    released = set(RELEASED.read_text(encoding="utf-8").splitlines())
    listed = set(ADDED.read_text(encoding="utf-8").splitlines())
    assert sorted(_now() - released - listed) == []
    assert sorted(listed - _now()) == []
