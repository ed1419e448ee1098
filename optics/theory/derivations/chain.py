"""What a derivation is made of: lines of equations, each of which follows from earlier ones.

A line says in words why it holds and by which rule it follows, and names the earlier lines it
uses. The test suite proves each step: solved for the quantities named, what it uses makes both
of its sides the same.
"""

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

import sympy

from optics.relation import Quantity, Relation
from optics.relation.printing import to_latex


class Rule(StrEnum):
    """How a line comes about."""

    KNOWN = "known"
    DRAWN = "read off"
    FOLLOWS = "follows"
    SMALL = "nearly"
    SLOPE = "least where level"


@dataclass(frozen=True, eq=False)
class DerivationLine:
    """One equation: why it holds, by which rule, and from which earlier lines (from 1).

    `solved_for` names the quantities for which the lines used are solved, one for each line,
    before they are put in. For `SMALL`, `small` are the quantities that shrink together and
    `order` the highest power of them that is still right; for `SLOPE` the line states that the
    one used stands still as `small` changes. `tex` is how the line is printed where its own
    letters would be too long, with x(D) for the extension that unit focusing gives.
    """

    equation: sympy.Eq
    words: str
    rule: Rule = Rule.FOLLOWS
    uses: tuple[int, ...] = ()
    solved_for: tuple[Quantity, ...] = ()
    small: tuple[Quantity, ...] = ()
    order: int = 1
    tex: str = ""


@dataclass(frozen=True, eq=False)
class Derivation:
    """The way from named starting points to a relation, and where it leads beyond it."""

    relation: Relation
    title: str
    lines: tuple[DerivationLine, ...]
    others: tuple[Quantity, ...] = ()

    @cached_property
    def latex(self) -> tuple[str, ...]:
        """Each line's equation as LaTeX."""
        named = {q.name: q.latex for q in (*self.relation.quantities, *self.others)}
        return tuple(self._print(line, named) for line in self.lines)

    @staticmethod
    def _print(line: DerivationLine, named: dict[str, str]) -> str:
        """The line's own LaTeX, with a sign of its own where both sides are only nearly alike."""
        latex = line.tex or to_latex(line.equation, named)
        return latex.replace(" = ", r" \approx ", 1) if line.rule is Rule.SMALL else latex


def known(
    relation: Relation, words: str, equation: sympy.Eq | None = None, tex: str = ""
) -> DerivationLine:
    """A relation of the catalogue to start from, with other letters where `equation` has them."""
    given = relation.equation if equation is None else equation
    return DerivationLine(given, words, Rule.KNOWN, tex=tex)


def drawn(equation: sympy.Eq, words: str) -> DerivationLine:
    """A definition, or what is read off the drawing."""
    return DerivationLine(equation, words, Rule.DRAWN)


def follows(
    equation: sympy.Eq, words: str, uses: tuple[int, ...], *solved_for: Quantity, tex: str = ""
) -> DerivationLine:
    """A line that follows exactly."""
    return DerivationLine(equation, words, Rule.FOLLOWS, uses, solved_for, tex=tex)


def nearly(
    equation: sympy.Eq,
    words: str,
    uses: tuple[int, ...],
    *solved_for: Quantity,
    small: tuple[Quantity, ...],
    order: int = 1,
) -> DerivationLine:
    """A line that holds the better, the smaller something is."""
    return DerivationLine(equation, words, Rule.SMALL, uses, solved_for, small, order)
