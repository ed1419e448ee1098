"""The reading's fields, one set for each kind of reading."""

from typing import Any

import streamlit as st

from optics.camera.camera import Turn
from optics.camera.instruments import INSTRUMENTS, Instrument
from optics.readings.kinds.collimator import CollimatorPart
from optics.readings.kinds.mark import MarkPart
from optics.readings.kinds.parallax import ParallaxPart
from optics.readings.kinds.register import RegisterPart
from optics.readings.kinds.rotation import RotationPart
from optics.readings.kinds.ruler import RulerPart
from optics.typed import fields
from ui.asking.camera_form import is_example
from ui.asking.fields import choice
from ui.asking.forms import Form

_KINDS = {
    part.title: part.model_fields["kind"].default
    for part in (MarkPart, RotationPart, RegisterPart, CollimatorPart, RulerPart, ParallaxPart)
}


def choose_reading(name: str) -> str:
    """Ask which kind of reading was taken."""
    return str(_KINDS[choice("reading", list(_KINDS), f"{name}.reading")])


def reading_form(name: str, kind: str) -> tuple[dict[str, Any], list[str]]:
    """Draw the reading's fields; the reading as the job document takes it, and what is amiss."""
    form = Form(f"{name}.{kind}")
    _DRAW[kind](form, is_example(name))
    return {"kind": kind} | form.part(), form.problems


def _mark(form: Form, example: bool) -> None:
    columns = st.columns(3)
    with columns[0]:
        form.ask("mark", fields.RING_MARK, typed="∞")
    with columns[1]:
        beside = fields.sharp_at(form.entries["mark"].text)
        form.ask(
            "sharp_at",
            beside,
            typed="18; 18.7; 19.5 m" if example else "",
            label="really sharp at",
            hint="repeats: 18; 18.7 m",
        )
    with columns[2]:
        form.ask(
            "limit",
            fields.DISTANCE_LIMIT,
            typed="0.2 m" if example else "",
            optional=True,
            label="tape good to ±",
            hint="0 if empty",
        )


def _rotation(form: Form, example: bool) -> None:
    columns = st.columns([6, 7, 5])
    with columns[0]:
        form.ask(
            "turned",
            fields.TURNED,
            typed="2.5; 2; 2.5" if example else "",
            label="turned until sharp",
            hint="repeats: 2.5; 2",
        )
    with columns[1]:
        form.choose(
            "sense",
            "turned which way",
            (str(Turn.CLOCKWISE), str(Turn.COUNTER_CLOCKWISE)),
            note="seen from the front",
        )
    with columns[2]:
        form.ask(
            "limit",
            fields.ANGLE_LIMIT,
            typed="0.5" if example else "",
            optional=True,
            label="read to ±",
            hint="0 if empty",
        )
    left, right = st.columns(2)
    with left:
        form.ask("mark", fields.RING_MARK, typed="∞", label="started from the mark")
    with right:
        form.ask("target", fields.TARGET, typed="∞", label="target stands at")


def _register(form: Form, example: bool) -> None:
    left, right = st.columns(2)
    with right:
        form.ask(
            "nominal",
            fields.NOMINAL_REGISTER,
            typed="28.8" if example else "",
            hint="what it is made for",
        )
    with left:
        beside = fields.register_against(form.entries["nominal"].text)
        form.ask(
            "measured",
            beside,
            typed="28.74; 28.75; 28.74" if example else "",
            hint="repeats: 28.74; 28.75",
        )
    left, right = st.columns([2, 1])
    with left:
        instrument = _instrument(form)
    with right:
        form.ask(
            "limit",
            fields.GAUGE_LIMIT,
            optional=True,
            label="good to ±",
            hint="from the maker's sheet"
            if instrument.limit is None
            else f"{instrument.limit:g} if empty",
        )
    st.caption(f"{instrument.warning} Its limit: {instrument.source}.".strip())


def _instrument(form: Form) -> Instrument:
    names = {i.name: i for i in INSTRUMENTS.values()}
    usual = INSTRUMENTS["dial_over_10"].name
    instrument = names[form.choose("instrument", "measured with", list(names), usual)]
    form.chosen["instrument"] = instrument.key
    return instrument


def _collimator(form: Form, example: bool) -> None:
    left, right = st.columns(2)
    with left:
        form.ask(
            "shift",
            fields.RETICLE_SHIFT,
            typed="1.2; 1.25; 1.2" if example else "",
            label="reticle moved",
            hint="repeats: 1.2; 1.25",
        )
    with right:
        form.choose(
            "towards",
            "it moved towards",
            ("its lens", "away from its lens"),
            note="its lens: the collimator's",
        )
    columns = st.columns([6, 7, 5])
    with columns[0]:
        form.ask(
            "collimator_focal_length",
            fields.COLLIMATOR,
            typed="300" if example else "",
            hint="such as 300",
        )
    with columns[1]:
        form.ask(
            "to_lens",
            fields.COLLIMATOR_TO_LENS,
            typed="60" if example else "",
            optional=True,
            hint="in the ± if empty",
        )
    with columns[2]:
        form.ask(
            "limit",
            fields.RETICLE_LIMIT,
            typed="0.02" if example else "",
            optional=True,
            label="read to ±",
            hint="0 if empty",
        )


def _ruler(form: Form, example: bool) -> None:
    columns = st.columns(3)
    with columns[0]:
        form.ask("mark", fields.RING_MARK, typed="1.5 m" if example else "")
    with columns[1]:
        form.ask(
            "aim", fields.RULER_AIM, typed="1.5 m" if example else "", label="film to ruler's zero"
        )
    with columns[2]:
        form.ask("slope", fields.RULER_SLOPE, typed="45", label="slope to the lens axis")
    columns = st.columns(3)
    with columns[0]:
        form.ask(
            "offset",
            fields.RULER_OFFSET,
            typed="20; 24; 22" if example else "",
            label="sharpest along ruler",
            hint="repeats: 20; 24",
        )
    with columns[1]:
        form.choose(
            "side", "side of its zero", ("nearer", "farther"), note="than the zero, from the camera"
        )
    with columns[2]:
        form.ask(
            "limit",
            fields.RULER_LIMIT,
            typed="2" if example else "",
            optional=True,
            label="read to ±",
            hint="0 if empty",
        )


def _parallax(form: Form, example: bool) -> None:
    del example  # There is nothing to type.
    form.choose(
        "image_moves",
        "against the pencil cross, the image moves",
        ("with the eye", "against the eye", "not at all"),
    )


_DRAW = {
    "mark": _mark,
    "rotation": _rotation,
    "register": _register,
    "collimator": _collimator,
    "ruler": _ruler,
    "parallax": _parallax,
}
