"""The Exercises page under a person's hands: by keyboard alone, at the bench, on a telephone."""

import io
from typing import Literal

import hands
import pytest
from playwright.sync_api import Locator, Page, expect
from pypdf import PdfReader
from test_correction_looks import FINGER, broken_rules

from optics.sheets.posters import POSTERS
from optics.teaching.exercises import Exercise, ExerciseLevel, Topic, numbered, series
from ui.pages.exercises import EXERCISE, POSTER, SHEET
from ui.school.exercise_form import WITH

TASK = "Task"
TASKS = (EXERCISE, SHEET, POSTER)


def opened(page: Page, address: str, topic: Topic | None = None) -> Page:
    """Open the page by its own address, at a topic."""
    hands.open_at(page, f"{address}/exercises")
    if topic is not None:
        hands.choose(page, "Topic", str(topic))
    return page


def marked(page: Page) -> Locator:
    """The line that says what came of the answer."""
    return page.locator(".verdict.mark")


def tab_to(page: Page, target: Locator) -> None:
    """Press Tab until a part of the page has the keyboard."""
    for _ in range(60):
        if target.evaluate("part => part === document.activeElement"):
            return
        page.keyboard.press("Tab")
    raise AssertionError("the keyboard never comes there")


def key_press(page: Page, name: str) -> None:
    """Go to a button by keyboard and press it."""
    tab_to(page, page.get_by_role("button", name=name, exact=True))
    page.keyboard.press("Enter")
    hands.wait_until_idle(page)


def answer_field(page: Page, exercise: Exercise) -> Locator:
    """The field that asks for an exercise's answer."""
    words = exercise.answer.words
    return hands.field(page, words[:1].upper() + words[1:])


def key_answer(page: Page, exercise: Exercise, text: str) -> None:
    """Type an answer and check it, by keyboard alone."""
    # Tabbing goes round by the top of the page, so that the field is come to from before it.
    page.evaluate("document.activeElement.blur()")
    tab_to(page, answer_field(page, exercise))
    page.keyboard.press("Control+A")
    page.keyboard.type(text, delay=20)
    hands.wait_until_idle(page)
    key_press(page, "Check")


def test_the_page_has_its_own_address(page: Page, bench_address: str) -> None:
    """The page opens by its address and by its name at the top, under its own title."""
    opened(page, bench_address)
    expect(page).to_have_title("Exercises · Shimwright")
    expect(page.get_by_role("heading", level=1)).to_have_text("Exercises")
    hands.open_at(page, bench_address)
    hands.press(page.get_by_role("link", name="Exercises"))
    expect(page).to_have_title("Exercises · Shimwright")


def test_an_exercise_is_worked_by_keyboard_alone(page: Page, bench_address: str) -> None:
    """Wrong, then a slip, two hints, right, and on to the next: no mouse is needed."""
    one = numbered(None, ExerciseLevel.APPRENTICE, "1", 1)
    opened(page, bench_address)
    expect(page.locator(".question h2")).to_have_text(f"1 · {one.title}")
    key_answer(page, one, f"{one.answer.size * 1.37 / one.answer.unit_size:.4f}")
    expect(marked(page)).to_contain_text("Not yet")
    key_answer(page, one, f"{one.answer.size * 1000 / one.answer.unit_size:.4f}")
    expect(marked(page)).to_contain_text("a factor of 1000")
    for seen in (1, 2):
        key_press(page, "Hint")
        expect(page.locator(".hint")).to_have_count(seen)
    key_answer(page, one, one.answer.printed)
    expect(marked(page)).to_contain_text(f"Right: {one.answer.printed}".replace(" mm", "\u00a0mm"))
    expect(page.locator(".score")).to_have_text(
        "Score: 1 right of 1 begun; 0 at the first try without a hint."
    )
    key_press(page, "Next")
    two = numbered(None, ExerciseLevel.APPRENTICE, "1", 2)
    expect(page.locator(".question h2")).to_have_text(f"2 · {two.title}")
    expect(page.locator(".hint")).to_have_count(0)


def test_the_way_is_chosen_or_typed(page: Page, bench_address: str) -> None:
    """A turn without its way is asked for it; the wrong one is named, and the right one right."""
    opened(page, bench_address, Topic.FRONT_CELL)
    one = numbered(Topic.FRONT_CELL, ExerciseLevel.APPRENTICE, "1", 1)
    number = one.answer.amount(one.answer.size)
    answer_field(page, one).fill(number)
    hands.wait_until_idle(page)
    check = page.get_by_role("button", name="Check")
    hands.press(check)
    expect(marked(page)).to_contain_text("say which way")
    ways = ["clockwise", "counter-clockwise"]
    right = one.answer.printed.split()[-1]
    for way in sorted(ways, key=lambda way: way == right):
        hands.choose(page, "Which way", way)
        hands.press(check)
        hands.wait_until_idle(page)
        expect(marked(page)).to_contain_text("Right:" if way == right else "the way is not")


def test_nonsense_is_refused_and_kept(page: Page, bench_address: str) -> None:
    """A text without a meaning is refused at its field and when checked, counts nothing, stays."""
    opened(page, bench_address)
    one = numbered(None, ExerciseLevel.APPRENTICE, "1", 1)
    field = answer_field(page, one)
    field.fill("1,200 abc")
    hands.wait_until_idle(page)
    hands.press(page.get_by_role("button", name="Check"))
    expect(marked(page)).to_contain_text("cannot be understood")
    expect(page.locator(".score")).to_contain_text("nothing answered yet")
    expect(field).to_have_value("1,200 abc")


