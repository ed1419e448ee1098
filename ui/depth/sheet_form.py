"""Which true-size sheet is wanted, and of what."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

import streamlit as st

from optics.camera.camera import Camera
from optics.drawing.page import Sheet
from optics.records.job import ScalePart
from optics.records.to_bench import scale_marks_of
from optics.scales.engraving import ScaleUnit
from optics.scales.scale_check import check_scale
from optics.scales.scale_layout import Towards
from optics.sheets.depth_card import depth_card
from optics.sheets.face_ring import Face, face_ring
from optics.sheets.scale_overlay import check_overlay
from optics.sheets.scale_plan import ScalePlan
from optics.sheets.scale_strip import StripBarrel, scale_strip
from optics.sheets.true_size import Artwork, Signature
from optics.typed import fields
from ui.asking.fields import choice
from ui.asking.forms import FieldGroup
from ui.depth.depth_form import DepthWishes, depth_form, wished_table
from ui.depth.scale_form import scale_form

CARD = "Depth-of-field card"
STRIP = "Scale strip for a barrel"
RING = "Scale ring for a face"
OVERLAY = "Right marks over the checked ones"
_UNITS = {
    "metres": (ScaleUnit.METRES,),
    "feet": (ScaleUnit.FEET,),
    "metres and feet": (ScaleUnit.METRES, ScaleUnit.FEET),
}
_TOPS = {"towards the front": Towards.FRONT, "towards the film": Towards.FILM}


@dataclass(frozen=True)
class SheetWishes:
    """The sheet wanted: its fields' problems, and how to draw it for a camera."""

    problems: list[str]
    draw: Callable[[Camera], Sheet]


def sheet_form(name: str) -> SheetWishes:
    """Draw the fields of the sheet that is chosen."""
    sheet = choice("sheet", [CARD, STRIP, RING, OVERLAY], f"{name}.sheet")
    return {CARD: _card, STRIP: _strip, RING: _ring, OVERLAY: _overlay}[sheet](name)


def signature_form(form: FieldGroup, name: str) -> Callable[[], Signature]:
    """Paper, and what a sheet's rulers measured last time."""
    columns = st.columns(3)
    with columns[0]:
        paper = choice("paper", ["A4", "Letter"], f"{name}.paper")
    with columns[1]:
        form.ask(
            "across",
            fields.PRINTED_RULER,
            optional=True,
            label="printed ruler across",
            hint="100 until measured",
        )
    with columns[2]:
        form.ask(
            "up",
            fields.PRINTED_RULER,
            optional=True,
            label="printed ruler up",
            hint="100 until measured",
        )

    def made() -> Signature:
        rulers = (form.value("across", 100.0), form.value("up", 100.0))
        return Signature(made=date.today(), page_size=paper, rulers=rulers)

    return made


def _card(name: str) -> SheetWishes:
    wishes: DepthWishes = depth_form(name)
    signature = signature_form(wishes.form, name)
    unit = ScaleUnit.METRES if wishes.system == "metric" else ScaleUnit.FEET

    def draw(camera: Camera) -> Sheet:
        table = wished_table(camera, wishes)
        return depth_card(table, wishes.stop_names, signature(), stops=wishes.stop_kind, unit=unit)

    return SheetWishes(wishes.form.problems, draw)


def _strip(name: str) -> SheetWishes:
    form = FieldGroup(f"{name}.strip")
    units, artwork = _scale_choices(form)
    columns = st.columns(3)
    with columns[0]:
        form.ask("diameter", fields.BARREL_DIAMETER, typed="52 mm")
    with columns[1]:
        form.ask("paper", fields.PAPER_THICKNESS, typed="0.1 mm")
    with columns[2]:
        tops = choice("figures' tops", list(_TOPS), f"{name}.strip.tops")
    signature = signature_form(form, name)

    def draw(camera: Camera) -> Sheet:
        barrel = StripBarrel(
            form.value("diameter", 0.0),
            paper_thickness=form.value("paper", 0.1),
            tops=_TOPS[tops],
            index=Towards.FILM if _TOPS[tops] is Towards.FRONT else Towards.FRONT,
        )
        return scale_strip(ScalePlan(camera, units=units), barrel, signature(), artwork)

    return SheetWishes(form.problems, draw)


def _ring(name: str) -> SheetWishes:
    form = FieldGroup(f"{name}.face")
    units, artwork = _scale_choices(form)
    columns = st.columns(2)
    with columns[0]:
        form.ask("outer", fields.OUTER_DIAMETER, typed="52 mm")
    with columns[1]:
        form.ask("inner", fields.INNER_DIAMETER, typed="36 mm")
    signature = signature_form(form, name)

    def draw(camera: Camera) -> Sheet:
        face = Face(form.value("outer", 0.0), form.value("inner", 0.0))
        return face_ring(ScalePlan(camera, units=units), face, signature(), artwork)

    return SheetWishes(form.problems, draw)


def _overlay(name: str) -> SheetWishes:
    scale, form = scale_form(name), FieldGroup(f"{name}.overlay")
    units = _UNITS[choice("figures in", list(_UNITS)[:2], f"{name}.overlay.units")]
    signature = signature_form(form, name)

    def draw(camera: Camera) -> Sheet:
        part = ScalePart.model_validate(scale.part)
        check = check_scale(camera, scale_marks_of(part, camera), part.reference)
        return check_overlay(check, signature(), unit=units[0])

    return SheetWishes([*scale.problems, *form.problems], draw)


def _scale_choices(form: FieldGroup) -> tuple[tuple[ScaleUnit, ...], Artwork]:
    left, right = st.columns([4, 7])
    with left:
        units = choice("distances in", list(_UNITS), f"{form.prefix}.units")
    with right:
        artwork = choice("printed as", [a.value for a in Artwork], f"{form.prefix}.artwork")
    return _UNITS[units], Artwork(artwork)
