"""What every piece of a job has in common, and how its texts become figures."""

from typing import Annotated, TypeAlias, get_args

from pydantic import BaseModel, ConfigDict, Field

from optics.measure.uncertainty import Estimate, within
from optics.typed.fields import Typed


class Part(BaseModel):
    """A piece of a job: frozen, and closed to fields it does not know."""

    model_config = ConfigDict(extra="forbid", frozen=True)


Line: TypeAlias = Annotated[str, Field(max_length=200)]
Note: TypeAlias = Annotated[str, Field(max_length=4000)]


def typed_of(part: type[Part], name: str) -> Typed | None:
    """How a part's field is read, where it is typed text; it may stand in an optional type.

    Whoever reads a field asks here, so that what solves also prints.
    """
    info = part.model_fields[name]
    marks = (*info.metadata, *(m for arg in get_args(info.annotation) for m in get_args(arg)))
    return next((mark for mark in marks if isinstance(mark, Typed)), None)


def value(field: Typed, text: str) -> float:
    """The figure that a text stands for, in core units."""
    return float(field.read(text).value)


def optional_value(field: Typed, text: str | None) -> float | None:
    """The figure that a text stands for; None where nothing was typed."""
    return None if text is None else value(field, text)


def give_or_take(field: Typed, text: str, name: str) -> Estimate:
    """A figure typed as ``0.02 ± 0.01``, rectangular; exact without its limit."""
    figure, limit = field.read(text)
    return within(figure.value, limit.value if limit else 0.0, name)
