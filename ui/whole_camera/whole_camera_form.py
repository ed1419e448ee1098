"""What a diagnosis asks beside the readings: the rangefinder, the bench, and what is supposed."""

from typing import Any

import streamlit as st

from optics.camera.confusion import FORMATS
from optics.finding import part as parts
from optics.finding.causes import ALL
from optics.finding.part import SuspectPart
from optics.records.lantern_street import NEGATIVES
from ui.answers.answer_panel import group_html
from ui.asking.camera_form import Texts, workshop_form
from ui.asking.fields import choice
from ui.asking.forms import Form
from ui.rangefinder.rangefinder_form import rangefinder_form

_AS_USUAL = "nothing: all as usual"
_CAUSES = {cause.words: cause.in_jobs for cause in ALL}
_SCREWS = (
    (
        "infinity_screw",
        parts.INFINITY_SCREW,
        "∞ screw: effect of one clockwise turn",
        "0.2",
        "at the film, far",
    ),
    (
        "near_screw",
        parts.NEAR_SCREW,
        "near screw: effect of one clockwise turn",
        "0.05",
        "at the film, near",
    ),
)
_SCREW_SIGN = "Plus: the images then meet with the lens farther out."


def beside_form(name: str, pairs: list[Texts]) -> tuple[dict[str, Any], list[str]]:
    """Draw the rangefinder where it was read, shims and suppositions; the parts of the job.

    `pairs` are what was read through the rangefinder, as the job's rangefinder takes them.
    """
    found: dict[str, Any] = {}
    problems: list[str] = []
    bench = Form(f"{name}.whole")
    # A block of its own, there or not: what comes or goes moves no field out of its place.
    with st.container():
        if pairs:
            st.html(group_html("The rangefinder"))
            known, amiss = rangefinder_form(name)
            found["rangefinder"] = known | pairs[0]
            problems += amiss
            _screws(bench, name)
    st.html(group_html("Shims at hand"))
    workshop = workshop_form(name)
    found["workshop"] = workshop.part
    with st.expander("More about the bench and the assumptions"):
        _bench_rows(bench, name)
        suspects, wrong = _suspect(name)
    found["diagnosis"] = bench.part() | ({"suspects": suspects} if suspects else {})
    return found, [*problems, *workshop.problems, *bench.problems, *wrong]


def _screws(form: Form, name: str) -> None:
    """What a turn clockwise of each screw does, and what plus means, typed in or not."""
    for column, (key, quantity, label, typed, hint) in zip(st.columns(2), _SCREWS, strict=True):
        with column:
            form.ask(
                key,
                quantity,
                label=label,
                typed=typed if name in NEGATIVES else "",
                hint=hint,
                optional=True,
            )
    st.html(f'<p class="note">{_SCREW_SIGN}</p>')


def _bench_rows(form: Form, name: str) -> None:
    picture = FORMATS[NEGATIVES[name]] if name in NEGATIVES else None
    left, right = st.columns(2)
    with left:
        form.ask(
            "picture",
            parts.PICTURE,
            hint="such as 36 × 24",
            optional=True,
            typed=f"{picture.width:g} × {picture.height:g}" if picture else "",
        )
    with right:
        form.ask(
            "standard_screws",
            parts.STANDARD_SCREWS,
            label="standard's screws apart",
            hint="50 × 40 if empty",
            optional=True,
        )
    left, right = st.columns(2)
    with left:
        form.ask(
            "seen_blur",
            parts.SEEN_BLUR,
            label="blur seen under the loupe",
            hint="c/4 if empty; for single tries",
            optional=True,
        )
    with right:
        form.ask(
            "most_causes",
            parts.MOST_CAUSES,
            label="causes together, at most",
            hint="3 if empty",
            optional=True,
        )


def _suspect(name: str) -> tuple[list[Texts], list[str]]:
    """One cause supposed otherwise than usual; each keeps its own figures."""
    said = choice("suppose otherwise of", [_AS_USUAL, *_CAUSES], f"{name}.whole.suspect")
    if said == _AS_USUAL:
        return [], []
    cause = _CAUSES[said]
    form = Form(f"{name}.whole.suspect.{cause}")
    usual, wrong = SuspectPart(cause=cause).typed
    asked = [
        ("chance", parts.CHANCE, "of such cameras"),
        ("wrong", wrong, "off by, where wrong"),
        ("usual", usual, "off by, where right"),
    ]
    for column, (key, quantity, label) in zip(st.columns(3), asked, strict=True):
        with column:
            form.ask(key, quantity, label=label, hint="as usual if empty", optional=True)
    part = form.part()
    return ([{"cause": cause} | part] if part else []), form.problems
