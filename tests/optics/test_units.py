"""Typed text has one meaning or is refused, and what is printed reads back."""

import math
import unicodedata
from collections.abc import Callable
from fractions import Fraction
from functools import partial
from typing import Any

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from optics.errors import OutOfRange, ShimwrightError, Unreadable
from optics.units import (
    format_angle,
    format_distance,
    format_leaves,
    format_length,
    format_signed,
    format_uncertainty,
    read_angle,
    read_count,
    read_distance,
    read_f_number,
    read_leaves,
    read_length,
    read_list,
    read_number,
)

Reader = Callable[..., Any]

READERS: list[Reader] = [
    read_length,
    read_distance,
    read_angle,
    partial(read_number, words="gain"),
    read_f_number,
    partial(read_count, words="number of starts"),
    partial(read_list, reader=read_length),
    partial(read_list, reader=read_angle),
    read_leaves,
]

# International yard and pound agreement, 1959: yard 0.9144 m exactly, hence foot 304.8 mm and
# inch 25.4 mm exactly. The millimetres below are worked by hand from those three.
LENGTHS_IN_MM = [
    ("50", 50.0),
    ("0.05 mm", 0.05),
    ("0,05 mm", 0.05),
    (".5 mm", 0.5),
    ("+5", 5.0),
    ("-0", 0.0),
    ("1.2 m", 1200.0),
    ("1,2 m", 1200.0),
    ("1,20 m", 1200.0),
    ("0,200 mm", 0.2),
    ("1234,567 mm", 1234.567),
    ("1,2345 m", 1234.5),
    ("1.200 m", 1200.0),
    ("5CM", 50.0),
    ("0.5 km", 500_000.0),
    ("50 µm", 0.05),
    ("50 μm", 0.05),
    ("50um", 0.05),
    ("25 microns", 0.025),
    ("1/2 mm", 0.5),
    ("1 in", 25.4),
    ("3 inches", 76.2),
    ("6 in.", 152.4),
    ('6"', 152.4),
    ("6″", 152.4),
    ("6”", 152.4),
    ("6''", 152.4),
    ("6′′", 152.4),
    ("6’’", 152.4),
    ("0.690 in", 17.526),  # C-mount register as published in both units (ANSI/SMPTE)
    ("1/8 in", 3.175),
    ("5/4 in", 31.75),
    ("½ in", 12.7),
    ("3½ in", 88.9),
    ("3 ½ in", 88.9),
    ("3 1/2 in", 88.9),
    ("3 1⁄2 in", 88.9),
    ("-3 1/2 in", -88.9),
    ("3 ft", 914.4),
    ("3 feet", 914.4),
    ("3'", 914.4),
    ("3′", 914.4),
    ("3’", 914.4),
    ("3 ft 6", 1066.8),
    ("3 ft 6 in", 1066.8),
    ("3 ft. 6 in.", 1066.8),
    ("3ft6in", 1066.8),
    ("3'6\"", 1066.8),
    ("3'6", 1066.8),
    ("3′ 6″", 1066.8),
    ("3’ 6”", 1066.8),
    ("3' 6''", 1066.8),
    ("3' 6 1/2\"", 1079.5),
    ("3' 6½\"", 1079.5),
    ("3 ft 6,5", 1079.5),
    ("-3 ft 6", -1066.8),
    ("2 yd", 1828.8),
    ("1 thou", 0.0254),
    ("−2 thou", -0.0508),
    ("−0.05", -0.05),
    ("–0.05", -0.05),
    ("- 0.05", -0.05),
    ("0.05\u202fmm", 0.05),
    ("0.05\u00a0mm", 0.05),
    ("3\u2009ft\u20096\u2009in", 1066.8),
]


@pytest.mark.parametrize(("text", "mm"), LENGTHS_IN_MM)
def test_lengths(text: str, mm: float) -> None:
    """A length written in any usual way gives the millimetres of its exact definition."""
    assert read_length(text).value == mm
    assert math.copysign(1, read_length(text).value) == (-1 if mm < 0 else 1)


