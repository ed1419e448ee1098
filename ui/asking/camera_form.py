"""The camera's fields: of the open job, the library, the shelf of examples, or one's own."""

from collections.abc import Iterable
from typing import Any, TypeAlias

import streamlit as st

from optics.camera.camera import Turn
from optics.camera.confusion import FORMATS, Format
from optics.camera.supposed import GROUP_HINT, PLACE_HINT
from optics.records.job import WorkshopPart
from optics.records.lantern_street import CAMERAS, NEGATIVES, WORKSHOP
from optics.typed import fields
from ui.asking.fields import choice, name_field
from ui.asking.forms import Form
from ui.asking.take_item import take_item_row
from ui.kept.library import library_cameras
from ui.kept.open_job import job_name, open_job

OWN = "Your own camera"
Texts: TypeAlias = dict[str, Any]

_BLANK: Texts = {"lens": {}, "focusing": {"kind": "helicoid"}}
_SHELF = {camera.name: camera for camera in CAMERAS}
FOCUSING = {
    "helicoid": "the whole lens on a thread",
    "front cell": "the front cell alone",
    "bed": "on a bed or struts",
}
_TURNS = (str(Turn.COUNTER_CLOCKWISE), str(Turn.CLOCKWISE))


def choose_camera() -> str:
    """Ask which camera: the open job's, the library's, an example or one's own.

    Each keeps what was typed for it.
    """
    kept = open_job()
    jobs = () if kept is None else (job_name(kept.line.number),)
    options = (*jobs, *library_cameras(), *_SHELF, OWN)
    first = options.index(CAMERAS[0].name)
    return choice("camera (examples, invented)", options, "camera", first)


def is_example(name: str) -> bool:
    """Whether a camera is one of the shelf, whose fields are filled in to learn from."""
    return name in _SHELF


def camera_and_task(tasks: Iterable[str], key: str) -> tuple[str, str]:
    """Ask which camera, and beside it which of a page's tasks."""
    with st.container(key="choices"):
        first, second = st.columns(2)
    with first:
        name = choose_camera()
    with second:
        return name, choice("task", list(tasks), key)


def choose_negative(name: str) -> Format:
    """Ask for the camera's negative; its conventions for blur go with it."""
    names = {size.name: size for size in FORMATS.values()}
    first = FORMATS[NEGATIVES.get(name, "24x36")].name
    return names[choice("negative", list(names), f"{name}.negative", list(names).index(first))]


def camera_form(name: str, *, needs_all: bool = True) -> tuple[dict[str, Any], list[str]]:
    """Draw the camera's fields; the camera as the job document takes it, and what is amiss.

    Where not all is needed, a field left empty is nothing amiss.
    """
    lens, body = Form(f"{name}.lens"), Form(name)
    known = _known(name)
    called = name if is_example(name) else _its_name(name, known)
    kind, focusing = _focusing_row(name, known)
    _lens_row(lens, body, known)
    if kind != "bed":
        _thread_rows(focusing, kind, _typed_for(kind, known))
    with st.expander("More about the lens and the tolerance"):
        _finer_row(lens, body, known)
        take_item_row(name)
    camera = {
        "name": called,
        "lens": lens.part(),
        "focusing": {"kind": kind} | focusing.part(),
    }
    forms = (lens, body, focusing)
    amiss = (form.problems if needs_all else form.refusals for form in forms)
    return camera | body.part(), [problem for problems in amiss for problem in problems]


def _known(name: str) -> Texts:
    """What stands in the fields at first: an example's figures, or those of the library."""
    part = _SHELF.get(name) or library_cameras().get(name)
    return _BLANK if part is None else part.model_dump(mode="json")


def _its_name(name: str, known: Texts) -> str:
    return name_field("its name", f"{name}.name", "for the note", known.get("name", ""))


