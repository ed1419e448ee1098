"""The practice bench: a camera with hidden faults, to be read, adjusted and talked over."""

from functools import lru_cache, partial

import streamlit as st

from optics.errors import ShimwrightError
from optics.readings.practised import Offered
from optics.records.practice_shelf import SHELF
from optics.teaching.practice import wording
from optics.teaching.practice.debrief import Debrief, debrief
from optics.teaching.practice.levels import Level
from optics.teaching.practice.sitting import Action, Finish, Sitting
from optics.teaching.practice.sitting_text import action_line, read_sitting, write_sitting
from ui.answers import answer_panel
from ui.job.answering import found
from ui.kept import drafts
from ui.school import practice_panel
from ui.school.practice_form import (
    Look,
    adjust_form,
    camera_choice,
    control_note,
    look_form,
    reading_choice,
    take_buttons,
)

TEXT, BEFORE, REFUSAL = "practice.sitting", "practice.before", "practice.refusal"
_FIRST = write_sitting(Sitting(next(iter(SHELF.values())), Level.ONE, 1))
_LONGEST = 20_000
_AREA = "The sitting as text, one action a line"


def show() -> None:
    """Draw the page."""
    st.html("<h1 class='page-name'>Practice bench</h1>")
    for key in (TEXT, BEFORE):
        drafts.recall(key)
    text = st.session_state.setdefault(TEXT, _FIRST)
    drafts.note(TEXT, text, _FIRST)
    drafts.note(BEFORE, st.session_state.get(BEFORE, ""), "")
    entry, answer = st.columns([9, 13], gap="medium")
    with entry, st.container(key="entry"):
        st.html(answer_panel.group_html("Draw a camera"))
        camera_choice(_draw)
    with answer:
        sitting = found([], partial(_taken_up, text))
    if sitting is not None:
        with entry:
            offered = None if sitting.is_finished else _read(sitting)
        with answer:
            _show(sitting, offered, text)
    with answer:
        _text_area()


@lru_cache(maxsize=64)
def _taken_up(text: str) -> Sitting:
    """The sitting that a text tells, replayed to its end."""
    sitting = read_sitting(text, SHELF)
    sitting.entries  # noqa: B018 - replayed here, so that what cannot be done is refused here
    return sitting


@lru_cache(maxsize=16)
def _looked_back(text: str) -> Debrief:
    return debrief(_taken_up(text))


def _draw(name: str, level: Level, seed: int) -> None:
    """Put another camera on the bench; the sitting before can be taken up again."""
    new = Sitting(SHELF[name], level, seed)
    try:
        new.found  # noqa: B018 - drawn here, so that a seed out of range is refused here
    except ShimwrightError as refusal:
        st.session_state[REFUSAL] = str(refusal)
        return
    text = st.session_state[TEXT]
    if len(text.split("\n")) > len(_FIRST.split("\n")):
        st.session_state[BEFORE] = text
    st.session_state[TEXT] = write_sitting(new)


def _take_up_before() -> None:
    state = st.session_state
    state[TEXT], state[BEFORE] = state[BEFORE], state[TEXT]


def _do(action: Action) -> None:
    """Add an action as a line of the text, if it can be done."""
    text = st.session_state[TEXT]
    try:
        more = f"{text.rstrip()}\n{action_line(_taken_up(text), action)}\n"
        _taken_up(more)
    except ShimwrightError as refusal:
        st.session_state[REFUSAL] = str(refusal)
        return
    st.session_state[TEXT] = more


def _read(sitting: Sitting) -> Offered:
    """What to read, the view of it, and the buttons that take the reading."""
    st.html(answer_panel.group_html("Read"))
    offered = reading_choice(sitting)
    look = None
    if offered.moved is None:
        st.html(practice_panel.instrument_html(offered))
    else:
        view = st.container(key="view")
        look = look_form(sitting, offered)
        with view:
            look = _shown(sitting, look)
    take_buttons(sitting, offered, look, _do)
    if offered.moved is not None:
        st.html(practice_panel.scale_html(offered))
    return offered


def _shown(sitting: Sitting, look: Look | None) -> Look | None:
    """Draw what is seen; None where nothing can stand there, and the page says why."""
    if look is None:
        return None
    try:
        st.html(practice_panel.view_html(sitting, look.offered, look.amount))
    except ShimwrightError as refusal:
        # One look is refused, not the page's answer: what was done so far stays in sight.
        st.html(practice_panel.refusal_html(str(refusal)))
        return None
    return look


def _show(sitting: Sitting, offered: Offered | None, text: str) -> None:
    """What was done so far and what can be done next; the debrief when the work is laid down."""
    refusal, control = st.session_state.pop(REFUSAL, ""), None
    if sitting.is_finished:
        back = _looked_back(text)
        points = wording.points_words(sitting, back.score)
        st.html(practice_panel.headline_html(sitting, refusal, points))
        st.html(practice_panel.debrief_html(sitting, back))
    else:
        st.html(practice_panel.headline_html(sitting, refusal))
        st.html(answer_panel.group_html("Adjust"))
        with st.container(key="adjust"):
            control = adjust_form(sitting, _do)
        st.html(f'<p class="note">{control_note(sitting, control)}</p>')
    st.html(answer_panel.group_html("What was done"))
    st.html(practice_panel.log_html(sitting))
    if not sitting.is_finished:
        st.button("Finish and debrief", key="practice.finish", on_click=_do, args=(Finish(),))
        with st.expander(
            "The bench: instruments, eye, old lines", key="practice.facts", on_change="rerun"
        ):
            st.html(practice_panel.facts_html(sitting))
        st.html(answer_panel.cautions_html(wording.cautions_for(control, offered)))


def _text_area() -> None:
    """The sitting as text: to copy, to hand in, or to paste another's and take it up."""
    with st.expander(
        "The sitting as text, to copy or hand in", key="practice.text", on_change="rerun"
    ):
        st.text_area(_AREA, key=TEXT, height=220, max_chars=_LONGEST, persist_state="session")
        st.download_button(
            "Sitting (text file)",
            st.session_state[TEXT],
            file_name="sitting.txt",
            mime="text/plain",
            on_click="ignore",
            key="practice.file",
        )
    if BEFORE in st.session_state:
        st.button("Take up the sitting before", key="practice.back", on_click=_take_up_before)