@pytest.mark.parametrize(
    ("text", "echo"),
    [
        ("3 ft 6", "1.067 m = 3 ft 6 in"),
        ("1/8 in", "3.175 mm = 1/8 in"),
        ("1,2 m", "1.2 m"),
        ("50 mm", "50 mm"),
        ("5 cm", "50 mm = 5 cm"),
        ("0.01 µm", "0.00001 mm = 0.01 µm"),
        ("inf", "infinity (∞)"),
        ("Infinity", "infinity (∞)"),
        (" ∞ ", "infinity (∞)"),
        ("2", "2 m"),
    ],
)
def test_distance_echo(text: str, echo: str) -> None:
    """The echo of a distance says what was understood, in metric first."""
    assert read_distance(text).echo == echo
    assert read_distance(text).text == text


def test_bare_number_takes_the_field_unit_and_a_written_unit_overrides() -> None:
    """A bare number is in the unit of the field's label and a written unit wins over it."""
    assert read_length("2", unit="in").value == 50.8
    assert read_length("2 mm", unit="in").value == 2.0
    assert read_length("−2", unit="thou").echo == "−0.0508 mm = −2 thou"
    assert read_distance("2", unit="ft").value == 609.6
    assert read_angle("2", unit="mrad").value == 0.002
    assert read_angle("1/2", unit="turn").value == pytest.approx(math.pi, rel=1e-15)


def test_infinite_distance() -> None:
    """Infinity is an everyday distance and comes out as math.inf."""
    assert read_distance("∞").value == read_distance("INF").value == math.inf


@pytest.mark.parametrize(
    ("text", "degrees", "echo"),
    [
        ("12.5", "12.5", "12.5°"),
        ("12,5°", "12.5", "12.5°"),
        ("12.5 deg", "12.5", "12.5°"),
        ("12º", "12", "12°"),
        ("12° 30'", "12.5", "12.5° = 12° 30′"),
        ("12°30", "12.5", "12.5° = 12° 30′"),
        ("12° 30′ 36″", "12.51", "12.51° = 12° 30′ 36″"),
        ("30' 36\"", "0.51", "0.51° = 30′ 36″"),
        ("3'", "0.05", "0.05° = 3′"),
        ('18"', "0.005", "0.005° = 18″"),
        ("18''", "0.005", "0.005° = 18″"),
        ("6 arcmin", "0.1", "0.1° = 6′"),
        ("-12.5", "-12.5", "−12.5°"),
        ("1/4 turn", "90", "90° = 1/4 turn"),
        ("0.25 turn", "90", "90° = 0.25 turn"),
        ("3/8 turn", "135", "135° = 3/8 turn"),
        ("1 1/4 turns", "450", "450° = 1 1/4 turns"),
    ],
)
def test_angles(text: str, degrees: str, echo: str) -> None:
    """Degrees, minutes, seconds and turns agree with 360° = 1 turn, 60′ = 1°, 60″ = 1′."""
    understood = read_angle(text)
    assert understood.value == pytest.approx(math.radians(float(degrees)), rel=1e-15)
    assert understood.echo == echo


def test_angles_published() -> None:
    """Published pairs of angle and ratio are met to their printed digits."""
    # TM 9-258 (1977), glossary: the unit of error, 12 seconds, is 5.8178e-5 rad.
    assert read_angle('12"').value == pytest.approx(5.8178e-5, abs=0.5e-9)
    # Scientific American Supplement 829 (1891): base angle 88°51′15″ gives a range of 50 bases;
    # half a second of angle is 0.006 bases.
    assert math.tan(read_angle("88° 51' 15\"").value) == pytest.approx(50, abs=0.006)
    assert read_angle("0.5 mrad").value == 0.0005
    assert read_angle("1 rad").value == 1.0


@pytest.mark.parametrize("text", ["3.5", "f/3.5", "f3.5", "F 3,5", "1:3.5", "1:3,5", "ƒ/3.5"])
def test_f_numbers(text: str) -> None:
    """Every engraved form of an f-number means the same."""
    assert read_f_number(text).value == 3.5
    assert read_f_number(text).echo == "f/3.5"


