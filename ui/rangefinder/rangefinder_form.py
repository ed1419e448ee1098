"""The rangefinder's fields: what it is, where its images met, and what was turned."""

from collections.abc import Iterable
from typing import Any

import streamlit as st

from optics.rangefinder.part import apart_field
from optics.rangefinder.readings import Ring
from optics.records.lantern_street import RANGEFINDERS
from optics.typed import fields
from ui.asking.camera_form import Texts
from ui.asking.fields import choice
from ui.asking.forms import Form
from ui.kept import drafts

MOST_ROUNDS = 8
MOST_APART = 4
_KINDS = ("screw", "eccentric")
# What each kind of compensator needs to be known, and what it is taken to be at first.
_COMPENSATORS: dict[str, tuple[tuple[str, tuple[fields.Typed, str]], ...]] = {
    "turning mirror": (),
    "swung lens": (("focal_length", (fields.SWUNG_FOCAL_LENGTH, "60")),),
    "counter-turning wedges": (
        ("index", (fields.WEDGE_INDEX, "1.517")),
        ("wedge_angle", (fields.WEDGE_ANGLE, "4")),
    ),
    "sliding wedge": (
        ("deviation", (fields.WEDGE_DEVIATION, "3")),
        ("focal_length", (fields.WEDGE_FOCAL_LENGTH, "60")),
    ),
}
# The label of the near adjuster is the longest.
_WIDTHS = (11, 13, 9, 10)
_APART = ("target", "scale", "apart")
_ROUND = {
    "infinity_turned": (fields.INFINITY_TURNED, "∞ adjuster"),
    "near_turned": (fields.NEAR_TURNED, "near adjuster"),
    "far_reads": (fields.FAR_READS, "far reads"),
    "near_reads": (fields.NEAR_READS, "near reads"),
}


def rangefinder_form(name: str) -> tuple[Texts, list[str]]:
    """Draw base, its place, magnification, range, eye and compensator; the part, what is amiss."""
    form, known = Form(f"{name}.rangefinder"), _known(name)
    # As wide as their labels, so that none takes a second line and pushes its field down.
    columns = st.columns([7, 15, 9, 11])
    with columns[0]:
        form.ask(
            "base",
            fields.RANGEFINDER_BASE,
            typed=known.get("base"),
            label="base",
            hint="such as 41",
        )
    with columns[1]:
        form.ask(
            "base_to_film",
            fields.BASE_TO_FILM,
            typed=known.get("base_to_film"),
            label="rangefinder to film",
            optional=True,
            hint="0 if not known",
        )
    with columns[2]:
        form.ask(
            "magnification",
            fields.MAGNIFICATION,
            typed=known.get("magnification"),
            label="magnification",
            optional=True,
            hint="1 if none",
        )
    with columns[3]:
        form.ask(
            "near_end",
            fields.NEAR_END,
            typed=known.get("near_end"),
            label="near end used",
            optional=True,
            hint="1 m if empty",
        )
    with st.expander("More about the eye, the adjusters and the compensator"):
        _finer_row(form)
        compensator, amiss = _compensator_row(name)
    return form.part() | {"compensator": compensator}, [*form.problems, *amiss]


def _compensator_row(name: str) -> tuple[Texts, list[str]]:
    """What turns the sight; only what it needs is asked for."""
    form = Form(f"{name}.rangefinder.compensator")
    columns = st.columns(3)
    with columns[0]:
        kind = form.choose("kind", "the sight is turned by", list(_COMPENSATORS))
    for column, (key, (quantity, typed)) in zip(columns[1:], _COMPENSATORS[kind], strict=False):
        with column:
            form.ask(key, quantity, typed=typed)
    return dict(form.part()), form.problems


def _finer_row(form: Form) -> None:
    columns = st.columns(3)
    with columns[0]:
        form.ask("acuity", fields.ACUITY, typed="60", hint="60 if empty", optional=True)
    with columns[1]:
        form.choose("infinity_adjuster", "infinity adjuster", _KINDS)
    with columns[2]:
        form.choose("near_adjuster", "near adjuster", _KINDS)


def readings_form(name: str, is_needed: bool) -> tuple[Texts, list[str]]:
    """Draw the distances at which the images met, and the rounds turned since."""
    form, known = Form(f"{name}.rangefinder.read"), _known(name)
    left, right = st.columns([4, 1])
    with left:
        form.ask(
            "pairs",
            fields.COINCIDENCES,
            typed=known.get("pairs"),
            label="true distance = lens scale when the images meet",
            optional=not is_needed,
            hint="such as ∞ = 28; 30; 3 m = 2.85; 1 m = 1.02",
        )
    with right:
        form.ask(
            "tape",
            fields.TAPE_LIMIT,
            typed=known.get("tape"),
            label="tape ±",
            optional=True,
            hint="0 if empty",
        )
    part: Texts = dict(form.part())
    with st.expander("Images that stand apart, as at a stop"):
        apart, wrong = _aparts(name)
    if apart:
        part["apart"] = apart
    # A block of its own: a row that comes or goes must not move the fields below, or a key
    # typed there at that moment would be lost.
    with st.container():
        rounds, amiss = _rounds(name)
    if form.entries["pairs"].text.strip() or apart:
        part["rounds"] = rounds
    return part, [*_pairs_problems(form, is_needed and not apart), *wrong, *amiss]


