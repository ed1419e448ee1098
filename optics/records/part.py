"""What every piece of a job has in common, and the kinds of plain writing it may hold."""

from typing import Annotated, TypeAlias

from pydantic import BaseModel, ConfigDict, Field


class Part(BaseModel):
    """A piece of a job: frozen, and closed to fields it does not know."""

    model_config = ConfigDict(extra="forbid", frozen=True)


Line: TypeAlias = Annotated[str, Field(max_length=200)]
Note: TypeAlias = Annotated[str, Field(max_length=4000)]
