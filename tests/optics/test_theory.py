"""What holds for every relation of the catalogue, whatever its topic."""

import math
import random
import re
import runpy
import subprocess
import sys
import threading
from collections import Counter
from collections.abc import Iterable
from pathlib import Path

import mpmath
import numpy as np
import pytest
import sympy
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from optics.errors import NoAnswer, OutOfRange
from optics.relation import Formula, Quantity, Relation, Root
from optics.theory import CATALOGUE, TOPICS
from tests.optics.theory.points import (
    BEYOND,
    DIGITS,
    DISTANCES,
    RANGES,
    closed,
    drawn,
    form_id,
    precise,
    precise_form,
    seeded,
)

PUBLISHED = Path(__file__).resolve().parents[1] / "published"
RELATIONS = list(CATALOGUE.values())
FORMULAS = [formula for relation in RELATIONS for formula in relation.formulas]
CLOSED = [formula for relation in RELATIONS for formula in closed(relation)]
QUANTITIES = {q.name: q for relation in RELATIONS for q in relation.quantities}


def formula_id(formula: Formula) -> str:
    """A formula's relation and unknown, to name a test by."""
    return f"{formula.relation.name}-{form_id(formula.form)}"


each_relation = pytest.mark.parametrize("relation", RELATIONS, ids=lambda r: r.name)
each_formula = pytest.mark.parametrize("formula", FORMULAS, ids=formula_id)
each_closed = pytest.mark.parametrize("formula", CLOSED, ids=formula_id)
each_quantity = pytest.mark.parametrize("quantity", QUANTITIES.values(), ids=lambda q: q.name)


def full(relation: Relation, point: dict[str, float]) -> dict[str, float]:
    """The point with the unknown of the relation's first form."""
    first = relation.formulas[0]
    return {**point, first.form.unknown.name: first.value(**point)}


def inputs_of(formula: Formula, point: dict[str, float]) -> dict[str, float]:
    """What the formula is to be given, out of a full point."""
    return {q.name: point[q.name] for q in formula.inputs}


def a_point(formula: Formula) -> dict[str, float]:
    """One full point whose numbers are given with four digits, as a person types them."""
    point = {name: float(f"{v:.4g}") for name, v in seeded(formula.relation, 1)[0].items()}
    return inputs_of(formula, full(formula.relation, point))


# ---- each authored form satisfies its equation -------------------------------------------

# A root of something squared, of which only the size of the letters tells the sign: there the
# evaluation with forty digits stands alone.
NOT_BY_ALGEBRA = {
    ("mark_error", "sharp_distance"),
    ("mark_error", "mark_distance"),
    ("cell_mark_error", "sharp_distance"),
    ("cell_mark_error", "mark_distance"),
    *(("scale_mark", name) for name in ("film_distance", "focal_length", "hiatus")),
    *(
        ("cell_scale_mark", name)
        for name in ("film_distance", "group_focal_length", "cell_to_film")
    ),
}

# The condition under which a root is the one meant; at the bound both roots meet.
BRANCHES = {
    "lens nearer the film": lambda p: p["extension"] <= p["focal_length"],
    "lens nearer the subject": lambda p: p["extension"] >= p["focal_length"],
    "cell nearer the film": lambda p: p["movement"] <= p["group_focal_length"],
}


@pytest.mark.parametrize(
    "formula",
    [f for f in CLOSED if (f.relation.name, f.form.unknown.name) not in NOT_BY_ALGEBRA],
    ids=formula_id,
)
def test_form_satisfies_its_equation(formula: Formula) -> None:
    """Put into its equation, an authored form makes both sides the same, symbol by symbol."""
    left, right = formula.relation.equation.args
    assert residual(left - right, formula) == 0
    assert residual(left - 2 * right, formula) != 0


