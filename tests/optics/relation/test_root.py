"""The square root that forgives rounding at the edge, and behaves as one everywhere else."""

import math

import numpy as np
import pytest
import sympy

from optics.relation import Root
from optics.relation.compiling import compile_function
from optics.relation.printing import to_latex, to_plain

X = sympy.Symbol("x", positive=True)


def test_root_is_the_square_root() -> None:
    """Where its radicand is positive it is the square root, and so is its slope."""
    root, slope = compile_function(["x"], [Root(3 * X), Root(3 * X).diff(X)])(12.0)
    assert root == 6
    assert slope == pytest.approx(3 / 12)


def test_root_of_a_hair_less_than_nothing_is_nothing() -> None:
    """A radicand that rounding has made negative counts as zero, its slope as infinite."""
    function = compile_function(["x"], [Root(1 - X), Root(1 - X).diff(X)])
    with np.errstate(divide="ignore"):
        root, slope = function(np.float64(1 + 2**-52))
    assert root == 0
    assert slope == -math.inf


def test_root_keeps_what_is_not_a_number() -> None:
    """It does not turn nan into a number."""
    (root,) = compile_function(["x"], [Root(X)])(np.array([4.0, math.nan]))
    assert root[0] == 2
    assert math.isnan(root[1])


def test_root_prints_as_one() -> None:
    """It prints as any square root."""
    assert to_latex(Root(X + 1), {"x": "x"}) == r"\sqrt{1 + x}"
    assert to_plain(Root(X + 1), {"x": "a"}) == "√(1 + a)"