@pytest.mark.parametrize(
    ("text", "value", "echo"),
    [
        ("−0.5", -0.5, "−0.5"),
        ("1,05", 1.05, "1.05"),
        ("3/4", 0.75, "0.75 = 3/4"),
        ("1 3/4", 1.75, "1.75 = 1 3/4"),
        ("1e-3", 0.001, "0.001"),
        ("1,5E−3", 0.0015, "0.0015"),
        ("-0", 0.0, "0"),
    ],
)
def test_numbers(text: str, value: float, echo: str) -> None:
    """A plain number may be a decimal, a fraction or have an exponent."""
    understood = read_number(text, words="gain")
    assert (understood.value, understood.echo) == (value, echo)


def test_counts() -> None:
    """A count is a whole number, zero included."""
    assert read_count("0", words="starts").value == 0
    assert read_count(" 06 ", words="starts").echo == "6"


UNREADABLE = [
    ("", "is empty"),
    ("   ", "is empty"),
    ("1,200 m", "1.200 or 1200"),
    ("12,345", "12.345 or 12345"),
    ("3 ft 1,200", "1.200 or 1200"),
    ("1,200.5 mm", "decimal mark or group thousands"),
    ("1.2.3", "“.3” is not a number"),
    ("1,2,3", "“,3” is not a number"),
    ("5,", "“,” is not a number"),
    ("3 6", "two numbers stand side by side"),
    ("1 200 m", "two numbers stand side by side"),
    ("1.5 1/2 in", "two numbers stand side by side"),
    ("1 1 1/2 in", "two numbers stand side by side"),
    ("½3 in", "two numbers stand side by side"),
    ("--5", "“-5” is not a number"),
    ("+-5", "“-5” is not a number"),
    ("5-", "“-” is not a number"),
    ("-", "a number is missing"),
    ("2 mil", "“mil” is not one of its units"),
    ("5 mm 3", "“3” cannot follow mm"),
    ("1 m 20 cm", "“20 cm” cannot follow m"),
    ("6 in 3 ft", "“3 ft” cannot follow in"),
    ("3 ft 2 ft", "“2 ft” cannot follow ft"),
    ("3' 6'", "“6 ft” cannot follow ft"),
    ("3 ft 5 mm", "“5 mm” cannot follow ft"),
    ("3.0 ft 6 in", "a broken number of ft"),
    ("3.5 ft 6 in", "a broken number of ft"),
    ("3 1/2 ft 6 in", "a broken number of ft"),
    ("3 ft 14", "less than 12 in"),
    ("3 ft 12 in", "less than 12 in"),
    ("3 ft -6 in", "“-6 in” is not a number"),
    ("3'-6\"", "is not a number"),
    ("3 ft.6", "“.6” is not a number"),
    ("1/0 in", "0 below the line"),
    ("1 5/4 in", "is not below 1"),
    ("1 1/1 in", "is not below 1"),
    ("1/2/3 in", "“/3 in” is not a number"),
    ("1.5/2 in", "“/2 in” is not a number"),
    ("31/2 in", "3 1/2"),
    ("31⁄2 in", "3 1/2"),
    ("17/16 in", "1 7/16"),
    ("nan", "is not a number"),
    ("-inf", "is not a number"),
    ("mm", "is not a number"),
    ("5 parsec", "“parsec” is not one of its units"),
    ("5 °", "“°” is not one of its units"),
    ("1e400", "“e” is not one of its units"),
    ("1e-3", "“e” is not one of its units"),
    ("٣ mm", "is not a number"),
    ("５ mm", "is not a number"),
    ("5² mm", "“² mm” is not a number"),
    ("\u200b5", "\\u200b5"),
    ("1" * 65, "longer than 64"),
]


@pytest.mark.parametrize(("text", "reason"), UNREADABLE)
@pytest.mark.parametrize("reader", [read_length, read_distance])
def test_unreadable_lengths(reader: Reader, text: str, reason: str) -> None:
    """Text with no single meaning as a length is refused with its reason and an example."""
    with pytest.raises(Unreadable) as refusal:
        reader(text, words="register of the body")
    assert reason in str(refusal.value)
    assert "register of the body" in str(refusal.value)
    assert "type for example" in str(refusal.value)
    assert refusal.value.value == text


