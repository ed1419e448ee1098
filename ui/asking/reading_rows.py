"""One row for each reading of a camera: where it was taken, how, and its figures as typed.

What a row asks for is drawn as the reading's own annotations ask; gate and rangefinder are parts
of a job that have one row each.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

import streamlit as st

from optics.body.gate.part import GatePart
from optics.rangefinder.part import RangefinderPart
from optics.readings.kinds.registry import parts
from optics.readings.reading_part import ReadFrom
from optics.records.job import JobDocument
from optics.records.lantern_street_readings import WHOLE
from optics.typed.part import Part
from ui.asking.fields import choice
from ui.asking.part_form import PartForm, texts_of
from ui.kept import drafts

MOST_ROWS = 16
Texts = Mapping[str, Any]


@dataclass(frozen=True)
class RowFields:
    """What a row asks for: these fields of a part, under a step of the key of its own.

    `said` is what it says of the part without being asked, `starts` what it holds at first.
    """

    step: str
    part: type[Part]
    names: tuple[str, ...]
    said: Texts = field(default_factory=dict)
    starts: Texts = field(default_factory=dict)


@dataclass(frozen=True)
class ReadingRow:
    """A reading as it stands in a row: where, by what way, and the part of the job."""

    place: ReadFrom
    way: str = ""
    part: Part | None = None

    @property
    def texts(self) -> Texts:
        """The part as it is typed; what was never given is left out."""
        return (
            self.part.model_dump(mode="json", exclude_none=True, exclude_unset=True)
            if self.part
            else {}
        )


_GATE = RowFields("gate", GatePart, ("film", "channel", "film_thickness"))
_PAIRS = RowFields("pairs", RangefinderPart, ("pairs", "tape"))
_ALONE = {ReadFrom.GATE: {"": _GATE}, ReadFrom.FINDER: {"": _PAIRS}}


def ways(place: ReadFrom) -> dict[str, RowFields]:
    """By what a place is read, and what a row then asks for; a place with one way asks for none."""
    if place in _ALONE:
        return _ALONE[place]
    kinds = sorted(
        (part for part in parts() if place in part.ways), key=lambda part: part.ways[place].rank
    )
    return {
        part.ways[place].words: RowFields(
            # A corner's depth is the register's elsewhere, and was never typed with it.
            "corner" if place is ReadFrom.OFF_MIDDLE else part.kind_name(),
            part,
            part.asked_at(place),
            part.said_at(place),
            part.row_starts,
        )
        for part in kinds
    }


@dataclass
class Found:
    """What all rows make of a job, and what stands in the way."""

    readings: list[dict[str, Any]] = field(default_factory=list)
    gates: list[dict[str, Any]] = field(default_factory=list)
    pairs: list[dict[str, Any]] = field(default_factory=list)
    problems: list[str] = field(default_factory=list)

    @property
    def parts(self) -> dict[str, Any]:
        """Readings and gate as the job document takes them."""
        found: dict[str, Any] = {"readings": self.readings}
        return found | ({"gate": self.gates[0]} if self.gates else {})

    def add(self, asked: RowFields, typed: Texts) -> None:
        """Put a row where it belongs in the job; gate and rangefinder have one row each."""
        part = {**asked.said, **typed}
        if asked is _GATE:
            self._alone(self.gates, part, "gate")
        elif asked is _PAIRS:
            self._alone(self.pairs, part, "rangefinder")
        else:
            self.readings.append(part)

    def _alone(self, kept: list[dict[str, Any]], part: dict[str, Any], what: str) -> None:
        if kept:
            self.problems.append(f"The {what} has one row: put both into it, or remove one.")
        kept.append(part)


def rows_form(name: str) -> Found:
    """Draw every row and the buttons that add and take away; what they make of a job."""
    found = Found()
    for number, row in enumerate(_numbers(name), start=1):
        with st.container(key=f"{_key(name)}{row}", gap=None):
            _one_row(name, row, number, found)
    _buttons(name)
    return found


def _one_row(name: str, row: int, number: int, found: Found) -> None:
    known, prefix = _known(name, row), f"{_key(name)}{row}"
    left, right, end = st.columns([10, 10, 3], vertical_alignment="bottom")
    with left:
        options = [place.value for place in ReadFrom]
        where = choice(f"{number} read", options, f"{prefix}.place", options.index(known.place))
    place = ReadFrom(where)
    with right:
        way = _way(place, f"{prefix}.{where}", number, known)
    end.button(
        f"✕ {number}",
        key=f"{prefix}.remove",
        help=f"Take reading {number} away",
        on_click=_remove,
        args=(name, row),
        width="stretch",
    )
    asked = ways(place)[way]
    texts = known.texts if (place, way) == (known.place, known.way) else asked.starts
    # A row shows what a field stands for by its hint, and begins without anybody's figures.
    first = {**dict.fromkeys(asked.names, ""), **asked.said, **texts}
    form = PartForm(asked.part, f"{prefix}.{asked.step}", first, said=f"{number} ")
    form.draw(*asked.names)
    found.problems += [f"Reading {number}: {problem}" for problem in form.problems]
    found.add(asked, {one: text for one, text in form.part.items() if one in asked.names})


def _way(place: ReadFrom, key: str, number: int, known: ReadingRow) -> str:
    """With what it was read; asked only where there is a choice."""
    options = list(ways(place))
    if len(options) == 1:
        return options[0]
    first = options.index(known.way) if known.way in options else 0
    return choice(f"{number} by", options, f"{key}.way", first)


def rows_of(job: JobDocument) -> Iterator[ReadingRow]:
    """The readings of a job that are weighed together, each as its row."""
    for reading in job.readings:
        place, gauge = reading.read_from, reading.named_gauge
        if place is None:
            continue
        if gauge is not None and gauge.limit is not None and reading.said_limit is None:
            # The row asks for no instrument, but for its limit.
            reading = reading.model_copy(update={"limit": f"{gauge.limit:g} mm"})
        yield ReadingRow(place, type(reading).ways[place].words, reading)
    if job.gate is not None:
        yield ReadingRow(ReadFrom.GATE, "", job.gate)
    if job.rangefinder is not None and job.rangefinder.pairs is not None:
        yield ReadingRow(ReadFrom.FINDER, "", job.rangefinder)


def row_texts(rows: Iterable[ReadingRow], key: str, first: int = 0) -> dict[str, str]:
    """The text of every field of the rows by its key, numbered from the first."""
    texts: dict[str, str] = {}
    number = first - 1
    for number, row in enumerate(rows, first):
        asked, own = ways(row.place)[row.way], f"{key}{number}"
        texts[f"{own}.place"] = row.place.value
        if row.way:
            texts[f"{own}.{row.place}.way"] = row.way
        held = texts_of(row.part, "") if row.part else {}
        texts |= {f"{own}.{asked.step}.{n}": held[n] for n in asked.names if n in held}
    if number >= first:
        texts[f"{key}.used"] = " ".join(map(str, range(first, number + 1)))
    return texts


def _buttons(name: str) -> None:
    """Another row, and the last one taken away put back with all that was typed in it."""
    with st.container(horizontal=True, key=f"{_key(name)}.buttons"):
        if len(_numbers(name)) < MOST_ROWS:
            st.button("Add a reading", key=f"{_key(name)}.add", on_click=_add, args=(name,))
        if _removed(name):
            st.button("Put back", key=f"{_key(name)}.back", on_click=_put_back, args=(name,))


def _numbers(name: str) -> list[int]:
    """The rows in use, each by a number that is never given twice; the example's at first."""
    first = range(max(len(_examples(name)), 1))
    return _listed(f"{_key(name)}.used", first)


