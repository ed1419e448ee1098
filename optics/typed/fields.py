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

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import core_schema

from optics import units
from optics.errors import OutOfRange, ShimwrightError, Unreadable
from optics.typed.examples import EXAMPLES
from optics.units import Understood

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

Pair: TypeAlias = tuple[Understood, tuple[Understood, ...]]
"""An engraved mark and its readings."""


@dataclass(frozen=True)
class Typed:
    """A field of typed text: the quantity in words, the unit of a bare number, its reader."""

    words: str
    unit: str
    read: Callable[[str], Any]
    echo: Callable[[Any], str]
    longest: int = _LONGEST_TEXT

    def __post_init__(self) -> None:
        """Have every refusal offer an example of this very quantity."""
        if self.example:
            object.__setattr__(self, "read", partial(_read_as, self.read, self.example))

    @property
    def example(self) -> str:
        """What could be typed, of this quantity's unit and size; empty where none is known."""
        return EXAMPLES.get(self.words, "")

    @property
    def examples(self) -> tuple[str, ...]:
        """The ways of typing it that the example names, each a text of its own."""
        return tuple(self.example.split(" or ")) if self.example else ()

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """Accept only text that can be understood, and keep it as it was typed."""
        text = core_schema.str_schema(strict=True, max_length=self.longest)
        return core_schema.no_info_after_validator_function(self.kept, text)

    def __get_pydantic_json_schema__(
        self, schema: core_schema.CoreSchema, handler: GetJsonSchemaHandler
    ) -> JsonSchemaValue:
        """Say in the schema what the text stands for."""
        bare = f"; a number without a unit is in {self.unit}" if self.unit else ""
        described = handler(schema)
        described["description"] = f"{self.words}, as typed{bare}"
        return described

    def kept(self, text: str) -> str:
        """The text itself, once it has been understood; ShimwrightError where it cannot be."""
        self.read(text)
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


def length(
    words: str, *, at_least: float | None = None, above: float | None = None, gauged: bool = False
) -> Typed:
    """A length in mm, with an optional lower limit; gauged, it has no thousands of mm."""
    read = partial(units.read_length, words=words, is_small=gauged)
    return Typed(words, "mm", _limited(read, words, "mm", at_least, above), _echo_one)


def lengths(words: str) -> Typed:
    """Repeated readings of a length in mm by a gauge."""
    one = partial(units.read_length, words=words, is_small=True)
    return Typed(words, "mm", partial(units.read_list, reader=one, words=words), _echo_several)


def distance(words: str) -> Typed:
    """A distance from the film plane; a bare number is in metres, infinity is allowed."""
    return Typed(words, "m", partial(units.read_distance, words=words), _echo_one)


def distances(words: str) -> Typed:
    """Repeated readings of a distance from the film plane."""
    one = partial(units.read_distance, words=words)
    return Typed(words, "m", partial(units.read_list, reader=one, words=words), _echo_several)


def angle(words: str, *, at_least: float | None = None) -> Typed:
    """An angle; a bare number is in degrees."""
    read = partial(units.read_angle, words=words)
    return Typed(words, "°", _limited(read, words, "°", at_least, None), _echo_one)


def angles(words: str) -> Typed:
    """Repeated readings of an angle."""
    one = partial(units.read_angle, words=words)
    return Typed(words, "°", partial(units.read_list, reader=one, words=words), _echo_several)


def small_angle(words: str, unit: str, sign: str, *, at_least: float | None = 0) -> Typed:
    """An angle, of zero or more; a bare number is in arcminutes (′) or arcseconds (″)."""
    read = partial(units.read_angle, unit=unit, words=words)
    return Typed(words, sign, _limited(read, words, sign, at_least, None), _echo_one)


def turns(words: str) -> Typed:
    """A turn of a screw, plus clockwise; a bare number is in whole turns."""
    return Typed(words, "turns", partial(units.read_turns, words=words), _echo_one)


def number(words: str, *, above: float | None = None) -> Typed:
    """A plain number, above a limit where there is one."""
    read = partial(units.read_number, words=words)
    return Typed(words, "", _limited(read, words, "", None, above), _echo_one)


def percent(words: str) -> Typed:
    """A part of a whole in per cent, the sign or not; as a fraction of one."""

    def read(text: str) -> Understood:
        found = units.read_number(text.strip().removesuffix("%"), words=words)
        return Understood(text, found.value / 100, f"{found.value:g} %")

    return Typed(words, "%", read, _echo_one)


def count(words: str, *, at_least: float) -> Typed:
    """A whole number of things."""
    read = partial(units.read_count, words=words)
    return Typed(words, "", _limited(read, words, "", at_least, None), _echo_one)


def f_number(words: str) -> Typed:
    """An f-number."""
    return Typed(words, "", partial(units.read_f_number, words=words), _echo_one)


