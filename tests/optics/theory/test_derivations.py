"""Each derivation is proved step by step, and fails where a sign is turned round."""

import random
import re
from collections.abc import Iterator
from functools import cache

import pytest
import sympy

from optics.relation import Root
from optics.theory import CATALOGUE
from optics.theory.derivations import DERIVATIONS, Derivation, DerivationLine, Rule, derivations_of
from tests.optics.theory.points import DISTANCES, RANGES

STEPS = [
    (name, number)
    for name, derivation in DERIVATIONS.items()
    for number, line in enumerate(derivation.lines, start=1)
    if line.uses
]
each_step = pytest.mark.parametrize(("name", "number"), STEPS)
each_derivation = pytest.mark.parametrize("derivation", DERIVATIONS.values(), ids=DERIVATIONS)

SHRINK = sympy.Symbol("shrink", positive=True)
# Small enough to tell what vanishes, with the digits that this takes.
LITTLE, LESS, DIGITS = sympy.Rational(1, 10**3), sympy.Rational(1, 10**6), 60


def plain(equation: sympy.Eq) -> sympy.Expr:
    """Left less right, with ordinary roots and integrals worked."""
    return (equation.lhs - equation.rhs).replace(Root, sympy.sqrt).doit()


def line_of(name: str, number: int) -> DerivationLine:
    """A line by its number, from 1."""
    return DERIVATIONS[name].lines[number - 1]


@cache
def ways(derivation: Derivation, line: DerivationLine) -> list[dict[sympy.Symbol, sympy.Expr]]:
    """What the lines used say of the quantities they are solved for, one way for each root."""
    used = [plain(derivation.lines[i - 1].equation) for i in line.uses]
    unknowns = [quantity.symbol for quantity in line.solved_for]
    assert len(unknowns) == len(used)
    found: list[dict[sympy.Symbol, sympy.Expr]] = sympy.solve(
        used, unknowns, dict=True, simplify=False, check=False
    )
    assert found, "the lines used have no solution"
    return found


def left_over(
    derivation: Derivation, line: DerivationLine, equation: sympy.Eq
) -> Iterator[sympy.Expr]:
    """What an equation leaves when the lines used hold, once for each root."""
    if line.rule is Rule.SLOPE:
        (used,) = (derivation.lines[i - 1].equation for i in line.uses)
        (changed,) = line.small
        yield plain(equation) + sympy.diff(used.rhs, changed.symbol)
        return
    shrunk = {q.symbol: SHRINK * q.symbol for q in line.small}
    for way in ways(derivation, line):
        yield plain(equation).subs(way, simultaneous=True).subs(shrunk, simultaneous=True)


def is_nothing(expression: sympy.Expr, line: DerivationLine, seed: str) -> bool:
    """Whether what is left vanishes: at all, or as a series to the order the line claims."""
    if line.rule is not Rule.SMALL:
        return bool(expression == 0 or sympy.simplify(expression) == 0)
    # With exact fractions for what does not shrink, the series has exact coefficients.
    exact = expression.subs(point(expression, seed))
    series = sympy.series(exact, SHRINK, 0, line.order + 1).removeO()
    return bool(sympy.simplify(series) == 0)


def point(expression: sympy.Expr, seed: str) -> dict[sympy.Symbol, sympy.Rational]:
    """A realistic value for every letter, the same on each run."""
    chance = random.Random(seed)
    values = {}
    for symbol in sorted(expression.free_symbols - {SHRINK}, key=lambda s: s.name):
        if symbol.name in DISTANCES:
            drawn = 10 ** chance.uniform(3.5, 4.2)
        else:
            drawn = chance.uniform(*RANGES.get(symbol.name, (0.5, 2)))
        values[symbol] = sympy.Rational(drawn).limit_denominator(10**6)
    return values


def size_left(expression: sympy.Expr, line: DerivationLine, seed: str) -> float:
    """How much is left at a point against its largest term; of what is only nearly so, 0 or 1."""
    values = point(expression, seed)
    if line.rule is not Rule.SMALL:
        terms = [abs(t.subs(values).evalf(DIGITS)) for t in sympy.Add.make_args(expression)]
        return float(abs(expression.subs(values).evalf(DIGITS)) / max([*terms, 1e-30]))
    coarse, fine = (
        abs(expression.subs({**values, SHRINK: t}).evalf(DIGITS)) / t**line.order
        for t in (LITTLE, LESS)
    )
    # What vanishes faster than the order claimed is a thousandth at a thousandth of the size.
    return 1.0 if fine > coarse / 100 else 0.0