def residual(difference: sympy.Expr, formula: Formula) -> sympy.Expr:
    """What a difference leaves above its fraction line with the form put in for its unknown.

    Each root counts as a letter of its own, outer ones first, whose square is what stands under
    it. So nothing need be guessed of roots, which sympy takes a minute for.
    """
    left = difference.subs(formula.form.unknown.symbol, formula.form.whole)
    roots: dict[sympy.Expr, sympy.Symbol] = {}

    def letter(power: sympy.Pow) -> sympy.Expr:
        return roots.setdefault(power.base, sympy.Dummy("root")) ** (2 * power.exp)

    left = _short_of_infinity(left).replace(Root, sympy.sqrt).replace(_is_root, letter)
    for square, root in reversed(roots.items()):
        left = sympy.rem(sympy.numer(sympy.together(left)), root**2 - square, root)
    return sympy.expand(sympy.numer(sympy.together(left)))


def _is_root(part: sympy.Basic) -> bool:
    return isinstance(part, sympy.Pow) and part.exp.is_Rational and part.exp.q == 2


def _short_of_infinity(expression: sympy.Expr) -> sympy.Expr:
    """The expression where no far limit has reached infinity: each Max is its other term."""
    return expression.replace(
        lambda part: isinstance(part, sympy.Max), lambda part: next(a for a in part.args if a != 0)
    )


@each_closed
def test_form_satisfies_its_equation_to_forty_digits(formula: Formula) -> None:
    """At 25 random points in range an authored form fits its equation to forty digits."""
    relation, unknown = formula.relation, formula.form.unknown.name
    names = [q.name for q in relation.quantities]
    sides = [precise(side, names) for side in (relation.equation.lhs, relation.equation.rhs)]
    with mpmath.workdps(DIGITS):
        for point in seeded(relation, 25):
            first = relation.formulas[0]
            point[first.form.unknown.name] = precise_form(first)(point)
            found = precise_form(formula)(point)
            left, right = (side({**point, unknown: found}) for side in sides)
            assert mpmath.almosteq(left, right, rel_eps=1e-22, abs_eps=1e-22)
            if formula.form.branch != "lens nearer the subject":
                assert mpmath.almosteq(found, point[unknown], rel_eps=1e-22, abs_eps=1e-22)


@pytest.mark.parametrize("formula", [f for f in FORMULAS if f.form.branch], ids=formula_id)
def test_branch_is_the_one_named(formula: Formula) -> None:
    """A form with a named branch takes that root at every random point."""
    for point in seeded(formula.relation, 25):
        found = formula.value(**inputs_of(formula, full(formula.relation, point)))
        assert BRANCHES[formula.form.branch]({**point, formula.form.unknown.name: found})


# ---- round trips -------------------------------------------------------------------------


@st.composite
def points(draw: st.DrawFn, relation: Relation) -> dict[str, float]:
    """Inputs in range; never so near zero that a ratio of two of them says nothing."""
    beyond = st.floats(*BEYOND).map(lambda power: 10**power)
    if len(relation.bounds) == 1:
        beyond = st.one_of(st.just(0.0), beyond)

    def pick(low: float, high: float) -> float:
        return draw(st.floats(low, high).filter(lambda v: abs(v) > 1e-4 * high))

    return drawn(relation, pick, lambda: draw(beyond))


def allowance(formula: Formula, inputs: dict[str, float]) -> tuple[float, dict[str, float]]:
    """How far rounding may move the answer, and the partials that carry an error onwards.

    Each input counts as rounded in its last digits, carried by its partial. At the very
    bound of a square root the partial is infinite and half the digits are left: one
    part in a million.
    """
    value, partials = formula.value_and_partials(**inputs)
    moved = sum(abs(p * inputs[name]) for name, p in partials.items())
    rounding = 32 * sys.float_info.epsilon * (abs(value) + moved)
    return (rounding if math.isfinite(rounding) else 1e-6 * abs(value)), partials


def found_again(
    there: Formula, formulas: Iterable[Formula], point: dict[str, float]
) -> list[Formula]:
    """The principal forms whose unknown, changed a little, changes the answer of `there`.

    What hardly moves an answer cannot be found from it again: two equal distances,
    say, leave no error that could tell the focal length.
    """
    moved, slopes = allowance(there, inputs_of(there, point))
    return [
        formula
        for formula in formulas
        if formula.form.branch != "lens nearer the subject"
        and (name := formula.form.unknown.name) in slopes
        and abs(slopes[name] * point[name]) * 1e-6 >= moved
    ]


