"""What is asked for each field of a part: it stands on the part's own annotation.

A field's place in the document is its key on every page, so that any part can be drawn as a
form, shown as it was understood, merged and put back without a table of its own.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import Enum
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

from optics.typed.fields import Typed
from optics.typed.part import Part

LINE = 12
"""A line of a form is so many widths wide."""


@dataclass(frozen=True)
class Ask:
    """How one field is asked for.

    `label` is what stands over it, else the quantity's own words; `hint` shows while it is
    empty, under it; None keeps no line there. `starts` is the text it holds at first for
    everybody, `example` what it holds on an invented camera. `width` is in twelfths of a line.
    `words` are what a choice's values are called on the page; `note` stands under a choice.
    `beside` names another field of the part whose text decides how this one is read, and how.
    """

    label: str = ""
    hint: str | None = ""
    starts: str = ""
    example: str = ""
    width: int = 4
    words: Mapping[str, str] | None = None
    note: str | None = None
    beside: tuple[str, Callable[[str], Typed]] | None = None


@dataclass(frozen=True)
class Field:
    """A part's field with all that is known of asking for it.

    Exactly one of `typed` and `choices` is set, or neither for text that stands for itself.
    """

    name: str
    ask: Ask
    typed: Typed | None
    choices: tuple[str, ...]
    is_optional: bool

    @property
    def label(self) -> str:
        """What stands over it."""
        return self.ask.label or (self.typed.words if self.typed else self.name.replace("_", " "))

    def said(self, choice: str) -> str:
        """What a choice's value is called on the page."""
        return (self.ask.words or {}).get(choice, choice)

    def meant(self, said: str) -> str:
        """The value of the choice that is called so."""
        return next((one for one in self.choices if self.said(one) == said), said)

    def read_by(self, texts: Mapping[str, str]) -> Typed | None:
        """How it is read, the other fields of its part being as they are."""
        if self.ask.beside is None:
            return self.typed
        name, how = self.ask.beside
        return how(texts.get(name, ""))


def asked(part: type[Part]) -> tuple[Field, ...]:
    """The fields that a part asks for, in the order in which they stand in it.

    Those without an `Ask` are not asked for: another form, or none, fills them in.
    """
    found = []
    for name, info in part.model_fields.items():
        marks = (*info.metadata, *_marks(info.annotation))
        ask = next((mark for mark in marks if isinstance(mark, Ask)), None)
        if ask is not None:
            typed = next((mark for mark in marks if isinstance(mark, Typed)), None)
            choices = _choices(info.annotation)
            found.append(Field(name, ask, typed, choices, not info.is_required()))
    return tuple(found)


def lines_of(fields: tuple[Field, ...]) -> tuple[tuple[Field, ...], ...]:
    """The fields line by line, as many to a line as have room."""
    lines: list[list[Field]] = []
    room = 0
    for field in fields:
        if field.ask.width > room:
            lines.append([])
            room = LINE
        lines[-1].append(field)
        room -= field.ask.width
    return tuple(map(tuple, lines))


def _marks(annotation: Any) -> tuple[Any, ...]:
    """The marks on an annotation, which may stand inside an optional type."""
    own = annotation.__metadata__ if get_origin(annotation) is Annotated else ()
    if get_origin(annotation) not in (Annotated, Union, UnionType):
        return own
    return (*own, *(mark for arg in get_args(annotation) for mark in _marks(arg)))


def _choices(annotation: Any) -> tuple[str, ...]:
    """The values of a choice; none for text."""
    if get_origin(annotation) is Literal:
        return tuple(map(str, get_args(annotation)))
    if isinstance(annotation, type) and issubclass(annotation, Enum):
        return tuple(str(one.value) for one in annotation)
    if get_origin(annotation) in (Annotated, Union, UnionType):
        return next(filter(None, map(_choices, get_args(annotation))), ())
    return ()
