"""Every typed field of a job: its words, its unit, how it is read and echoed.

A job keeps each figure exactly as it was typed; the number is worked out when it is needed.
The page, the command line and the job file all read a field through the same `Typed`.
"""

import math
import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from typing import Any, TypeAlias

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import core_schema

from optics import units
from optics.errors import OutOfRange, ShimwrightError, Unreadable
from optics.relation import Quantity, Range
from optics.theory.cam import body_focal_length, body_hiatus, follower_gain
from optics.theory.certainty import half_width
from optics.theory.collimation import (
    aim_distance,
    collimator_focal_length,
    collimator_to_lens,
    measured_register,
    nominal_register,
    reticle_shift,
    ruler_offset,
    ruler_slope,
)
from optics.theory.depth import circle_of_confusion, diagonal, f_number, viewing_distance
from optics.theory.front_cell import cell_to_film, group_focal_length
from optics.theory.helicoid import lead, ring_diameter, rotation, starts
from optics.theory.lens import (
    film_distance,
    focal_length,
    hiatus,
    mark_distance,
    pupil_magnification,
    sharp_distance,
)
from optics.theory.rangefinder import (
    base,
    base_to_film,
    compensator_focal_length,
    convergence,
    deviation,
    eye_acuity,
    finder_magnification,
    height_error,
    indicated_distance,
    lath_distance,
    lean,
    wedge_angle,
    wedge_index,
)
from optics.theory.scale import mark_angle
from optics.typed.figures import figures_of
from optics.units import Understood

KEPT = "kept"
"""The context in which a document that was kept once is checked."""

_LONGEST_TEXT = 400
_GIVE_OR_TAKE = re.compile(r"±|\+/?[-−]")
_SIDES = "0.02 ± 0.01, 2 ± 1 thou or 0.5 mm ± 1 thou"
# A semicolon or line end after which a name and its sign of equality follow; another one parts
# two tries of the same name.
_NEXT_NAME = re.compile(r"[;\n](?=[^;\n=]*=)")
# So many times its mark no scale is out: the bare figure was read in another unit.
_FAR_OFF = 30
# Where millimetres rather than centimetres are the likelier slip.
_IN_MM = 300
# A register so many times the nominal has its decimal mark or its unit wrong.
_ANOTHER_REGISTER = 5

_ANY = Range.any()

Pair: TypeAlias = tuple[Understood, tuple[Understood, ...]]
"""An engraved mark and its readings."""


