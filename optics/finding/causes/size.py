"""How far off a part is, in its own unit: said, and asked for."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from optics.measure.uncertainty import Estimate
from optics.readings.wording import said_half_width
from optics.relation import Range
from optics.typed import fields
from optics.typed.fields import Typed
from optics.units import format_angle, format_length


@dataclass(frozen=True)
class Millimetres:
    """A length at the film or of the part itself; other units say otherwise what differs."""

    out: str = "too far out"
    inward: str = "too far in"
    usual: ClassVar[str] = "0.1"
    """An amount that is usual to move such a fault by, as it is typed."""

    def supposed(self, wrong: float, usual: float, pitch: float) -> str:
        """How far off such a part is where it is the cause, and where it is not."""
        del pitch
        wrong_said, usual_said = self.spread(wrong), self.spread(usual)
        return f"off by {wrong_said} where it is the cause, {usual_said} where it is not"

    def said(self, amounts: Sequence[float], pitch: float) -> str:
        """How far off, and which way; `pitch` (mm) is what one thread start shifts."""
        del pitch
        (amount,) = amounts
        return f"{format_length(abs(amount), places=3)} {self.out if amount > 0 else self.inward}"

    def found(self, sizes: Sequence[Estimate], pitch: float) -> str:
        """As `said`, with how well it is known."""
        (size,) = sizes
        return f"{self.said([size.value], pitch)} ({said_half_width(size.expanded)})"

    def spread(self, size: float) -> str:
        """A usual size, to be set beside another."""
        return format_length(size, places=3)

    def typed(self, words: str) -> Typed:
        """How such a size is typed."""
        return fields.figure(words, "mm")

    def moved(self, words: str) -> Typed:
        """How an amount to move it by is typed, which may have either sign."""
        return self.typed(words)


class ExtensionShare(Millimetres):
    """A part of the extension."""

    usual = "5"

    def said(self, amounts: Sequence[float], pitch: float) -> str:
        """How much of the extension, and which way."""
        del pitch
        (amount,) = amounts
        way = "far" if amount > 0 else "little"
        return f"{100 * abs(amount):.1f} % of the extension too {way} out"

    def found(self, sizes: Sequence[Estimate], pitch: float) -> str:
        """As `said`, with how well it is known."""
        (size,) = sizes
        return f"{self.said([size.value], pitch)} (± {100 * size.expanded:.1f} %)"

    def spread(self, size: float) -> str:
        """A usual share in per cent."""
        return f"{100 * size:.2g} %"

    def typed(self, words: str) -> Typed:
        """Per cent."""
        return fields.figure(words, "%")


class Lean(Millimetres):
    """Two slopes that together are one angle."""

    usual = "10"

    def said(self, amounts: Sequence[float], pitch: float) -> str:
        """The angle between the part and where it should stand."""
        del pitch
        return format_angle(math.hypot(*amounts))

    def found(self, sizes: Sequence[Estimate], pitch: float) -> str:
        """The angle alone: which way it leans is told where it is put right."""
        return f"by {self.said([size.value for size in sizes], pitch)}"

    def spread(self, size: float) -> str:
        """A usual angle."""
        return format_angle(size)

    def typed(self, words: str) -> Typed:
        """Minutes of arc."""
        return fields.figure(words, "arcmin", Range.at_least(0))

    def moved(self, words: str) -> Typed:
        """Minutes of arc, either way."""
        return fields.figure(words, "arcmin")


class Starts(Millimetres):
    """A whole number of thread starts, held in mm at the film."""

    usual = "1"

    def supposed(self, wrong: float, usual: float, pitch: float) -> str:
        """What one start shifts: a whole number has no spread."""
        del wrong, usual
        return f"one start is {format_length(pitch)}"

    def said(self, amounts: Sequence[float], pitch: float) -> str:
        """How many starts, and which way."""
        (amount,) = amounts
        count = round(abs(amount) / pitch)
        return f"{count} start{'s' * (count != 1)} too far {'out' if amount > 0 else 'in'}"

    def found(self, sizes: Sequence[Estimate], pitch: float) -> str:
        """As `said`: a whole number has no ±."""
        return self.said([size.value for size in sizes], pitch)

    def moved(self, words: str) -> Typed:
        """A number of starts."""
        return fields.figure(words, "")
