"""The units of length and angle that are understood, with every spelling of each."""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class Unit:
    """One unit: how it is printed and how large it is, in mm or in radians.

    `smaller` spells the unit of a number that may follow (inches after feet), of which `per`
    make one of this unit; `joint` is what stands between the number and the sign.
    """

    sign: str
    size: Fraction | float
    smaller: str = ""
    per: int = 0
    joint: str = " "

    def printed(self, numeral: str) -> str:
        """Print a numeral with this unit."""
        return f"{numeral}{self.joint}{self.sign}"


def _spelled(table: Mapping[str, Unit]) -> dict[str, Unit]:
    return {spelling: unit for spellings, unit in table.items() for spelling in spellings.split()}


# Inch, foot and yard: international yard and pound agreement of 1959, 1 yd = 0.9144 m exactly.
LENGTHS = _spelled(
    {
        "mm millimetre millimetres millimeter millimeters": Unit("mm", Fraction(1)),
        "cm centimetre centimetres centimeter centimeters": Unit("cm", Fraction(10)),
        "m metre metres meter meters": Unit("m", Fraction(1000)),
        "km kilometre kilometres kilometer kilometers": Unit("km", Fraction(1_000_000)),
        "µm um micron microns": Unit("µm", Fraction(1, 1000)),
        "in inch inches \" ''": Unit("in", Fraction(254, 10)),
        "ft foot feet '": Unit("ft", Fraction(3048, 10), "in", 12),
        "yd yard yards": Unit("yd", Fraction(9144, 10)),
        "thou thous": Unit("thou", Fraction(254, 10_000)),
    }
)

ANGLES = _spelled(
    {
        "deg degree degrees °": Unit("°", math.pi / 180, "'", 60, joint=""),
        "arcmin arcmins arcminute arcminutes '": Unit("′", math.pi / 10_800, '"', 60, joint=""),
        "arcsec arcsecs arcsecond arcseconds \" ''": Unit("″", math.pi / 648_000, joint=""),
        "rad radian radians": Unit("rad", 1.0),
        "mrad milliradian milliradians": Unit("mrad", 0.001),
        "turn turns": Unit("turn", 2 * math.pi),
    }
)