@each_relation
@settings(max_examples=30, deadline=None)
@given(data=st.data())
def test_forms_undo_each_other(relation: Relation, data: st.DataObject) -> None:
    """What one form answers leads every other form back to where it began."""
    point = data.draw(points(relation))
    assume(math.isfinite(relation.formulas[0].value(**point)))
    point = full(relation, point)
    sought = found_again(relation.formulas[0], relation.formulas, point)
    for there in (relation.formulas[0], *sought):
        moved, _ = allowance(there, inputs_of(there, point))
        name = there.form.unknown.name
        found = {**point, name: there.value(**inputs_of(there, point))}
        assert found[name] == pytest.approx(point[name], rel=1e-6, abs=4 * moved)
        for back in found_again(there, sought, point):
            own, partials = allowance(back, inputs_of(back, found))
            allowed = own + abs(partials[name]) * moved if moved else own
            answer = back.value(**inputs_of(back, found))
            assert answer == pytest.approx(point[back.form.unknown.name], rel=0, abs=4 * allowed)


# ---- partial derivatives -----------------------------------------------------------------


@each_closed
def test_partials_match_central_differences(formula: Formula) -> None:
    """Each partial is what a central difference with forty digits gives."""
    function = precise_form(formula)
    for point in seeded(formula.relation, 8):
        inputs = inputs_of(formula, full(formula.relation, point))
        value, partials = formula.value_and_partials(**inputs)
        for name, partial in partials.items():
            with mpmath.workdps(DIGITS):
                step = mpmath.mpf(10) ** -12 * abs(inputs[name])
                ahead, behind = (
                    function({**inputs, name: inputs[name] + side * step}) for side in (1, -1)
                )
                slope = float((ahead - behind) / (2 * step))
            scale = abs(slope) + abs(value / inputs[name])
            assert partial == pytest.approx(slope, rel=0, abs=1e-7 * scale)


@each_formula
def test_partials_are_finite_at_infinity(formula: Formula) -> None:
    """Where a distance is infinite and the answer is not, every partial is finite."""
    for name in (q.name for q in formula.inputs if q.name in DISTANCES):
        inputs = {**a_point(formula), name: math.inf}
        try:
            value, partials = formula.value_and_partials(**inputs)
        except (NoAnswer, OutOfRange):
            continue
        if math.isfinite(value):
            assert all(map(math.isfinite, partials.values())), (name, partials)
            assert partials[name] == 0


# ---- scalars, arrays, infinity -----------------------------------------------------------


@each_formula
def test_scalars_arrays_and_infinity_agree(formula: Formula) -> None:
    """An array answers element by element what scalars answer, infinite distances included."""
    rows = [inputs_of(formula, full(formula.relation, p)) for p in seeded(formula.relation, 5)]
    far = [{**rows[0], name: math.inf} for name in rows[0] if name in DISTANCES]
    rows += [row for row in far if _answers(formula, row)]
    columns = {name: np.array([row[name] for row in rows]) for name in rows[0]}
    value, partials = formula.value_and_partials(**columns)
    assert value.dtype == np.float64
    for i, row in enumerate(rows):
        one, one_partials = formula.value_and_partials(**row)
        assert isinstance(one, float)
        assert value[i] == pytest.approx(one, rel=1e-12)
        for name, partial in partials.items():
            assert partial[i] == pytest.approx(one_partials[name], rel=1e-9, nan_ok=True)
    np.testing.assert_allclose(formula.value(**columns), value, rtol=1e-8)


def _answers(formula: Formula, row: dict[str, float]) -> bool:
    try:
        return math.isfinite(formula.value(**row))
    except (NoAnswer, OutOfRange):
        return False


@each_formula
def test_scalars_and_arrays_broadcast(formula: Formula) -> None:
    """One array among scalars, or a column and a row, give every combination."""
    inputs = a_point(formula)
    names = list(inputs)
    shaped = {**inputs, names[0]: np.full((3, 1), inputs[names[0]])}
    if len(names) > 1:
        shaped[names[1]] = np.full(4, inputs[names[1]])
    shape = (3, 4) if len(names) > 1 else (3, 1)
    value, partials = formula.value_and_partials(**shaped)
    assert value.shape == shape
    assert {partial.shape for partial in partials.values()} == {shape}
    np.testing.assert_allclose(value, formula.value(**inputs), rtol=1e-12)