@pytest.mark.parametrize("text", ["1000", "1435", "1435,5", "3500.0"])
def test_a_bare_distance_of_a_kilometre_is_asked_about(text: str) -> None:
    """Nobody sets a lens by a subject a kilometre off, so the unit is asked, and taken if said."""
    with pytest.raises(Unreadable, match=rf"metres or millimetres\? .* {text} mm or {text} m\.$"):
        read_distance(text)
    assert read_distance(f"{text} mm").value < read_distance(f"{text} m").value
    assert read_distance("999").value == 999_000.0
    assert read_distance(text, unit="ft").value > 300_000.0


def test_a_gauge_reads_no_thousands() -> None:
    """Where thousands cannot be meant a comma is a decimal mark, three decimals or not."""
    read = partial(read_length, words="register", is_small=True)
    assert read("44,661").value == 44.661
    assert read("44,661 mm").echo == "44.661 mm"
    assert read("1,250").value == 1.25
    with pytest.raises(Unreadable):
        read("1,200.5")
    with pytest.raises(Unreadable, match="44\\.661 or 44661"):
        read_length("44,661")


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("12° 60'", "less than 60 ′"),
        ("12.5° 30'", "a broken number of °"),
        ("30' 12°", "“12°” cannot follow ′"),
        ("1/4 turn 3°", "“3°” cannot follow turn"),
        ("3 mm", "“mm” is not one of its units"),
        ("1,200", "1.200 or 1200"),
        ("inf", "is not a number"),
    ],
)
def test_unreadable_angles(text: str, reason: str) -> None:
    """An angle in disorder, or in a unit of length, is refused."""
    with pytest.raises(Unreadable, match="angle") as refusal:
        read_angle(text)
    assert reason in str(refusal.value)


@pytest.mark.parametrize(
    ("reader", "text"),
    [
        (partial(read_number, words="gain"), "5 mm"),
        (partial(read_number, words="gain"), "1,200e3"),
        (partial(read_number, words="gain"), "1e"),
        (partial(read_number, words="gain"), "1e5.5"),
        (read_f_number, "1/2"),
        (read_f_number, "f/"),
        (read_f_number, "f.8"),
        (read_f_number, "-2"),
        (read_f_number, "f/1,200"),
        (read_f_number, "3.5 mm"),
        (partial(read_count, words="starts"), "2.5"),
        (partial(read_count, words="starts"), "-1"),
        (partial(read_count, words="starts"), "1 200"),
        (partial(read_count, words="starts"), "²"),
    ],
)
def test_unreadable_numbers(reader: Reader, text: str) -> None:
    """A number of the wrong form for its field is refused."""
    with pytest.raises(Unreadable):
        reader(text)


@pytest.mark.parametrize(
    ("reader", "text", "limit"),
    [
        (read_distance, "0", "must be greater than 0 m"),
        (read_distance, "-3 ft", "must be greater than 0 ft"),
        (read_length, "inf", "must be finite"),
        (read_f_number, "f/0", "must be greater than 0"),
        (partial(read_number, words="gain"), "1e400", "outside the range"),
        (partial(read_number, words="gain"), "1e-400", "outside the range"),
        (partial(read_count, words="starts"), "9" * 17, "too large"),
        (read_leaves, "0 × 3", "greater than 0"),
        (read_leaves, "-0.05", "greater than 0"),
        (read_leaves, "0.05 × 0", "greater than 0"),
    ],
)
def test_out_of_range(reader: Reader, text: str, limit: str) -> None:
    """A clear value without a meaning for its quantity is refused as out of range."""
    with pytest.raises(OutOfRange, match=limit):
        reader(text)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("0.12; 0.13; 0.11", [0.12, 0.13, 0.11]),
        ("0,12;0,13", [0.12, 0.13]),
        ("0,12; 0,13;", [0.12, 0.13]),
        ("0.12 mm; 0.13 mm", [0.12, 0.13]),
        ("-0.12; +0.13", [-0.12, 0.13]),
        ("1; 2; 3 in", [25.4, 50.8, 76.2]),
        ("1; 2 in.", [25.4, 50.8]),
        ("3 1/2; 3½ in", [88.9, 88.9]),
        ("1 in; 2 mm", [25.4, 2.0]),
        ("3 ft 6; 3 ft", [1066.8, 914.4]),
        ("3 ft 6", [1066.8]),
        ("3'6\"; 4'2\"", [1066.8, 1270.0]),
        ("0.12", [0.12]),
        ("0,12", [0.12]),
    ],
)
def test_lists(text: str, mm: list[float]) -> None:
    """A semicolon stands between repeats, with a unit on each or once at the end."""
    assert [item.value for item in read_list(text, read_length)] == mm


