"""Turns expressions into numpy functions, under one lock."""

import threading
from collections.abc import Callable
from typing import Any

import sympy
from sympy.printing.numpy import NumPyPrinter

# sympy's caches are not fully thread-safe, so building and compiling take turns.
SYMPY_LOCK = threading.RLock()


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
    return function
