"""The markup of answers: whatever is typed stays text, and quiet answers stay quiet."""

from dataclasses import replace
from html.parser import HTMLParser

import pytest

from optics.account import Account, Table, TableRow
from optics.camera.cautions import Caution
from optics.measure.verdict import Verdict
from optics.moves import Refused
from optics.moves.shim import SHIM
from optics.readings.account import reading_account
from optics.readings.correction import Correction
from optics.readings.kinds.parallax import ParallaxReading
from optics.readings.remedies import Remedy
from tests.ui.solved import correction
from ui.answers import answer_panel
from ui.answers.account_panel import account_html

HOSTILE = '<img src=x onerror="alert(1)"></section><script>alert(2)</script>&amp;'


class Markup(HTMLParser):
    """Collects tags, visible text and unclosed elements."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.text = ""
        self.open: list[str] = []
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note an element that opens; an image has no end."""
        self.tags.add(tag)
        self.attributes.update(name for name, _ in attrs)
        if tag != "img":
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        """Hold an end to the element opened last."""
        assert self.open.pop() == tag

    def handle_data(self, data: str) -> None:
        """Gather what is read."""
        self.text += data


def page_of(answer: Correction | ParallaxReading) -> str:
    """An answer as the page shows it."""
    return account_html(reading_account("Register", answer))


def hostile(answer: Correction) -> Correction:
    """Put markup wherever a remedy or a refusal has words."""
    headed = replace(SHIM, title=HOSTILE)
    words = {"move": headed, "instruction": HOSTILE, "notes": (HOSTILE,)}
    remedies = tuple(replace(r, **words, amounts=((HOSTILE, HOSTILE),)) for r in answer.remedies)
    idle = Refused(headed, HOSTILE)
    return replace(answer, offers=(*remedies, idle))


@pytest.mark.parametrize(
    "html",
    [
        answer_panel.waiting_html([HOSTILE]),
        page_of(hostile(correction(0.2))),
        answer_panel.cautions_html([Caution("key", HOSTILE, HOSTILE)]),
        answer_panel.group_html(HOSTILE),
    ],
    ids=["waiting", "answer", "cautions", "group"],
)
def test_words_cannot_become_markup(html: str) -> None:
    """Markup in words is shown as it was written, and closes or opens nothing."""
    markup = Markup(html)
    assert "script" not in markup.tags
    assert "onerror" not in markup.attributes
    assert HOSTILE in markup.text
    assert markup.open == []


def test_hostile_camera_name_does_nothing() -> None:
    """A camera may be called anything: answer and remedies are the same as without the name."""
    plain, named = correction(0.2, name="A"), correction(0.2, name=HOSTILE)
    assert page_of(named) == page_of(plain)


@pytest.mark.parametrize(
    ("error", "limit", "verdict"),
    [
        (0.3, "0.005", Verdict.OUTSIDE),
        (0.02, "0.005", Verdict.INSIDE),
        (0.05, "0.05", Verdict.UNSURE),
    ],
)
def test_only_what_is_called_for_is_urged(error: float, limit: str, verdict: Verdict) -> None:
    """A turn is drawn, and remedies stand out, only where the lens is surely outside."""
    answer = correction(error, limit)
    assert answer.verdict is verdict
    is_urged = verdict is Verdict.OUTSIDE
    assert page_of(answer).count("<img") == (2 if is_urged else 1)
    assert ("uncalled" in page_of(answer)) is not is_urged


def test_every_verdict_has_a_sign_besides_its_colour() -> None:
    """Inside, outside and unsure differ in sign and words, so no colour carries the meaning."""
    said = {
        Markup(page_of(correction(*case))).text
        for case in ((0.3, "0.005"), (0.02, "0.005"), (0.05, "0.05"))
    }
    for sign, words in (("✕", "Outside"), ("✓", "Inside"), ("?", "Too close to")):
        assert sum(f"{sign} {words}" in text for text in said) == 1


def test_answer_is_whole_markup() -> None:
    """Everything opened is closed, for a tiny error, a shop's error and a lost lens."""
    for error in (0.0, 0.0004, -0.2, 40.0):
        answer = correction(error)
        assert Markup(page_of(answer)).open == []


def test_remedy_that_cannot_serve_says_why_and_no_more() -> None:
    """Where a shim cannot help, the reason stands there and no remedy is pretended."""
    answer = correction(-0.3, drawer="none")
    html = page_of(answer)
    (idle,) = [o for o in answer.offers if o.kind == "shim"]
    assert not isinstance(idle, Remedy)
    assert idle.reason in Markup(html).text
    assert "the drawer is empty" in Markup(html).text


def test_parallax_answers_with_the_direction() -> None:
    """Parallax has a headline of its own and says that an amount must still be measured."""
    text = Markup(page_of(ParallaxReading(True))).text
    assert text.startswith("The lens is too far out for this target")
    assert "Take a measured reading" in text


def test_smallest_contributions_do_not_vanish() -> None:
    """A contribution below the last place printed says so instead of 0.0000 mm."""
    assert "less than 0.0001 mm" in page_of(correction(0.2, "0.00001"))
    assert "0.0029 mm" in page_of(correction(0.2, "0.005"))  # 0.005/√3


def test_no_uncertainty_is_said_as_such() -> None:
    """Without limit and repeats the table gives way to a sentence."""
    assert "carries no uncertainty" in page_of(correction(0.2, "0"))


def test_a_cell_of_two_lines_has_both_and_no_markup_of_its_own() -> None:
    """Near over far stands in one cell line below line, and what is typed in it stays text."""
    table = Table(("focused at", "3 m"), (TableRow((HOSTILE, "2 m\n4 m")), TableRow(("f/8", "1"))))
    page = account_html(Account(title="Depth", headline="f/8", parts=(table,)))
    assert "<td>2 m<br>4 m</td>" in page
    assert '<table class="stacked">' in page
    assert HOSTILE in Markup(page.replace("<br>", "")).text