@pytest.mark.parametrize(
    ("text", "ways"),
    [
        ("18, 7", "18.7 or 18; 7"),
        ("3 500", "3500 or 3; 500"),
        ("12 345,6 mm", "12345,6 mm or 12; 345,6 mm"),
        ("44 661 µm", "44661 µm or 44; 661 µm"),
        ("0.12 0.13 0.11", "0.12; 0.13; 0.11"),
        ("0.12, 0.13, 0.11", "0.12; 0.13; 0.11"),
        ("0.12,0.13,0.11", "0.12; 0.13; 0.11"),
        ("0,12 0,13", "0,12; 0,13"),
        ("0,12, 0,13", "0,12; 0,13"),
        ("0.12 mm 0.13 mm", "0.12 mm; 0.13 mm"),
        ("-0.12 +0.13", "-0.12; +0.13"),
        ("1 2 3 in", "1; 2; 3 in"),
        ("1, 2 in.", "1; 2 in."),
        ("0.12\n0.13\n", "a semicolon parts"),
        ("3'6\" 4'2\"", "3'6\"; 4'2\""),
    ],
)
def test_what_may_be_one_figure_or_several_is_asked_about(text: str, ways: str) -> None:
    """Commas, spaces and line ends part no figures; the refusal shows each way to write them."""
    with pytest.raises(Unreadable) as refusal:
        read_list(text, read_length)
    assert ways in str(refusal.value)


def test_list_with_infinity() -> None:
    """Infinity needs no unit in a list that writes its unit once."""
    items = read_list("1; inf; 2 ft", read_distance)
    assert [item.value for item in items] == [304.8, math.inf, 609.6]
    assert [item.text for item in items] == ["1 ft", "inf", "2 ft"]


@pytest.mark.parametrize(
    "text",
    [
        "0,12,0,13",
        "0.12 mm; 0.13",
        "0.12 mm; 0.13; 0.14 mm",
        "3; 3'6\"",
        "3; 3 ft 6",
        "3 ft 6 in 4 ft 2 in",
        "3 ft 6 4 ft 2",
        "3'6\" 3'",
        "1 2 1/2",
        "0.12 - 0.13",
        "0.12;; 0.13",
        "; 0.12",
        ";",
        ",",
        "1,200; 1,300",
        "1,200 1,300",
        "0.12, 0.13 0.14",
        "",
        "0.1 " * 300,
    ],
)
def test_unreadable_lists(text: str) -> None:
    """A list whose separators or units leave room for doubt is refused."""
    with pytest.raises(Unreadable, match="type for example"):
        read_list(text, read_length)


@pytest.mark.parametrize(
    ("text", "leaves"),
    [
        ("0.05 mm x 4; 0.02 mm × 2; 0.0015 in × 3", ((0.05, 4), (0.02, 2), (0.0381, 3))),
        ("0.05", ((0.05, 1),)),
        ("0,05X4; 0,02 mm*2", ((0.05, 4), (0.02, 2))),
        ("2 thou × 3", ((0.0508, 3),)),
    ],
)
def test_leaves(text: str, leaves: tuple[tuple[float, int], ...]) -> None:
    """Shim stock is thicknesses in mm with counts, one leaf where no count is written."""
    assert read_leaves(text) == leaves


@pytest.mark.parametrize(
    "text",
    [
        "4 × 0.05",
        "0.05 ×",
        "× 4",
        "0.05 × 4 0.02 × 2",
        "0.05 × 2.5",
        "0,05 × 4, 0,02 × 2",
        "0.05 × 4; 0.0015 in × 3",
        "2; 3 thou",
    ],
)
def test_unreadable_leaves(text: str) -> None:
    """Shim stock that is not thickness × whole number is refused."""
    with pytest.raises(Unreadable, match="shim stock"):
        read_leaves(text)


