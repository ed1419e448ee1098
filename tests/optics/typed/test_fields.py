"""No text is read as two figures, or in two units, unless it says so."""

import ast
import math
import pkgutil
from collections.abc import Iterator
from importlib import import_module
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import optics
from optics.body.budget_part import TERMS
from optics.body.standard.part import DEPTHS, FRAME, SCREWS, depth_at
from optics.body.witness.part import MARKS
from optics.errors import OutOfRange, ShimwrightError, Unreadable
from optics.finding.causes import ALL
from optics.finding.part import amount_of_fault
from optics.relation import Range
from optics.teaching.classroom.shop import QUANTITIES
from optics.theory.lens import film_distance
from optics.typed import fields
from optics.typed.fields import Typed
from optics.typed.places import PLACE, TypedPlace
from optics.units import Understood
from ui.school.exercise_form import HOW_MANY
from ui.school.relation_form import quantity_field

# What is read as words and not as figures.
_NO_FIGURES = {"date", "name of the mark"}
_BARE = {
    "": 1.0,
    "mm": 1.0,
    "m": 1000.0,
    "°": math.pi / 180,
    "′": math.pi / 10_800,
    "″": math.pi / 648_000,
    "turns": 1.0,
    "%": 0.01,
}
# In mm and in radians, by definition; the inch is 25.4 mm (agreement of 1959). Feet and degrees
# and minutes are left out, for a number after them is theirs in a notation of its own.
_UNITS = {
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "µm": 0.001,
    "in": 25.4,
    "thou": 0.0254,
    "arcsec": math.pi / 648_000,
    "mrad": 0.001,
    "turn": 2 * math.pi,
}


def _fields() -> Iterator[Typed]:
    """Every typed field there is: of the records, of the classroom and of the exercises."""
    for module in pkgutil.walk_packages(optics.__path__, "optics."):
        found = vars(import_module(module.name)).values()
        yield from (one for one in found if isinstance(one, Typed))
    yield from TERMS.values()
    yield from (cause.size.typed(f"size of {cause}") for cause in ALL)
    yield from (amount_of_fault(fault)[0] for fault in ("tilt_x", "gain", "start", "seat"))
    yield from (depth_at("top"), fields.sharp_at("1.5 m"), fields.register_against("44"))
    yield from map(quantity_field, QUANTITIES.values())
    yield HOW_MANY


FIELDS = [
    field
    for field in {(f.words, f.unit, str(f.read)): f for f in _fields()}.values()
    if field.words not in _NO_FIGURES and field.unit in _BARE
]


class Figure(NamedTuple):
    """A figure as it is typed, what its digits say, and the unit written with it."""

    text: str
    number: float
    unit: str


@st.composite
def figures(draw: st.DrawFn) -> Figure:
    """Draw a figure with a point or a comma, thousands set apart or not, with a unit or not."""
    digits = draw(st.sampled_from(["1", "3", "7", "18", "28", "44", "500", "1435", "3 500"]))
    decimals = draw(st.sampled_from(["", "", ".5", ",5", ".25", ",661", ".2"]))
    unit = draw(st.sampled_from(["", "", "", *_UNITS]))
    text = f"{digits}{decimals} {unit}".strip()
    # Digits that spaces set apart are no number, and no field may read them as one or as two.
    number = math.nan if " " in digits else float(digits + decimals.replace(",", "."))
    return Figure(text, number, unit)


_BETWEEN = ["; ", "; ", ";", " = ", " = ", ", ", " ", "\n", " ± ", " +- ", " × "]


@st.composite
def texts(draw: st.DrawFn) -> tuple[list[Figure], list[str]]:
    """Draw figures and what stands between them."""
    found = draw(st.lists(figures(), min_size=1, max_size=4))
    between = [draw(st.sampled_from(_BETWEEN)) for _ in found[1:]]
    for n, one in enumerate(found[:-1]):
        if between[n] == ", " and "." in one.text and draw(st.booleans()):
            between[n] = ","  # After a decimal point a comma cannot be a decimal comma.
    return found, between


