"""What is asked for a field stands on its part."""

from enum import StrEnum
from typing import Annotated, Literal

from optics.typed import fields
from optics.typed.ask import Ask, asked, lines_of
from optics.typed.part import Part


class Way(StrEnum):
    """Two ways, one of them worded otherwise."""

    OUT = "out"
    IN = "in"


class MadeUpPart(Part):
    """A part that no job has."""

    kind: Literal["made up"] = "made up"
    depth: Annotated[str, fields.NOMINAL_REGISTER, Ask(width=8)]
    limit: Annotated[str, fields.GAUGE_LIMIT, Ask("good to ±", hint="0 if empty")] | None = None
    way: Annotated[Way, Ask(words={"in": "towards the film"}, width=6)]
    name: Annotated[str, Ask("its name", width=6)] = ""
    beside: Annotated[str, Ask(beside=("depth", fields.register_against))] = ""


def test_asked_fields() -> None:
    """Each field with an Ask is asked for, in order, with its reader, choices and whether it may
    stay empty; one without is not."""
    depth, limit, way, name, _ = asked(MadeUpPart)
    assert [one.name for one in (depth, limit, way, name)] == ["depth", "limit", "way", "name"]
    assert depth.typed is fields.NOMINAL_REGISTER
    assert limit.typed is fields.GAUGE_LIMIT
    assert (depth.is_optional, limit.is_optional) == (False, True)
    assert (way.choices, name.choices) == (("out", "in"), ())


def test_labels() -> None:
    """A field is labelled by its Ask, or else by its quantity's words."""
    depth, limit, *_ = asked(MadeUpPart)
    assert (depth.label, limit.label) == ("nominal register", "good to ±")


def test_words_of_choices() -> None:
    """A choice's words lead back to its value."""
    way = asked(MadeUpPart)[2]
    assert [way.said(one) for one in way.choices] == ["out", "towards the film"]
    assert [way.meant(way.said(one)) for one in way.choices] == ["out", "in"]


def test_read_beside() -> None:
    """A field that is read beside another is read by what stands there."""
    field = asked(MadeUpPart)[4]
    typed = field.read_by({"depth": "28.8"})
    assert typed is not None
    assert typed.read("28.74")[0].value == 28.74


def test_lines_by_width() -> None:
    """Fields share a line of twelve widths as long as they have room on it."""
    lines = lines_of(asked(MadeUpPart), lambda one: one.ask.width)
    assert [[one.name for one in line] for line in lines] == [
        ["depth", "limit"],
        ["way", "name"],
        ["beside"],
    ]
