"""The Exercises page drawn by the real page server, without a browser."""

import pytest
from streamlit.testing.v1 import AppTest
from streamlit.testing.v1.element_tree import TextInput

from optics.sheets.posters import POSTERS
from optics.teaching.exercises import ExerciseLevel, Topic, numbered


def page_script() -> None:
    """Draw the page alone."""
    from ui.pages.exercises import show

    show()


@pytest.fixture
def page() -> AppTest:
    """The page as it opens."""
    return AppTest.from_function(page_script, default_timeout=60).run()


def shown(page: AppTest) -> str:
    """Return all the markup of the page."""
    assert not page.exception
    return " ".join(html.proto.body for html in page.get("html")).replace("\u00a0", " ")


def answer_field(page: AppTest) -> TextInput:
    """The one field that an answer is typed into."""
    (field,) = [one for one in page.text_input if str(one.key).endswith(".answer")]
    return field


def test_page_opens_with_a_question(page: AppTest) -> None:
    """The first exercise of seed 1 stands there, unanswered, with no hint on the table."""
    one = numbered(None, ExerciseLevel.APPRENTICE, "1", 1)
    markup = shown(page)
    assert one.title in markup
    assert one.question[:40] in markup
    assert "nothing answered yet" in markup
    assert "What to ask" not in markup


def test_another_seed_gives_other_figures(page: AppTest) -> None:
    """Typing a seed shows that seed's first exercise."""
    page.text_input("exercises.seed").set_value("class 4").run()
    one = numbered(None, ExerciseLevel.APPRENTICE, "class 4", 1)
    assert one.question[:40] in shown(page)


@pytest.mark.parametrize("topic", list(Topic))
@pytest.mark.parametrize("level", ["Apprentice", "Journeyman", "Bench"])
def test_every_topic_can_be_worked_at_every_level(page: AppTest, topic: str, level: str) -> None:
    """Answered as its sheet says, the first exercise of each topic and level is right."""
    page.selectbox("exercises.topic").select(str(topic))
    page.selectbox("exercises.level").select(level).run()
    one = numbered(Topic(topic), ExerciseLevel(level.lower()), "1", 1)
    answer = answer_field(page)
    answer.set_value(one.answer.printed)
    page.button("check").click().run()
    assert "✓" in shown(page)
    assert "1 right of 1 begun" in shown(page)


def test_hints_come_one_at_a_time_and_the_answer_last(page: AppTest) -> None:
    """Each press shows one more hint; the worked answer shows all of them."""
    for seen in (1, 2):
        page.button("hint").click().run()
        assert shown(page).count("of 4 ·") == seen
    page.button("tell").click().run()
    assert shown(page).count("of 4 ·") == 4


def test_next_and_back_keep_what_was_typed(page: AppTest) -> None:
    """Going on shows the next question with an empty field; going back shows the text again."""
    answer = answer_field(page)
    answer.set_value("12")
    page.button("check").click().run()
    page.button("next").click().run()
    assert "2 · " in shown(page)
    empty = answer_field(page)
    assert empty.value == ""
    page.button("back").click().run()
    again = answer_field(page)
    assert again.value == "12"


def test_a_changed_answer_loses_its_mark(page: AppTest) -> None:
    """The mark belongs to the text it was given for."""
    answer = answer_field(page)
    answer.set_value("123456")
    page.button("check").click().run()
    assert "✕" in shown(page) or "≈" in shown(page)
    answer = answer_field(page)
    answer.set_value("123457").run()
    assert "✕" not in shown(page)
    assert "≈" not in shown(page)


def test_a_seed_too_long_is_waited_for(page: AppTest) -> None:
    """A seed of more than forty characters is refused and the question waits."""
    page.text_input("exercises.seed").set_value("x" * 41).run()
    assert "Still needed" in shown(page)


@pytest.mark.parametrize("title", list(POSTERS))
def test_every_poster_is_shown(page: AppTest, title: str) -> None:
    """Each poster has its preview and its document."""
    page.selectbox("exercises.task").select("Posters").run()
    page.selectbox("exercises.poster").select(title).run()
    assert 'class="sheet"' in shown(page)
    assert len(page.get("download_button")) == 1


def test_the_sheet_holds_the_number_asked_for(page: AppTest) -> None:
    """Three exercises with answers make two pages of preview, and none is refused."""
    page.selectbox("exercises.task").select("Sheet to print").run()
    page.selectbox("exercises.sheet.held").select("Questions, then answers")
    page.text_input("exercises.sheet.count").set_value("3").run()
    assert shown(page).count('class="sheet"') == 2
    page.text_input("exercises.sheet.count").set_value("0").run()
    assert "from 1 to 30" in shown(page)
