"""What every piece of a job has in common, and how its texts become figures."""

from typing import Annotated, TypeAlias

from pydantic import BaseModel, ConfigDict, Field

from optics.bench.uncertainty import Estimate, within
from optics.records.fields import Typed


class Part(BaseModel):
    """A piece of a job: frozen, and closed to fields it does not know."""

    model_config = ConfigDict(extra="forbid", frozen=True)


Line: TypeAlias = Annotated[str, Field(max_length=200)]
Note: TypeAlias = Annotated[str, Field(max_length=4000)]


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
