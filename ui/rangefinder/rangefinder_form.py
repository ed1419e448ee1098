"""The rangefinder's fields: what it is, where its images met, and what was turned."""

from typing import Annotated

import streamlit as st

from optics.rangefinder.part import ApartPart, RangefinderPart, RoundPart
from optics.typed import fields
from optics.typed.ask import Ask
from optics.typed.part import Part
from ui.asking.camera_form import Texts, example_of
from ui.asking.part_form import PartForm, rows_form

MOST_ROUNDS = 8
MOST_APART = 4
_FIRST = ("base", "base_to_film", "magnification", "near_end")
_FINER = ("acuity", "infinity_adjuster", "near_adjuster", "compensator")


class ToldPart(Part):
    """What the base is asked about: distances, a far target, and an error of height."""

    distances: Annotated[
        str,
        fields.TOLD_AT,
        Ask("tell apart at", starts="1; 1.5; 2; 3; 5; 10; 30; ∞", width=12),
    ]
    far_target: Annotated[str, fields.FAR_TARGET, Ask("far target at", starts="100 m")]
    height: Annotated[str, fields.HEIGHT_ERROR, Ask("height error", starts="3")]
    lean: Annotated[str, fields.LEAN, Ask("edge leans by", starts="10")]


def rangefinder_form(name: str) -> PartForm:
    """Draw base, its place, magnification, range, eye and compensator."""
    form = _form(name, *_FIRST, *_FINER)
    form.draw(*_FIRST)
    with st.expander("More about the eye, the adjusters and the compensator"):
        form.draw(*_FINER)
    return form


def _form(name: str, *only: str) -> PartForm:
    known = example_of(name, "rangefinder")
    return PartForm(RangefinderPart, f"{name}.rangefinder", known, only=only)


def readings_form(name: str, is_needed: bool) -> tuple[Texts, list[str]]:
    """Draw the distances at which the images met, and the rounds turned since."""
    form = _form(name, "pairs", "tape")
    form.draw("pairs", "tape")
    key = f"{name}.rangefinder"
    with st.expander("Images that stand apart, as at a stop"):
        order = ("target", "scale", "apart", "measured", "ring")
        apart, wrong = rows_form(ApartPart, f"{key}.apart", MOST_APART, "Images apart", order)
    # A block of its own: a row that comes or goes must not move the fields below, or a key
    # typed there at that moment would be lost.
    with st.container():
        rounds, amiss = rows_form(RoundPart, f"{key}.rounds", MOST_ROUNDS, "Round")
    # The pairs may be left empty where other readings stand in for them.
    form.needs_all = is_needed and not apart
    is_read = bool(form.text_at("pairs").strip() or apart)
    part: Texts = form.part | {"apart": apart, "rounds": rounds if is_read else []}
    return part, [*form.problems, *wrong, *amiss]


def told_form(name: str) -> PartForm:
    """Draw what the base is asked about."""
    form = PartForm(ToldPart, f"{name}.rangefinder.told")
    form.draw()
    return form