# ---- refusals ----------------------------------------------------------------------------


def outside(quantity: Quantity) -> list[float]:
    """Values just and far outside a quantity's range, not a number among them."""
    span = quantity.range
    if span.is_closed:
        return [math.nan, *([0.0, -0.0] if span.is_never_zero else [])]
    below = [span.low] if not span.low_allowed else []
    below += [span.low - 1, span.low - 1e6]
    return [math.nan, -math.inf, *below, *([span.high + 1] if span.high < 1e300 else [])]


def is_one_sentence(text: str) -> bool:
    """A capital letter at the beginning, a full stop at the end, and none between."""
    return text[0].isupper() and text.endswith(".") and not re.search(r"[.!?] +[A-Z]", text)


@each_quantity
def test_quantity_refuses_what_is_outside_its_range(quantity: Quantity) -> None:
    """A value outside the range is refused in one sentence with meaning, unit and value."""
    for value in outside(quantity):
        with pytest.raises(OutOfRange) as refusal:
            quantity.check(value)
        text = str(refusal.value)
        assert is_one_sentence(text)
        assert f"The {quantity.meaning}" in text
        assert quantity.unit in text
        assert ("not a number" if math.isnan(value) else "got ") in text
        if math.isfinite(value) and value:
            assert f"{abs(value):.6g}" in text
        assert refusal.value.quantity == quantity.name
        assert refusal.value.value == value or math.isnan(value)
        assert (refusal.value.limit is None) == math.isnan(value)


@each_formula
def test_formula_refuses_inputs_outside_their_range(formula: Formula) -> None:
    """Every input of a formula is checked, alone and as an element of an array."""
    inputs = a_point(formula)
    for quantity in formula.inputs:
        for bad in outside(quantity):
            for given_value in (bad, np.array([inputs[quantity.name], bad])):
                with pytest.raises(OutOfRange) as refusal:
                    formula.value(**{**inputs, quantity.name: given_value})
                assert refusal.value.quantity == quantity.name


@each_formula
def test_formula_names_the_inputs_it_needs(formula: Formula) -> None:
    """A missing, a surplus and a misspelled input are refused with the names that are needed."""
    inputs = a_point(formula)
    first = next(iter(inputs))
    missing = {name: v for name, v in inputs.items() if name != first}
    for wrong in (missing, {**inputs, "surplus": 1.0}, {**missing, first + "s": inputs[first]}):
        with pytest.raises(TypeError) as refusal:
            formula.value(**wrong)
        assert formula.relation.name in str(refusal.value)
        assert all(name in str(refusal.value) for name in inputs)


# ---- print -------------------------------------------------------------------------------

LATEX_NAMES = {*RANGES, *DISTANCES, *QUANTITIES}


def is_well_formed(latex: str) -> bool:
    """Braces nest, every \\left has its \\right, and no environment is left open."""
    depth = 0
    for brace in re.findall(r"(?<!\\)[{}]", latex):
        depth += 1 if brace == "{" else -1
        if depth < 0:
            return False
    return depth == 0 and latex.count(r"\left") == latex.count(r"\right")


@each_formula
def test_latex_is_fit_to_print(formula: Formula) -> None:
    """The LaTeX nests, starts with the unknown's letter and shows letters, never code names."""
    for latex in (formula.latex, formula.relation.latex):
        assert is_well_formed(latex)
        assert r"\mathcal" not in latex
        assert [name for name in LATEX_NAMES if len(name) > 3 and name in latex] == []
    if formula.form.expression is not None:
        assert formula.latex.startswith(f"{formula.form.unknown.latex} = ")
    for quantity in formula.inputs:
        assert quantity.latex in formula.relation.latex


def digits(value: float) -> str:
    """The figures of a number as any style prints them, without sign and power of ten."""
    return f"{abs(value):.6g}".split("e")[0]


