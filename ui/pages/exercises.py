"""Exercises with the invented cameras: answer, be marked, take hints; sheets and posters."""

from collections.abc import Callable
from datetime import date
from functools import partial

import streamlit as st

from optics.sheets.exercise_sheet import exercise_sheet
from optics.sheets.posters import POSTERS, poster
from optics.teaching.exercises import series
from optics.typed.part import value
from ui.answers import answer_panel
from ui.answers.bench_panel import lines_html
from ui.asking.fields import choice
from ui.depth.sheet_panel import show_sheet
from ui.job.answering import found
from ui.school import exercise_panel
from ui.school.exercise_form import (
    HOW_MANY,
    WITH,
    ExerciseChoice,
    PrintPart,
    answer_form,
    print_form,
    series_form,
)
from ui.school.exercise_state import (
    exercise_at,
    forget_score,
    go_on,
    place_in,
    record_of,
    score_line,
)

EXERCISE, SHEET, POSTER = "Exercise", "Sheet to print", "Posters"
_INVENTED = (
    "The cameras of Lantern Street Camera Works and all figures are invented. Answers are typed as "
    "at the bench: 0.12 mm, 5 thou, 3 ft 6, 12° 30'."
)
_ANY_SIZE = "Nothing on it is to be measured: print it at any size."


def show() -> None:
    """Draw the page."""
    st.html("<h1 class='page-name'>Exercises</h1>")
    entry, answer = st.columns([7, 13], gap="medium")
    with entry, st.container(key="entry"):
        task = choice("task", list(_TASKS), "exercises.task")
        show_answer = _TASKS[task]()
    with answer:
        show_answer()


def _exercise_task() -> Callable[[], None]:
    st.html(answer_panel.group_html("Which exercises"))
    chosen = series_form()
    st.html(f'<p class="advice">{_INVENTED}</p>')
    return partial(found, chosen.problems, partial(_show_exercise, chosen))


def _show_exercise(chosen: ExerciseChoice) -> None:
    number = place_in(chosen.key)
    exercise = exercise_at(chosen.topic, chosen.level, chosen.seed, number)
    record = record_of(exercise)
    st.html(exercise_panel.question_html(number, exercise))
    with st.container(key="typed_answer"):
        text = answer_form(exercise, f"{chosen.key}/{number}")
    row = st.container(horizontal=True, key="steps")
    if row.button("Check", type="primary", key="check"):
        record.check(exercise, text)
    row.button("Hint", on_click=record.hint, args=(exercise,), key="hint")
    row.button("Worked answer", on_click=record.tell, args=(exercise,), key="tell")
    row.button("Back", on_click=go_on, args=(chosen.key, -1), key="back", disabled=number == 1)
    row.button("Next", on_click=go_on, args=(chosen.key, 1), key="next")
    # A mark belongs to the text it was given for, and goes when that is changed.
    st.html(exercise_panel.marked_html(record.marked if record.checked == text else None))
    st.html(exercise_panel.hints_html(exercise.hints[: record.hints], len(exercise.hints)))
    st.html(lines_html([score_line()], "score"))
    st.button("Begin the score anew", on_click=forget_score, key="forget")


def _sheet_task() -> Callable[[], None]:
    st.html(answer_panel.group_html("Which exercises"))
    chosen = series_form()
    st.html(answer_panel.group_html("The sheet"))
    form = print_form()

    def draw() -> None:
        part = PrintPart.model_validate(form.part)
        sheet = exercise_sheet(
            series(chosen.topic, chosen.level, chosen.seed, int(value(HOW_MANY, part.count))),
            made=date.today(),
            with_answers=part.held == WITH,
            title=part.title,
            page_size=part.paper,
        )
        show_sheet(sheet, "sheet_pdf", _ANY_SIZE)

    return partial(found, [*chosen.problems, *form.problems], draw)


def _poster_task() -> Callable[[], None]:
    st.html(answer_panel.group_html("The poster"))
    title = choice("poster", list(POSTERS), "exercises.poster")
    paper = choice("paper", ["A3", "A4"], "exercises.poster.paper")

    def draw() -> None:
        show_sheet(poster(title, made=date.today(), page_size=paper), "poster_pdf", _ANY_SIZE)

    return partial(found, [], draw)


_TASKS: dict[str, Callable[[], Callable[[], None]]] = {
    EXERCISE: _exercise_task,
    SHEET: _sheet_task,
    POSTER: _poster_task,
}
