"""What is asked for each field of a part: it stands on the part's own annotation.

A field's place in the document is its key on every page, so that any part can be drawn as a
form, shown as it was understood, merged and put back without a table of its own.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from enum import Enum
from functools import cache
from types import UnionType
from typing import Annotated, Any, Literal, TypeAlias, TypeVar, Union, get_args, get_origin

from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from optics.typed.fields import Typed
from optics.typed.part import Part

LINE = 12
"""A line of a form is so many widths wide."""
_LONGEST_TEXT = 4000

Texts: TypeAlias = Mapping[str, str]
"""The texts of a part's other fields, by name; of a choice its value."""
Said: TypeAlias = str | Callable[[Texts], str] | None


@dataclass(frozen=True, eq=False)
class Ask:
    """How one field is asked for.

    `label` is what stands over it, else the quantity's own words; `hint` shows while it is
    empty, under it; None keeps no line there. `starts` is the text it holds at first for
    everybody, `example` what it holds on an invented camera. `width` is in twelfths of a line.
    `words` are what a choice's values are called on the page, and make a choice of plain text;
    `note` stands under a choice. `hint` and `note` may hang on the part's other fields.
    `beside` names another field of the part whose text decides how this one is read, and how.
    `among` finds a choice's values in the other fields; `when` says when it is asked at all.
    `kept_by` names a choice of the part for each value of which it has a text of its own.
    `needed` says whether an answer needs it, where the document could do without. `each` is how
    the texts of a mapping are read and asked for, by their keys.
    """

    label: str = ""
    hint: Said = ""
    starts: str = ""
    example: str = ""
    width: float = 4
    words: Mapping[str, str] | None = None
    note: Said = None
    beside: tuple[str, Callable[[str], Typed]] | None = None
    among: Callable[[Texts], Sequence[str]] | None = None
    when: Callable[[Texts], bool] | None = None
    kept_by: str = ""
    needed: bool | None = None
    each: "Mapping[str, tuple[Typed, Ask]] | None" = None


@dataclass(frozen=True)
class Field:
    """A part's field with all that is known of asking for it.

    `typed` or `choices` are set, or neither for text that stands for itself; `parts` where it
    holds a part, or one of several kinds of part, whose kinds are then its choices. `default` is
    what a document holds that does not tell it, if it can do without.
    """

    name: str
    ask: Ask
    typed: Typed | None
    choices: tuple[str, ...]
    is_optional: bool
    default: Any = PydanticUndefined
    longest: int = _LONGEST_TEXT
    parts: tuple[type[Part], ...] = ()
    is_several: bool = False

    @property
    def label(self) -> str:
        """What stands over it."""
        return self.ask.label or (self.typed.words if self.typed else self.name.replace("_", " "))

    @property
    def can_be_left_out(self) -> bool:
        """Whether a document can do without it."""
        return self.default is not PydanticUndefined

    @property
    def hangs_on_others(self) -> bool:
        """Whether the part's other fields have any say in how it is asked for."""
        ask = self.ask
        return bool(ask.beside or ask.among or ask.when) or any(map(callable, (ask.hint, ask.note)))

    @property
    def first_choice(self) -> str:
        """The value that a choice has until another is chosen."""
        usual = self.ask.starts or document_text(self.default)
        return usual if usual in self.choices else (self.choices or ("",))[0]

    @property
    def stands_alone(self) -> bool:
        """Whether it holds rows, or a part that may be missing: these have forms of their own."""
        return self.is_several or bool(self.parts and self.is_optional and self.default is None)

    def said(self, choice: str) -> str:
        """What a choice's value is called on the page."""
        return (self.ask.words or {}).get(choice, choice)

    def meant(self, said: str) -> str:
        """The value of the choice that is called so."""
        return next((one for one in self.choices if self.said(one) == said), said)

    def choices_by(self, texts: Texts) -> tuple[str, ...]:
        """The values to choose from, the other fields of its part being as they are."""
        return self.choices if self.ask.among is None else tuple(self.ask.among(texts))

    def read_by(self, texts: Texts) -> Typed | None:
        """How it is read, the other fields of its part being as they are."""
        if self.ask.beside is None:
            return self.typed
        name, how = self.ask.beside
        return how(texts.get(name, ""))

    @property
    def each(self) -> "tuple[Field, ...]":
        """The fields of a mapping, one for each key."""
        each = self.ask.each or {}
        return tuple(Field(key, ask, typed, (), True) for key, (typed, ask) in each.items())

    def is_asked_by(self, texts: Texts) -> bool:
        """Whether it is asked at all, the other fields of its part being as they are."""
        return self.ask.when is None or self.ask.when(texts)

    def kind(self, chosen: str) -> type[Part]:
        """The kind of part that is chosen."""
        return next(one for one in self.parts if len(self.parts) == 1 or kind_of(one) == chosen)


