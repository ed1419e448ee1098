"""The sheets that help to set a rangefinder: an infinity lath and a focusing target."""

from collections.abc import Callable
from datetime import date
from functools import partial

import streamlit as st

from optics.drawing.page import Sheet
from optics.rangefinder.lath import Lath
from optics.rangefinder.set_up import Bench
from optics.rangefinder.target import FocusingTarget
from optics.sheets.lath_sheet import lath_sheet
from optics.sheets.target_sheet import target_sheet
from optics.typed import fields
from ui.asking.fields import choice
from ui.asking.forms import Form
from ui.rangefinder.rangefinder_form import choose_paper

LATH = "Infinity lath"
TARGET = "Focusing target"


def sheets_form(name: str) -> tuple[Callable[[Bench], Sheet], list[str]]:
    """Draw the fields of the sheet chosen; how to draw it, and what is amiss."""
    left, right = st.columns(2)
    form = Form(f"{name}.rangefinder.sheet")
    with left:
        chosen = choice("sheet", [LATH, TARGET], f"{name}.rangefinder.sheet")
    with right:
        choose_paper(form)
    left, right = st.columns(2)
    if chosen == LATH:
        with left:
            form.ask("lath", fields.LATH_DISTANCE, typed="2 m", hint="such as 2 m")
        return partial(_lath, form), form.problems
    with left:
        form.ask("target", fields.TARGET_DISTANCE, typed="3 m", hint="such as 3 m")
    with right:
        form.ask("loupe", fields.LOUPE, typed="8", hint="1: the naked eye")
    return partial(_target, form), form.problems


def _lath(form: Form, bench: Bench) -> Sheet:
    rangefinder = bench.rangefinder
    lath = Lath(
        bench.camera,
        rangefinder.base,
        form.value("lath", 2000.0),
        rangefinder.base_to_film,
        rangefinder.magnification,
        bench.acuity.angle,
    )
    return lath_sheet(lath, title="", made=date.today(), page_size=form.chosen["paper"])


def _target(form: Form, bench: Bench) -> Sheet:
    target = FocusingTarget(
        bench.camera, form.value("target", 0.0), form.value("loupe", 1.0), bench.acuity.angle
    )
    return target_sheet(target, title="", made=date.today(), page_size=form.chosen["paper"])
