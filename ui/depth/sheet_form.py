"""Which true-size sheet is wanted, and of what."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from functools import partial
from typing import Annotated, Literal, TypeVar, get_args

import streamlit as st

from optics.camera.camera import Camera
from optics.drawing.page import Sheet
from optics.records.job import ScalePart
from optics.records.to_bench import scale_marks_of
from optics.scales.depth_part import DepthPart, table_of
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
from optics.typed.ask import Ask
from optics.typed.part import Part, optional_value, value
from ui.asking.camera_form import Texts
from ui.asking.fields import choice
from ui.asking.paper import Paper
from ui.asking.part_form import PartForm
from ui.depth.depth_form import depth_form
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
_TOPS = {"front": "towards the front", "film": "towards the film"}
_Ruler = Annotated[str, fields.PRINTED_RULER]


def _ruler(which: str) -> Ask:
    return Ask(f"printed ruler {which}", "100 until measured", width=12)


class PrintedPart(Part):
    """What the rulers of a sheet measured when it was printed last."""

    across: Annotated[_Ruler, _ruler("across")] | None = None
    up: Annotated[_Ruler, _ruler("up")] | None = None


class CardPart(DepthPart, PrintedPart):
    """A depth-of-field card."""


class ScalePrintPart(PrintedPart):
    """A scale to be printed: its figures, and what for."""

    units: Annotated[Literal["metres", "feet", "metres and feet"], Ask("distances in")]
    artwork: Annotated[Artwork, Ask("printed as", width=8)]


class StripPart(ScalePrintPart):
    """A scale for a barrel."""

    diameter: Annotated[str, fields.BARREL_DIAMETER, Ask(starts="52 mm")]
    paper: Annotated[str, fields.PAPER_THICKNESS, Ask(starts="0.1 mm")]
    tops: Annotated[Towards, Ask("figures' tops", words=_TOPS)]


class RingPart(ScalePrintPart):
    """A scale for a face."""

    outer: Annotated[str, fields.OUTER_DIAMETER, Ask(starts="52 mm", width=6)]
    inner: Annotated[str, fields.INNER_DIAMETER, Ask(starts="36 mm", width=6)]


class OverlayPart(PrintedPart):
    """Right marks over those that were checked."""

    units: Annotated[Literal["metres", "feet"], Ask("figures in", width=12)]


@dataclass(frozen=True)
class Made:
    """For which camera a sheet is made, and with what signature."""

    camera: Camera
    signature: Signature


_Printed = TypeVar("_Printed", bound=PrintedPart)


@dataclass(frozen=True)
class SheetWishes:
    """The sheet wanted: its fields' problems, and how to draw it for a camera."""

    problems: list[str]
    draw: Callable[[Camera], Sheet]


def sheet_form(name: str) -> SheetWishes:
    """Draw the fields of the sheet that is chosen."""
    sheet = choice("sheet", [CARD, STRIP, RING, OVERLAY], f"{name}.sheet")
    return {CARD: _card, STRIP: _strip, RING: _ring, OVERLAY: _overlay}[sheet](name)


def printed(
    form: PartForm, kind: type[_Printed], name: str, drawn: Callable[[_Printed, Made], Sheet]
) -> SheetWishes:
    """Ask for paper and rulers below the other fields; the sheet that they then make."""
    first, *others = st.columns(3)
    with first:
        paper = choice("paper", get_args(Paper), f"{name}.paper")
    for column, ruler in zip(others, ("across", "up"), strict=True):
        with column:
            form.draw(ruler)
    typed = form.part

    def draw(camera: Camera) -> Sheet:
        part = kind.model_validate(typed)
        rulers = [optional_value(fields.PRINTED_RULER, one) for one in (part.across, part.up)]
        across, up = (100.0 if ruler is None else ruler for ruler in rulers)
        signature = Signature(made=date.today(), page_size=paper, rulers=(across, up))
        return drawn(part, Made(camera, signature))

    return SheetWishes(form.problems, draw)


def _card(name: str) -> SheetWishes:
    return printed(depth_form(name, CardPart), CardPart, name, _drawn_card)


def _drawn_card(part: CardPart, made: Made) -> Sheet:
    unit = ScaleUnit.METRES if part.units == "metric" else ScaleUnit.FEET
    table = table_of(part, made.camera)
    return depth_card(table, part.stop_names, made.signature, stops=part.stops, unit=unit)


def _strip(name: str) -> SheetWishes:
    form = PartForm(StripPart, f"{name}.strip")
    form.draw("units", "artwork", "diameter", "paper", "tops")
    return printed(form, StripPart, name, _drawn_strip)


def _drawn_strip(part: StripPart, made: Made) -> Sheet:
    barrel = StripBarrel(
        value(fields.BARREL_DIAMETER, part.diameter),
        paper_thickness=value(fields.PAPER_THICKNESS, part.paper),
        tops=part.tops,
        index=Towards.FILM if part.tops is Towards.FRONT else Towards.FRONT,
    )
    return scale_strip(_plan(part, made.camera), barrel, made.signature, part.artwork)


def _ring(name: str) -> SheetWishes:
    form = PartForm(RingPart, f"{name}.face")
    form.draw("units", "artwork", "outer", "inner")
    return printed(form, RingPart, name, _drawn_ring)


def _drawn_ring(part: RingPart, made: Made) -> Sheet:
    outer, inner = (
        value(fields.OUTER_DIAMETER, part.outer),
        value(fields.INNER_DIAMETER, part.inner),
    )
    return face_ring(_plan(part, made.camera), Face(outer, inner), made.signature, part.artwork)


def _plan(part: ScalePrintPart, camera: Camera) -> ScalePlan:
    return ScalePlan(camera, units=_UNITS[part.units])


def _overlay(name: str) -> SheetWishes:
    scale, form = scale_form(name), PartForm(OverlayPart, f"{name}.overlay")
    form.draw("units")
    wishes = printed(form, OverlayPart, name, partial(_drawn_overlay, scale.part))
    return SheetWishes([*scale.problems, *wishes.problems], wishes.draw)


def _drawn_overlay(scale: Texts, part: OverlayPart, made: Made) -> Sheet:
    typed = ScalePart.model_validate(scale)
    check = check_scale(made.camera, scale_marks_of(typed, made.camera), typed.reference)
    (unit,) = _UNITS[part.units]
    return check_overlay(check, made.signature, unit=unit)
