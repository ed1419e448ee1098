"""The customer's page: one page, in words anybody reads."""

import math
import re
from collections.abc import Callable
from typing import Any

import pytest

from optics.sheets.customer_page import customer_page
from tests.optics.sheets.reports import CASES, left, report
from tests.optics.sheets.test_certificate import HEADING

MM = 25.4 / 72
# Words of the trade that the page can do without.
JARGON = re.compile(
    r"\b(tolerance|uncertaint|guard band|register|collimat|helicoid, lead|circle of confusion|"
    r"depth of focus|too far (in|out)|degrees of freedom|k =|hiatus|standard|parallax|ILAC|JCGM)",
    re.IGNORECASE,
)


def text_of(read_back: Callable[[bytes], Any], **changed: Any) -> str:
    """Make the page and read it back."""
    return str(read_back(customer_page(report(**changed), **HEADING)).text)


@pytest.mark.parametrize("case", ["whole", "bare", "far out", "exact"])
def test_the_page_is_one_and_free_of_jargon(
    case: str, read_back: Callable[[bytes], Any], page_size: str
) -> None:
    """An everyday job takes one page, and no word of the trade stands on it."""
    back = read_back(customer_page(report(**CASES[case]), **HEADING, page_size=page_size))
    assert len(back.pages) == 1
    assert JARGON.findall(back.text) == []


def mark(at: str, sharp_at: str, limit: str = "0.005 m") -> dict[str, Any]:
    """Give a target found sharp with the ring at a mark."""
    return {"reading": {"kind": "mark", "mark": at, "sharp_at": sharp_at, "limit": limit}}


# By hand, f 47 mm, hiatus −0.6 mm, f/2.8, c 0.03 mm: 27.5 m is 47²/27453 = 0.0804 mm out, within
# the depth of focus of 0.084 mm and outside the tolerance of half of it.
SOFT_UNSEEN = mark("∞", "27.5 m")


def test_the_page_says_how_it_came_and_how_it_is(read_back: Callable[[bytes], Any]) -> None:
    """The page says where it was sharp before, what was done, and what was measured since."""
    text = text_of(read_back)
    # The mean of 18.4, 18.9 and 18.6 m, worked by hand.
    assert "Set to infinity (∞), it was really sharp at 18.63 m: distant things came out" in text
    assert "Helicoid cleaned and greased" in text
    assert "The focus is right where it was measured: where the lens sits." in text
    assert "We should like to see it again: 2029-03-01 · grease" in text
    assert "For Zoë Ångström · LS-0147" in text


def test_no_mark_is_told_that_was_not_tried(read_back: Callable[[bytes], Any]) -> None:
    """A register gauged after the work says nothing of the ring, and no ring table stands there."""
    text = text_of(read_back)
    assert "Gauged, its lens sits at the right distance from the film." in text
    assert "The distance ring" not in text
    assert "as marked" not in text


def test_a_ring_sharp_short_of_infinity_is_not_said_to_show_distant_things_sharp(
    read_back: Callable[[bytes], Any],
) -> None:
    """Found sharp at 27.5 m at ∞, blurred too little to be seen and yet not right, it says that."""
    text = text_of(read_back, found=[SOFT_UNSEEN], left=[])
    assert "Set to infinity (∞), it was really sharp at 27.5 m." in text
    assert "distant things" not in text
    assert "right" not in text.split("How it is now")[0].split("How it came")[1]


def test_every_sentence_follows_from_a_mark_that_was_read(
    read_back: Callable[[bytes], Any],
) -> None:
    """As found ∞ and 3 m, as left ∞ alone: the table tells each, and what was not tried."""
    found = [SOFT_UNSEEN, mark("3 m", "2.71 m")]
    text = text_of(read_back, found=found, left=[mark("∞", "300 m", "1 m")])
    assert "Set to 3 m, it was really sharp at 2.71 m." in text
    assert "The focus is right where it was measured: at infinity (∞)." in text
    assert "infinity (∞) not right: sharp at 27.5 m right: sharp at 300 m" in text
    assert "3 m not right: sharp at 2.71 m not tried" in text
    assert "1.5 m" not in text