# Printing --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("printed", "expected"),
    [
        (format_length(0.05), "0.05 mm"),
        (format_length(-0.004), "0.00 mm"),
        (format_length(-0.05), "−0.05 mm"),
        (format_length(-0.0508, unit="thou", places=1), "−2.0 thou"),
        (format_length(math.inf), "∞"),
        (format_signed(0.05), "+0.05 mm"),
        (format_signed(-0.05), "−0.05 mm"),
        (format_signed(-0.001), "0.00 mm"),
        (format_signed(0.001), "0.00 mm"),
        (format_signed(-math.inf), "−∞"),
        (format_distance(1066.8), "1.067 m"),
        (format_distance(1066.8, system="imperial"), "3 ft 6 in"),
        (format_distance(1200.0), "1.2 m"),
        (format_distance(999.96), "1 m"),
        (format_distance(455.04), "45.5 cm"),
        (format_distance(12_345_678.0), "12.35 km"),
        (format_distance(0.0), "0 cm"),
        (format_distance(math.inf, system="imperial"), "∞"),
        (format_distance(88.9, system="imperial"), "3 1/2 in"),
        (format_distance(3047.9, system="imperial"), "10 ft"),
        (format_distance(0.0, system="imperial"), "0 in"),
        (format_angle(math.pi / 14.4), "12.5°"),
        (format_angle(math.pi / 72), "2.50°"),
        (format_angle(-math.pi / 360), "−30.0′"),
        (format_angle(math.pi / 54_000), "12.0″"),
        (format_angle(0.9999 * math.pi / 180), "1.00°"),
        (format_angle(0.9999 * math.pi / 10_800), "1.0′"),
        (format_angle(-1e-12), "0°"),
        (format_uncertainty(0.1234, 0.0312, "mm"), "0.123 mm ± 0.031 mm"),
        (format_uncertainty(1.0, 0.0996, "mm"), "1.00 mm ± 0.10 mm"),
        (format_uncertainty(1234.0, 312.0, "mm"), "1230 mm ± 310 mm"),
        (format_uncertainty(-0.001, 0.5, "mm"), "0.00 mm ± 0.50 mm"),
        (format_uncertainty(0.123, 0.0, "mm"), "0.123 mm ± 0 mm"),
        # GUM (JCGM 100:2008) 7.2.6: y = 10,057 62 Ω with 27 mΩ is rounded to 10,058 Ω.
        (format_uncertainty(10.05762, 0.027, "Ω"), "10.058 Ω ± 0.027 Ω"),
        # GUM 7.2.6: 28,05 kHz is rounded down to 28 kHz.
        (format_uncertainty(0.0, 28.05, "kHz"), "0 kHz ± 28 kHz"),
        # GUM 7.2.4: m = (100,021 47 ± 0,000 79) g.
        (format_uncertainty(100.02147, 0.00079, "g"), "100.02147 g ± 0.00079 g"),
        (format_leaves(((0.05, 4), (0.02, 1))), "0.05 mm × 4; 0.02 mm"),
    ],
)
def test_printed_forms(printed: str, expected: str) -> None:
    """Each printed form is the one a repairer would write."""
    assert printed == expected


millimetres = st.floats(-1e6, 1e6)
distances = st.floats(1.0, 1e8)


@given(millimetres, st.sampled_from(["mm", "cm", "m", "in", "thou", "ft"]), st.integers(0, 6))
def test_length_round_trip(mm: float, unit: str, places: int) -> None:
    """A printed length, signed or not, reads back within half its last digit."""
    half = read_length("0.5", unit=unit).value / 10**places
    for printed in (format_length, format_signed):
        back = read_length(printed(mm, unit=unit, places=places)).value
        assert abs(back - mm) <= half * (1 + 1e-9)


@given(distances)
@example(math.inf)
def test_metric_distance_round_trip(mm: float) -> None:
    """A printed metric distance reads back within half of its fourth digit."""
    back = read_distance(format_distance(mm)).value
    assert back == mm or abs(back - mm) <= max(0.0005, mm * 0.5e-3) * (1 + 1e-9)


