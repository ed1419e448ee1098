"""The cam's fields: what the body expects, the cam's size, the lifts read, how it may be cut."""

from dataclasses import dataclass
from typing import Any

import streamlit as st

from optics.typed import fields
from ui.asking.camera_form import is_example
from ui.asking.fields import choice
from ui.asking.forms import Form
from ui.rangefinder.rangefinder_form import choose_paper

_LENS, _STRAIGHT = "a lens it was cut for", "a straight follower"
_EXAMPLE = "0 = 0; 10 = 0.60; 0.61; 20 = 1.19; 30 = 1.78; 40 = 2.34; 50 = 2.90"
_OF_SHEET = ("diameter", "paper")


@dataclass(frozen=True)
class CamWishes:
    """The cam's part of a job, what stands in the way, and the sheet's own fields."""

    part: dict[str, Any]
    problems: list[str]
    diameter: float
    paper: str


def cam_form(name: str) -> CamWishes:
    """Draw the fields."""
    form = Form(f"{name}.cam")
    law = choice("the body expects", [_LENS, _STRAIGHT], f"{name}.cam.law")
    body = Form(f"{name}.cam.{'straight' if law == _STRAIGHT else 'body'}")
    _body_row(body, law)
    known = is_example(name)
    columns = st.columns(4)
    with columns[0]:
        form.ask(
            "turn",
            fields.CAM_TURN,
            typed="52" if known else "",
            label="ring turns",
            hint="from infinity",
        )
    with columns[1]:
        form.ask(
            "diameter",
            fields.CAM_DIAMETER,
            typed="50" if known else "",
            label="cam ⌀",
            hint="where it is felt",
        )
    with columns[2]:
        form.ask(
            "limit",
            fields.LIFT_LIMIT,
            typed="0.005" if known else "",
            label="lift read to ±",
            optional=True,
            hint="0 if empty",
        )
    with columns[3]:
        choose_paper(form)
    left, right = st.columns([4, 1])
    with left:
        form.ask(
            "lifts",
            fields.LIFTS,
            typed=_EXAMPLE if known else "",
            optional=True,
            label="lifts read, degrees = lift",
            hint="empty: the table of a new cam",
        )
    with right:
        form.ask("deepest", fields.DEEPEST_CUT, optional=True, label="warn at")
    with st.expander("More about the coupling and the cut"):
        _finer_row(form)
    return _wishes(form, {"kind": law} | body.part(), body.problems)


def _wishes(form: Form, body: dict[str, str], amiss: list[str]) -> CamWishes:
    part = {name: text for name, text in form.part().items() if name not in _OF_SHEET}
    problems = [*amiss, *form.problems]
    diameter = 0.0 if problems else form.value("diameter", 0.0)
    return CamWishes(part | {"body": body}, problems, diameter, form.chosen["paper"])


def _body_row(form: Form, law: str) -> None:
    columns = st.columns(3)
    if law == _STRAIGHT:
        with columns[0]:
            form.ask("gain", fields.FOLLOWER_GAIN, typed="58", label="converges for each mm")
        return
    with columns[0]:
        form.ask("focal_length", fields.BODY_FOCAL_LENGTH, typed="50", label="its focal length")
    with columns[1]:
        form.ask(
            "hiatus", fields.BODY_HIATUS, optional=True, label="its hiatus", hint="0 if not known"
        )
    with columns[2]:
        form.ask(
            "gain",
            fields.FOLLOWER_GAIN,
            optional=True,
            label="converges for each mm",
            hint="if known",
        )


def _finer_row(form: Form) -> None:
    columns = st.columns(4)
    with columns[0]:
        form.ask(
            "gain_less", fields.GAIN_LESS, optional=True, label="gain may drop", hint="0: it stays"
        )
    with columns[1]:
        form.ask(
            "gain_more", fields.GAIN_MORE, optional=True, label="gain may rise", hint="0: it stays"
        )
    with columns[2]:
        form.choose("cutting", "cutting", ["lowers the lift", "raises the lift"])
    with columns[3]:
        form.choose("hold_back", "leave on", ["nothing", "the uncertainty"])