def _removed(name: str) -> list[int]:
    """Each row taken away, after the place it had, the last one at the end."""
    return _listed(f"{_key(name)}.removed", ())


def _listed(key: str, first: Iterable[int]) -> list[int]:
    """Numbers kept with what is typed, so that rows outlive a reload."""
    text = drafts.draft().texts.get(key)
    return list(first) if text is None else [int(number) for number in text.split()]


def _list(key: str, numbers: Iterable[int]) -> None:
    drafts.draft().change(key, " ".join(map(str, numbers)))


def next_row(name: str) -> int:
    """The number of a row that was never used; 0 where no row was typed in at all."""
    if not drafts.draft().under(_key(name)):
        return 0
    return max([*_numbers(name), *_removed(name)[1::2]], default=-1) + 1


def take_all_away(name: str) -> None:
    """Take every row away that was typed in, so that each can be put back; for a callback."""
    if drafts.draft().under(_key(name)):
        for row in reversed(_numbers(name)):
            _remove(name, row)


def _add(name: str) -> None:
    numbers = _numbers(name)
    taken = [*numbers, *_removed(name)[1::2]]
    _list(f"{_key(name)}.used", [*numbers, max(taken, default=-1) + 1])


def _remove(name: str, row: int) -> None:
    numbers = _numbers(name)
    _list(f"{_key(name)}.removed", [*_removed(name), numbers.index(row), row])
    _list(f"{_key(name)}.used", [number for number in numbers if number != row])


def _put_back(name: str) -> None:
    *before, at, row = _removed(name)
    numbers = _numbers(name)
    numbers.insert(at, row)
    _list(f"{_key(name)}.removed", before)
    _list(f"{_key(name)}.used", numbers)


def _examples(name: str) -> list[ReadingRow]:
    return list(rows_of(WHOLE[name])) if name in WHOLE else []


def _known(name: str, row: int) -> ReadingRow:
    examples = _examples(name)
    return examples[row] if row < len(examples) else ReadingRow(ReadFrom.GAUGED)


def _key(name: str) -> str:
    return f"{name}.whole.row"
