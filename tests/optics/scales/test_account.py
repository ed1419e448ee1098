"""The scale check's account as the page shows it."""

import base64
import html
import re

import pytest

from optics.records.accounts import accounts_of
from optics.records.solve import Solution
from tests.ui.cameras import SLIPPED, checked
from ui.answers.account_panel import account_html
from ui.terminal.plain_text import solution_text


def scale_html(solution: Solution) -> str:
    """The check as the page shows it."""
    (account,) = accounts_of(solution)
    return account_html(account)


def text_of(page: str) -> str:
    """Read the HTML as a person reads it."""
    return html.unescape(re.sub(r"<[^>]+>", " ", page))


def letters(text: str) -> str:
    """The text as it is whether its clauses stand in one line or below each other."""
    return re.sub(r"\W", "", text).casefold()


def test_the_verdict_is_the_headline_with_its_sense() -> None:
    """A slipped ring is the headline, and what to do says which way round."""
    page = scale_html(checked())
    headline = re.search(r'<p class="headline bench long" role="status">(.*?)<a', page)
    assert headline is not None
    assert headline[1] == "<strong>✕ The ring has slipped</strong>"
    assert re.search(r"<p>It stands 1\.(49|50).*too far towards the near end\.", page)
    assert "counter-clockwise, seen from the front" in text_of(page)


@pytest.mark.parametrize(
    ("marks", "sense"),
    [
        (SLIPPED, "counter-clockwise"),
        ("∞ = −1.5; 5 m = 7.5; 3 m = 13.7; 2 m = 21.7; 1.5 m = 30; 1 m = 47.4", "clockwise"),
    ],
)
def test_the_turn_is_drawn_the_way_it_is_said(marks: str, sense: str) -> None:
    """The drawing of the turn says the same sense as the words, and its arrow goes that way."""
    page = scale_html(checked(marks))
    assert f"° {sense}, seen from the front" in text_of(page)
    drawn = re.search(r'alt="Turn [\d.]+° (.*?), seen from the front" src="[^,]*,(.*?)"', page)
    assert drawn is not None
    assert drawn[1] == sense
    picture = base64.b64decode(drawn[2]).decode()
    # On an arc the sweep flag 1 is clockwise (SVG 1.1, 8.3.8).
    (sweep,) = re.findall(r"A[\d.]+ [\d.]+ 0 0 (\d)", picture)
    assert sweep == ("1" if sense == "clockwise" else "0")


def test_a_right_ring_calls_for_no_turn() -> None:
    """Where the ring is right nothing is drawn to be turned, and every mark agrees."""
    page = scale_html(checked("∞ = 0; 5 m = 9; 3 m = 15.2; 2 m = 23.2; 1.5 m = 31.5; 1 m = 48.9"))
    assert "<img" not in page
    assert "The ring is right" in page
    assert "disagrees" not in page
    assert page.count("✓ agrees") == 6


def test_a_wrong_mark_is_flagged_alone() -> None:
    """One mark out by 3° is flagged by sign and word, and no other."""
    page = scale_html(checked("∞ = 0; 5 m = 9; 3 m = 15.2; 2 m = 26.2; 1.5 m = 31.5; 1 m = 48.9"))
    flagged = re.findall(r"<tr><th>([^<]*)</th>(?:<td>[^<]*</td>)*<td>✕ disagrees</td>", page)
    assert flagged == ["2 m"]
    assert "The 2 m mark is wrong" in page.replace("\u00a0", " ")


def test_the_page_says_what_the_command_line_says() -> None:
    """Every explanation, fitted figure and depth mark stands on the page in the same words."""
    solution = checked(depth_marks="f/16 = 19.2; f/8 = 9.6")
    page = " ".join(text_of(scale_html(solution)).split()).replace(" What to do ↓", "")
    said = solution_text(solution)
    for block in said.split("\n\n")[1:]:
        if not block.startswith(("Each mark", "Understood as")):
            for item in re.split(r"\n(?=- )", block):
                sentence = " ".join(item.removeprefix("- ").split())
                said = letters(sentence.removeprefix("Engraved scale against the camera "))
                assert said in letters(page)


def test_the_marks_stand_in_the_plain_text() -> None:
    """The plain text names each mark with its place at the edge and at the film."""
    said = " ".join(solution_text(checked()).split())
    for mark in ("∞", "5 m", "3 m", "2 m", "1.5 m", "1 m"):
        assert re.search(rf"- {re.escape(mark)}: 1\.\d\d° \(0\.\d\d mm along the edge\)", said)


def test_no_negative_no_convention() -> None:
    """The maker's circle is compared with conventions of the negative that was chosen."""
    small = text_of(scale_html(checked(depth_marks="16 = 19.2", negative="24x36")))
    large = text_of(scale_html(checked(depth_marks="16 = 19.2", negative="4x5in")))
    assert "agrees with 0.03 mm" in small
    assert "agrees with no convention" in large