class Scope(NamedTuple):
    """Figures that belong together, and what stands between them."""

    figures: list[Figure]
    between: list[str]


def scopes(found: list[Figure], between: list[str]) -> list[Scope]:
    """Part figures at the signs of equality, and before each name that has one."""
    parts = [Scope([found[0]], [])]
    for n, sign in enumerate(between):
        names_next = sign.strip(" ") in (";", "\n") and between[n + 1 : n + 2] == [" = "]
        if sign == " = " or names_next:
            parts.append(Scope([found[n + 1]], []))
        else:
            parts[-1].figures.append(found[n + 1])
            parts[-1].between.append(sign)
    return parts


def meant(scope: Scope, bare: float) -> list[float]:
    """Work out what figures that belong together say: a unit at the end alone rules them all."""
    *before, last = [one.unit for one in scope.figures]
    ruled = last if not any(before) else ""
    units = [one.unit or ruled for one in scope.figures]
    return [
        one.number * (_UNITS[unit] if unit else bare)
        for one, unit in zip(scope.figures, units, strict=True)
    ]


def flat(found: Any) -> Iterator[float]:
    """Return every figure that was understood, in the order typed."""
    if isinstance(found, Understood):
        yield from () if math.isnan(found.value) else (found.value,)  # A mark's name is none.
    elif isinstance(found, TypedPlace):
        yield from (found.x, found.y)
    elif isinstance(found, float):
        yield found  # A leaf's thickness.
    elif isinstance(found, tuple):
        for one in found:
            yield from flat(one)


def bare_unit(field: Typed, number: int) -> float:
    """Return the unit of a scope's bare numbers: a name has another than its readings."""
    if number % 2 == 0:
        if field in (fields.MARK_ANGLES, fields.MARK_LENGTHS):
            return _BARE["m"]
        if field in (fields.DEPTH_MARK_ANGLES, fields.DEPTH_MARK_LENGTHS):
            return 1.0
        if field is fields.LIFTS:
            return _BARE["°"]
    return _BARE[field.unit]


# Each text is read by some three hundred fields.
@settings(max_examples=500, deadline=None)
@given(text=texts())
def test_no_text_is_two_figures_or_has_two_units_unless_it_says_so(
    text: tuple[list[Figure], list[str]],
) -> None:
    """Whatever any field reads has as many figures as were parted, each in the unit written."""
    found, between = text
    typed = "".join(one.text + sign for one, sign in zip(found, [*between, ""], strict=True))
    parts = scopes(found, between)
    for field in FIELDS:
        try:
            understood = field.read(typed)
        except ShimwrightError:
            continue
        check(field, parts, understood, f"{field.words}: {typed!r} as {understood}")


def check(field: Typed, parts: list[Scope], understood: Any, told: str) -> None:
    """Compare what a field understood with what was typed."""
    is_leaves = field.words.startswith(("shim", "screws"))
    says = {";", "±", "+-", "×"} | ({","} if field in (PLACE, DEPTHS, SCREWS) else set())
    # A mark's name is no figure, whatever stands in it.
    figures = {n: part for n, part in enumerate(parts) if n % 2 or field is not MARKS}
    for part in figures.values():
        assert {sign.strip(" ") for sign in part.between} <= says, told
    if is_leaves and any(" × " in part.between for part in parts):
        return  # The number after × counts leaves; the tests of the units have it.
    wanted = [v for n, part in figures.items() for v in meant(part, bare_unit(field, n))]
    if field.unit == "turns":
        written = [one.unit for part in parts for one in part.figures]
        wanted = [v / _UNITS["turn"] if u else v for v, u in zip(wanted, written, strict=True)]
    assert list(flat(understood)) == pytest.approx(wanted, rel=1e-9), told


