"""What people read: signs, brackets, powers and infinity as they would write them."""

import math

import pytest
import sympy

from optics.relation.printing import to_digits, to_latex, to_plain

A, B = sympy.symbols("a b", real=True)


@pytest.mark.parametrize(
    ("expression", "text"),
    [
        (A**2, "a²"),
        (A**3, "a³"),
        (A**12, "a¹²"),
        (A**-2, "1/a²"),
        (1 / A, "1/a"),
        ((A + B) ** 2, "(a + b)²"),
        (A**2 / B, "a²/b"),
        (sympy.sqrt(A + 1), "√(1 + a)"),
        (-A, "−a"),
        (sympy.pi * A, "π·a"),
        (2 * A * B, "2·a·b"),
        (sympy.Eq(A, B**2), "a = b²"),
        (sympy.tan(A), "tan(a)"),
    ],
)
def test_plain(expression: sympy.Basic, text: str) -> None:
    """An expression on one line reads as a person writes it."""
    assert to_plain(expression, {"a": "a", "b": "b"}) == text


@pytest.mark.parametrize(
    ("expression", "numbers", "plain", "latex"),
    [
        (A**2, {"a": "1e5"}, "(1e5)²", "1e5^{2}"),
        (A**2, {"a": "(−3)"}, "(−3)²", "(−3)^{2}"),
        (A * B, {"a": "2", "b": "3"}, "2·3", r"2 \cdot 3"),
        (A - B, {"a": "2", "b": "(−3)"}, "2 − (−3)", "2 - (−3)"),
    ],
)
def test_numbers_in_place_of_letters(
    expression: sympy.Basic, numbers: dict[str, str], plain: str, latex: str
) -> None:
    """Numbers put in for letters neither run together nor lose their brackets."""
    assert to_plain(expression, numbers) == plain
    assert to_latex(expression, numbers) == latex


def test_code_names_print_as_their_letters() -> None:
    """A symbol prints as the letter given for it, never as the name used in code."""
    focal_length = sympy.Symbol("focal_length", positive=True)
    assert to_latex(focal_length**2, {"focal_length": "f"}) == "f^{2}"
    assert to_plain(focal_length**2, {"focal_length": "f"}) == "f²"


@pytest.mark.parametrize(
    ("value", "latex", "plain"),
    [
        (50.0, "50", "50"),
        (2.77864321, "2.77864", "2.77864"),
        (-2.5, r"\left(-2.5\right)", "(−2.5)"),
        (1e9, r"\left(1 \times 10^{9}\right)", "1e9"),
        (1.25e-7, r"\left(1.25 \times 10^{-7}\right)", "1.25e−7"),
        (-1.25e-7, r"\left(-1.25 \times 10^{-7}\right)", "(−1.25e−7)"),
        (0.0, "0", "0"),
        (math.inf, r"\infty", "∞"),
        (-math.inf, r"-\infty", "−∞"),
    ],
)
def test_digits(value: float, latex: str, plain: str) -> None:
    """A number shows six digits, and brackets where a sum or a power would need them."""
    assert to_digits(value, "latex", r"\infty") == latex
    assert to_digits(value, "plain", "∞") == plain


@pytest.mark.parametrize(
    ("value", "latex", "plain"),
    [
        (-2.5, "-2.5", "−2.5"),
        (1e9, r"1 \times 10^{9}", "1e9"),
        (-1e-7, r"-1 \times 10^{-7}", "−1e−7"),
    ],
)
def test_digits_of_a_result(value: float, latex: str, plain: str) -> None:
    """A number that stands alone has no brackets."""
    assert to_digits(value, "latex", r"\infty", bracketed=False) == latex
    assert to_digits(value, "plain", "∞", bracketed=False) == plain
