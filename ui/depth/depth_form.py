"""What the depth-of-field table is to hold: apertures, distances, and the blur allowed."""

from dataclasses import dataclass
from typing import Literal

import streamlit as st

from optics.camera.camera import Camera
from optics.camera.confusion import ACUITIES, Convention, Format, Print, by_print, conventions
from optics.camera.stops import Stops, set_stop
from optics.scales.depth_table import DepthTable, MeasuredFrom, depth_table
from optics.typed import fields
from ui.asking.fields import choice
from ui.asking.forms import FieldGroup
from ui.depth.scale_form import choose_negative

_OWN_BLUR = "the camera's own"
_PRINT_BLUR = "a print looked at"
_FROM = {"the film": MeasuredFrom.FILM, "the lens": MeasuredFrom.LENS}
_STOPS = {"exact (f/11 is 11.31)": Stops.EXACT, "as marked": Stops.MARKED}


@dataclass(frozen=True)
class DepthWishes:
    """The texts and choices of the form."""

    form: FieldGroup
    system: Literal["metric", "imperial"]
    begin: str
    stops: str
    blur: str
    size: Format
    acuity: str

    @property
    def stop_kind(self) -> Stops:
        """Whether the apertures are taken exact or as marked."""
        return _STOPS[self.stops]

    @property
    def stop_names(self) -> list[str]:
        """The apertures as they are engraved."""
        marked = fields.APERTURES.read(self.form.part()["apertures"])
        return [f"f/{one.value:.3g}" for one in marked]


def depth_form(name: str) -> DepthWishes:
    """Draw the fields."""
    form = FieldGroup(f"{name}.depth")
    form.ask("apertures", fields.APERTURES, typed="2.8; 4; 5.6; 8; 11; 16")
    form.ask("distances", fields.FOCUSED_AT, typed="1; 1.5; 2; 3; 5; 10; ∞")
    columns = st.columns(3)
    with columns[0]:
        begin = choice("measured from", list(_FROM), f"{name}.depth.from")
    with columns[1]:
        stops = choice("apertures are", list(_STOPS), f"{name}.depth.stops")
    with columns[2]:
        units = choice("shown in", ["metres", "feet and inches"], f"{name}.depth.units")
    left, right = st.columns(2)
    with left:
        size = choose_negative(name)
    with right:
        blur = _blur_choice(name, size)
    acuity = next(iter(ACUITIES))
    if blur == _PRINT_BLUR:
        acuity = _print_row(form, name)
    system: Literal["metric", "imperial"] = "metric" if units == "metres" else "imperial"
    return DepthWishes(form, system, begin, stops, blur, size, acuity)


def wished_table(camera: Camera, wishes: DepthWishes) -> DepthTable:
    """The table for a camera, once every field is understood."""
    texts = wishes.form.part()
    marked = [one.value for one in fields.APERTURES.read(texts["apertures"])]
    distances = [one.value for one in fields.FOCUSED_AT.read(texts["distances"])]
    return depth_table(
        camera,
        [set_stop(m, camera.lens.full_aperture, wishes.stop_kind) for m in marked],
        distances,
        from_=_FROM[wishes.begin],
        circle_of_confusion=_blur(camera, wishes, texts),
    )


def _blur(camera: Camera, wishes: DepthWishes, texts: dict[str, str]) -> float:
    if wishes.blur == _OWN_BLUR:
        return camera.circle_of_confusion
    if wishes.blur != _PRINT_BLUR:
        return _rules(wishes.size)[wishes.blur].value
    seen = Print(
        fields.PRINT_DIAGONAL.read(texts["diagonal"]).value,
        fields.VIEWING_DISTANCE.read(texts["viewing"]).value,
        ACUITIES[wishes.acuity][0],
    )
    return by_print(wishes.size, seen)


def _print_row(form: FieldGroup, name: str) -> str:
    columns = st.columns(3)
    with columns[0]:
        form.ask("diagonal", fields.PRINT_DIAGONAL, typed="30 cm")
    with columns[1]:
        form.ask("viewing", fields.VIEWING_DISTANCE, typed="30 cm")
    with columns[2]:
        return choice("the eye tells apart", list(ACUITIES), f"{name}.depth.acuity")


def _blur_choice(name: str, size: Format) -> str:
    """Each negative keeps its own rule, for no rule is there for all of them."""
    options = [_OWN_BLUR, _PRINT_BLUR, *_rules(size)]
    return choice("blur allowed by", options, f"{name}.depth.blur.{size.key}")


def _rules(size: Format) -> dict[str, Convention]:
    # The print has fields of its own.
    found = [c for c in conventions(size) if c.key != "print"]
    return {_rule(c): c for c in found}


def _rule(convention: Convention) -> str:
    value = f"{convention.value:.3f} mm"
    return value if convention.key.startswith("fixed") else f"{convention.name}: {value}"
