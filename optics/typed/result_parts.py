"""What every part of a result document is made of."""

import math
from typing import Annotated, Literal, TypeAlias

from pydantic import BaseModel, ConfigDict, Field

from optics.measure.uncertainty import Estimate, budget

Distance: TypeAlias = Annotated[
    float | Literal["inf"], Field(description="mm from the film plane, or “inf”")
]


class Out(BaseModel):
    """A piece of a result: frozen."""

    model_config = ConfigDict(frozen=True)


class FigureOut(Out):
    """A figure with its uncertainty: mm at the film, unless its place says another unit."""

    value: float
    standard_uncertainty: float
    degrees_of_freedom: Annotated[float | None, Field(description="effective; null means infinite")]
    coverage_factor: Annotated[float, Field(description="k for 95 %, Student's t")]
    expanded_uncertainty: Annotated[float, Field(description="U = k·u, 95 %")]
    budget: Annotated[dict[str, float], Field(description="standard uncertainty from each source")]

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


def distance_out(mm: float) -> float | Literal["inf"]:
    """A distance as JSON can hold it."""
    return "inf" if math.isinf(mm) else mm