def _pairs_problems(form: Form, is_needed: bool) -> list[str]:
    """The pairs may be left empty where other readings stand in for them."""
    form.required = {"pairs"} if is_needed else set()
    return form.problems


def _aparts(name: str) -> tuple[list[Texts], list[str]]:
    """As many rows as are in use, and one more; a row left empty is no reading."""
    rows = [_apart_key(name, number) for number in range(1, MOST_APART + 1)]
    used = max((n for n, key in enumerate(rows, 1) if _stands_in(key, _APART)), default=0)
    parts, problems = [], []
    for number, key in enumerate(rows[: used + 1], 1):
        form = _apart_row(key, number)
        if any(entry.text.strip() for entry in form.entries.values()):
            parts.append(dict(form.part()))
            problems += [f"Images apart {number}: {problem}" for problem in form.problems]
    return parts, problems


def _apart_row(key: str, number: int) -> Form:
    form = Form(key)
    hints = ("such as ∞", "at its stop, such as ∞", "such as 4") if number == 1 else ("", "", "")
    upper, lower = st.columns(3), st.columns(2)
    with lower[0]:
        measured = form.choose("measured", f"{number} measured", ["as an angle", "on the target"])
    with lower[1]:
        form.choose("ring", f"{number} ring would go", [Ring.FARTHER, Ring.NEARER])
    asked = (fields.APART_TARGET, fields.APART_SCALE, apart_field(measured))
    labels = ("target at", "lens at", "apart by")
    for place, name in enumerate(_APART):
        with upper[place]:
            form.ask(name, asked[place], label=f"{number} {labels[place]}", hint=hints[place])
    return form


def _apart_key(name: str, number: int) -> str:
    return f"{name}.rangefinder.apart{number}"


def _rounds(name: str) -> tuple[list[dict[str, str]], list[str]]:
    """As many rows as are in use, and one more; a row left empty is no round."""
    numbers = range(1, MOST_ROUNDS + 1)
    used = max((n for n in numbers if _stands_in(_round_key(name, n), _ROUND)), default=0)
    rounds, problems = [], []
    for number in range(1, min(used + 1, MOST_ROUNDS) + 1):
        form = _round_row(name, number)
        if form.part():
            rounds.append(form.part())
            problems += [f"Round {number}: {problem}" for problem in form.problems]
    return rounds, problems


def _round_row(name: str, number: int) -> Form:
    form = Form(_round_key(name, number))
    for column, (key, (quantity, label)) in zip(st.columns(_WIDTHS), _ROUND.items(), strict=True):
        with column:
            is_turn = key.endswith("turned")
            form.ask(
                key, quantity, label=f"{number} {label}", optional=is_turn, hint=_hint(key, number)
            )
    return form


def _hint(key: str, number: int) -> str:
    """The first row teaches how turns are typed."""
    if number > 1:
        return ""
    return {
        "infinity_turned": "1/8 clockwise, −1/4",
        "near_turned": "0 if not turned",
        "far_reads": "lens scale",
        "near_reads": "repeats: 1; 1.01",
    }[key]


def _stands_in(key: str, names: Iterable[str]) -> bool:
    """Whether anything stands in a row, drawn or not, now or when the page was last open."""
    before = drafts.draft().under(f"{key}.")
    texts = (st.session_state.get(f"{key}.{name}", before.get(name)) for name in names)
    return any(str(text or "").strip() for text in texts)


def _round_key(name: str, number: int) -> str:
    return f"{name}.rangefinder.round{number}"


def _known(name: str) -> dict[str, Any]:
    part = RANGEFINDERS.get(name)
    return {} if part is None else part.model_dump(mode="json", exclude_none=True)


def told_form(name: str) -> Form:
    """Draw what the base is asked about: distances, a far target, and an error of height."""
    form = Form(f"{name}.rangefinder.told")
    form.ask("distances", fields.TOLD_AT, typed="1; 1.5; 2; 3; 5; 10; 30; ∞", label="tell apart at")
    columns = st.columns(3)
    with columns[0]:
        form.ask("far_target", fields.FAR_TARGET, typed="100 m", label="far target at")
    with columns[1]:
        form.ask("height", fields.HEIGHT_ERROR, typed="3", label="height error")
    with columns[2]:
        form.ask("lean", fields.LEAN, typed="10", label="edge leans by")
    return form


def choose_paper(form: Form) -> None:
    """Ask for the paper of a sheet."""
    form.chosen["paper"] = choice("paper", ["A4", "Letter"], f"{form.prefix}.paper")
