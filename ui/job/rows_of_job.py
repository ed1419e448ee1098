"""A job's readings as the rows of the Whole camera page: reading_rows.py the other way round.

Rows of which one was typed are left alone; where they are not the job's, its own are offered.
"""

import math
from collections.abc import Iterator
from typing import Any

import streamlit as st

from optics.body.gate import FILMS
from optics.camera.instruments import INSTRUMENTS
from optics.readings.kinds.register import RegisterPart
from optics.readings.parts import ReadingPart, SeenPart
from optics.records.job import JobDocument
from optics.records.store import KeptJob
from optics.typed import fields
from optics.typed.part import Part
from ui.asking import whole_camera_examples as rows
from ui.asking.reading_rows import ASKED, PLACES, next_row, take_all_away
from ui.kept import drafts
from ui.kept.open_job import job_name, open_job

Texts = dict[str, str]
ROWS = "whole.row"


def row_texts(job: JobDocument, first: int = 0) -> Texts:
    """The text of every field of the rows, numbered from the first; none where none is to weigh."""
    texts: Texts = {}
    number = first - 1
    for number, (place, kind, given) in enumerate(_rows(job), first):
        key = f"{ROWS}{number}"
        texts[f"{key}.place"] = place
        ways = {kind: way for way, kind in PLACES[place].ways.items()}
        if len(ways) > 1:
            texts[f"{key}.{place}.way"] = ways[kind]
        texts |= {f"{key}.{kind}.{name}": text for name, text in given.items()}
    if number >= first:
        texts[f"{ROWS}.used"] = " ".join(map(str, range(first, number + 1)))
    return texts


def offer_rows(name: str, shown: JobDocument | None) -> None:
    """Where the open job holds other readings than those shown of it, say so and offer its own.

    Rows that make no job yet are not the job's either.
    """
    kept = open_job()
    if kept is None or name != job_name(kept.line.number):
        return
    held = list(_rows(kept.job))
    if held and (shown is None or not _are_alike(held, list(_rows(shown)))):
        with st.container(horizontal=True, vertical_alignment="center", key="other_rows"):
            st.html(f"<p class='saved'>{name} holds other readings than these.</p>")
            st.button(
                "Show the job's",
                key="show_rows",
                on_click=show_rows,
                args=[kept],
                help="The rows that stand here can be put back one by one.",
            )


def show_rows(kept: KeptJob) -> None:
    """Put the job's rows in the place of those that were typed; for a callback."""
    name = job_name(kept.line.number)
    texts = row_texts(kept.job, next_row(name))
    if texts:
        take_all_away(name)
    for key, text in texts.items():
        drafts.put(f"{name}.{key}", text)


def _are_alike(held: list[Any], shown: list[Any]) -> bool:
    """Whether two lists hold the same rows, in whichever order."""
    return len(held) == len(shown) and all(row in shown for row in held)


def _rows(job: JobDocument) -> Iterator[tuple[str, str, Texts]]:
    """Where, with what, and the texts of each row."""
    for reading in job.readings:
        if reading.kind != "parallax":
            place = _place(reading)
            kind = next((k for k in PLACES[place].ways.values() if k == reading.kind), "corner")
            yield place, kind, _usual_limit(reading) | _asked(place, kind, reading)
    if job.gate is not None:
        film = {"film": FILMS[job.gate.film].name}
        yield rows.GATE, "gate", _asked(rows.GATE, "gate", job.gate) | film
    if job.rangefinder is not None and job.rangefinder.pairs is not None:
        yield rows.FINDER, "pairs", _asked(rows.FINDER, "pairs", job.rangefinder)


def _place(reading: ReadingPart) -> str:
    if isinstance(reading, RegisterPart):
        return rows.GAUGED if reading.place is None else rows.OFF_MIDDLE
    is_near = math.isfinite(fields.RING_MARK.read(getattr(reading, "mark", "inf")).value)
    assert isinstance(reading, SeenPart)
    if reading.judged == "on film" or reading.kind == "ruler":
        return rows.FILM_NEAR if is_near else rows.FILM_INFINITY
    if is_near:
        return rows.NEAR
    return rows.STOP if reading.where == "at the stop" else rows.INFINITY


def _usual_limit(reading: ReadingPart) -> Texts:
    """What the gauge named is good for: the row asks no instrument, but its limit."""
    limit = INSTRUMENTS[reading.instrument].limit if isinstance(reading, RegisterPart) else None
    return {} if limit is None else {"limit": f"{limit:g} mm"}


def _asked(place: str, kind: str, part: Part) -> Texts:
    """The texts of a part that its row asks for; what was never given is left out."""
    found = part.model_dump(mode="json", exclude_none=True)
    asked = (one for line in ASKED[kind] for one in line if PLACES[place].near or not one.near_only)
    return {one.name: found[one.name] for one in asked if one.name in found}