@each_formula
def test_working_shows_every_number(formula: Formula) -> None:
    """The worked calculation shows each number given and ends in the value's six digits."""
    inputs = a_point(formula)
    value = formula.value(**inputs)
    for lines, infinity in (
        (formula.working(**inputs), r"\infty"),
        (formula.working_text(**inputs), "∞"),
    ):
        text = "\n".join(lines)
        assert infinity not in text
        assert [name for name, v in inputs.items() if digits(v) not in text] == []
        end = lines[-1].split(" = ")[-1]
        assert digits(value) in end
        assert (value < 0) == end.startswith(("-", "−"))
        assert formula.form.unknown.unit in end
        assert all(is_well_formed(line) for line in lines)


@each_formula
def test_working_text_is_plain(formula: Formula) -> None:
    """The plain calculation has no backslash, no star and no code name in it."""
    text = "\n".join(formula.working_text(**a_point(formula)))
    assert re.findall(r"\\|\*|··|Eq\(|sqrt|- ", text) == []
    assert [name for name in LATEX_NAMES if len(name) > 4 and name in text] == []


@each_relation
def test_no_two_quantities_look_alike(relation: Relation) -> None:
    """Within a relation, steps included, no two quantities share a name or a symbol."""
    steps = {q.name: q for form in relation.forms for q, _ in form.steps}
    shown = [*relation.quantities, *steps.values()]
    for attribute in ("name", "latex", "plain", "meaning"):
        counted = Counter(getattr(quantity, attribute) for quantity in shown)
        assert [text for text, count in counted.items() if count > 1] == []


@each_relation
def test_relation_says_what_it_answers(relation: Relation) -> None:
    """Every relation has a question it answers, a source and its limits of validity."""
    assert re.fullmatch(r"[A-Z].*\?", relation.answers)
    assert len(relation.source) > 5
    assert re.fullmatch(r"[A-Z].*\.", relation.limits)
    assert {f.unknown.name for f in relation.forms} <= {q.name for q in relation.quantities}
    assert {s.name for s in relation.equation.free_symbols} == {q.name for q in relation.quantities}


# ---- the catalogue as a whole ------------------------------------------------------------


def test_every_relation_is_held_to_a_number() -> None:
    """Every relation has a number in tests/published that is printed or was worked by hand."""
    modules = [runpy.run_path(str(path)) for path in sorted(PUBLISHED.glob("test_*.py"))]
    rows = [row for module in modules for row in module.get("ROWS", [])]
    named = {row[0] for row in rows if len(row) == 6 and row[5]}
    assert set(CATALOGUE) - named == set()


def test_names_are_unique_across_topics() -> None:
    """No two relations of the catalogue bear one name, and each bears that of its variable."""
    declared = [
        (variable, relation.name)
        for topic in TOPICS
        for variable, relation in vars(topic).items()
        if isinstance(relation, Relation)
    ]
    assert [pair for pair in declared if pair[0] != pair[1]] == []
    assert len(declared) == len(CATALOGUE)


def test_a_name_means_one_quantity() -> None:
    """A quantity's name has the same meaning, unit and range wherever it occurs."""
    for relation in RELATIONS:
        for quantity in relation.quantities:
            assert quantity == QUANTITIES[quantity.name]


def test_nothing_is_compiled_on_import() -> None:
    """Importing the catalogue compiles nothing: that waits for the first use."""
    program = """
import sympy
calls = []
real = sympy.lambdify
sympy.lambdify = lambda *a, **k: calls.append(a) or real(*a, **k)
from optics.theory import CATALOGUE
formulas = [f for r in CATALOGUE.values() for f in r.formulas]
assert not calls
assert not [f for f in formulas if "compiled" in vars(f) or "compiled_with_partials" in vars(f)]
formulas[0].compiled
assert len(calls) == 1
"""
    subprocess.run([sys.executable, "-c", program], check=True)


def test_fresh_formulas_may_be_used_by_threads_at_once() -> None:
    """Eight threads that compile and call fresh formulas at the same time get right answers."""
    chosen = random.Random(8).sample(CLOSED, 12)
    expected = [formula.value(**a_point(formula)) for formula in chosen]
    fresh = [Formula(formula.relation, formula.form) for formula in chosen]
    start, answers = threading.Barrier(8), []

    def work() -> None:
        start.wait()
        answers.append([formula.value(**a_point(formula)) for formula in fresh])

    threads = [threading.Thread(target=work) for _ in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert answers == [expected] * 8
