"""Expressions become numpy functions that keep float64, infinity and whole powers."""

import inspect

import numpy as np
import pytest
import sympy

from optics.relation.compiling import BLOCK, compile_function

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


LONG = 2 * BLOCK + 7
COLUMN, ROW = np.linspace(1, 2, 3)[:, None], np.linspace(3, 4, LONG)


@pytest.mark.parametrize(
    ("x", "y"),
    [
        (np.linspace(1, 2, LONG), 3.0),
        (2.0, np.linspace(3, 4, LONG)),
        (np.linspace(1, 2, LONG), np.linspace(3, 4, LONG)),
        (np.linspace(1, 2, LONG), np.array([3.0])),
        (COLUMN, ROW),
        (COLUMN, ROW[None, :]),
        (ROW[:, None], COLUMN.T),
        (np.ones((LONG, 2, 1)), np.ones((1, 2, 3))),
    ],
)
def test_long_arrays_are_computed_piece_by_piece(x: float, y: float) -> None:
    """What is computed in pieces has the shape and every element of what is computed at once."""
    outputs = [X / Y + X * Y + 1 / (X + Y + 1), X**2, sympy.Integer(7)]
    function = compile_function(["x", "y"], outputs)
    at_once, piecewise = inspect.unwrap(function), function
    assert at_once is not piecewise
    total, only_x, constant = piecewise(x, y)
    np.testing.assert_array_equal(total, at_once(x, y)[0])
    shape = np.broadcast_shapes(np.shape(x), np.shape(y))
    np.testing.assert_array_equal(only_x, np.broadcast_to(np.square(x), shape))
    np.testing.assert_array_equal(constant, np.full(shape, 7.0))
