"""The words of the trade on pages, sheets and terminal, and the clumsy ones nowhere.

The list of better words is the workshop's own choice (common practice, no source).
"""

import ast
import io
import json
import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pdfplumber
import pytest
from streamlit.testing.v1 import AppTest

from optics.records.files import read_job
from optics.records.lantern_street import OSTRIN, TARNBROOK
from optics.records.store import Store
from optics.sheets.bench_sheet import bench_sheet
from optics.sheets.certificate import certificate
from optics.sheets.customer_page import customer_page
from optics.teaching.exercises import KINDS, ExerciseLevel
from optics.teaching.exercises.series import exercise
from tests.optics.records.jobs import record
from tests.optics.sheets.reports import CASES, report
from ui.asking.camera_form import OWN
from ui.pages import PAGES

HOUSE = Path(__file__).resolve().parents[1]
# A label as a whole, or words that stand in a sentence.
OLDER_LABELS = {
    "it is",
    "of what",
    "who says so",
    "paper, brass, …",
    "what to turn next",
    "turn next",
    "drop what is not saved",
    "what the readings ask for",
    "the answer waits",
    "before film",
    "register, gauged",
    "off the middle, gauged",
    "foretold",
    "as the causes make it",
    "it would become",
    "what it may be",
    "what is supposed",
}
OLDER_WORDS = re.compile(
    r"\b(upper|lower)[ -](left|right)\b|\btoo faint\b|\bforetold\b|a turn clockwise adds"
    r"|\bwho says so\b|the answer waits|\bturn next\b|causes (would )?make it",
    re.IGNORECASE,
)


def spoken(path: Path) -> Iterator[str]:
    """Every text of a module that is no docstring; the parts of a made-up one are joined."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    silent = {id(n.value) for n in ast.walk(tree) if isinstance(n, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            parts = (v.value for v in node.values if isinstance(v, ast.Constant))
            silent.update(id(v) for v in node.values)
            yield "…".join(str(part) for part in parts)
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and id(node) not in silent
        ):
            yield node.value


def test_no_module_says_an_older_word() -> None:
    """No text in the program is an older label, and none has an older word in it."""
    wrong = []
    for folder in ("optics", "ui"):
        for path in (HOUSE / folder).rglob("*.py"):
            if path.name == "older_words.py":  # keeps them, to read what was kept from before
                continue
            for text in spoken(path):
                # The document keeps its field's name, and the style sheet its class.
                bare = re.sub(r'class="[^"]*"', "", text).strip(" :↓")
                is_label = bare.lower() in OLDER_LABELS - {"it is"} or bare == "it is"
                if is_label or OLDER_WORDS.search(bare):
                    wrong.append(f"{path.relative_to(HOUSE)}: {text}")
    assert wrong == []


def page_script(module: str) -> None:
    """Draw a page alone."""
    from importlib import import_module

    import_module(f"ui.pages.{module}").show()


def drawn(title: str, **chosen: str) -> str:
    """All that a page says: labels, choices, buttons, folds and markup."""
    page = AppTest.from_function(page_script, args=(PAGES[title],), default_timeout=60)
    if title == "Record":
        page.session_state["the open job"] = Store().job(1)
    page.run()
    for key, value in chosen.items():
        page.selectbox(key=key.replace("__", ".")).set_value(value)
        page.run()
    if title == "Record":
        page.text_input[0].set_value("typed and not saved").run()
    assert not page.exception
    fields = [*page.text_input, *page.selectbox, *page.button]
    options = (str(o) for box in page.selectbox for o in box.options)
    folds = (one.label for one in page.expander)
    markup = (one.proto.body for one in page.get("html"))
    return "\n".join([*(one.label for one in fields), *options, *folds, *markup])


@pytest.fixture
def booked(records_kept: Store) -> Store:
    """Records with one whole job in them."""
    records_kept.add_job(read_job(json.dumps(record()).encode()))
    return records_kept


@pytest.fixture
def records_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Store:
    """An empty store, where the pages look for theirs."""
    monkeypatch.setenv("SHIMWRIGHT_DATA", str(tmp_path))
    return Store()


ON_PAGES: list[tuple[str, dict[str, str], tuple[str, ...]]] = [
    ("Correction", {"camera": OWN}, ("Still needed",)),
    (
        "Whole camera",
        {"camera": OSTRIN.name},
        (
            "∞ screw: effect of one clockwise turn, mm",
            "Near screw: effect of one clockwise turn, mm",
            "Register (depth gauge)",
            ">Plan</h2>",
            "Rangefinder to film, mm",
        ),
    ),
    ("Whole camera", {"camera": TARNBROOK.name}, ("Corner depth",)),
    (
        "Rangefinder",
        {"camera": OSTRIN.name},
        (
            ">Next</h2>",
            "Rangefinder to film, mm",
        ),
    ),
    (
        "Record",
        {"record__part": "Condition as found"},
        (
            "1 condition",
            "1 material",
            "Discard changes",
            "Plan",
        ),
    ),
    ("Record", {"record__part": "Work"}, ("1 calibrated by",)),
    ("Jobs", {}, ()),
]


@pytest.mark.parametrize(("title", "chosen", "words"), ON_PAGES)
def test_a_page_says_the_better_word(
    title: str, chosen: dict[str, str], words: tuple[str, ...], booked: Store
) -> None:
    """The page bears the words of the trade and none of those that stood for them."""
    said = drawn(title, **chosen)
    for word in words:
        assert word.lower() in said.lower()
    for line in re.sub(r'class="[^"]*"', "", said).splitlines():
        assert OLDER_WORDS.search(line) is None
        assert re.sub(r"^\d+ |, \w+$", "", line).lower() not in OLDER_LABELS


def words_of(pdf: bytes) -> str:
    """The text of a sheet."""
    with pdfplumber.open(io.BytesIO(pdf)) as back:
        return "\n".join(page.extract_text() for page in back.pages)


@pytest.mark.parametrize(
    ("sheet", "words"),
    [
        (certificate, ["Calibrated by"]),
        (bench_sheet, ["Condition", "Material"]),
        (customer_page, []),
    ],
)
@pytest.mark.parametrize("case", ["whole", "checked", "bare"])
def test_a_sheet_says_the_better_word(sheet: Any, words: list[str], case: str) -> None:
    """Certificate, bench sheet and customer's page say the words of the trade and no older ones."""
    text = words_of(
        sheet(report(**CASES[case]), made=date(2026, 3, 6), workshop="Lantern Street Camera Works")
    )
    assert OLDER_WORDS.search(text) is None
    for word in words:
        assert word in text or case != "whole"


@pytest.mark.parametrize("level", list(ExerciseLevel))
def test_no_exercise_says_an_older_word_for_a_corner(level: ExerciseLevel) -> None:
    """No question, hint or slip says the upper right corner; where it names one, it is the top."""
    said = " ".join(str(exercise(kind, level, f"{n}").task) for kind in KINDS for n in range(6))
    assert OLDER_WORDS.search(said) is None
    assert "top right corner" in said
