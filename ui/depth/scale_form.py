"""What was measured on a ring: its marks, its depth marks, and how."""

from collections.abc import Sequence
from typing import Any

import streamlit as st
from streamlit.delta_generator import DeltaGenerator

from optics.records.job import scale_fields
from optics.records.lantern_street import CORVANE, OSTRIN
from ui.asking.camera_form import choose_negative
from ui.asking.fields import choice
from ui.asking.forms import Form

BEGIN = {
    "the index, lens at infinity": "lens at infinity",
    "a mark on the ring": "ring mark",
}
ACROSS = {"from mark to twin": True, "from the index": False}
_BLANK = ("", "", "")
# Invented readings: one ring slipped by a degree and a half, one with its 2 m mark wrong.
_EXAMPLES = {
    OSTRIN.name: (
        "∞ = 1.4; 10 m = 6; 5 m = 10.5; 3 m = 16.7; 2 m = 24.7; 1.5 m = 32.9; 1 m = 50.3",
        "f/16 = 19.2; f/8 = 9.6; f/4 = 4.8",
        "0.2",
    ),
    CORVANE.name: (
        "∞ = 0.1; 10 m = 10.5; 5 m = 21.4; 3 m = 36.5; 2 m = 59.1; 1.5 m = 76.7; 1 m = 121.9",
        "f/16 = 29.6; f/8 = 14.8; f/4 = 7.4",
        "0.3",
    ),
}


def scale_form(name: str) -> tuple[dict[str, Any], list[str]]:
    """Draw the fields; the scale as the job document takes it, and what is amiss."""
    columns = st.columns(2)
    with columns[0]:
        along = choice("marks measured as", ["angle", "arc", "chord"], f"{name}.scale.along")
    with columns[1]:
        begin = choice("measured from", list(BEGIN), f"{name}.scale.from")
    form, rest = _readings(name, along)
    with rest[0]:
        across = choice("depth marks read", list(ACROSS), f"{name}.scale.across")
    with rest[1]:
        negative = choose_negative(name).key
    part = {"along": along, "reference": BEGIN[begin], "across": ACROSS[across]}
    return part | {"negative": negative} | form.part(), form.problems


def _readings(name: str, along: str) -> tuple[Form, Sequence[DeltaGenerator]]:
    """Marks, depth marks and their limit, each way of measuring apart; the row's other places."""
    marks, depth_marks, limit = scale_fields(along)
    typed = _EXAMPLES.get(name, _BLANK) if along == "angle" else _BLANK
    form = Form(f"{name}.scale.{along}")
    form.ask(
        "marks",
        marks,
        typed=typed[0],
        label="marks, plus towards the near end",
        hint="such as ∞ = 0; 3 m = 17.3; 17.2; 1.5 m = 34.9",
    )
    form.ask(
        "depth_marks",
        depth_marks,
        typed=typed[1],
        optional=True,
        label="depth marks",
        hint="such as f/16 = 19; f/8 = 9.6",
    )
    columns = st.columns(3)
    with columns[0]:
        form.ask("limit", limit, typed=typed[2], label="each read to ±")
    return form, columns[1:]