@cache
def asked(part: type[Part]) -> tuple[Field, ...]:
    """The fields that a part asks for, in the order in which they stand in it.

    Those without an `Ask` are not asked for: another form, or none, fills them in. Parts in it
    ask for themselves.
    """
    found = []
    for name, info in part.model_fields.items():
        marks = (*info.metadata, *_marks(info.annotation))
        ask = next((mark for mark in marks if isinstance(mark, Ask)), None)
        parts = _parts(info.annotation)
        if ask is not None or any(map(asked, parts)):
            found.append(_field(name, info, ask or Ask(), marks, parts))
    return tuple(found)


def _field(
    name: str, info: FieldInfo, ask: Ask, marks: Sequence[Any], parts: tuple[type[Part], ...]
) -> Field:
    kinds = tuple(map(kind_of, parts)) if len(parts) > 1 else ()
    can_be_left = not info.is_required() if ask.needed is None else not ask.needed
    return Field(
        name,
        ask,
        next((mark for mark in marks if isinstance(mark, Typed)), None),
        kinds or _choices(info.annotation) or tuple(ask.words or ()),
        can_be_left,
        info.get_default(call_default_factory=True),
        next((m.max_length for m in marks if hasattr(m, "max_length")), _LONGEST_TEXT),
        parts,
        _holds(info.annotation, tuple),
    )


def kind_of(part: type[Part]) -> str:
    """What tells a part from the others that may stand in its place."""
    return str(part.model_fields["kind"].default)


def document_text(value: Any) -> str:
    """A value of a document as a form holds it: text, or a choice's value."""
    if isinstance(value, Part):
        return str(getattr(value, "kind", ""))
    if isinstance(value, bool):
        return str(value).lower()
    return "" if value in (None, PydanticUndefined) else str(value)


def hint_by(said: Said, texts: Texts) -> str | None:
    """A hint or a note, the other fields of its part being as they are."""
    return said(texts) if callable(said) else said


_One = TypeVar("_One")


def lines_of(ones: Iterable[_One], width: Callable[[_One], float]) -> tuple[tuple[_One, ...], ...]:
    """Fields line by line, as many to a line as have room."""
    lines: list[list[_One]] = []
    room = 0.0
    for one in ones:
        if width(one) > room:
            lines.append([])
            room = LINE
        lines[-1].append(one)
        room -= width(one)
    return tuple(map(tuple, lines))


def _marks(annotation: Any) -> tuple[Any, ...]:
    """The marks on an annotation, which may stand inside an optional type."""
    own = annotation.__metadata__ if get_origin(annotation) is Annotated else ()
    if get_origin(annotation) not in (Annotated, Union, UnionType):
        return tuple(own)
    return (*own, *(mark for arg in get_args(annotation) for mark in _marks(arg)))


def _choices(annotation: Any) -> tuple[str, ...]:
    """The values of a choice; none for text."""
    if get_origin(annotation) is Literal:
        return tuple(map(str, get_args(annotation)))
    if annotation is bool:
        return ("true", "false")
    if isinstance(annotation, type) and issubclass(annotation, Enum):
        return tuple(str(one.value) for one in annotation)
    if get_origin(annotation) in (Annotated, Union, UnionType):
        return next(filter(None, map(_choices, get_args(annotation))), ())
    return ()


def _parts(annotation: Any) -> tuple[type[Part], ...]:
    """The parts that may stand in a field."""
    if isinstance(annotation, type) and issubclass(annotation, Part):
        return (annotation,)
    return tuple(part for arg in get_args(annotation) for part in _parts(arg))


def _holds(annotation: Any, origin: type) -> bool:
    """Whether an annotation is of a generic type, or an optional one of it."""
    inner = get_args(annotation) if get_origin(annotation) in (Annotated, Union, UnionType) else ()
    return get_origin(annotation) is origin or any(_holds(one, origin) for one in inner)
