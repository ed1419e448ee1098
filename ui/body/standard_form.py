"""What was gauged on a lens standard, the picture behind it, and the screws that hold it."""

from dataclasses import dataclass
from typing import Any

import streamlit as st

from optics.body.standard import part as parts
from optics.camera.confusion import FORMATS
from optics.records.lantern_street import CORVANE, NEGATIVES, OSTRIN, TARNBROOK, WORKSHOP
from optics.typed import fields
from ui.answers.answer_panel import group_html
from ui.asking.camera_form import is_example
from ui.asking.forms import Form

LEANS = {"the lens": "lens", "the film": "film"}
MIDDLE = {"keep the middle": "keep", "put the middle right too": "put right"}
_ROWS = (("top left", "top right"), ("bottom left", "bottom right"))


@dataclass(frozen=True)
class _Example:
    """Invented readings for a camera of the shelf."""

    depths: dict[str, str]
    corners: str
    screws: str
    screws_apart: str


_BLANK = _Example({}, "", "", "")
_EXAMPLES = {
    OSTRIN.name: _Example(
        {
            "top left": "−0.121; −0.122",
            "top right": "0.142; 0.141",
            "bottom left": "−0.139; −0.138",
            "bottom right": "0.118; 0.119",
            "middle": "0.001; 0.000",
        },
        "44 × 34",
        "top left = 0.15; top right = 0.15; bottom right = 0.15; bottom left = 0.15",
        "40 × 30",
    ),
    CORVANE.name: _Example(
        {
            "top left": "0.262",
            "top right": "0.178",
            "bottom left": "−0.168",
            "bottom right": "−0.255",
            "middle": "0.005",
        },
        "50 × 50",
        "top = 0.2; bottom left = 0.1; bottom right = none",
        "44 × 40",
    ),
    TARNBROOK.name: _Example(
        {
            "top left": "0.020",
            "top right": "0.413",
            "bottom left": "−0.044",
            "bottom right": "0.347",
            "middle": "0.185",
        },
        "60 × 50",
        "top left = 0.2; top right = 0.2; bottom right = 0.2; bottom left = 0.2",
        "48 × 40",
    ),
}


def standard_form(name: str) -> tuple[dict[str, Any], dict[str, Any], list[str]]:
    """Draw the fields; the standard and the workshop of the job, and what is amiss."""
    example = _EXAMPLES.get(name, _BLANK)
    depths, missing = _depth_fields(name, example)
    form = Form(f"{name}.standard")
    _gauge_row(form, example)
    st.html(group_html("The picture"))
    _picture_rows(form, name)
    st.html(group_html("The mount"))
    workshop = _mount_rows(form, name, example)
    form.chosen["leans"] = LEANS[form.chosen["leans"]]
    form.chosen["middle"] = MIDDLE[form.chosen["middle"]]
    part = {"depths": depths} | form.part()
    return part, workshop.part(), [*missing, *form.problems, *workshop.problems]


def _depth_fields(name: str, example: _Example) -> tuple[str, list[str]]:
    """One field a place, as they lie; all of them as one text, and what is amiss."""
    boxes = Form(f"{name}.depths")
    for row in _ROWS:
        for column, place in zip(st.columns(2), row, strict=True):
            with column:
                _box(boxes, place, example)
    left, right = st.columns(2)
    with left:
        _box(boxes, "middle", example)
    with right:
        boxes.ask(
            "more",
            parts.DEPTHS,
            optional=True,
            label="other places",
            hint="x, y: 20, −5 = 0.12; top = 0.1",
        )
    texts = boxes.part()
    more = texts.pop("more", "")
    typed = [f"{place} = {text}" for place, text in texts.items()] + ([more] if more else [])
    missing = [] if typed else ["Enter depth readings at three places or more."]
    return "; ".join(typed), [*boxes.problems, *missing]


def _box(boxes: Form, place: str, example: _Example) -> None:
    hint = "repeats: 0.12; 0.13" if place == "top left" else ""
    boxes.ask(
        place,
        parts.depth_at(place),
        typed=example.depths.get(place),
        optional=True,
        label=place,
        hint=hint,
    )


def _gauge_row(form: Form, example: _Example) -> None:
    columns = st.columns(3)
    with columns[0]:
        form.ask(
            "corners",
            parts.CORNERS,
            typed=example.corners,
            optional=True,
            label="corners apart",
            hint="if empty, the picture's",
        )
    with columns[1]:
        form.ask("limit", parts.DEPTH_LIMIT, typed="0.005", label="each good to ±")
    with columns[2]:
        form.ask(
            "zero_limit",
            parts.ZERO_LIMIT,
            typed="0.02",
            optional=True,
            label="its zero to ±",
            hint="0 if empty",
        )


def _picture_rows(form: Form, name: str) -> None:
    columns = st.columns(3)
    with columns[0]:
        form.ask("frame", parts.FRAME, typed=_frame(name), label="width × height")
    with columns[1]:
        form.ask("subject", parts.SUBJECT, typed="∞", label="subject at")
    with columns[2]:
        form.ask("aperture", parts.APERTURE, optional=True, hint="full aperture if empty")
    left, right = st.columns(2)
    with left:
        form.choose("leans", "what leans", list(LEANS), note="the film counts once, a lens 1 + m")
    with right:
        form.ask(
            "nominal",
            parts.NOMINAL_DEPTH,
            optional=True,
            label="right on the lens axis",
            hint="depth; if empty, it is focused",
        )


def _frame(name: str) -> str:
    if name not in NEGATIVES:
        return ""
    negative = FORMATS[NEGATIVES[name]]
    # The cameras of the shelf are gauged as they stand: the longer side across.
    down, across = sorted((negative.width, negative.height))
    return f"{across:g} × {down:g}"


def _mount_rows(form: Form, name: str, example: _Example) -> Form:
    form.ask(
        "screws",
        parts.SCREWS,
        typed=example.screws,
        optional=True,
        label="screws, and the leaves under each now",
        hint="such as top = 0.2 + 0.05; −20, −15 = none; 20, −15 = ?",
    )
    left, right = st.columns(2)
    with left:
        form.ask(
            "screws_apart",
            parts.SCREWS_APART,
            typed=example.screws_apart,
            optional=True,
            label="screws apart",
            hint="corners by name; width × height",
        )
    with right:
        form.choose("middle", "shims shall", list(MIDDLE))
    # The drawer is the one of the Correction page: one workshop, one text.
    workshop = Form(f"{name}.workshop")
    stock = WORKSHOP.drawer if is_example(name) else ""
    workshop.ask(
        "drawer", fields.DRAWER, typed=stock, optional=True, hint="such as 0.05 × 4; 0.1 × 2"
    )
    return workshop
