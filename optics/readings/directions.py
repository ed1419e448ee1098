"""A reading that tells the direction alone."""

from abc import ABC, abstractmethod
from dataclasses import dataclass
from typing import ClassVar

from optics.readings.readings import Sense


@dataclass(frozen=True)
class Direction(ABC):
    """What every kind says of itself that tells which way the lens is off, and not how far."""

    kind: ClassVar[str]

    @property
    @abstractmethod
    def sense(self) -> Sense:
        """The direction, which is all that it tells."""

    @property
    @abstractmethod
    def found(self) -> str:
        """What it shows, without what to do about it."""

    @property
    def next_step(self) -> str:
        """What to do about it; empty where it shows nothing wrong."""
        return "" if self.sense is Sense.RIGHT else "Take a measured reading for the amount."

    @property
    def advice(self) -> str:
        """What it says: the direction, and that a measured reading must follow."""
        return f"{self.found} {self.next_step}".rstrip()
