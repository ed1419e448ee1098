"""Expressions become numpy functions that keep float64, infinity and whole powers."""

import inspect

import numpy as np
import pytest
import sympy

from optics.relation.compiling import compile_function

X, Y = sympy.symbols("x y", positive=True)


@pytest.mark.parametrize("power", [1, 2, 3, 4, 5, 6, 7, 12, -1, -2, -3])
def test_whole_powers_become_products(power: int) -> None:
    """A whole power is computed exactly where floats can, and never by a general power."""
    function = compile_function(["x"], [X**power])
    (value,) = function(np.array([1.0, 2.0, -4.0]))
    assert value.tolist() == [1.0, 2.0**power, (-4.0) ** power]
    powers = inspect.getsource(function).split("**")[1:]
    assert {text[0] for text in powers} <= {"2"}


def test_other_powers_stay_powers() -> None:
    """A broken power is left to numpy, and a half power to its square root."""
    (root, cube) = compile_function(["x"], [sympy.sqrt(X), X ** sympy.Rational(1, 3)])(64.0)
    assert root == 8
    assert cube == pytest.approx(4)


def test_arguments_keep_their_order() -> None:
    """Arguments are taken in the order named, those that do not occur included."""
    function = compile_function(["y", "unused", "x"], [X - Y, X])
    assert function(1.0, 99.0, 5.0) == [4.0, 5.0]
    assert list(inspect.signature(function).parameters) == ["y", "unused", "x"]
