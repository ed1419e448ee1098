"""Prints expressions for people: LaTeX for the page, one plain line for everything else."""

import math
from collections.abc import Mapping
from typing import Any

import sympy
from sympy.printing.str import StrPrinter

from optics.relation.compiling import SYMPY_LOCK


class _Plain(StrPrinter):
    """Prints an expression as a person would write it on one line."""

    def _print_Symbol(self, expr: sympy.Symbol) -> str:  # noqa: N802
        return str(self._settings["names"].get(expr.name, expr.name))

    def _print_Pow(self, expr: sympy.Pow, rational: bool = False) -> str:  # noqa: N802
        text = str(super()._print_Pow(expr, rational=rational))
        return text.replace("**2", "²").replace("**4", "⁴")

    _default_settings = {**StrPrinter._default_settings, "names": {}}  # noqa: RUF012


def to_plain(expression: Any, names: Mapping[str, str]) -> str:
    """One line of Unicode, each symbol shown as `names` has it (a letter or a number)."""
    with SYMPY_LOCK:
        text = str(_Plain({"names": names, "order": "none"}).doprint(expression))
    return text.replace("sqrt", "√").replace("*", "·").replace("-", "−").replace("pi", "π")


def to_latex(expression: Any, names: Mapping[str, str]) -> str:
    """LaTeX in the authored order, each symbol shown as `names` has it."""
    # Juxtaposed numbers would run together, so a product of numbers shows its dot.
    dot = "dot" if any(n[:1].isdigit() for n in names.values()) else None
    with SYMPY_LOCK:
        symbols = {s: names.get(s.name, s.name) for s in expression.free_symbols}
        return str(sympy.latex(expression, symbol_names=symbols, order="none", mul_symbol=dot))


def to_digits(value: float, style: str, infinity: str, *, bracketed: bool = True) -> str:
    """Six significant digits, negative numbers in brackets when they go into a sum."""
    if math.isinf(value):
        return infinity if value > 0 else f"-{infinity}"
    text = f"{value:.6g}"
    if "e" in text:
        mantissa, exponent = text.split("e")
        power = int(exponent)
        text = f"{mantissa} \\times 10^{{{power}}}" if style == "latex" else f"{mantissa}e{power}"
        return rf"\left({text}\right)" if style == "latex" and bracketed else text
    if value < 0 and bracketed:
        return rf"\left({text}\right)" if style == "latex" else f"({text})"
    return text if style == "latex" else text.replace("-", "−")
