"""What every part of a result document is made of."""

import math
from typing import Annotated, Literal, Self, TypeAlias

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, model_validator

from optics.measure.uncertainty import Estimate, budget


def distance_out(mm: float | Literal["inf"]) -> float | Literal["inf"]:
    """A distance as JSON can hold it, which knows no infinity."""
    return "inf" if mm == "inf" or math.isinf(mm) else mm


Distance: TypeAlias = Annotated[
    float | Literal["inf"],
    BeforeValidator(distance_out),
    Field(description="mm from the film plane, or “inf”"),
]


class Out(BaseModel):
    """A piece of a result: frozen."""

    model_config = ConfigDict(frozen=True, from_attributes=True)

    @classmethod
    def taken_from(cls, found: object, **said: object) -> Self:
        """What was found, field by field under its own name, but for what is said beside it.

        Estimates become figures and distances what JSON can hold, however deep they lie.
        """
        own = {name: getattr(found, name) for name in cls.model_fields if name not in said}
        return cls.model_validate(own | said)


class FigureOut(Out):
    """A figure with its uncertainty: mm at the film, unless its place says another unit."""

    value: float
    standard_uncertainty: float
    degrees_of_freedom: Annotated[float | None, Field(description="effective; null means infinite")]
    coverage_factor: Annotated[float, Field(description="k for 95 %, Student's t")]
    expanded_uncertainty: Annotated[float, Field(description="U = k·u, 95 %")]
    budget: Annotated[dict[str, float], Field(description="standard uncertainty from each source")]

    @model_validator(mode="before")
    @classmethod
    def _figured(cls, found: object) -> object:
        return cls.of(found) if isinstance(found, Estimate) else found

    @classmethod
    def of(cls, estimate: Estimate) -> "FigureOut":
        """The figure as JSON can hold it."""
        return cls(
            value=estimate.value,
            standard_uncertainty=estimate.standard,
            degrees_of_freedom=None if math.isinf(estimate.dof) else estimate.dof,
            coverage_factor=estimate.coverage,
            expanded_uncertainty=estimate.expanded,
            budget={name: size for name, size, _ in budget(estimate)},
        )
