"""The sheets that help to set a rangefinder: an infinity lath and a focusing target."""

from collections.abc import Callable
from datetime import date
from functools import partial
from typing import Annotated, Literal

from optics.drawing.page import Sheet
from optics.rangefinder.lath import Lath
from optics.rangefinder.set_up import CoupledCamera
from optics.rangefinder.target import FocusingTarget
from optics.sheets.lath_sheet import lath_sheet
from optics.sheets.target_sheet import target_sheet
from optics.typed import fields
from optics.typed.ask import Ask, Texts
from optics.typed.part import Part
from ui.asking.paper import Paper
from ui.asking.part_form import PartForm

LATH = "Infinity lath"
TARGET = "Focusing target"


def _is_target(texts: Texts) -> bool:
    return texts["sheet"] == TARGET


class SheetPart(Part):
    """Which sheet is wanted, and from how far it is looked at."""

    sheet: Annotated[Literal["Infinity lath", "Focusing target"], Ask(width=6)]
    paper: Annotated[Paper, Ask(width=6)]
    lath: Annotated[
        str,
        fields.LATH_DISTANCE,
        Ask(hint="such as 2 m", starts="2 m", width=6, when=lambda t: not _is_target(t)),
    ]
    target: Annotated[
        str,
        fields.TARGET_DISTANCE,
        Ask(hint="such as 3 m", starts="3 m", width=6, when=_is_target),
    ]
    loupe: Annotated[
        str, fields.LOUPE, Ask(hint="1: the naked eye", starts="8", width=6, when=_is_target)
    ]


def sheets_form(name: str) -> tuple[Callable[[CoupledCamera], Sheet], list[str]]:
    """Draw the fields of the sheet chosen; how to draw it, and what is amiss."""
    form = PartForm(SheetPart, f"{name}.rangefinder.sheet")
    form.draw()
    draw = _lath if form.text_at("sheet") == LATH else _target
    return partial(draw, form), form.problems


def _lath(form: PartForm, bench: CoupledCamera) -> Sheet:
    rangefinder = bench.rangefinder
    lath = Lath(
        bench.camera,
        rangefinder.base,
        form.value("lath", 2000.0),
        rangefinder.base_to_film,
        rangefinder.magnification,
        bench.acuity.angle,
    )
    return lath_sheet(lath, title="", made=date.today(), page_size=form.text_at("paper"))


def _target(form: PartForm, bench: CoupledCamera) -> Sheet:
    target = FocusingTarget(
        bench.camera, form.value("target", 0.0), form.value("loupe", 1.0), bench.acuity.angle
    )
    return target_sheet(target, title="", made=date.today(), page_size=form.text_at("paper"))
