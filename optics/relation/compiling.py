"""Turns expressions into numpy functions, under one lock."""

import math
import threading
from collections.abc import Callable
from functools import wraps
from typing import Any

import numpy as np
import sympy
from sympy.printing.numpy import NumPyPrinter

# sympy's caches are not fully thread-safe, so building and compiling take turns.
SYMPY_LOCK = threading.RLock()

# So many elements, with the intermediate results, stay in a processor's second cache.
BLOCK = 32_768
# Fewer operations than this have no intermediate results worth keeping near.
WORTH_BLOCKS = 8


class _Numpy(NumPyPrinter):
    """Prints whole powers as products: numpy's general power is many times slower."""

    def _print_Pow(self, expr: sympy.Pow, rational: bool = False) -> str:  # noqa: N802
        exponent = expr.exp
        if not exponent.is_Integer:
            return str(super()._print_Pow(expr, rational=rational))
        text = _power(f"({self._print(expr.base)})", abs(int(exponent)))
        return f"(1/{text})" if exponent < 0 else text


def _power(base: str, exponent: int) -> str:
    if exponent == 1:
        return base
    if exponent % 2:
        return f"({_power(base, exponent - 1)}*{base})"
    return (
        f"{_power(base, exponent // 2)}**2"
        if exponent == 2
        else f"({_power(base, exponent // 2)})**2"
    )


def compile_function(names: list[str], outputs: list[Any]) -> Callable[..., Any]:
    """A numpy function of the named arguments that returns the outputs as a list."""
    with SYMPY_LOCK:
        symbols = {s.name: s for e in outputs for s in sympy.sympify(e).free_symbols}
        arguments = [symbols.get(name, sympy.Symbol(name)) for name in names]
        printer = _Numpy({"fully_qualified_modules": False, "inline": True})
        function: Callable[..., Any] = sympy.lambdify(
            arguments, outputs, modules="numpy", printer=printer, cse=True
        )
        short = sympy.count_ops(outputs) < WORTH_BLOCKS
    return function if short else _in_blocks(function)


def _in_blocks(function: Callable[..., Any]) -> Callable[..., Any]:
    """The same function, taking long arrays piece by piece: memory is slower than arithmetic."""

    @wraps(function)
    def blocked(*known: Any) -> list[Any]:
        if all(getattr(k, "size", 1) <= BLOCK for k in known):
            return list(function(*known))
        shape = np.broadcast_shapes(*map(np.shape, known))
        rows = max(1, BLOCK * shape[0] // math.prod(shape))
        whole: list[Any] = []
        for start in range(0, shape[0], rows):
            piece = slice(start, start + rows)
            results = function(*(_piece(k, piece, shape) for k in known))
            whole = whole or [np.empty(shape) for _ in results]
            for all_of_it, result in zip(whole, results, strict=True):
                all_of_it[piece] = result
        return whole

    return blocked


def _piece(known: Any, piece: slice, shape: tuple[int, ...]) -> Any:
    """The piece of an input, or all of one that is the same for every piece."""
    lies_along = np.ndim(known) == len(shape) and known.shape[0] == shape[0]
    return known[piece] if lies_along else known