@pytest.mark.parametrize("field", FIELDS, ids=lambda field: f"{field.words}, {field.unit}")
def test_every_field_reads_something_of_what_is_drawn(field: Typed) -> None:
    """The property above is about every field, for each reads one of the forms drawn."""
    forms = [
        "1",
        "3",
        "44",
        "28; 44",
        "1.5",
        "1 = 3",
        "1 = 3; 28",
        "1 × 3",
        "1, 3",
        "1 ± 3",
        "1, 3 = 4",
    ]
    assert any(_reads(field, text) for text in forms)


def _reads(field: Typed, text: str) -> bool:
    try:
        field.read(text)
    except ShimwrightError:
        return False
    return True


@pytest.mark.parametrize(
    ("field", "text", "asked"),
    [
        (fields.SHARP_AT, "18, 7", "18.7 or 18; 7"),
        (fields.SHARP_AT, "3 500", "3500 or 3; 500"),
        (fields.SHARP_AT, "12 345,6 mm", "12345,6 mm or 12; 345,6 mm"),
        (fields.MEASURED_REGISTER, "44 661 µm", "44661 µm or 44; 661 µm"),
        (fields.MARK_ANGLES, "3 m = 17.3, 17.2; 1.5 m = 34.9", "17.3; 17.2"),
        (fields.COINCIDENCES, "∞ = 28, 30; 1 m = 1.03", "28; 30"),
        (fields.FAR_READS, "28 30 m", "28; 30 m"),
        (fields.TURNED, "2.5\n2", "a semicolon"),
        (fields.APERTURES, "2.8 4 5.6", "2.8; 4; 5.6"),
        (fields.APERTURES, "f/2.8, f/4", "f/2.8; f/4"),
        (fields.FITTED, "0.05 × 4, 0.02", "0.05 × 4; 0.02"),
        (fields.FITTED, "2; 3 thou", "0.05 mm × 4; 0.0015 in × 3"),
        (fields.TARGET, "3 500", "3500"),
        (fields.FOCAL_LENGTH, "18, 7", "18.7"),
        (TERMS["gate"], "0.02 in ± 0.01", "2 ± 1 thou"),
        (FRAME, "84 56", "84 × 56"),
        (PLACE, "-30 25", "−30, 25"),
        (fields.SHARP_AT, "1435", "metres or millimetres? To say it, type for example 1435 mm"),
        (fields.TARGET, "1435", "metres or millimetres?"),
        (fields.sharp_at("1.5 m"), "1435", "metres or millimetres?"),
        (fields.sharp_at("1.5 m"), "143.5", "metres or centimetres?"),
        (fields.COINCIDENCES, "3 m = 285", "metres or centimetres?"),
        (fields.register_against("44.66"), "446.61", "10 times the nominal 44.66 mm: is it in"),
        (fields.register_against("44.66"), "44661", "Type for example 44.661 mm."),
        (fields.register_against("44.66"), "4.4661", "0.1 times the nominal"),
    ],
)
def test_text_with_two_meanings_is_refused_with_both(field: Typed, text: str, asked: str) -> None:
    """What may be one figure or two, or in one unit or another, is asked about with an example."""
    with pytest.raises(ShimwrightError) as refusal:
        field.read(text)
    assert asked in str(refusal.value)


