"""Thread starts and witness marks: the fields."""

from typing import Any

import streamlit as st

from optics.body.witness import MarksOn
from optics.body.witness import part as parts
from optics.errors import ShimwrightError
from optics.records.lantern_street import CORVANE, OSTRIN
from optics.typed import fields
from ui.asking.forms import Form

_MARKS = {OSTRIN.name: "A = 0; B = 10; C = −14", CORVANE.name: "A = 0; B = 12"}
_ERRORS = {OSTRIN.name: "6.47; 6.49; 6.48; 6.48", CORVANE.name: "0.64; 0.66; 0.65"}
_STARTS = {CORVANE.name: "3"}


def witness_form(name: str) -> tuple[dict[str, Any], list[str]]:
    """Draw the fields; starts and marks as the job document takes them, and what is amiss."""
    form = Form(f"{name}.witness")
    marks_row(form, name)
    left, right = st.columns(2)
    with left:
        form.choose("marks_on", "the marks are on", [str(on) for on in MarksOn], note="")
    with right:
        _present_mark(form)
    _error_row(form, name)
    with st.expander("More about marks and thread"):
        _finer_rows(form, name)
    return form.part(), form.problems


def marks_row(form: Form, name: str) -> None:
    """Ask for the candidate marks; the witness card asks for the same."""
    form.ask(
        "marks",
        parts.MARKS,
        typed=_MARKS.get(name),
        label="marks, clockwise from the top",
        hint="seen from the front, such as A = 0; B = 10; C = −14",
    )


def _present_mark(form: Form) -> None:
    """The mark in use: one of those that were understood."""
    try:
        names = [mark.name for mark in parts.marks_in(form.entries["marks"].text)]
    except ShimwrightError:
        names = []
    if names:
        form.choose("present", "mark in use", names, note="when the reading was taken")


def _error_row(form: Form, name: str) -> None:
    columns = st.columns([6, 6, 5])
    with columns[0]:
        form.ask(
            "error",
            parts.MEASURED_ERROR,
            typed=_ERRORS.get(name),
            label="lens at ∞ is out by",
            hint="repeats: 6.47; 6.49",
        )
    with columns[1]:
        form.choose(
            "sense", "which way", ("too far out", "too far in"), note="minus turns it about"
        )
    with columns[2]:
        form.ask(
            "limit",
            parts.ERROR_LIMIT,
            typed="0.015",
            optional=True,
            label="good to ±",
            hint="0 if empty",
        )


def _finer_rows(form: Form, name: str) -> None:
    left, right = st.columns(2)
    with left:
        form.ask("angle_limit", fields.MARK_ANGLE_LIMIT, typed="0.5", label="marks read to ±")
    with right:
        form.ask(
            "spread",
            parts.SPREAD,
            optional=True,
            label="right one within ±",
            hint="the tolerance if empty",
        )
    left, right = st.columns(2)
    with left:
        form.ask(
            "starts",
            fields.STARTS,
            typed=_STARTS.get(name),
            optional=True,
            hint="the camera's if empty",
        )
    with right:
        form.ask(
            "parted_at",
            parts.PARTED_AT,
            optional=True,
            label="threads part at",
            hint="clockwise from the top",
        )