def leaves(words: str) -> Typed:
    """Shim leaves, thickness in mm × how many; ``none`` says that there are none."""

    def read(text: str) -> tuple[tuple[float, int], ...]:
        if text.strip().lower() == "none":
            return ()
        return units.read_leaves(text, words=words)

    return Typed(words, "mm", read, lambda found: units.format_leaves(found) or "no shim")


def f_numbers(words: str) -> Typed:
    """Several f-numbers."""
    one = partial(units.read_f_number, words=words)
    return Typed(words, "", partial(units.read_list, reader=one, words=words), _echo_plainly)


def many_distances(words: str) -> Typed:
    """Several different distances; a bare number is in metres."""
    one = partial(units.read_distance, words=words)
    return Typed(words, "m", partial(units.read_list, reader=one, words=words), _echo_plainly)


def give_or_take(words: str) -> Typed:
    """A length and how far either way it may be out: ``0.02 ± 0.01``, ``± 0.01`` or ``0.02``.

    A unit at the end rules both sides: ``2 ± 1 thou`` is 2 thou ± 1 thou.
    """
    reader = partial(units.read_length, words=words, is_small=True)
    limit = length(f"limit of the {words}", at_least=0, gauged=True)

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

    return Typed(words, "mm", read, echo)


def named_pieces(text: str) -> list[str]:
    """Text parted before each name and its sign of equality."""
    return _NEXT_NAME.split(text.strip().removesuffix(";"))


def pairs(
    name: Typed,
    reading: Typed,
    words: str,
    one: str = "mark",
    example: str = "3 m = 17.3; 17.2",
    check: Callable[[Understood, tuple[Understood, ...]], None] | None = None,
) -> Typed:
    """Engraved marks and their readings, such as ``3 m = 17.3; 17.2; 1.5 m = 34.9``.

    `one` is what a mark is called, where it is a target or a place; `check` refuses readings
    that a mark cannot have.
    """

    def read(text: str) -> tuple[Pair, ...]:
        return tuple(read_one(piece) for piece in named_pieces(text))

    def read_one(piece: str) -> Pair:
        mark, equals, readings = piece.partition("=")
        if not equals or not mark.strip() or not readings.strip() or readings.rstrip()[-1] == ";":
            raise Unreadable(
                f"The {words} “{piece.strip()}” cannot be understood: write each {one} with its "
                f"reading, such as {example}, and a semicolon between {one}s.",
                quantity=words,
                value=piece,
            )
        named, found = name.read(mark), reading.read(readings)
        if check is not None:
            check(named, found)
        return named, found

    return Typed(words, reading.unit, read, partial(_echo_pairs, one))


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

    return _read_beside(MEASURED_REGISTER, NOMINAL_REGISTER, nominal, _ask_marks)


def _ask_marks(made_for: Understood, found: tuple[Understood, ...]) -> None:
    for one in found:
        _ask_mark(one, made_for)