def test_a_mark_not_right_after_the_work_keeps_the_page_from_saying_right(
    read_back: Callable[[bytes], Any],
) -> None:
    """As left sharp at 27.5 m at ∞, the focus is not right, whatever the eye would pass."""
    text = text_of(read_back, left=[SOFT_UNSEEN])
    assert "The focus is not right yet." in text
    assert "infinity (∞) not right: sharp at 18.63 m not right: sharp at 27.5 m" in text


def test_only_a_mark_tried_at_infinity_shows_a_star(read_back: Callable[[bytes], Any]) -> None:
    """A near mark and a gauge tell nothing of a star, so none is drawn of them."""
    near = [mark("3 m", "2.9 m")]
    assert "A star on the film" not in text_of(read_back, found=near, left=left("28.80"))
    assert "A star on the film" in text_of(read_back, found=near, left=[SOFT_UNSEEN])


@pytest.mark.parametrize(
    ("measured", "said"),
    [
        ("28.81", "The focus is right where it was measured"),
        ("28.90", "The focus is not right yet."),
        ("28.839", "Whether the focus is right was not settled."),
    ],
)
def test_the_outcome_is_the_decision(
    measured: str, said: str, read_back: Callable[[bytes], Any]
) -> None:
    """Only a camera that is inside tolerance is called right."""
    text = text_of(read_back, left=left(measured))
    assert said in text
    assert ("The focus is right" in text) == (measured == "28.81")


def test_what_is_still_open_is_not_passed_over(read_back: Callable[[bytes], Any]) -> None:
    """What besides the lens is not right is named plainly, and nobody is told all is well."""
    whole = report(**CASES["checked"])
    text = text_of(read_back, **CASES["checked"])
    assert "The lens is right where it was measured; not all of the camera is right yet." in text
    assert "The focus is right" not in text
    assert "Please ask us before you rely on it." in text
    for one in whole.open_checks:
        assert one.plain in text
    assert JARGON.findall(text) == []


def test_a_camera_that_was_not_measured_again_is_not_called_right(
    read_back: Callable[[bytes], Any],
) -> None:
    """Without a reading after the work the page says so, and shows no ring marks."""
    text = text_of(read_back, left=[])
    assert "The focus has not been measured after the work." in text
    assert "as marked" not in text


def test_nothing_sharp_is_said_plainly(read_back: Callable[[bytes], Any]) -> None:
    """A lens that stands inside infinity is said to have shown nothing quite sharp."""
    turned = {"kind": "rotation", "turned": "4°", "sense": "counter-clockwise", "limit": "0.2°"}
    text = text_of(read_back, found=[{"reading": turned}])
    assert "nothing at all came out quite sharp, not even the horizon" in text


def test_the_star_is_drawn_to_its_scale(read_back: Callable[[bytes], Any]) -> None:
    """The discs are as many times larger than the blur as the page says."""
    done = report(found=[mark("∞", "18.63 m")])
    assert done.camera is not None
    lens = done.camera.lens
    # From lens to film s' with s + s' = D − h and 1/s + 1/s' = 1/f (any optics textbook).
    room = 18630 - lens.hiatus
    beyond = (room - math.sqrt(room * (room - 4 * lens.focal_length))) / 2 - lens.focal_length
    page = read_back(customer_page(done, **HEADING)).pages[0]
    times = int(re.search(r"Drawn (\d+) times", page.extract_text()).group(1))  # type: ignore[union-attr]
    largest = max(c["width"] * MM for c in page.curves if c["fill"] and len(c["pts"]) > 50)
    # A point spreads over as much as the cone of f/N is wide there (similar triangles).
    assert largest == pytest.approx(times * beyond / lens.full_aperture, rel=0.01)
