"""A square root that stands firm at the very edge of what a relation allows."""

from typing import Any

import sympy


class Root(sympy.Function):
    """The square root of what a bound keeps from being negative.

    At the bound itself, say a subject exactly four focal lengths away, the radicand
    is zero and rounding would often make it a hair less, and the answer not a number.
    """

    nargs = 1

    def fdiff(self, _argument: int = 1) -> Any:
        """The slope with respect to the radicand."""
        return 1 / (2 * self)

    def _numpycode(self, printer: Any) -> str:
        return f"sqrt(maximum({printer._print(self.args[0])}, 0))"

    def _sympystr(self, printer: Any) -> str:
        return f"sqrt({printer._print(self.args[0])})"

    def _latex(self, printer: Any) -> str:
        return rf"\sqrt{{{printer._print(self.args[0])}}}"
