"""Prints expressions for people: LaTeX for the page, one plain line for everything else."""

import math
from collections.abc import Mapping
from typing import Any

import sympy
from sympy.printing.precedence import PRECEDENCE
from sympy.printing.str import StrPrinter

from optics.relation.compiling import SYMPY_LOCK

SUPERSCRIPTS = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


class _Plain(StrPrinter):
    """Prints an expression as a person would write it on one line."""

    def _print_Symbol(self, expr: sympy.Symbol) -> str:  # noqa: N802
        return str(self._settings["names"].get(expr.name, expr.name))

    def _print_Pow(self, expr: sympy.Pow, rational: bool = False) -> str:  # noqa: N802
        if not expr.exp.is_Integer or expr.exp == -1:
            return str(super()._print_Pow(expr, rational=rational))
        base = self.parenthesize(expr.base, PRECEDENCE["Pow"])
        if expr.base.is_Symbol and "e" in base and base[:1].isdigit():
            base = f"({base})"  # A power of 1.5e6 is not 1.5 times ten to a power of 6.
        power = f"{base}{str(abs(expr.exp)).translate(SUPERSCRIPTS)}"
        return power if expr.exp > 0 else f"1/{power}"

    def _print_Relational(self, expr: sympy.Rel) -> str:  # noqa: N802
        return f"{self._print(expr.lhs)} {expr.rel_op.replace('==', '=')} {self._print(expr.rhs)}"

    def _print_Pi(self, _: Any) -> str:  # noqa: N802
        return "π"

    _default_settings = {**StrPrinter._default_settings, "names": {}}  # noqa: RUF012


def to_plain(expression: Any, names: Mapping[str, str]) -> str:
    """One line of Unicode, each symbol shown as `names` has it (a letter or a number)."""
    with SYMPY_LOCK:
        text = str(_Plain({"names": names, "order": "none"}).doprint(expression))
    return text.replace("sqrt", "√").replace("**", "^").replace("*", "·").replace("-", "−")


def to_latex(expression: Any, names: Mapping[str, str]) -> str:
    """LaTeX in sympy's own order of terms, each symbol shown as `names` has it."""
    # Juxtaposed numbers would run together, so a product of numbers shows its dot.
    dot = "dot" if any(n[:1].isdigit() for n in names.values()) else None
    with SYMPY_LOCK:
        symbols = {s: names.get(s.name, s.name) for s in expression.free_symbols}
        return str(sympy.latex(expression, symbol_names=symbols, order="none", mul_symbol=dot))


def to_digits(value: float, style: str, infinity: str, *, bracketed: bool = True) -> str:
    """Six significant digits, negative numbers in brackets when they go into a sum."""
    sign = "-" if style == "latex" else "−"
    if math.isinf(value):
        return infinity if value > 0 else f"{sign}{infinity}"
    text, _, exponent = f"{value:.6g}".partition("e")
    if exponent:
        power = int(exponent)
        text += rf" \times 10^{{{power}}}" if style == "latex" else f"e{power}"
    text = text.replace("-", sign)
    if not bracketed or (value >= 0 and not (exponent and style == "latex")):
        return text
    return rf"\left({text}\right)" if style == "latex" else f"({text})"
