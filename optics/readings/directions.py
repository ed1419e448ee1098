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
    def advice(self) -> str:
        """What it says: the direction, and that a measured reading must follow."""
        if self.sense is Sense.RIGHT:
            return self.found
        return f"{self.found} Take a measured reading for the amount."