def _ask_mark(one: Understood, made_for: Understood) -> None:
    ratio = one.value / made_for.value
    if 1 / _ANOTHER_REGISTER < ratio < _ANOTHER_REGISTER:
        return
    likely = one.value / 10 ** round(math.log10(ratio)) if ratio > 0 else made_for.value
    times = f"{float(f'{ratio:.2g}'):,g}".replace("-", "−")
    raise OutOfRange(
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


def _limited(
    read: Callable[[str], Understood],
    words: str,
    unit: str,
    at_least: float | None,
    above: float | None,
) -> Callable[[str], Understood]:
    """Add a lower limit to a reader."""

    def checked(text: str) -> Understood:
        understood = read(text)
        too_low = at_least is not None and understood.value < at_least
        if too_low or (above is not None and understood.value <= above):
            limit = above if at_least is None else at_least
            rule = "more than" if at_least is None else "at least"
            raise OutOfRange(
                f"The {words} must be {rule} {limit:g} {unit}".rstrip()
                + f": got {understood.echo}; check the figure and its unit.",
                quantity=words,
                value=understood.value,
                limit=limit,
            )
        return understood

    return checked


FOCAL_LENGTH = length("focal length", above=0)
FULL_APERTURE = f_number("full aperture")
HIATUS = length("hiatus", gauged=True)
PUPIL_MAGNIFICATION = number("pupil magnification", above=0)
CIRCLE_OF_CONFUSION = length("circle of confusion", above=0)
TOLERANCE = length("focus tolerance", above=0)
LEAD = length("lead", above=0, gauged=True)
STARTS = count("number of starts", at_least=1)
RING_DIAMETER = length("ring diameter", above=0)
GROUP_FOCAL_LENGTH = length("focal length of the front group", above=0)
CELL_TO_FILM = length("front cell to film", above=0, gauged=True)
RING_MARK = distance("ring mark")
DRAWER = leaves("shims in the drawer")
FITTED = leaves("shims fitted now")
SHARP_AT = distances("distance really sharp")
DISTANCE_LIMIT = length("limit of the distance", at_least=0)
TURNED = angles("angle turned until sharp")
ANGLE_LIMIT = angle("limit of the angle", at_least=0)
TARGET = distance("target distance")
MEASURED_REGISTER = lengths("register measured")
NOMINAL_REGISTER = length("nominal register", above=0, gauged=True)
GAUGE_LIMIT = length("limit of the instrument", at_least=0, gauged=True)
RETICLE_SHIFT = lengths("shift of the reticle")
RETICLE_LIMIT = length("limit of the reticle shift", at_least=0, gauged=True)
COLLIMATOR = length("collimator focal length", above=0)
COLLIMATOR_TO_LENS = length("collimator lens to camera lens", at_least=0)
RULER_AIM = distance("film to the ruler's zero")
RULER_OFFSET = lengths("sharpest place along the ruler")
RULER_SLOPE = angle("slope of the ruler to the lens axis", at_least=0)
RULER_LIMIT = length("limit of the ruler reading", at_least=0, gauged=True)
APERTURES = f_numbers("apertures")
FOCUSED_AT = many_distances("distances focused on")
PRINT_DIAGONAL = length("print diagonal", above=0)
VIEWING_DISTANCE = length("viewing distance", above=0)
MARK_ANGLES = pairs(RING_MARK, angles("angle of the mark"), "measured marks")
MARK_LENGTHS = pairs(RING_MARK, lengths("place of the mark"), "measured marks")
DEPTH_MARK_ANGLES = pairs(
    f_number("engraved aperture"), angles("angle of the depth mark"), "measured depth marks"
)
DEPTH_MARK_LENGTHS = pairs(
    f_number("engraved aperture"), lengths("place of the depth mark"), "measured depth marks"
)
MARK_ANGLE_LIMIT = angle("limit of a mark's angle", at_least=0)
MARK_LENGTH_LIMIT = length("limit of a mark's place", at_least=0, gauged=True)
PRINTED_RULER = length("check ruler as printed", above=0)
BARREL_DIAMETER = length("barrel diameter", above=0)
PAPER_THICKNESS = length("paper thickness", at_least=0, gauged=True)
OUTER_DIAMETER = length("ring's outer diameter", above=0)
INNER_DIAMETER = length("ring's inner diameter", above=0)
RANGEFINDER_BASE = length("rangefinder base", above=0)
BASE_TO_FILM = length("distance from rangefinder to film")
MAGNIFICATION = number("rangefinder magnification", above=0)
ACUITY = small_angle("eye's acuity", "arcsec", "″")
COINCIDENCES = pairs(
    distance("true distance"),
    distances("distance on the lens scale"),
    "coincidence readings",
    "target",
    "3 m = 2.85; 2.87",
    ask_unit,
)
APART_TARGET = distance("distance of the target whose images stand apart")
APART_SCALE = distance("lens scale while the images stand apart")
APART_ANGLE = small_angle("angle between the images", "arcmin", "′")
APART_ON_TARGET = length("gap between the images on the target", at_least=0)
SWUNG_FOCAL_LENGTH = length("focal length of the swung lens", above=0)
WEDGE_FOCAL_LENGTH = length("focal length of the lens before the wedge", above=0)
WEDGE_INDEX = number("glass index of the wedges", above=1)
WEDGE_ANGLE = angle("angle of each wedge", at_least=0)
WEDGE_DEVIATION = angle("deviation by the wedge", at_least=0)
TAPE_LIMIT = length("limit of the tape", at_least=0)
NEAR_END = distance("near end of the range in use")
INFINITY_TURNED = turns("turn of the infinity adjuster")
NEAR_TURNED = turns("turn of the near adjuster")
FAR_READS = distances("lens scale on the far target")
NEAR_READS = distances("lens scale on the near target")
TOLD_AT = many_distances("distances to tell apart")
FAR_TARGET = distance("far target")
HEIGHT_ERROR = small_angle("height error", "arcmin", "′")
LEAN = angle("lean of the edge", at_least=0)
LATH_DISTANCE = distance("windows to the lath")
TARGET_DISTANCE = distance("film to the target")
LOUPE = number("loupe's magnification", above=0)
BODY_FOCAL_LENGTH = length("focal length the body was cut for", above=0)
BODY_HIATUS = length("hiatus of that lens", gauged=True)
FOLLOWER_GAIN = small_angle("convergence for each mm of the follower", "arcmin", "′")
CAM_TURN = angle("ring's turn from infinity", at_least=0)
CAM_DIAMETER = length("cam's diameter", above=0)
LIFTS = pairs(
    angle("place on the cam", at_least=0),
    lengths("lift of the follower"),
    "measured lifts",
    "place",
    "30° = 1.42; 1.43",
)
LIFT_LIMIT = length("limit of the lift reading", at_least=0, gauged=True)
DEEPEST_CUT = length("deepest cut without a warning", above=0, gauged=True)
GAIN_LESS = percent("gain can be set lower by")
GAIN_MORE = percent("gain can be set higher by")