def workshop_form(name: str) -> tuple[dict[str, Any], list[str]]:
    """Draw the shim stock; what it holds, and what is amiss."""
    form = Form(f"{name}.workshop")
    stock = WORKSHOP if is_example(name) else WorkshopPart()
    left, right = st.columns(2)
    with left:
        form.ask(
            "drawer",
            fields.DRAWER,
            typed=stock.drawer,
            optional=True,
            hint="such as 0.05 × 4; 0.1 × 2",
        )
    with right:
        form.ask("fitted", fields.FITTED, optional=True, hint="such as 0.1 × 2, or none")
    return form.part(), form.problems


def _focusing_row(name: str, known: Texts) -> tuple[str, Form]:
    """How it focuses, and which way round moves it out; each kind keeps its own fields."""
    left, right = st.columns(2)
    words = list(FOCUSING.values())
    with left:
        first = words.index(FOCUSING[known["focusing"]["kind"]])
        said = choice("it focuses", words, f"{name}.kind", first, "")
    kind = next(kind for kind, meaning in FOCUSING.items() if meaning == said)
    form = Form(f"{name}.focusing.{kind}")
    if kind != "bed":
        first_turn = _typed_for(kind, known).get("extends", _TURNS[0])
        with right:
            form.choose(
                "extends", "lens moves out when turned", _TURNS, first_turn, "seen from the front"
            )
    return kind, form


def _typed_for(kind: str, known: Texts) -> Texts:
    """The known camera's focusing, if it is of this kind."""
    focusing: Texts = known["focusing"]
    return focusing if kind == focusing["kind"] else {}


def _lens_row(lens: Form, body: Form, known: Texts) -> None:
    typed = known["lens"]
    columns = st.columns(3)
    with columns[0]:
        focal_length = typed.get("focal_length")
        lens.ask("focal_length", fields.FOCAL_LENGTH, typed=focal_length, hint="such as 50")
    with columns[1]:
        aperture = typed.get("full_aperture")
        lens.ask("full_aperture", fields.FULL_APERTURE, typed=aperture, hint="such as 2.8")
    with columns[2]:
        body.ask(
            "circle_of_confusion",
            fields.CIRCLE_OF_CONFUSION,
            typed=known.get("circle_of_confusion"),
            hint="0.03 for 24×36, 0.05 for 6×6",
        )


def _thread_rows(form: Form, kind: str, typed: Texts) -> None:
    """The thread; a front cell also asks for its group's focal length and place."""
    is_cell = kind == "front cell"
    columns = st.columns(2 if is_cell else 3)
    with columns[0]:
        form.ask("lead", fields.LEAD, typed=typed.get("lead"), hint="travel of one turn")
    if not is_cell:
        with columns[1]:
            form.ask("starts", fields.STARTS, typed=typed.get("starts", "1"))
    with columns[-1]:
        diameter = typed.get("ring_diameter")
        form.ask(
            "ring_diameter",
            fields.RING_DIAMETER,
            typed=diameter,
            optional=True,
            hint="if given, turns in mm too",
        )
    if is_cell:
        _cell_row(form, typed)


def _cell_row(form: Form, typed: Texts) -> None:
    left, right = st.columns(2)
    with left:
        group = typed.get("group_focal_length")
        form.ask(
            "group_focal_length",
            fields.GROUP_FOCAL_LENGTH,
            typed=group,
            optional=True,
            label="front group's focal length",
            hint=GROUP_HINT,
        )
    with right:
        form.ask(
            "cell_to_film",
            fields.CELL_TO_FILM,
            typed=typed.get("cell_to_film"),
            optional=True,
            hint=PLACE_HINT,
        )


def _finer_row(lens: Form, body: Form, known: Texts) -> None:
    columns = st.columns(3)
    with columns[0]:
        hiatus = known["lens"].get("hiatus")
        lens.ask("hiatus", fields.HIATUS, typed=hiatus, optional=True, hint="0 if not known")
    with columns[1]:
        lens.ask(
            "pupil_magnification",
            fields.PUPIL_MAGNIFICATION,
            optional=True,
            hint="1 if not known",
        )
    with columns[2]:
        body.ask("tolerance", fields.TOLERANCE, optional=True, hint="empty: half of N·c")
