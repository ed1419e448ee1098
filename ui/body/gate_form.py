"""The film gate's fields: film, plate, channel, and where the ground glass lay."""

from typing import Any

import streamlit as st

from optics.body.gate import FILMS, HOLDERS, Film
from optics.body.gate import part as parts
from optics.records.lantern_street import CORVANE, OSTRIN, TARNBROOK
from optics.units import format_length
from ui.answers.answer_panel import group_html
from ui.asking.forms import Form

_FILMS = {film.name: film for film in FILMS.values()}
PLATES = {str(plate): key for key, plate in parts.PLATES.items()}
GLASSES = {
    "laid on the rails": "on the rails",
    "laid against the plate": "against the plate",
    "the camera's own back": "in the back",
}
_HOLDERS = {holder.name: holder for holder in HOLDERS.values()}
_OWN_HOLDER = "gauged"
_CHANNELS = {OSTRIN.name: "0.20 ± 0.01", CORVANE.name: "0.25 ± 0.02", TARNBROOK.name: "0.27 ± 0.02"}
_KINDS = {CORVANE.name: "roll_with_paper", TARNBROOK.name: "roll_with_paper"}


def gate_form(name: str) -> tuple[dict[str, Any], list[str]]:
    """Draw the fields; the gate as the job document takes it, and what is amiss."""
    form = Form(f"{name}.gate")
    film = _FILMS[
        form.choose(
            "film", "kind of film", list(_FILMS), _usual_film(name), "its usual figures stand below"
        )
    ]
    form.chosen["film"] = film.key
    is_sheet = film.key == "sheet"
    if is_sheet:
        words, note = "lens set on the ground glass", "the holder then takes its place"
        glass = form.choose("glass", words, list(GLASSES)[2:], note=note)
        form.chosen["glass"] = GLASSES[glass]
        _holder_rows(form)
    else:
        _plate_rows(form, name)
    st.html(group_html("Film and paper; empty: as they usually are"))
    _film_row(form, film)
    st.caption(f"{film.lies} Source: {film.source}.")
    return form.part(), form.problems


def _usual_film(name: str) -> str:
    return FILMS[_KINDS.get(name, "perforated")].name


def _plate_rows(form: Form, name: str) -> None:
    left, right = st.columns(2)
    with left:
        usual, note = str(parts.PLATES["on stops"]), "a sprung plate may rest on stops too"
        plate = PLATES[form.choose("plate", "behind the film", list(PLATES), usual, note)]
    with right:
        glass = GLASSES[
            form.choose(
                "glass", "ground glass", list(GLASSES)[:2], note="its ground side to the lens"
            )
        ]
    form.chosen |= {"plate": plate, "glass": glass}
    left, right = st.columns(2)
    with left:
        if plate == "none":
            form.ask(
                "bow",
                parts.BOW,
                typed="0.1 ± 0.05",
                label="film can bow back",
                hint="such as 0.1 ± 0.05",
            )
        if plate == "on stops" or glass == "against the plate":
            form.ask(
                "channel",
                parts.CHANNEL,
                typed=_CHANNELS.get(name),
                label="channel, deep",
                hint="rails to plate: 0.20 ± 0.01",
            )
    with right:
        if glass == "against the plate":
            form.ask(
                "glass_thickness",
                parts.GLASS_THICKNESS,
                typed="",
                label="glass, thick",
                hint="such as 0.15 ± 0.005",
            )


def _holder_rows(form: Form) -> None:
    left, right = st.columns(2)
    with left:
        form.ask(
            "glass_depth",
            parts.GLASS_DEPTH,
            typed="4.83 ± 0.02",
            label="face to ground side",
            hint="such as 4.83 ± 0.02",
        )
    with right:
        holder = form.choose("holder", "holder", [*_HOLDERS, _OWN_HOLDER])
    del form.chosen["holder"]
    left, right = st.columns(2)
    with left:
        if holder in _HOLDERS:
            form.chosen["holder"] = _HOLDERS[holder].key
        else:
            form.ask(
                "holder_depth",
                parts.HOLDER_DEPTH,
                label="face to back of slot",
                hint="such as 5.00 ± 0.05",
            )
    with right:
        form.ask("slot", parts.SLOT, optional=True, label="slot, high", hint="0.305 if empty")


def _film_row(form: Form, film: Film) -> None:
    left, right = st.columns(2)
    with left:
        form.ask(
            "film_thickness",
            parts.FILM_THICKNESS,
            optional=True,
            hint=_usual(film.thickness, film.limit),
        )
    with right:
        form.ask(
            "paper",
            parts.PAPER_UNDER_FILM,
            optional=True,
            hint=_usual(film.paper, film.paper_limit),
        )


def _usual(thickness: float, limit: float) -> str:
    if not thickness:
        return "none if empty"
    bare = format_length(thickness, places=3).removesuffix(" mm")
    return f"{bare} ± {format_length(limit, places=3)} if empty"
