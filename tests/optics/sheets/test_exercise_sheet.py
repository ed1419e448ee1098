"""The sheet of exercises, read back."""

from collections.abc import Callable
from datetime import date
from typing import Any

import pytest

from optics.drawing.page import MARGIN
from optics.errors import OutOfRange
from optics.sheets.exercise_sheet import MOST, exercise_sheet
from optics.teaching.exercises import ExerciseLevel, Topic, series

MADE = date(2026, 3, 6)
TEN = series(None, ExerciseLevel.BENCH, "class 4", 10)


def squeezed(text: str) -> str:
    """Text without its spaces, for lines may break anywhere."""
    return "".join(text.split()).replace("\u00a0", "")


def drawn(with_answers: bool, count: int = 10, **asked: Any) -> bytes:
    """A sheet of the first exercises of a series."""
    return exercise_sheet(TEN[:count], made=MADE, with_answers=with_answers, **asked).pdf()


def test_questions_come_in_full_and_in_order(
    read_back: Callable[[bytes], Any], page_size: str
) -> None:
    """Every question stands whole on the sheet, in its order, inside the margins."""
    back = read_back(drawn(False, page_size=page_size))
    text = squeezed(back.text)
    places = [text.index(squeezed(one.question)) for one in TEN]
    assert places == sorted(places)
    for number in range(len(back.pages)):
        left, _, right, _ = back.extent(number)
        assert left > MARGIN - 0.5
        assert right < float(back.pages[number].width) * 25.4 / 72 - MARGIN + 0.5


def test_without_answers_no_answer_is_given_away(read_back: Callable[[bytes], Any]) -> None:
    """The sheet for the class has neither the answers nor their working."""
    text = read_back(drawn(False)).text
    assert "Right within" not in text
    for one in TEN:
        assert squeezed(one.hints[-1].lines[-1]) not in squeezed(text)


def test_answers_begin_on_a_page_of_their_own(read_back: Callable[[bytes], Any]) -> None:
    """The questions' pages are the very same with answers, which follow with all their working."""
    plain, full = read_back(drawn(False)), read_back(drawn(True))
    count = len(plain.pages)
    assert len(full.pages) > count
    pages = [page.extract_text() for page in full.reader.pages]
    assert pages[:count] == [page.extract_text() for page in plain.reader.pages]
    assert pages[count].startswith("Answers")
    after = squeezed(" ".join(pages[count:]))
    for one in TEN:
        assert squeezed(one.answer.printed) in after
        assert all(squeezed(line) in after for line in one.working)


def test_the_heading_says_how_to_make_the_sheet_again(read_back: Callable[[bytes], Any]) -> None:
    """Topic, level and seed stand in the heading, and that all figures are invented."""
    text = read_back(drawn(False)).text
    assert "several topics, level bench, seed class 4" in text
    assert "all figures are invented" in text
    cam = series(Topic.CAM, ExerciseLevel.APPRENTICE, "7", 2)
    alone = exercise_sheet(cam, made=MADE, with_answers=True)
    assert "Cam, level apprentice, seed 7" in read_back(alone.pdf()).text


def test_a_question_is_never_broken_over_two_pages(read_back: Callable[[bytes], Any]) -> None:
    """A question that begins on a page stands whole on that page, its room to work in too."""
    whole = 0
    for page in read_back(drawn(False)).reader.pages:
        text = squeezed(page.extract_text())
        begun = [one for one in TEN if squeezed(one.question)[:60] in text]
        assert all(squeezed(one.question) in text for one in begun)
        assert sum(text.count(squeezed(f"{one.answer.words}:"[1:])) > 0 for one in begun) == len(
            begun
        )
        whole += len(begun)
    assert whole == len(TEN)


@pytest.mark.parametrize("count", [0, MOST + 1])
def test_a_sheet_has_a_sensible_length(count: int) -> None:
    """No exercise, or more than thirty, is refused in one sentence."""
    many = series(None, ExerciseLevel.APPRENTICE, "1", count)
    with pytest.raises(OutOfRange, match="1 to 30"):
        exercise_sheet(many, made=MADE, with_answers=False)
