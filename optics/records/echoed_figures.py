"""What was understood of a job's typed figures, so that a slip of a unit is seen."""

from collections.abc import Iterator
from typing import Any

from optics.records.job import JobDocument
from optics.typed.part import Part, typed_of

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
    field, given = typed_of(type(part), name), getattr(part, name)
    if field is not None and isinstance(given, str):
        yield f"{field.words}: {field.echo(field.read(given))}"
    else:
        yield from _within(given)
