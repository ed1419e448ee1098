"""A job's readings as the rows of the Whole camera page: reading_rows.py the other way round."""

import math
from collections.abc import Iterator
from typing import Any

from optics.bench.gate import FILMS
from optics.records import fields
from optics.records.job import JobDocument, ReadingPart, RegisterPart, SeenPart
from ui import whole_camera_examples as rows
from ui.reading_rows import PLACES

Texts = dict[str, str]
ROWS = "whole.row"


def row_texts(job: JobDocument) -> Texts:
    """The text of every field of the rows; none where the job has nothing to weigh."""
    texts: Texts = {}
    number = -1
    for number, (place, kind, given) in enumerate(_rows(job)):
        key = f"{ROWS}{number}"
        texts[f"{key}.place"] = place
        ways = {kind: way for way, kind in PLACES[place].ways.items()}
        if len(ways) > 1:
            texts[f"{key}.{place}.way"] = ways[kind]
        texts |= {f"{key}.{kind}.{name}": text for name, text in given.items()}
    if number >= 0:
        texts[f"{ROWS}.used"] = " ".join(map(str, range(number + 1)))
    return texts


def _rows(job: JobDocument) -> Iterator[tuple[str, str, Texts]]:
    """Where, with what, and the texts of each row."""
    for reading in job.readings:
        if reading.kind != "parallax":
            place = _place(reading)
            kind = next((k for k in PLACES[place].ways.values() if k == reading.kind), "corner")
            yield place, kind, _given(reading)
    if job.gate is not None:
        yield rows.GATE, "gate", _given(job.gate) | {"film": FILMS[job.gate.film].name}
    finder = job.rangefinder
    if finder is not None and finder.pairs is not None:
        yield rows.FINDER, "pairs", {"pairs": finder.pairs, "tape": finder.tape}


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


def _given(part: Any) -> Texts:
    found = part.model_dump(mode="json", exclude_none=True, exclude={"kind", "where", "judged"})
    return {name: text for name, text in found.items() if isinstance(text, str)}
