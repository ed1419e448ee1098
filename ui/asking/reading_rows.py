"""One row for each reading of a camera: where it was taken, how, and its figures as typed."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import Any

import streamlit as st

from optics.body.gate import FILMS
from optics.body.gate import part as gate
from optics.camera.camera import Turn
from optics.typed import fields
from optics.typed.fields import Typed
from optics.typed.places import PLACE
from ui.asking import whole_camera_examples as rows
from ui.asking.camera_form import Texts
from ui.asking.fields import choice
from ui.asking.forms import Form
from ui.asking.whole_camera_examples import EXAMPLES, Row
from ui.kept import drafts

MOST_ROWS = 16


@dataclass(frozen=True)
class Place:
    """Where a reading is taken: with what, and what the job says of it beside the figures."""

    ways: dict[str, str]
    near: bool = False
    said: Texts = field(default_factory=dict)


@dataclass(frozen=True)
class Asked:
    """One figure of a row, typed or chosen; some are asked at a near mark only.

    `width` is its share of the line it stands on. `beside` names the figure that it is read
    beside, and how.
    """

    name: str
    label: str
    quantity: Typed | None = None
    hint: str = ""
    optional: bool = False
    options: Sequence[str] = ()
    near_only: bool = False
    width: int = 6
    beside: tuple[str, Callable[[str], Typed]] | None = None


_EYE = {rows.TURNED: "rotation", rows.SHARP: "mark", rows.COLLIMATOR: "collimator"}
_FILM = {rows.RULER: "ruler", rows.SHARP: "mark"}
PLACES = {
    rows.GAUGED: Place({"": "register"}),
    rows.STOP: Place(_EYE, said={"where": "at the stop"}),
    rows.INFINITY: Place(_EYE),
    rows.NEAR: Place({rows.SHARP: "mark", rows.TURNED: "rotation"}, near=True),
    rows.FILM_INFINITY: Place(_FILM, said={"judged": "on film"}),
    rows.FILM_NEAR: Place(_FILM, near=True, said={"judged": "on film"}),
    rows.OFF_MIDDLE: Place({"": "corner"}),
    rows.GATE: Place({"": "gate"}),
    rows.FINDER: Place({"": "pairs"}),
}
_LIMIT = "0 if empty"
_MARK = Asked("mark", "ring mark", fields.RING_MARK, "such as 1.5", near_only=True)
_GAUGED = (
    Asked(
        "measured",
        "measured",
        fields.MEASURED_REGISTER,
        "repeats: 28.74; 28.75",
        width=10,
        beside=("nominal", fields.register_against),
    ),
    Asked("nominal", "nominal", fields.NOMINAL_REGISTER, "as made", width=7),
    Asked("limit", "gauge ±", fields.GAUGE_LIMIT, "such as 0.015", width=7),
)
_FILM_NAMES = {film.name: key for key, film in FILMS.items()}
# Each kind's figures, line by line.
ASKED: dict[str, tuple[tuple[Asked, ...], ...]] = {
    "register": (_GAUGED,),
    "corner": ((Asked("place", "place", PLACE, "top left; −16, 11", width=8), *_GAUGED),),
    "mark": (
        (
            _MARK,
            Asked(
                "sharp_at",
                "really sharp at",
                fields.SHARP_AT,
                "repeats: 18; 18.7 m",
                width=9,
                beside=("mark", fields.sharp_at),
            ),
            Asked("limit", "tape ±", fields.DISTANCE_LIMIT, _LIMIT, optional=True),
        ),
    ),
    "rotation": (
        (
            Asked("turned", "turned", fields.TURNED, "repeats: 2.5; 2", width=9),
            Asked("sense", "which way", options=(Turn.COUNTER_CLOCKWISE, Turn.CLOCKWISE), width=9),
        ),
        (
            _MARK,
            Asked("limit", "read to ±", fields.ANGLE_LIMIT, _LIMIT, optional=True),
            Asked("target", "target at", fields.TARGET, "∞ if empty", optional=True),
        ),
    ),
    "collimator": (
        (
            Asked("shift", "reticle moved", fields.RETICLE_SHIFT, "repeats: 1.2; 1.25", width=9),
            Asked("towards", "towards", options=("its lens", "away from its lens"), width=9),
        ),
        (
            Asked("limit", "read to ±", fields.RETICLE_LIMIT, _LIMIT, optional=True),
            Asked("collimator_focal_length", "its focal length", fields.COLLIMATOR, "such as 300"),
            Asked(
                "to_lens",
                "to camera lens",
                fields.COLLIMATOR_TO_LENS,
                "in the ± if empty",
                optional=True,
            ),
        ),
    ),
    "ruler": (
        (
            _MARK,
            Asked("aim", "film to ruler's zero", fields.RULER_AIM, "such as 1.5 m"),
            Asked("slope", "slope to the axis", fields.RULER_SLOPE, "45° if empty", optional=True),
        ),
        (
            Asked("offset", "sharpest at", fields.RULER_OFFSET, "along it: 20; 24"),
            Asked("side", "side of its zero", options=("nearer", "farther")),
            Asked("limit", "read to ±", fields.RULER_LIMIT, _LIMIT, optional=True),
        ),
    ),
    "gate": (
        (Asked("film", "kind of film", options=tuple(_FILM_NAMES)),),
        (
            Asked("channel", "channel, deep", gate.CHANNEL, "such as 0.20 ± 0.01"),
            Asked(
                "film_thickness", "film", gate.FILM_THICKNESS, "as usual if empty", optional=True
            ),
        ),
    ),
    "pairs": (
        (
            Asked(
                "pairs",
                "true distance = lens scale",
                fields.COINCIDENCES,
                "∞ = 28; 30; 1 m = 1.02",
                width=16,
            ),
            Asked("tape", "tape ±", fields.TAPE_LIMIT, _LIMIT, optional=True, width=5),
        ),
    ),
}


@dataclass
class Found:
    """What all rows make of a job, and what stands in the way."""

    readings: list[Texts] = field(default_factory=list)
    gates: list[Texts] = field(default_factory=list)
    pairs: list[Texts] = field(default_factory=list)
    problems: list[str] = field(default_factory=list)

    @property
    def parts(self) -> dict[str, Any]:
        """Readings and gate as the job document takes them."""
        found: dict[str, Any] = {"readings": self.readings}
        return found | ({"gate": self.gates[0]} if self.gates else {})

    def add(self, kind: str, place: Place, texts: Texts) -> None:
        """Put a row where it belongs in the job; gate and rangefinder have one row each."""
        if kind == "gate":
            self._alone(self.gates, texts, "gate")
        elif kind == "pairs":
            self._alone(self.pairs, texts, "rangefinder")
        else:
            self.readings.append(_as_reading(kind, place, texts))

    def _alone(self, kept: list[Texts], texts: Texts, what: str) -> None:
        if kept:
            self.problems.append(f"The {what} has one row: put both into it, or remove one.")
        kept.append(texts)


def _as_reading(kind: str, place: Place, texts: Texts) -> Texts:
    if kind in ("register", "corner"):
        return {"kind": "register", "instrument": "other"} | texts
    mark = {} if kind == "collimator" or "mark" in texts else {"mark": "inf"}
    return {"kind": kind} | mark | place.said | texts


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
        options = list(PLACES)
        where = choice(f"{number} read", options, f"{prefix}.place", options.index(known.place))
    place = PLACES[where]
    with right:
        kind = _way(place, f"{prefix}.{where}", number, known)
    end.button(
        f"✕ {number}",
        key=f"{prefix}.remove",
        help=f"Take reading {number} away",
        on_click=_remove,
        args=(name, row),
        width="stretch",
    )
    form = Form(f"{prefix}.{kind}")
    texts = known.texts if _is_as_known(known, where, kind) else {}
    _figures(form, kind, place, number, texts)
    found.problems += [f"Reading {number}: {problem}" for problem in form.problems]
    part = form.part()
    if kind == "gate":
        part["film"] = _FILM_NAMES[part["film"]]
    found.add(kind, place, part)


def _way(place: Place, key: str, number: int, known: Row) -> str:
    """With what it was read; asked only where there is a choice."""
    ways = list(place.ways)
    if len(ways) == 1:
        return place.ways[ways[0]]
    first = ways.index(known.kind) if known.kind in ways else 0
    return place.ways[choice(f"{number} by", ways, f"{key}.way", first)]


def _is_as_known(known: Row, where: str, kind: str) -> bool:
    return known.place == where and PLACES[where].ways.get(known.kind) == kind


def _figures(form: Form, kind: str, place: Place, number: int, texts: Texts) -> None:
    for asked in ASKED[kind]:
        line = [one for one in asked if place.near or not one.near_only]
        columns = zip(st.columns([one.width for one in line]), line, strict=True)
        # What another figure is read beside is drawn before it, wherever it stands.
        for column, one in sorted(columns, key=lambda pair: pair[1].beside is not None):
            with column:
                _ask(form, one, f"{number} {one.label}", texts)
    form.put_in_order([one.name for line in ASKED[kind] for one in line])


def _ask(form: Form, one: Asked, label: str, texts: Texts) -> None:
    if one.quantity is None:
        form.choose(one.name, label, [str(o) for o in one.options], texts.get(one.name, ""))
        return
    quantity = one.quantity
    if one.beside is not None and one.beside[0] in form.entries:
        name, read_beside = one.beside
        quantity = read_beside(form.entries[name].text)
    form.ask(
        one.name,
        quantity,
        typed=texts.get(one.name),
        label=label,
        hint=one.hint,
        optional=one.optional,
    )


def _buttons(name: str) -> None:
    """Another row, and the last one taken away put back with all that was typed in it."""
    with st.container(horizontal=True, key=f"{_key(name)}.buttons"):
        if len(_numbers(name)) < MOST_ROWS:
            st.button("Add a reading", key=f"{_key(name)}.add", on_click=_add, args=(name,))
        if _removed(name):
            st.button("Put back", key=f"{_key(name)}.back", on_click=_put_back, args=(name,))


def _numbers(name: str) -> list[int]:
    """The rows in use, each by a number that is never given twice; the example's at first."""
    first = range(max(len(EXAMPLES.get(name, ())), 1))
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


def _known(name: str, row: int) -> Row:
    example = EXAMPLES.get(name, ())
    return example[row] if row < len(example) else Row(rows.GAUGED)


def _key(name: str) -> str:
    return f"{name}.whole.row"
