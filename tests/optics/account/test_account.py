"""Accounts of every topic, and one that is made up, as page, terminal, paper and JSON tell them."""

import io
import json
from collections.abc import Iterator
from datetime import date
from html import unescape
from re import sub

import pdfplumber
import pytest

from optics.account import Account, Block, Card, Cards, Figure, Role, Table, TableRow
from optics.account.account import Said
from optics.account.result import AccountOut
from optics.camera.cautions import SUN
from optics.drawing.flow import Flow
from optics.drawing.page import Sheet, paper_named
from optics.measure.verdict import Verdict
from optics.records.accounts import accounts_of
from optics.records.first import FirstSolution, answered, told_of_all
from optics.records.job import JobDocument
from optics.sheets.account_section import draw_account
from tests.optics.records.bench_jobs import everything
from tests.optics.records.diagnoses import READINGS, solved
from tests.optics.records.rangefinders import RANGEFINDER
from ui.answers.account_panel import account_html
from ui.terminal.account_text import account_text

CAM = {
    "body": {"kind": "a straight follower", "gain": "58"},
    "turn": "52",
    "lifts": "0 = 0; 20 = 1.1; 40 = 2.2",
}
SCALE = {"marks": "∞ = 0; 3 m = 17; 1 m = 50", "depth_marks": "f/16 = 19", "limit": "0.2"}
MADE_UP = Account(
    title="A thing nobody measures",
    headline="The thing stands 0.100 mm too high: it was never looked at.",
    verdict=Verdict.OUTSIDE,
    judged="Outside tolerance: allowed ± 0.050 mm.",
    parts=(
        Block(("It was told to everybody.",), Role.FOUND),
        Figure((object(),), (Block(("Beside what is drawn.",)),)),
        Table(
            ("place", "height"), (TableRow(("left", "0.1 mm"), verdict=Verdict.UNSURE),), "Heights"
        ),
        Block(("First loosen it.", "Then lower it."), Role.TO_DO, "What to do"),
        Cards(("One of these.",), (Card("Spacer", "Take 0.1 mm out.", judged="Leaves none."),)),
        Block(("h = a + b",), Role.WORKING, "Working"),
        Block(("What it rests on.",), Role.ASIDE, "Assumptions"),
    ),
    cautions=(SUN,),
    notes=("Heights are from the bench.",),
)


def first_answers() -> FirstSolution:
    """A reading, and a parallax, of a camera of which hardly anything is told."""
    camera = {"lens": {}, "focusing": {"kind": "helicoid", "extends": "counter-clockwise"}}
    turned = {"kind": "rotation", "turned": "40", "sense": "clockwise"}
    parallax = {"kind": "parallax", "image_moves": "with the eye"}
    job = {"camera": camera, "readings": [turned, parallax]}
    found = answered(JobDocument.model_validate(job))
    assert isinstance(found, FirstSolution)
    return found


def every_account() -> list[Account]:
    """The account of each topic that there is, and the one that is made up."""
    alone = solved(READINGS[0], diagnosis=None)
    measured = solved(scale=SCALE, rangefinder=RANGEFINDER | {"cam": CAM})
    said = [*accounts_of(alone), *accounts_of(measured), *accounts_of(everything())]
    return [*said, *told_of_all(first_answers()), MADE_UP]


ACCOUNTS = every_account()


def flat(text: str) -> str:
    """A page's words, but for the way on that leads down it."""
    return unescape(sub(r"<[^>]+>", " ", sub(r'<a class="jump".*?</a>', "", text)))


def letters(text: str) -> str:
    """Text without gaps and signs, so that it may be broken and begun anyhow."""
    return sub(r"\W", "", text).casefold()


def sentences(part: Said) -> Iterator[str]:
    """Each sentence of a part by itself: who shows cards may set them in any order."""
    if not isinstance(part, Cards):
        yield from part.said
        return
    yield from (*part.first, *part.last)
    for card in part.cards:
        care = (caution.text for caution in card.cautions)
        yield from (card.title, card.words, card.judged, *card.notes, *care)


def on_paper(account: Account) -> str:
    """The account as a section of a sheet, read back."""
    sheet = Sheet(paper_named("A4"), title="t", made=date(2026, 1, 1))
    draw_account(Flow(sheet, "t"), account, at_bench=True)
    with pdfplumber.open(io.BytesIO(sheet.pdf())) as pdf:
        return " ".join(page.extract_text() for page in pdf.pages)


def test_every_topic_has_its_account() -> None:
    """One reading, the whole camera and each part of a job are told, each under its own title."""
    titles = [account.title for account in ACCOUNTS]
    assert len(set(titles)) == len(titles) == 14


@pytest.mark.parametrize("account", ACCOUNTS, ids=lambda account: account.title)
def test_what_matters_is_said_the_same_by_all_four(account: Account) -> None:
    """Headline, verdict and what to do stand word for word on page, terminal, paper and in JSON."""
    page, terminal = account_html(account), account_text(account)
    as_json = AccountOut.of(account).model_dump_json()
    assert AccountOut.model_validate_json(as_json) == AccountOut.of(account)
    told = {
        "page": letters(flat(page)),
        "terminal": letters(terminal),
        "paper": letters(on_paper(account)),
        "JSON": letters(json.dumps(json.loads(as_json), ensure_ascii=False).replace("\\n", " ")),
    }
    assert account.headline
    orders = (line for p in account.told() if p.role is Role.TO_DO for line in sentences(p))
    for sentence in (account.headline, account.judged, *orders):
        for name, text in told.items():
            assert letters(sentence) in text, (name, sentence)


@pytest.mark.parametrize("account", ACCOUNTS, ids=lambda account: account.title)
def test_nothing_that_the_terminal_says_is_missing_in_json(account: Account) -> None:
    """Every line of every section, every note and every caution is in the document too."""
    out = AccountOut.of(account)
    terminal, document = letters(account_text(account)), letters(out.model_dump_json())
    said = (line for part in account.told() for line in sentences(part))
    care = (caution.text for caution in account.cautions)
    for line in (*said, *account.notes, *care):
        assert letters(line) in terminal
        assert letters(line) in document
    assert out.verdict == account.verdict


@pytest.mark.parametrize(
    "verdict", [Verdict.INSIDE, Verdict.OUTSIDE, Verdict.UNSURE, Verdict.NOT_STATED]
)
def test_a_verdict_has_its_sign_where_no_sentence_goes_with_it(verdict: Verdict) -> None:
    """A headline that is judged without a sentence bears the sign; one that has it does not."""
    sign = {Verdict.INSIDE: "✓", Verdict.OUTSIDE: "✕"}.get(verdict, "?")
    bare = Account("t", "It is so: there.", verdict)
    assert f"<strong>{sign} It is so</strong>" in account_html(bare)
    assert "<strong>It is so</strong>" in account_html(Account("t", "It is so: there.", None))


def test_words_for_the_owner_hold_no_order() -> None:
    """What was found is told to everybody, what to do and what is weighed to the bench alone."""
    assert MADE_UP.said == (MADE_UP.headline, MADE_UP.judged, "It was told to everybody.")
    assert MADE_UP.to_do == (
        "First loosen it.",
        "Then lower it.",
        "One of these.",
        "Spacer: Take 0.1 mm out. Leaves none.",
    )
    assert MADE_UP.is_open
    assert MADE_UP.at_bench == (*MADE_UP.said, *MADE_UP.to_do)
