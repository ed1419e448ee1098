"""How a figure of each unit is read, and how a limit of it is said."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache, partial

from optics import units
from optics.units import Understood
from optics.units.printing import trimmed
from optics.units.reading import INFINITE


@dataclass(frozen=True)
class Figures:
    """Figures of one unit: its sign, how they are read, and how much one is in core units."""

    sign: str
    read: Callable[..., Understood]
    size: float = 1.0

    def said(self, value: float) -> str:
        """A value in core units as a sentence shows it."""
        return f"{trimmed(value / self.size, 4)} {self.sign}".rstrip()


def _read_percent(text: str, *, words: str) -> Understood:
    """A part of a whole in per cent, the sign or not; as a fraction of one."""
    found = units.read_number(text.strip().removesuffix("%"), words=words)
    return Understood(text, found.value / 100, f"{found.value:g} %")


def _read_either_way(text: str, *, words: str) -> Understood:
    """A distance that may lie behind the lens: a virtual image counts as minus."""
    if text.strip().lower() in INFINITE:
        return units.read_distance(text, words=words)
    return units.read_length(text, unit="m", words=words)


def _read_with(unit: str, text: str, *, words: str) -> Understood:
    """A number with its own unit behind it or without."""
    found = units.read_number(text.strip().removesuffix(unit), words=words)
    return Understood(text, found.value, f"{found.echo} {unit}")


_DEGREE = math.radians(1)
_FIGURES = {
    "": Figures("", units.read_number),
    "count": Figures("", units.read_count),
    "f/": Figures("", units.read_f_number),
    "%": Figures("%", _read_percent, 0.01),
    "mm": Figures("mm", units.read_length),
    # What a gauge reads is never thousands of mm.
    "mm gauged": Figures("mm", partial(units.read_length, is_small=True)),
    "m": Figures("m", units.read_distance, 1000),
    "m either way": Figures("m", _read_either_way, 1000),
    "deg": Figures("°", units.read_angle, _DEGREE),
    "arcmin": Figures("′", partial(units.read_angle, unit="arcmin"), _DEGREE / 60),
    "arcsec": Figures("″", partial(units.read_angle, unit="arcsec"), _DEGREE / 3600),
    "turn": Figures("turns", partial(units.read_angle, unit="turn"), math.tau),
    # Of a screw: plus clockwise, and told as a number of turns.
    "turns": Figures("turns", units.read_turns),
}


@cache
def figures_of(unit: str) -> Figures:
    """The figures whose bare numbers are in that unit; one not listed stands behind a number."""
    return _FIGURES.get(unit) or Figures(unit, partial(_read_with, unit))