def test_a_class_that_types_one_seed_has_one_sheet(page: Page, bench_address: str) -> None:
    """What stands on the page for a seed is what is printed for it, question for question."""
    opened(page, bench_address)
    hands.type_into(page, "Seed", "class 4")
    hands.wait_until_idle(page)
    one = numbered(None, ExerciseLevel.APPRENTICE, "class 4", 1)
    expect(page.locator(".question h2")).to_have_text(f"1 · {one.title}")
    hands.choose(page, TASK, SHEET)
    expect(hands.field(page, "Seed")).to_have_value("class 4")
    hands.type_into(page, "Number of exercises", "4")
    hands.type_into(page, "Title", "Monday's class")
    hands.choose(page, "What it holds", WITH)
    reader = PdfReader(io.BytesIO(hands.download(page, "Sheet (PDF)")))
    text = "".join("".join(p.extract_text() for p in reader.pages).split())
    assert "Monday'sclass" in text
    for exercise in series(None, ExerciseLevel.APPRENTICE, "class 4", 4):
        assert "".join(exercise.question.split()) in text
        assert "".join(exercise.answer.printed.split()) in text


@pytest.mark.parametrize(("paper", "width"), [("A3", 297), ("A4", 210)])
def test_posters_are_downloaded_in_the_size_chosen(
    paper: str, width: float, page: Page, bench_address: str
) -> None:
    """A poster comes as one page of the paper chosen, under its title."""
    opened(page, bench_address)
    hands.choose(page, TASK, POSTER)
    title = list(POSTERS)[1]
    hands.choose(page, "Poster", title)
    hands.choose(page, "Paper", paper)
    reader = PdfReader(io.BytesIO(hands.download(page, "Sheet (PDF)")))
    (only,) = reader.pages
    assert float(only.mediabox.width) * 25.4 / 72 == pytest.approx(width, abs=0.1)
    assert title in " ".join(only.extract_text().split())


def test_score_and_texts_outlive_other_pages(page: Page, bench_address: str) -> None:
    """After a visit to another page the score, the place and the typed answer are as they were."""
    opened(page, bench_address)
    one = numbered(None, ExerciseLevel.APPRENTICE, "1", 1)
    answer_field(page, one).fill(one.answer.printed)
    hands.wait_until_idle(page)
    hands.press(page.get_by_role("button", name="Check"))
    expect(marked(page)).to_contain_text("Right:")
    hands.press(page.get_by_role("link", name="Correction"))
    expect(page).to_have_title("Correction · Shimwright")
    hands.wait_until_idle(page)
    hands.press(page.get_by_role("link", name="Exercises"))
    expect(page.locator(".score")).to_contain_text("1 right of 1 begun")
    expect(answer_field(page, one)).to_have_value(one.answer.printed)


@pytest.mark.parametrize("size", ["page", "phone_page"])
def test_every_task_fits_its_window(
    size: str, bench_address: str, request: pytest.FixtureRequest
) -> None:
    """At the bench and on a telephone no task is wider than the window, nor cuts a choice off."""
    window: Page = request.getfixturevalue(size)
    opened(window, bench_address, Topic.DEPTH)
    hands.press(window.get_by_role("button", name="Worked answer"))
    hands.wait_until_idle(window)
    for task in TASKS:
        hands.choose(window, TASK, task)
        assert window.evaluate("document.documentElement.scrollWidth <= innerWidth"), task
        wide = "document.querySelector('[data-testid=stMain]')"
        assert window.evaluate(f"{wide}.scrollWidth <= {wide}.clientWidth"), task


def test_no_topic_is_cut_off(phone_page: Page, bench_address: str) -> None:
    """On a telephone every topic shows its whole name in its box."""
    opened(phone_page, bench_address)
    for topic in Topic:
        hands.choose(phone_page, "Topic", str(topic))
        cut = phone_page.get_by_role("combobox").evaluate_all(
            "all => all.filter(e => e.scrollWidth > e.clientWidth).map(e => e.value)"
        )
        assert cut == []


def test_telephone_can_be_hit_with_a_finger(phone_page: Page, bench_address: str) -> None:
    """Every button of the page is at least 44 pixels high on a telephone."""
    opened(phone_page, bench_address)
    buttons = phone_page.locator(".stButton button")
    buttons.nth(4).wait_for()
    heights = hands.settled(
        phone_page,
        lambda: buttons.evaluate_all("all => all.map(e => e.getBoundingClientRect().height)"),
    )
    assert len(heights) >= 5
    assert min(heights) >= FINGER


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_rule_of_accessibility_is_broken(
    scheme: Literal["light", "dark"], page: Page, bench_address: str
) -> None:
    """By day and by night the open checker finds nothing amiss in any task, hints and marks on."""
    page.emulate_media(color_scheme=scheme)
    opened(page, bench_address)
    one = numbered(None, ExerciseLevel.APPRENTICE, "1", 1)
    for text in ("abc", "7", one.answer.printed):
        answer_field(page, one).fill(text)
        hands.wait_until_idle(page)
        hands.press(page.get_by_role("button", name="Check"))
        hands.wait_until_idle(page)
        assert broken_rules(page) == [], text
    hands.press(page.get_by_role("button", name="Worked answer"))
    hands.wait_until_idle(page)
    for task in TASKS:
        hands.choose(page, TASK, task)
        assert broken_rules(page) == [], task
