"""What stands in the way of an answer is said on the page, in one sentence each."""

import pytest

from optics.errors import OutOfRange
from ui.job import answering


@pytest.fixture
def shown(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Everything put on the page."""
    page: list[str] = []
    monkeypatch.setattr(answering.st, "html", page.append)
    return page


def test_work_is_not_tried_while_something_is_missing(shown: list[str]) -> None:
    """The problems are listed and the work, which would fail, is never called."""
    assert answering.found(["Enter the lead."], lambda: 1 / 0) is None
    assert "Enter the lead." in "".join(shown)


def test_a_refusal_is_shown_in_its_own_words(shown: list[str]) -> None:
    """What the bench refuses reaches the page word for word."""

    def refuse() -> int:
        raise OutOfRange("The lead must be positive, got 0 mm; type it from the drawing.")

    assert answering.found([], refuse) is None
    assert "The lead must be positive, got 0 mm; type it from the drawing." in "".join(shown)


def test_a_part_the_job_does_not_know_is_refused(shown: list[str]) -> None:
    """A job with a part of an unknown name is a sentence on the page, not an answer."""
    assert answering.solved({"kamera": {}}, []) is None
    assert "kamera" in "".join(shown)


def test_what_is_found_is_returned_and_nothing_is_shown(shown: list[str]) -> None:
    """With nothing in the way the page is left to whoever asked."""
    assert answering.found([], lambda: "sharp") == "sharp"
    assert shown == []
