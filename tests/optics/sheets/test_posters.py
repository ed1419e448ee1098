"""What holds for every teaching poster, read back from its PDF."""

from collections.abc import Callable
from typing import Any

import pytest

from optics.errors import OutOfRange
from optics.sheets.posters import POSTERS, poster
from tests.optics.sheets.posters_read import MADE, drawn, overlapping, smallest_capital

SIZES = {"A3": (297.0, 420.0), "A4": (210.0, 297.0)}
each_poster = pytest.mark.parametrize("title", list(POSTERS))
each_paper = pytest.mark.parametrize("paper", list(SIZES))
# One minute of arc is what the usual eye tells apart; letters want five of them.
MINUTE = 2.908882e-4


@each_poster
@each_paper
def test_a_poster_is_one_page_of_its_paper(
    read_back: Callable[[bytes], Any], title: str, paper: str
) -> None:
    """One page of the size asked for, everything inside its margins, the type embedded."""
    back = read_back(drawn(title, paper))
    width, height = SIZES[paper]
    assert len(back.pages) == 1
    size = (float(back.pages[0].width) * 25.4 / 72, float(back.pages[0].height) * 25.4 / 72)
    assert size == pytest.approx((width, height), abs=0.02)
    left, top, right, bottom = back.extent()
    assert left > 10
    assert top > 10
    assert right < width - 10
    assert bottom < height - 10
    assert set(back.font_files().values()) == {True}


@each_poster
@each_paper
def test_no_word_lies_on_another(read_back: Callable[[bytes], Any], title: str, paper: str) -> None:
    """No two words share room, so that the poster can be read."""
    assert overlapping(read_back(drawn(title, paper))) == []


@each_poster
def test_a_poster_can_be_read_from_two_metres(
    read_back: Callable[[bytes], Any], title: str
) -> None:
    """On A3 the least capital above the foot of the page fills six minutes of arc at two metres."""
    assert smallest_capital(read_back(drawn(title)), above=385) > 6 * MINUTE * 2000


@each_poster
def test_a_poster_says_that_its_cameras_are_invented(
    read_back: Callable[[bytes], Any], title: str
) -> None:
    """The foot says so on every poster, beside the conventions, and no sign is missing."""
    text = read_back(drawn(title)).text
    assert "Lantern Street Camera Works are invented" in text
    assert "Distances are from the film plane" in text
    assert "�" not in text


@each_poster
def test_the_same_poster_is_the_same_bytes(title: str) -> None:
    """Nothing but the arguments decides what is drawn, and the preview can be drawn too."""
    assert drawn(title) == drawn(title)
    assert poster(title, made=MADE).svg().startswith("<svg")


def test_what_there_is_not_is_refused() -> None:
    """A poster or a paper that there is not is refused, with those there are."""
    with pytest.raises(OutOfRange, match="A3 or A4"):
        drawn(next(iter(POSTERS)), "A2")
    with pytest.raises(OutOfRange, match="order of work"):
        drawn("The order of play")