@given(st.floats(4.0, 1e7))
def test_imperial_distance_round_trip(mm: float) -> None:
    """A printed imperial distance reads back within 1/16 in below 10 ft and 1/8 in beyond."""
    back = read_distance(format_distance(mm, system="imperial")).value
    assert abs(back - mm) <= (25.4 / 16 if mm < 3048 else 25.4 / 8) * (1 + 1e-9)


@given(st.floats(-100.0, 100.0))
def test_angle_round_trip(rad: float) -> None:
    """A printed angle reads back within half of its last digit, down to 0.1″."""
    back = read_angle(format_angle(rad)).value
    steps = [(10, 0.1), (1, 0.01), (1 / 60, 0.1 / 60), (0, 0.1 / 3600)]
    step = next(step for limit, step in steps if abs(math.degrees(rad)) >= limit * 0.9999)
    assert abs(math.degrees(back - rad)) <= max(step, 0.1 / 3600) / 2 + 1e-4 * step + 1e-12


@given(st.lists(st.integers(-(10**6), 10**6), min_size=1), st.sampled_from(["; ", ";", " ;  "]))
def test_list_round_trip(thousandths: list[int], separator: str) -> None:
    """Printed readings joined by semicolons read back, in order, to the last digit."""
    values = [n / 1000 for n in thousandths[:50]]
    text = separator.join(format_length(value, places=3) for value in values)
    assert [item.value for item in read_list(text, read_length)] == values


@given(st.lists(st.tuples(st.integers(1, 10**5), st.integers(1, 9999)), min_size=1, max_size=40))
def test_leaves_round_trip(leaves: list[tuple[int, int]]) -> None:
    """Printed shim stock reads back as the same leaves."""
    stock = tuple((tenths / 10_000, count) for tenths, count in leaves)
    assert read_leaves(format_leaves(stock)) == stock


@given(st.floats(allow_nan=False), st.floats(allow_nan=False), st.integers(0, 6))
def test_printing_is_total(value: float, uncertainty: float, places: int) -> None:
    """Every float but nan prints, and zero never carries a minus sign or a plain hyphen."""
    printed = [
        format_length(value, unit="µm", places=places),
        format_signed(value, places=places),
        format_distance(value),
        format_distance(value, system="imperial"),
        format_angle(value),
        format_uncertainty(value, uncertainty, "mm"),
    ]
    for text in printed:
        assert "-" not in text
        assert "e" not in text
        first = text.split(" ±")[0]
        assert not first.startswith("−") or any(mark in first for mark in "123456789∞")


# Meaning ---------------------------------------------------------------------------------------


def meaning(reader: Reader, text: str) -> object:
    """Return the values read, without text and echo, or the kind of refusal."""
    try:
        answer = reader(text)
    except ShimwrightError as refusal:
        return type(refusal)
    items = answer if isinstance(answer, tuple) else (answer,)
    return [getattr(item, "value", item) for item in items]


@given(
    st.integers(0, 10**6), st.text("0123456789", min_size=1, max_size=8), st.sampled_from(READERS)
)
def test_decimal_comma_and_point_agree(whole: int, digits: str, reader: Reader) -> None:
    """A decimal comma means what a decimal point means, or is refused as a grouping comma."""
    assume(len(digits) != 3 or whole == 0 or whole > 999)
    assert meaning(reader, f"{whole}.{digits}") == meaning(reader, f"{whole},{digits}")


@given(
    st.integers(1, 999),
    st.integers(0, 999),
    st.sampled_from(["", " m", " mm", " in", "'"]),
    st.sampled_from(["", "-", "−", "+"]),
)
def test_grouping_comma_is_always_refused(whole: int, digits: int, unit: str, sign: str) -> None:
    """Up to three digits not starting with 0, a comma and three digits never pass."""
    text = f"{sign}{whole},{digits:03d}{unit}"
    for reader in (read_length, read_distance, partial(read_number, words="gain")):
        with pytest.raises(Unreadable):
            reader(text)
    with pytest.raises(Unreadable):
        read_list(f"{text}; {text}", read_length)


