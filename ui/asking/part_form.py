"""Any part of a job as a form: each field is drawn as the part's own annotation asks for it.

A field's key is its place in the document. A part that is one of several kinds has its kind as
a step of the key, so that each kind keeps fields of its own.
"""

from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

import streamlit as st

from optics.typed.ask import LINE, Field, asked, document_text, hint_by, lines_of
from optics.typed.part import Part
from ui.asking.fields import FieldEntry, choice, field, plain_field, standing

Known: TypeAlias = Mapping[str, Any]
"""A part as the document holds it, or as much of one as is known."""
Standing: TypeAlias = Callable[[str, str, Sequence[str]], str]
"""What stands in a choice now: by its key, what stands there at first, and the words of it."""


@dataclass(frozen=True, eq=False)
class FieldPlace:
    """One field of a form: where in the document it is, its key, and its text at first.

    `within` is the place of its part, as a key; a text at first that is None was never given.
    """

    path: tuple[str, ...]
    key: str
    field: Field
    first: str | None
    within: str

    @property
    def of(self) -> str:
        """Where in the document it is, in one word."""
        return ".".join(self.path)

    @property
    def said_first(self) -> str:
        """What it holds at first, as the page says it."""
        if self.field.choices:
            return self.field.said(self.first or self.field.first_choice)
        return self.first or ""


def places(
    part: type[Part],
    key: str,
    known: Known,
    stands: Standing | None = None,
    path: tuple[str, ...] = (),
    is_example: bool = False,
    is_whole: bool = False,
) -> Iterator[FieldPlace]:
    """Every field of a part and of the parts in it, in the order in which they stand there.

    Rows have forms of their own; so have parts that may be missing, unless the whole is asked.
    """
    chosen: dict[str, str] = {}
    usual = {one.name: one.first_choice for one in asked(part)}
    for one in asked(part):
        if one.is_several or (one.stands_alone and not is_whole):
            continue
        inside, given = _step(key, one.name), known.get(one.name)
        if len(one.parts) == 1:
            within = (*path, one.name)
            known_inside = given or {}
            yield from places(
                one.parts[0], inside, known_inside, stands, within, is_example, is_whole
            )
            continue
        for each in one.each:
            first = _first(each, (given or {}).get(each.name), is_example)
            yield FieldPlace(
                (*path, one.name, each.name), _step(inside, each.name), each, first, inside
            )
        if one.each:
            continue
        place = _place(one, key, path, known, chosen, usual, is_example)
        yield place
        if one.choices:
            words = [one.said(value) for value in one.choices]
            first = place.said_first
            chosen[one.name] = one.meant(stands(place.key, first, words) if stands else first)
        if one.parts:
            kind = chosen[one.name]
            same = given if given and given.get("kind") == kind else {}
            own, within = _step(inside, kind), (*path, one.name)
            yield from places(one.kind(kind), own, same, stands, within, is_example, is_whole)


def _place(
    one: Field,
    key: str,
    path: tuple[str, ...],
    known: Known,
    chosen: Mapping[str, str],
    usual: Mapping[str, str],
    is_example: bool,
) -> FieldPlace:
    given = known.get(one.name)
    if one.parts:
        first = _first(one, (given or {}).get("kind"), is_example)
        return FieldPlace((*path, one.name, "kind"), _step(key, one.name, "kind"), one, first, key)
    by = one.ask.kept_by
    # What is known of one choice is not shown of another: angles are no arcs.
    is_other = by and known.get(by, usual[by]) != chosen[by]
    first = _first(one, None if is_other else given, is_example)
    return FieldPlace((*path, one.name), _step(key, chosen.get(by, ""), one.name), one, first, key)


def _step(*steps: str) -> str:
    return ".".join(filter(None, steps))


def _first(one: Field, given: Any, is_example: bool) -> str | None:
    if given is not None:
        return document_text(given)
    return (one.ask.example if is_example else "") or one.ask.starts or None


