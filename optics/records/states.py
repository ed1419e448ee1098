"""How far a job has come; alone here, so that the command line knows it without the bench."""

from typing import Literal, TypeAlias

State: TypeAlias = Literal["booked in", "on the bench", "waiting", "finished", "returned"]
