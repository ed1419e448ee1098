"""Circles of confusion: how large a blur disc still counts as sharp, by whose convention."""

import math
from dataclasses import dataclass

from optics.errors import ShimwrightError
from optics.theory import depth

ARCMINUTE = math.pi / (180 * 60)
_INCH = 25.4


@dataclass(frozen=True)
class Format:
    """A picture size in mm, across and down, with where the figures come from."""

    key: str
    name: str
    width: float
    height: float
    source: str

    @property
    def diagonal(self) -> float:
        """The diagonal of the picture in mm."""
        return math.hypot(self.width, self.height)


_ROLL = "nominal picture on 120 film, as tabulated in encyclopaedias; gates differ by a millimetre"
_PLATE = "nominal size of the sheet or plate, no source; the holder masks a few millimetres"
FORMATS: dict[str, Format] = {
    f.key: f
    for f in (
        Format("18x24", "18×24 mm", 18, 24, "common practice, no source"),
        Format("24x24", "24×24 mm", 24, 24, "common practice, no source"),
        Format("24x36", "24×36 mm", 36, 24, "common practice, no source"),
        Format("4x4", "4×4 cm on 127 film", 40, 40, "nominal, common practice, no source"),
        Format("6x4.5", "6×4.5 cm", 56, 41.5, _ROLL),
        Format("6x6", "6×6 cm", 56, 56, _ROLL),
        Format("6x7", "6×7 cm", 56, 70, _ROLL),
        Format("6x9", "6×9 cm", 56, 84, _ROLL),
        Format("6.5x9", "6.5×9 cm", 65, 90, _PLATE),
        Format("9x12", "9×12 cm", 90, 120, _PLATE),
        Format("4x5in", "4×5 in", 4 * _INCH, 5 * _INCH, _PLATE),
        Format("5x7in", "5×7 in", 5 * _INCH, 7 * _INCH, _PLATE),
        Format("8x10in", "8×10 in", 8 * _INCH, 10 * _INCH, _PLATE),
    )
}


@dataclass(frozen=True)
class Print:
    """A print as it is looked at: diagonal and viewing distance in mm, the eye's angle in rad."""

    diagonal: float
    viewing_distance: float
    acuity: float


ACUITIES: dict[str, tuple[float, str]] = {
    "1 arcminute": (ARCMINUTE, "a sharp eye in good light, textbooks"),
    "2 arcminutes": (2 * ARCMINUTE, "an easy-going eye, common practice, no source"),
    "0.2 mm at 250 mm": (
        0.2 / 250,
        "5 line pairs per mm at 25 cm: Ray, Applied Photographic Optics"
        ", as quoted in encyclopaedias",
    ),
    "0.25 mm at 250 mm": (0.25 / 250, "4 line pairs per mm at 25 cm, common practice"),
}
"""Smallest angle the eye tells apart (rad), each with its source."""

STANDARD_PRINT = Print(math.hypot(8 * _INCH, 10 * _INCH), 250.0, 0.25 / 250)
"""An 8×10 in print at 25 cm, where the eye is taken to see 0.25 mm."""


@dataclass(frozen=True)
class Convention:
    """A circle of confusion in mm, by what rule, and where the rule comes from."""

    key: str
    name: str
    value: float
    source: str


_PARTS = (
    (1500, "common practice, no source; as in many tables"),
    (1730, "common practice, no source; often printed as a formula without its origin"),
)
_OF_FOCAL_LENGTH = (1000, 1500, 2000)
_OLD_TABLES = "practice of older depth tables and engraved scales, from memory"
_FIXED: dict[str, tuple[float, ...]] = {
    "18x24": (0.02, 0.025),
    "24x24": (0.025, 0.03),
    "24x36": (0.025, 0.03, 1 / 30, 0.05),
    "4x4": (0.04, 0.05),
    "6x4.5": (0.05, 0.06),
    "6x6": (0.05, 0.06, 0.075),
    "6x7": (0.06, 0.075),
    "6x9": (0.06, 0.075, 0.1),
    "6.5x9": (0.075, 0.1),
    "9x12": (0.1, 0.12),
    "4x5in": (0.1, 0.12),
    "5x7in": (0.15,),
    "8x10in": (0.2,),
}


def by_diagonal(size: Format, divisor: float) -> float:
    """The circle of confusion as a part of the picture's diagonal (mm)."""
    return depth.confusion_from_diagonal.solve_for(depth.circle_of_confusion).value(
        diagonal=size.diagonal, divisor=float(divisor)
    )


def by_focal_length(focal_length: float, divisor: float) -> float:
    """The circle of confusion as a part of the focal length (mm)."""
    return depth.confusion_from_focal_length.solve_for(depth.circle_of_confusion).value(
        focal_length=focal_length, divisor=float(divisor)
    )


def by_print(size: Format, seen: Print) -> float:
    """The circle of confusion that a print of a given size and viewing distance needs (mm).

    Equation: c = α·V/E, the enlargement E being print diagonal over picture diagonal.
    Limits: the whole picture is printed; a cropped one is enlarged more.
    """
    return depth.confusion_from_print.solve_for(depth.circle_of_confusion).value(
        acuity=seen.acuity,
        viewing_distance=seen.viewing_distance,
        enlargement=seen.diagonal / size.diagonal,
    )


def conventions(
    size: Format, focal_length: float | None = None, seen: Print = STANDARD_PRINT
) -> tuple[Convention, ...]:
    """Every convention for a format, the strictest first; by focal length only if it is given."""
    found = [
        Convention(f"diagonal/{part}", f"diagonal/{part}", by_diagonal(size, part), source)
        for part, source in _PARTS
    ]
    found += [
        Convention(f"fixed {value:.3g}", f"{value:.3g} mm", value, "common practice, no source")
        for value in _FIXED.get(size.key, ())
    ]
    name = (
        f"a print of {seen.diagonal:.0f} mm diagonal from {seen.viewing_distance:.0f} mm "
        f"({seen.acuity / ARCMINUTE:.2g}′)"
    )
    found.append(Convention("print", name, by_print(size, seen), "the eye, carried to the film"))
    if focal_length is not None:
        found += [
            Convention(
                f"focal length/{part}",
                f"focal length/{part}",
                by_focal_length(focal_length, part),
                _OLD_TABLES,
            )
            for part in _OF_FOCAL_LENGTH
        ]
    return tuple(sorted(found, key=lambda convention: convention.value))


def format_named(key: str) -> Format:
    """A format by its key; ShimwrightError names the keys there are."""
    if key in FORMATS:
        return FORMATS[key]
    raise ShimwrightError(
        f"The format must be one of {', '.join(FORMATS)}: got {key!r}; "
        "choose one, or state width and height.",
        quantity="format",
        value=key,
    )