def turned(equation: sympy.Eq) -> Iterator[sympy.Eq]:
    """The equation with the sign of one term turned round, each in turn."""
    for side, other in ((equation.rhs, equation.lhs), (equation.lhs, equation.rhs)):
        sums = [part for part in sympy.preorder_traversal(side) if isinstance(part, sympy.Add)]
        for part in sums:
            for term in part.args:
                yield sympy.Eq(side.xreplace({part: part - 2 * term}), other, evaluate=False)
    if equation.rhs != 0 and equation.lhs != 0:
        yield sympy.Eq(-equation.lhs, equation.rhs, evaluate=False)


@each_step
def test_step_follows(name: str, number: int) -> None:
    """Solved and put in, the lines a step uses make both its sides the same, or nearly so."""
    derivation, line = DERIVATIONS[name], line_of(name, number)
    left = list(left_over(derivation, line, line.equation))
    assert any(is_nothing(expression, line, name) for expression in left), left


@each_step
def test_step_fails_with_a_sign_turned(name: str, number: int) -> None:
    """In figures a step holds as it stands, and no longer with the sign of any term turned."""
    derivation, line = DERIVATIONS[name], line_of(name, number)
    left = list(left_over(derivation, line, line.equation))
    sizes = [size_left(expression, line, f"{name}{number}") for expression in left]
    best = min(range(len(sizes)), key=lambda i: sizes[i])
    assert sizes[best] < 1e-15
    wrong = list(turned(line.equation))
    assert wrong
    for equation in wrong:
        expression = list(left_over(derivation, line, equation))[best]
        assert size_left(expression, line, f"{name}{number}") > 1e-9, equation


@each_derivation
def test_derivation_arrives(derivation: Derivation) -> None:
    """A line that follows is the relation itself: its authored form makes both sides the same."""
    relation = derivation.relation
    names = {q.name for q in relation.quantities}
    form = relation.formulas[0].form
    put_in = {form.unknown.symbol: form.whole.replace(Root, sympy.sqrt)}
    candidates = [
        line.equation
        for line in derivation.lines
        if {s.name for s in line.equation.free_symbols} == names
        and (line.uses or line.equation == relation.equation)
    ]
    assert any(
        equation == relation.equation or sympy.simplify(plain(equation).subs(put_in)) == 0
        for equation in candidates
    )


@each_derivation
def test_derivation_starts_from_what_is_named(derivation: Derivation) -> None:
    """Lines use earlier lines only, and every line but the last is used by some later one."""
    used = set()
    for number, line in enumerate(derivation.lines, start=1):
        assert all(0 < i < number for i in line.uses)
        assert bool(line.uses) == (line.rule not in (Rule.KNOWN, Rule.DRAWN))
        used |= set(line.uses)
    assert 3 <= len(derivation.lines) <= 9
    leads_on = {len(derivation.lines) - 1, len(derivation.lines)}
    assert set(range(1, len(derivation.lines) + 1)) - used <= leads_on


@each_derivation
def test_derivation_can_be_read(derivation: Derivation) -> None:
    """Each line says why in words, and is printed in letters with none of the code's names."""
    named = {q.name for q in (*derivation.relation.quantities, *derivation.others)}
    for line, latex in zip(derivation.lines, derivation.latex, strict=True):
        assert re.fullmatch(r"[A-Z].*[.?]", line.words, re.DOTALL)
        assert {s.name for s in line.equation.free_symbols} <= named
        assert [name for name in named if len(name) > 3 and name in latex] == []


def test_derivations_are_found_by_their_relation() -> None:
    """A relation's derivations are all that arrive at it, and none else."""
    found = {d for name in CATALOGUE for d in derivations_of(name)}
    assert found == set(DERIVATIONS.values())
    assert [d.title for d in derivations_of("coupling_error")] == [
        "Exact at infinity and near, wrong between",
        "How large the error between two exact settings grows",
    ]
    assert derivations_of("prentice") == ()
