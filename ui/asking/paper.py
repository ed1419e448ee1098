"""The paper of a sheet."""

from typing import Literal, TypeAlias

Paper: TypeAlias = Literal["A4", "Letter"]