@pytest.mark.parametrize(
    ("field", "text", "echo"),
    [
        (fields.SHARP_AT, "18; 7", "2 readings: 18 m; 7 m"),
        (fields.SHARP_AT, "18,7", "18.7 m"),
        (fields.sharp_at("1.5 m"), "1435 mm", "1435 mm"),
        (fields.sharp_at("inf"), "143.5", "143.5 m"),
        (fields.sharp_at("no mark"), "1.5", "1.5 m"),
        (fields.register_against("44.66"), "44,661", "44.661 mm"),
        (fields.register_against("1.7 in"), "44.66", "44.66 mm"),
        (fields.register_against(""), "446.61", "446.61 mm"),
        (
            fields.MARK_ANGLES,
            "3 m = 17.3; 17.2; 1.5 m = 34.9",
            "2 marks: 3 m at 17.3°; 17.2°; 1.5 m at 34.9°",
        ),
        (fields.MARK_ANGLES, "3 m = 17.3\n1.5 m = 34.9", "2 marks: 3 m at 17.3°; 1.5 m at 34.9°"),
        (
            fields.COINCIDENCES,
            "∞ = 28; 30; 3 = 2,85",
            "2 targets: infinity (∞) at 28 m; 30 m; 3 m at 2.85 m",
        ),
        (TERMS["gate"], "0.02 ± 0.01 in", "0.508 mm = 0.02 in ± 0.254 mm = 0.01 in"),
        (TERMS["gate"], "2 ± 1 thou", "0.0508 mm = 2 thou ± 0.0254 mm = 1 thou"),
        (TERMS["gate"], "0.02 mm ± 1 thou", "0.02 mm ± 0.0254 mm = 1 thou"),
        (TERMS["gate"], "5,004 ± 0,012", "5.004 mm ± 0.012 mm"),
        (FRAME, "2 1/4 × 3 1/4 in", "57.15 mm = 2 1/4 in wide, 82.55 mm = 3 1/4 in high"),
        (PLACE, "16,5, −11", "16.5, −11 mm"),
        (fields.FITTED, "0.05 mm × 4; 2 thou", "0.05 mm × 4; 0.0508 mm"),
    ],
)
def test_one_meaning_is_echoed(field: Typed, text: str, echo: str) -> None:
    """What has one meaning is read in that, and said again with its unit."""
    assert field.echo(field.read(text)) == echo


def test_a_line_end_parts_marks_but_no_tries() -> None:
    """A new line begins a new mark; within a mark it stands for nothing."""
    with pytest.raises(Unreadable, match="a line ends in the middle"):
        fields.MARK_ANGLES.read("3 m = 17.3\n17.2")


@pytest.mark.parametrize(
    ("field", "low", "high"),
    [
        (fields.RULER_SLOPE, "-1", "95°"),
        (fields.LEAN, "-1", "95°"),
        (fields.WEDGE_ANGLE, "0", "40°"),
        (fields.MEASURED_REGISTER, "28.8; 0", "inf"),
        (fields.NOMINAL_REGISTER, "0", "inf"),
        (fields.STARTS, "0", "inf"),
        (fields.WEDGE_INDEX, "1", "inf"),
        (fields.CIRCLE_OF_CONFUSION, "0", "inf"),
    ],
)
def test_a_field_takes_what_its_quantity_can_be(field: Typed, low: str, high: str) -> None:
    """What the equation could not be asked is refused where it is typed, below and above."""
    for text in (low, high):
        with pytest.raises(ShimwrightError):
            field.read(text)


def test_no_field_widens_the_range_of_its_quantity() -> None:
    """A field made of a quantity has its range, or a narrower one for a reason."""
    with pytest.raises(ValueError, match="not narrowed"):
        fields.of(film_distance, tighter=(Range.any(), "anything may be typed"))
    with pytest.raises(ValueError, match="not narrowed"):
        fields.of(film_distance, tighter=(Range.above(500), ""))
    narrow = fields.of(film_distance, tighter=(Range.at_least(500), "nothing focuses nearer"))
    assert narrow.read("0.5 m").value == 500
    with pytest.raises(OutOfRange, match=r"must be at least 0\.5 m: got 0\.4 m"):
        narrow.read("0.4 m")
    with pytest.raises(OutOfRange):
        narrow.read("-3 m")


def test_no_range_of_a_quantity_is_stated_again() -> None:
    """A field that has limits of its own is of no quantity that the equations have."""
    known = {quantity.words for quantity in QUANTITIES.values()}
    stated = [
        f"{path.name}: {call.args[0].value}"
        for path in Path(optics.__file__).parent.rglob("*.py")
        for call in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(call, ast.Call)
        and ast.unparse(call.func) in ("figure", "fields.figure")
        and len(call.args) > 2
        and isinstance(call.args[0], ast.Constant)
    ]
    assert len(stated) > 5
    assert [one for one in stated if one.partition(": ")[2] in known] == []
