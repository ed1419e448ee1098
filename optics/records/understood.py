"""What was understood of a job's typed figures, so that a slip of a unit is seen."""

from collections.abc import Iterator
from typing import Any, get_args

from optics.records.fields import Typed
from optics.records.job import JobDocument
from optics.records.part import Part

# What is kept for the record is not worked with.
_NOT_WORKED_WITH = {"intake", "trays", "work", "found", "left"}


def understood(job: JobDocument) -> tuple[str, ...]:
    """Each figure worked with, in words and as it was understood: ``lead: 18 mm``."""
    names = (name for name in type(job).model_fields if name not in _NOT_WORKED_WITH)
    return tuple(line for name in names for line in _within(getattr(job, name)))


def _within(found: Any) -> Iterator[str]:
    """The figures of a part, and of the parts in it."""
    if isinstance(found, tuple):
        for one in found:
            yield from _within(one)
    elif isinstance(found, Part):
        for name in type(found).model_fields:
            yield from _figure(found, name)


def _figure(part: Part, name: str) -> Iterator[str]:
    field, given = _typed(part, name), getattr(part, name)
    if field is not None and isinstance(given, str):
        yield f"{field.words}: {field.echo(field.read(given))}"
    else:
        yield from _within(given)


def _typed(part: Part, name: str) -> Typed | None:
    """How a field is read, where it is typed text; it may stand in an optional type."""
    info = type(part).model_fields[name]
    marks = (*info.metadata, *(m for arg in get_args(info.annotation) for m in get_args(arg)))
    return next((mark for mark in marks if isinstance(mark, Typed)), None)