@dataclass(frozen=True)
class Typed:
    """A field of typed text: the quantity in words, the unit of a bare number, its reader.

    `example` is what could be typed, of this quantity's unit and of a usual size; all are
    invented, and "or" stands between two ways of typing it.
    """

    words: str
    unit: str
    read: Callable[[str], Any]
    echo: Callable[[Any], str]
    example: str = ""
    longest: int = _LONGEST_TEXT

    def __post_init__(self) -> None:
        """Have every refusal offer an example of this very quantity."""
        if self.example:
            object.__setattr__(self, "read", partial(_read_as, self.read, self.example))

    @property
    def examples(self) -> tuple[str, ...]:
        """The ways of typing it that the example names, each a text of its own."""
        return tuple(self.example.split(" or ")) if self.example else ()

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """Accept only text that can be understood, and keep it as it was typed."""
        text = core_schema.str_schema(strict=True, max_length=self.longest)
        return core_schema.with_info_after_validator_function(self._kept, text)

    def __get_pydantic_json_schema__(
        self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """Say in the schema what the text stands for."""
        bare = f"; a number without a unit is in {self.unit}" if self.unit else ""
        described = handler(schema)
        described["description"] = f"{self.words}, as typed{bare}"
        return described

    def _kept(self, text: str, known: ValidationInfo) -> str:
        """The text itself, once it has been understood; ShimwrightError where it cannot be.

        In a document that is `KEPT` a figure out of its range stays, so that it can be set right;
        whoever works with it is refused.
        """
        try:
            self.read(text)
        except OutOfRange:
            if known.context != KEPT:
                raise
        return text


def _read_as(read: Callable[[str], Any], example: str, text: str) -> Any:
    """Read a text; a refusal's general example gives way to the quantity's own."""
    try:
        return read(text)
    except ShimwrightError as refusal:
        if not refusal.general:
            raise
        general, own = (f"type for example {one}." for one in (refusal.general, example))
        raise type(refusal)(
            str(refusal).replace(general, own),
            quantity=refusal.quantity,
            value=refusal.value,
            limit=refusal.limit,
        ) from None


def _echo_one(understood: Understood) -> str:
    return understood.echo


def _echo_several(several: tuple[Understood, ...]) -> str:
    if len(several) == 1:
        return several[0].echo
    return f"{len(several)} readings: " + "; ".join(one.echo for one in several)


def figure(words: str, unit: str, limits: Range = _ANY, *, example: str = "") -> Typed:
    """One figure within limits; `unit` is that of a bare number, a key of `figures_of`."""
    how = figures_of(unit)

    def read(text: str) -> Understood:
        understood = how.read(text, words=words)
        fault = limits.fault(understood.value, how.said)
        if fault is None:
            return understood
        raise OutOfRange(
            f"The {words} must be {fault[1]}: got {understood.echo}; check the figure and its "
            "unit.",
            quantity=words,
            value=understood.value,
            limit=fault[1],
        )

    return Typed(words, how.sign, read, _echo_one, example)


def of(
    quantity: Quantity,
    words: str = "",
    unit: str = "",
    *,
    example: str = "",
    tighter: tuple[Range, str] | None = None,
) -> Typed:
    """A quantity as it is typed: its own words and unit unless others are named, in its own range.

    `tighter` narrows that range, and says why; nothing can widen it.
    Errors: ValueError where the range is not narrowed, or nobody says why.
    """
    limits = quantity.range
    if tighter is not None:
        limits, why = limits & tighter[0], tighter[1]
        if limits == quantity.range or not why:
            raise ValueError(f"The range of {quantity.name} is not narrowed for a reason.")
    unit = unit or quantity.typed_in or {"rad": "deg"}.get(quantity.unit, quantity.unit)
    if unit == "m" and not limits.is_positive:
        unit = "m either way"
    return figure(words or quantity.words, unit, limits, example=example)


def readings(one: Typed) -> Typed:
    """Repeated readings of one figure."""
    return _several(one, _echo_several)


def several(one: Typed) -> Typed:
    """Several different figures."""
    return _several(one, _echo_plainly)


def _several(one: Typed, echo: Callable[[Any], str]) -> Typed:
    return replace(one, read=partial(units.read_list, reader=one.read, words=one.words), echo=echo)


def leaves(words: str, example: str) -> Typed:
    """Shim leaves, thickness in mm × how many; ``none`` says that there are none."""

    def read(text: str) -> tuple[tuple[float, int], ...]:
        if text.strip().lower() == "none":
            return ()
        return units.read_leaves(text, words=words)

    return Typed(words, "mm", read, lambda found: units.format_leaves(found) or "no shim", example)


def give_or_take(words: str, example: str = "") -> Typed:
    """A length and how far either way it may be out: ``0.02 ± 0.01``, ``± 0.01`` or ``0.02``.

    A unit at the end rules both sides: ``2 ± 1 thou`` is 2 thou ± 1 thou.
    """
    reader = partial(units.read_length, words=words, is_small=True)
    limit = of(half_width, f"limit of the {words}", "mm gauged")

    def read(text: str) -> tuple[Understood, Understood | None]:
        figure, *rest = _GIVE_OR_TAKE.split(text, maxsplit=1)
        if not rest:
            return reader(text), None
        if not figure.strip():
            return Understood("", 0.0, "0 mm"), limit.read(rest[0])
        one, other = units.with_unit_at_end(text, (figure, rest[0]), words, _SIDES)
        return reader(one), limit.read(other)

    def echo(found: tuple[Understood, Understood | None]) -> str:
        figure, rest = found
        return f"{figure.echo} ± {rest.echo}" if rest else figure.echo

    return Typed(words, "mm", read, echo, example)


def named_pieces(text: str) -> list[str]:
    """Text parted before each name and its sign of equality."""
    return _NEXT_NAME.split(text.strip().removesuffix(";"))


def pairs(
    name: Typed,
    reading: Typed,
    words: str,
    one: str = "mark",
    *,
    example: str,
    again: str = "",
    check: Callable[[Understood, tuple[Understood, ...]], None] | None = None,
) -> Typed:
    """Engraved marks and their readings, such as ``3 m = 17.3; 17.2; 1.5 m = 34.9``.

    `one` is what a mark is called, where it is a target or a place; `again` what a second
    reading of the example could be; `check` refuses readings that a mark cannot have.
    """

    such_as = f"{example}; {again}" if again else example

    def read(text: str) -> tuple[Pair, ...]:
        return tuple(read_one(piece) for piece in named_pieces(text))

    def read_one(piece: str) -> Pair:
        mark, equals, shown = piece.partition("=")
        if not equals or not mark.strip() or not shown.strip() or shown.rstrip()[-1] == ";":
            raise Unreadable(
                f"The {words} “{piece.strip()}” cannot be understood: write each {one} with its "
                f"reading, such as {such_as}, and a semicolon between {one}s.",
                quantity=words,
                value=piece,
            )
        named, found = name.read(mark), reading.read(shown)
        if check is not None:
            check(named, found)
        return named, found

    return Typed(words, reading.unit, read, partial(_echo_pairs, one), example)


def sharp_at(mark: str) -> Typed:
    """The distance really sharp at a mark, as typed; a bare figure far off from it is asked about.

    Beside a mark that cannot be understood the figures are read without it.
    """

    return _read_beside(SHARP_AT, RING_MARK, mark, ask_unit)


def _read_beside(
    field: Typed,
    other: Typed,
    text_of_other: str,
    ask: Callable[[Understood, tuple[Understood, ...]], None],
) -> Typed:
    """A field whose figures are asked about beside another's, where that is understood."""

    def read(text: str) -> tuple[Understood, ...]:
        found: tuple[Understood, ...] = field.read(text)
        try:
            beside = other.read(text_of_other)
        except ShimwrightError:
            return found
        ask(beside, found)
        return found

    return replace(field, read=read)


def ask_unit(mark: Understood, found: tuple[Understood, ...]) -> None:
    """Refuse a bare figure that is far off from a near mark, with the question what its unit is."""
    for one in found:
        if one.is_bare and one.value >= _FAR_OFF * mark.value:
            typed, is_mm = " ".join(one.text.split()), one.value > _IN_MM * mark.value
            sign, name = ("mm", "millimetres") if is_mm else ("cm", "centimetres")
            raise Unreadable(
                f"The distance “{typed}” has no unit and is far off from {mark.echo}: metres or "
                f"{name}? To say it, type for example {typed} {sign} or {typed} m.",
                quantity=SHARP_AT.words,
                value=one.text,
                limit=_FAR_OFF * mark.value,
            )


def register_against(nominal: str) -> Typed:
    """The register measured, as typed; one that is many times the nominal is asked about."""

    return _read_beside(MEASURED_REGISTER, NOMINAL_REGISTER, nominal, _ask_register)


def _ask_register(made_for: Understood, found: tuple[Understood, ...]) -> None:
    """Refuse the first register that is many times the nominal, or a small part of it."""
    for one in found:
        ratio = one.value / made_for.value
        if not 1 / _ANOTHER_REGISTER < ratio < _ANOTHER_REGISTER:
            raise _another_register(one, made_for, ratio)


def _another_register(one: Understood, made_for: Understood, ratio: float) -> OutOfRange:
    likely = one.value / 10 ** round(math.log10(ratio)) if ratio > 0 else made_for.value
    times = f"{float(f'{ratio:.2g}'):,g}".replace("-", "−")
    return OutOfRange(
        f"The register measured “{' '.join(one.text.split())}” is {times} times "
        f"the nominal {made_for.echo}: is it in millimetres, and its decimal mark in the "
        f"right place? Type for example {likely:.6g} mm.",
        quantity=MEASURED_REGISTER.words,
        value=one.value,
        limit=_ANOTHER_REGISTER * made_for.value,
    )


def _echo_pairs(one: str, found: tuple[Pair, ...]) -> str:
    said = (f"{mark.echo} at {_echo_plainly(readings)}" for mark, readings in found)
    return f"{len(found)} {one}{'s' * (len(found) > 1)}: {'; '.join(said)}"


def _echo_plainly(several: tuple[Understood, ...]) -> str:
    return "; ".join(one.echo for one in several)


_A_DISTANCE = "1.2 m or 3 ft 6 in or inf"
_FINE = "0.01 mm"
# Which way it goes is not asked, or asked beside it.
_ONE_WAY = Range.at_least(0)

# The camera.
FOCAL_LENGTH = of(focal_length, example="50 mm")
FULL_APERTURE = of(f_number, "full aperture", example="f/2.8")
HIATUS = of(hiatus, unit="mm gauged", example="0.6 mm")
PUPIL_MAGNIFICATION = of(pupil_magnification, example="1.02")
CIRCLE_OF_CONFUSION = of(
    circle_of_confusion,
    example="0.03 mm",
    tighter=(Range.positive(), "no picture is sharp to a point"),
)
TOLERANCE = figure("focus tolerance", "mm", Range.positive(), example="0.04 mm")
LEAD = of(lead, unit="mm gauged", example="18 mm")
STARTS = of(starts, "number of starts", "count", example="6")
RING_DIAMETER = of(ring_diameter, example="52 mm")
GROUP_FOCAL_LENGTH = of(group_focal_length, example="51 mm")
CELL_TO_FILM = of(cell_to_film, "front cell to film", "mm gauged", example="92 mm")
DRAWER = leaves("shims in the drawer", "0.05 × 4; 0.1 × 2")
FITTED = leaves("shims fitted now", "0.1 × 2 or none")

# Readings.
RING_MARK = of(mark_distance, "ring mark", example="3 m or 10 ft or inf")
SHARP_AT = readings(of(sharp_distance, "distance really sharp", example="18.7 m or 18 m; 18.7 m"))
DISTANCE_LIMIT = of(half_width, "limit of the distance", example="0.2 m or 5 mm")
TURNED = readings(of(rotation, "angle turned until sharp", example="2.5° or 2.5°; 2°"))
ANGLE_LIMIT = figure("limit of the angle", "deg", Range.at_least(0), example="0.5°")
TARGET = of(film_distance, "target distance", example=_A_DISTANCE)
MEASURED_REGISTER = readings(
    of(
        measured_register,
        "register measured",
        "mm gauged",
        example="28.74 mm or 28.74 mm; 28.75 mm",
    )
)
NOMINAL_REGISTER = of(nominal_register, "nominal register", "mm gauged", example="28.8 mm")
GAUGE_LIMIT = of(half_width, "limit of the instrument", "mm gauged", example=_FINE)
RETICLE_SHIFT = readings(
    of(reticle_shift, "shift of the reticle", "mm gauged", example="1.2 mm or 1.2 mm; 1.25 mm")
)
RETICLE_LIMIT = of(half_width, "limit of the reticle shift", "mm gauged", example="0.02 mm")
COLLIMATOR = of(collimator_focal_length, "collimator focal length", example="300 mm")
COLLIMATOR_TO_LENS = of(collimator_to_lens, "collimator lens to camera lens", example="60 mm")
RULER_AIM = of(aim_distance, "film to the ruler's zero", example="1.5 m")
RULER_OFFSET = readings(
    of(
        ruler_offset,
        "sharpest place along the ruler",
        "mm gauged",
        example="20 mm or 20 mm; 24 mm",
    )
)
RULER_SLOPE = of(ruler_slope, "slope of the ruler to the lens axis", example="45°")
RULER_LIMIT = of(half_width, "limit of the ruler reading", "mm gauged", example="2 mm")

# Depth and scales.
APERTURES = several(of(f_number, "apertures", example="f/2.8; f/4; f/5.6"))
FOCUSED_AT = several(of(film_distance, "distances focused on", example="inf; 3 m; 1.5 m"))
PRINT_DIAGONAL = of(diagonal, "print diagonal", example="300 mm")
VIEWING_DISTANCE = of(viewing_distance, "viewing distance", "mm", example="250 mm")
_MARKS = partial(pairs, RING_MARK, words="measured marks", example="3 m = 17.3", again="17.2")
MARK_ANGLES = _MARKS(readings(of(mark_angle, "angle of the mark", example="17.3° or 17.3°; 17.2°")))
MARK_LENGTHS = _MARKS(
    readings(figure("place of the mark", "mm gauged", example="7.9 mm or 7.9 mm; 7.8 mm"))
)
_DEPTH_MARKS = partial(
    pairs,
    of(f_number, "engraved aperture", example="f/8"),
    words="measured depth marks",
    example="f/8 = 9.6",
    again="9.5",
)
DEPTH_MARK_ANGLES = _DEPTH_MARKS(
    readings(figure("angle of the depth mark", "deg", example="9.6° or 9.6°; 9.5°"))
)
DEPTH_MARK_LENGTHS = _DEPTH_MARKS(
    readings(figure("place of the depth mark", "mm gauged", example="4.4 mm or 4.4 mm; 4.3 mm"))
)
MARK_ANGLE_LIMIT = figure("limit of a mark's angle", "deg", Range.at_least(0), example="0.2°")
MARK_LENGTH_LIMIT = of(half_width, "limit of a mark's place", "mm gauged", example="0.1 mm")
PRINTED_RULER = figure("check ruler as printed", "mm", Range.positive(), example="99.5 mm")
BARREL_DIAMETER = of(ring_diameter, "barrel diameter", example="52 mm")
PAPER_THICKNESS = figure("paper thickness", "mm gauged", Range.at_least(0), example="0.1 mm")
OUTER_DIAMETER = of(ring_diameter, "ring's outer diameter", example="60 mm")
INNER_DIAMETER = of(ring_diameter, "ring's inner diameter", example="48 mm")

# The rangefinder.
RANGEFINDER_BASE = of(base, example="41 mm")
BASE_TO_FILM = of(base_to_film, "distance from rangefinder to film", example="24 mm")
MAGNIFICATION = of(finder_magnification, "rangefinder magnification", example="0.6")
ACUITY = of(eye_acuity, "eye's acuity", "arcsec", example="60″")
COINCIDENCES = pairs(
    of(film_distance, "true distance", example=_A_DISTANCE),
    readings(
        of(
            indicated_distance,
            "distance on the lens scale",
            example="2.85 m or 2.85 m; 2.87 m",
        )
    ),
    "coincidence readings",
    "target",
    example="3 m = 2.85",
    again="2.87",
    check=ask_unit,
)
APART_TARGET = of(film_distance, "distance of the target whose images stand apart", example="3 m")
APART_SCALE = of(mark_distance, "lens scale while the images stand apart", example="3 m or inf")
APART_ANGLE = of(
    convergence,
    "angle between the images",
    "arcmin",
    example="4′",
    tighter=(_ONE_WAY, "which way they stand apart is asked beside it"),
)
APART_ON_TARGET = figure("gap between the images on the target", "mm", _ONE_WAY, example="20 mm")
SWUNG_FOCAL_LENGTH = of(compensator_focal_length, example="60 mm")
WEDGE_FOCAL_LENGTH = of(
    compensator_focal_length, "focal length of the lens before the wedge", example="60 mm"
)
WEDGE_INDEX = of(wedge_index, "glass index of the wedges", example="1.52")
WEDGE_ANGLE = of(wedge_angle, "angle of each wedge", example="3°")
WEDGE_DEVIATION = of(
    deviation,
    "deviation by the wedge",
    example="3°",
    tighter=(_ONE_WAY, "which way it deviates is the wedge's mounting"),
)
TAPE_LIMIT = of(half_width, "limit of the tape", example="5 mm")
NEAR_END = of(film_distance, "near end of the range in use", example="0.9 m")
INFINITY_TURNED = figure("turn of the infinity adjuster", "turns", example="1/8 or 45° clockwise")
NEAR_TURNED = figure("turn of the near adjuster", "turns", example="1/8 or 45° clockwise")
FAR_READS = readings(of(mark_distance, "lens scale on the far target", example="22 m or inf"))
NEAR_READS = readings(of(mark_distance, "lens scale on the near target", example="1.02 m"))
TOLD_AT = several(of(film_distance, "distances to tell apart", example="3 m; 1.5 m"))
FAR_TARGET = of(film_distance, "far target", example="400 m or inf")
HEIGHT_ERROR = of(
    height_error,
    "height error",
    unit="arcmin",
    example="4′",
    tighter=(_ONE_WAY, "which image is high is asked beside it"),
)
LEAN = of(
    lean,
    "lean of the edge",
    example="5°",
    tighter=(_ONE_WAY, "which way the edge leans is asked beside it"),
)
LATH_DISTANCE = of(lath_distance, "windows to the lath", example="2 m")
TARGET_DISTANCE = of(film_distance, "film to the target", example="3 m")
LOUPE = figure("loupe's magnification", "", Range.positive(), example="8")

# Cams.
BODY_FOCAL_LENGTH = of(body_focal_length, "focal length the body was cut for", example="50 mm")
BODY_HIATUS = of(body_hiatus, "hiatus of that lens", "mm gauged", example="0.6 mm")
FOLLOWER_GAIN = of(
    follower_gain, "convergence for each mm of the follower", "arcmin", example="10′"
)
_FROM_INFINITY = (_ONE_WAY, "a cam is measured from infinity outwards")
CAM_TURN = of(rotation, "ring's turn from infinity", example="120°", tighter=_FROM_INFINITY)
CAM_DIAMETER = figure("cam's diameter", "mm", Range.positive(), example="40 mm")
LIFTS = pairs(
    of(rotation, "place on the cam", example="30°", tighter=_FROM_INFINITY),
    # A lift that is read is no lift of the theory's: near infinity a gauge may show less than 0.
    readings(figure("lift of the follower", "mm gauged", example="1.42 mm or 1.42 mm; 1.43 mm")),
    "measured lifts",
    "place",
    example="30° = 1.42",
    again="1.43",
)
LIFT_LIMIT = of(half_width, "limit of the lift reading", "mm gauged", example=_FINE)
DEEPEST_CUT = figure(
    "deepest cut without a warning", "mm gauged", Range.positive(), example="0.05 mm"
)
GAIN_LESS = figure("gain can be set lower by", "%", example="5 %")
GAIN_MORE = figure("gain can be set higher by", "%", example="5 %")