@given(st.integers(1, 9), st.integers(1, 31), st.sampled_from([2, 4, 8, 16, 32]))
def test_lost_space_in_a_mixed_number_is_always_refused(whole: int, top: int, bottom: int) -> None:
    """A mixed number whose space was lost never passes as an improper fraction."""
    # One that becomes a proper fraction (1 1/16 and 11/16) cannot be told from it.
    assume(top < bottom <= int(f"{whole}{top}"))
    exact = (whole + Fraction(top, bottom)) * Fraction(254, 10)
    assert read_length(f"{whole} {top}/{bottom} in").value == float(exact)
    with pytest.raises(Unreadable):
        read_length(f"{whole}{top}/{bottom} in")


@given(st.integers(0, 99), st.integers(0, 11), st.integers(0, 7))
def test_feet_inches_and_eighths(feet: int, inches: int, eighths: int) -> None:
    """Feet, inches and eighths add up exactly however they are spelled."""
    exact = float((12 * feet + inches + Fraction(eighths, 8)) * Fraction(254, 10))
    fraction = f" {eighths}/8" if eighths else ""
    for text in (
        f"{feet} ft {inches}{fraction} in",
        f"{feet}'{inches}{fraction}\"",
        f"{feet}′ {inches}{fraction}″",
        f"{feet} FEET {inches}{fraction} INCHES",
        f"{feet} ft {inches}{fraction}",
    ):
        assert read_length(text).value == exact


@pytest.mark.parametrize(("text", "mm"), LENGTHS_IN_MM)
def test_compatibility_forms_never_change_the_meaning(text: str, mm: float) -> None:
    """Text altered by Unicode compatibility mapping keeps its meaning or is refused."""
    mapped = unicodedata.normalize("NFKC", text)
    try:
        assert read_length(mapped).value == mm
    except Unreadable:
        assert "½" in text  # 3½ becomes 31⁄2, which is not guessed at


SPACES = "\u00a0\u2007\u2009\u200a\u202f\u3000\t"


@given(st.sampled_from(LENGTHS_IN_MM), st.sampled_from(SPACES))
def test_any_width_of_space(row: tuple[str, float], space: str) -> None:
    """Thin, figure, wide and no-break spaces are spaces."""
    text, mm = row
    assert read_length(f"{space}{text.replace(' ', space)}{space}").value == mm


def assert_read_or_refused(reader: Reader, text: str) -> None:
    """Fail unless the text is read as numbers or refused in one line."""
    try:
        answer = reader(text)
    except (Unreadable, OutOfRange) as refusal:
        message = str(refusal)
        assert message.startswith("The ")
        assert message.endswith(".")
        assert "\n" not in message
        assert len(message) < 400
    else:
        items = answer if isinstance(answer, tuple) else (answer,)
        assert items
        assert not any(math.isnan(getattr(item, "value", 0.0)) for item in items)


@given(st.sampled_from(READERS), st.text(max_size=80))
@example(read_length, "\ud800")
def test_any_text_is_read_or_refused(reader: Reader, text: str) -> None:
    """Any text at all is read or refused in one line, and nothing else is raised."""
    assert_read_or_refused(reader, text)


PIECES = st.sampled_from(
    [
        *"0123456789",
        *"+-−–.,;:/⁄ \n'\"′″°½¼×x*eE∞",
        *("''", " mm", " in", " ft", "m", "thou", "turn", "deg", "f/", "1:", "inf", "nan"),
        *("\u202f", "٣", "²", "1/2", "0,200", "1,200"),
    ]
)


@given(st.sampled_from(READERS), st.lists(PIECES, max_size=24).map("".join))
def test_any_near_miss_is_read_or_refused(reader: Reader, text: str) -> None:
    """Text made of digits, units, signs and separators is read or refused, nothing else."""
    assert_read_or_refused(reader, text)


@given(st.sampled_from([read_length, read_distance]), st.lists(PIECES, max_size=10).map("".join))
def test_what_was_echoed_means_the_same(reader: Reader, text: str) -> None:
    """The last part of an echo, read again, gives the value that was understood."""
    try:
        understood = reader(text)
    except ShimwrightError:
        return
    if math.isfinite(understood.value):
        assert reader(understood.echo.split(" = ")[-1]).value == understood.value