def texts_of(part: Part, key: str = "") -> dict[str, str]:
    """The text of every field that a part has something for, by its key."""
    known = part.model_dump(mode="json", exclude_none=True)
    found = {
        place.key: place.said_first
        for place in places(type(part), key, known)
        if place.path[-1] in _inside(known, place.path[:-1])
    }
    alone = (one for one in asked(type(part)) if one.stands_alone)
    for inside, within in (
        (f"{key}.{one.name}".lstrip("."), getattr(part, one.name)) for one in alone
    ):
        rows = enumerate(within) if isinstance(within, tuple) else ()
        held = (
            {inside: within} if isinstance(within, Part) else {f"{inside}.{n}": r for n, r in rows}
        )
        for own, other in held.items():
            found |= texts_of(other, own)
    return found


def _inside(known: Known, path: tuple[str, ...]) -> Known:
    for step in path:
        known = known.get(step) or {}
    return known


class PartForm:
    """The fields of one part, and of the parts in it.

    `known` is what stands in them at first where it is known: of a part what was said in making
    it. `only` names the fields asked for where not all are; `said` stands before every label.
    Where not all is needed yet, a field left empty is nothing amiss; who was taught by the form
    above sees no hints.
    """

    def __init__(
        self,
        part: type[Part],
        key: str,
        known: Part | Known | None = None,
        *,
        is_example: bool = False,
        only: Collection[str] = (),
        said: str = "",
        needs_all: bool = True,
        is_taught: bool = True,
        is_whole: bool = False,
    ) -> None:
        self.said, self.needs_all, self.is_taught = said, needs_all, is_taught
        if isinstance(known, Part):
            known = known.model_dump(mode="json", exclude_unset=True, exclude_none=True)
        self.places = [
            place
            for place in places(part, key, known or {}, standing, (), is_example, is_whole)
            if not only or place.path[0] in only
        ]
        self.said_besides: dict[str, Any] = {}
        """What a form draws of the part in a way of its own."""
        self.amiss: list[str] = []
        """What stands in the way beside the fields, of which it is said first."""
        self.entries: dict[str, FieldEntry] = {}
        self.drawn: list[FieldPlace] = []

    def draw(self, *paths: str, width: int = 0) -> None:
        """Draw the fields named that are not drawn yet, or all there are, line by line.

        A part is named for all the fields in it. `width` is each one's where it is not its own.
        """
        # A field named twice, alone and with its part, stands where it was named first.
        named = dict.fromkeys(place for path in paths or ("",) for place in self._under(path))
        wanted = [place for place in named if self.is_asked(place)]
        self.drawn += wanted
        for line in lines_of(wanted, lambda place: width or place.field.ask.width):
            widths = [width or place.field.ask.width for place in line]
            room = LINE - sum(widths)
            columns = st.columns([*widths, room] if room else widths)
            for column, place in zip(columns, line, strict=False):
                with column:
                    self._draw(place)

    def _under(self, path: str) -> Iterator[FieldPlace]:
        for place in self.places:
            is_named = not path or f"{place.of}.".startswith(f"{path}.")
            if is_named and place not in self.drawn:
                yield place

    def _draw(self, place: FieldPlace) -> None:
        one, texts = place.field, self.texts_beside(place)
        label, hint = f"{self.said}{one.label}", hint_by(one.ask.hint, texts)
        if hint and not self.is_taught:
            hint = ""
        typed = one.read_by(texts)
        if choices := one.choices_by(texts):
            words = [one.said(value) for value in choices]
            first = words.index(place.said_first) if place.said_first in words else 0
            choice(label, words, place.key, first, hint_by(one.ask.note, texts))
        elif typed is not None:
            self.entries[place.key] = field(
                typed, place.key, typed=place.said_first, hint=hint or "", label=label
            )
        else:
            plain_field(label, place.key, typed=place.said_first, hint=hint, longest=one.longest)

    def is_asked(self, place: FieldPlace) -> bool:
        """Whether a field is asked at all, the others being as they are."""
        texts = self.texts_beside(place)
        has_choice = place.field.ask.among is None or bool(place.field.choices_by(texts))
        return has_choice and place.field.is_asked_by(texts)

    def texts_beside(self, place: FieldPlace) -> dict[str, str]:
        """What stands in the fields of the same part, by their names; none it does not hang on."""
        # Read for every field, these would take a page as long as its whole answer.
        if not place.field.hangs_on_others:
            return {}
        near = [p for p in self.places if p.within == place.within]
        if place.field.ask.among is not None:
            near = [p for p in near if p.field.ask.among is None]
        return {one.field.name: self.text(one) for one in near}

    def text(self, place: FieldPlace) -> str:
        """What stands in a field, of a choice its value."""
        one = place.field
        values = one.choices if one.ask.among is None else one.choices_by(self.texts_beside(place))
        words = [one.said(value) for value in values]
        first = place.said_first if place.said_first in words else (words or [place.said_first])[0]
        return one.meant(standing(place.key, first, words))

    @property
    def is_in_use(self) -> bool:
        """Whether anything is typed in it; what is chosen alone is nothing."""
        return any(self.text(place).strip() for place in self.places if not place.field.choices)

    def text_at(self, path: str) -> str:
        """What stands in the field at this place; empty where it is not asked."""
        found = (p for p in self.places if p.of == path and self.is_asked(p))
        return next(map(self.text, found), "")

    def value(self, path: str, empty: float) -> float:
        """A field's figure in core units, or what an empty field stands for."""
        place = next(place for place in self.places if place.of == path)
        text, typed = self.text(place), place.field.read_by(self.texts_beside(place))
        return float(typed.read(text).value) if typed and text.strip() else empty

    @property
    def part(self) -> dict[str, Any]:
        """The texts as the job document takes them, parts in parts.

        What was drawn and left empty, or is not asked as things are, is said to be as it is in a
        document that does not tell it: so it is put back to that in the job too.
        """
        found = dict(self.said_besides)
        for place in self.places:
            is_asked = self.is_asked(place)
            if is_asked and place not in self.drawn:
                continue
            inside = found
            for step in place.path[:-1]:
                inside = inside.setdefault(step, {})
            text = self.text(place) if is_asked else ""
            if text.strip():
                is_plain = place.field.typed is None and not place.field.ask.beside
                inside[place.path[-1]] = text.strip() if is_plain else text
            elif place.field.can_be_left_out:
                inside[place.path[-1]] = place.field.default
        return found

    @property
    def problems(self) -> list[str]:
        """What stands in the way of an answer, a sentence each, in the order of the fields."""
        found = list(self.amiss)
        for place in self.drawn:
            entry = self.entries.get(place.key)
            is_empty = not self.text(place).strip()
            if entry is not None and entry.refusal:
                found.append(entry.refusal)
            elif self.needs_all and is_empty and not place.field.is_optional:
                words = entry.quantity.words if entry else place.field.label
                found.append(f"Enter the {words}.")
        return found


def rows_form(
    part: type[Part], key: str, most: int, what: str, order: Sequence[str] = ()
) -> tuple[list[dict[str, Any]], list[str]]:
    """Draw as many rows as are in use and one more; their parts, and what is amiss in `what`.

    A row left empty is none. The first teaches by its hints how a row is typed.
    """
    forms = [
        PartForm(part, f"{key}.{row}", said=f"{row + 1} ", is_taught=row == 0)
        for row in range(most)
    ]
    used = max((row for row, form in enumerate(forms, 1) if form.is_in_use), default=0)
    parts, problems = [], []
    for row, form in enumerate(forms[: used + 1], 1):
        form.draw(*order)
        if form.is_in_use:
            parts.append(form.part)
            problems += [f"{what} {row}: {problem}" for problem in form.problems]
    return parts, problems
