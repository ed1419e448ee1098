"""Relations, forms, bounds and formulas on small equations whose answers are plain."""

import math
import threading

import numpy as np
import pytest
from sympy import Eq, Expr, cos, exp, sqrt

from optics.errors import NoAnswer, OutOfRange, ShimwrightError
from optics.relation import Bound, Form, Formula, Quantity, Range, Relation
from optics.relation.compiling import SYMPY_LOCK

SIDE = Quantity("side", "c", "c", "mm", "slanting side", Range.positive())
BASE = Quantity("base_line", "a", "a", "mm", "base line", Range.positive())
RISE = Quantity("rise", "b", "b", "mm", "rise", Range.at_least(0))
SQUARE = Quantity("square", "q", "q", "", "square of the side", Range.positive())
c, a, b, q = (quantity.symbol for quantity in (SIDE, BASE, RISE, SQUARE))

TRIANGLE = Relation(
    name="triangle",
    answers="How long is the slanting side?",
    equation=Eq(c**2, a**2 + b**2),
    quantities=(SIDE, BASE, RISE),
    forms=(
        Form(SIDE, sqrt(q), steps=((SQUARE, a**2 + b**2),)),
        Form(BASE, sqrt(c**2 - b**2), branch="right of the corner"),
        Form(RISE, sqrt(c**2 - a**2)),
    ),
    bounds=(Bound(SIDE, b, "the slanting side is the longest"),),
    source="Plane geometry",
    limits="Flat things.",
)

TURN = Quantity("turn", r"\varphi", "φ", "rad", "turn", Range.between(0, 3))
LIFT = Quantity("lift", "y", "y", "mm", "lift of the cam")
SIZE = Quantity("size", "r", "r", "mm", "size of the cam", Range.positive())
_turn, _lift, _size = TURN.symbol, LIFT.symbol, SIZE.symbol

# No closed form for the turn: y = r (φ + 1 − cos φ), steadily rising from 0 to 3 rad.
CAM = Relation(
    name="cam",
    answers="How far must the cam turn?",
    equation=Eq(_lift, _size * (_turn + 1 - cos(_turn))),
    quantities=(LIFT, SIZE, TURN),
    forms=(
        Form(LIFT, _size * (_turn + 1 - cos(_turn))),
        Form(TURN, bracket=(0 * _lift, 3 + 0 * _lift)),
    ),
    source="Invented",
    limits="Up to 3 rad.",
)


# ---- relations and forms -----------------------------------------------------------------


def test_steps_are_written_out() -> None:
    """The whole of a form is its expression with every step put in."""
    assert TRIANGLE.forms[0].whole == sqrt(a**2 + b**2)
    assert TRIANGLE.expression(SIDE) == sqrt(a**2 + b**2)


def test_steps_may_build_on_steps() -> None:
    """A step may use the steps before it."""
    twice = Quantity("twice", "w", "w", "", "twice the square", Range.positive())
    form = Form(SIDE, sqrt(twice.symbol), steps=((SQUARE, a**2), (twice, 2 * q)))
    assert form.whole == sqrt(2 * a**2)


def test_a_relation_is_solved_by_quantity_name_or_branch() -> None:
    """A formula is found by its unknown, as an object or a name, and by its branch."""
    base = TRIANGLE.solve_for("base_line")
    assert TRIANGLE.solve_for(BASE) is base
    assert TRIANGLE.solve_for("base_line", "right of the corner") is base
    assert TRIANGLE.latex == "c^{2} = b^{2} + a^{2}"


@pytest.mark.parametrize(("name", "branch"), [("height", ""), ("base_line", "left")])
def test_what_a_relation_is_not_solved_for(name: str, branch: str) -> None:
    """An unknown or a branch that was not authored is refused with those that were."""
    with pytest.raises(ShimwrightError) as refusal:
        TRIANGLE.solve_for(name, branch)
    assert f"triangle is not solved for {f'{name} {branch}'.strip()};" in str(refusal.value)
    assert "side, base_line, rise" in str(refusal.value)
    assert refusal.value.quantity == name


def test_formulas_of_a_relation_are_made_once() -> None:
    """Formulas are kept, so that each is compiled only once."""
    side = TRIANGLE.solve_for(SIDE)
    assert side is TRIANGLE.solve_for(SIDE)
    assert side.compiled is side.compiled


# ---- values and partials -----------------------------------------------------------------


def test_value_and_partials_of_a_right_triangle() -> None:
    """Three, four, five; and the partials are the ratios of the sides."""
    value, partials = TRIANGLE.solve_for(SIDE).value_and_partials(base_line=3, rise=4)
    assert value == 5
    assert partials == {"base_line": pytest.approx(0.6), "rise": pytest.approx(0.8)}


@pytest.mark.parametrize("given", [3, 3.0, np.float64(3), np.array(3.0), np.int64(3)])
def test_every_kind_of_scalar_gives_a_float(given: float) -> None:
    """Whole numbers, numpy scalars and arrays of no dimension all give a plain float."""
    assert type(TRIANGLE.solve_for(SIDE).value(base_line=given, rise=4)) is float


def test_lists_and_whole_numbers_become_float64() -> None:
    """Integer arrays are computed as float64, so that nothing is cut off."""
    value = TRIANGLE.solve_for(SIDE).value(base_line=np.array([1, 3]), rise=np.array([1, 4]))
    assert value.dtype == np.float64
    np.testing.assert_allclose(value, [math.sqrt(2), 5])


def test_inputs_are_not_changed() -> None:
    """An array that is given stays as it was, and the answer is not a view of it."""
    given = np.array([3.0, 6.0])
    value = TRIANGLE.solve_for(SIDE).value(base_line=given, rise=0.0)
    value[:] = 0
    assert given.tolist() == [3, 6]


def test_an_infinite_input_is_an_everyday_value() -> None:
    """Infinity goes in and comes out without a warning."""
    with np.errstate(all="raise"):
        assert TRIANGLE.solve_for(SIDE).value(base_line=math.inf, rise=4) == math.inf


# ---- bounds ------------------------------------------------------------------------------


def test_a_bound_refuses_an_input_with_its_reason() -> None:
    """An input past a bound is refused with the limit that the other inputs set, and why."""
    with pytest.raises(OutOfRange) as refusal:
        TRIANGLE.solve_for(BASE).value(side=3, rise=4)
    assert str(refusal.value) == (
        "The slanting side must be at least 4 mm (the slanting side is the longest): "
        "got 3 mm; check the figure and its unit."
    )
    assert (refusal.value.quantity, refusal.value.value) == ("side", 3)
    assert refusal.value.limit == "at least 4 mm"


def test_a_bound_admits_its_limit_and_rounding() -> None:
    """The limit itself is allowed, and so is what lies on it but for its last digits."""
    bound = TRIANGLE.bounds[0]
    for side in (0.3, 0.1 + 0.2, 0.3 * (1 - 1e-15)):
        bound.check({"side": side, "rise": 0.3})
    with pytest.raises(OutOfRange):
        bound.check({"side": 0.3 * (1 - 1e-9), "rise": 0.3})


def test_a_bound_names_the_element_that_passed_it() -> None:
    """In an array the first value past its own limit is named, with that limit."""
    with pytest.raises(OutOfRange, match=r"at least 7 mm .* got 6 mm"):
        TRIANGLE.solve_for(BASE).value(side=np.array([9.0, 6.0]), rise=np.array([1.0, 7.0]))


def test_an_upper_bound() -> None:
    """A bound may be the most that is allowed."""
    bound = Bound(RISE, c, "nothing rises above the side", is_upper=True)
    bound.check({"rise": 3.0, "side": 3.0})
    with pytest.raises(OutOfRange, match=r"at most 3 mm \(nothing rises above the side\)"):
        bound.check({"rise": 3.1, "side": 3.0})


@pytest.mark.parametrize("limit", [3.0, -3.0, 0.0])
def test_an_open_bound_excludes_its_limit(limit: float) -> None:
    """An open bound refuses the limit itself, on whichever side of zero it lies."""
    for is_upper, words, inside in ((True, "less than", -0.1), (False, "more than", 0.1)):
        bound = Bound(RISE, c, "there is no roof there", is_upper=is_upper, is_open=True)
        bound.check({"rise": limit + inside, "side": limit})
        with pytest.raises(OutOfRange, match=words):
            bound.check({"rise": limit, "side": limit})


def test_an_answer_keeps_the_bounds_too() -> None:
    """An answer with which the inputs would be out of bounds is refused like the inputs."""
    slack = Relation(**{**vars_of(TRIANGLE), "bounds": (Bound(SIDE, 2 * b, "steep roofs leak"),)})
    assert slack.solve_for(RISE).value(side=5, base_line=4.5) < 2.5
    with pytest.raises(
        OutOfRange, match=r"side must be at least 8 mm \(steep roofs leak\): got 5 mm"
    ):
        slack.solve_for(RISE).value(side=5, base_line=3)


def vars_of(relation: Relation) -> dict[str, object]:
    """The fields a relation was made with."""
    return {name: getattr(relation, name) for name in relation.__dataclass_fields__}


# ---- no answer ---------------------------------------------------------------------------


def test_no_answer_names_the_relation_and_the_inputs() -> None:
    """Inputs that each are in range but fit no answer are refused together."""
    with pytest.raises(NoAnswer) as refusal:
        TRIANGLE.solve_for(RISE).value(side=3, base_line=4)
    assert str(refusal.value) == (
        "No rise satisfies the relation 'triangle' for slanting side 3 mm, base line 4 mm; "
        "check these figures against each other."
    )
    assert refusal.value.quantity == "rise"


def test_no_answer_names_the_element_without_one() -> None:
    """In an array the figures of the first element without an answer are named."""
    with pytest.raises(NoAnswer, match="slanting side 5 mm, base line 6 mm"):
        TRIANGLE.solve_for(RISE).value(side=5, base_line=np.array([[3.0, 4.0], [6.0, 7.0]]))


def test_an_answer_outside_its_range_is_refused() -> None:
    """An answer that its quantity cannot have is told as an answer, with what it came from."""
    narrow = Quantity("side", "c", "c", "mm", "slanting side", Range.positive(up_to=10))
    relation = Relation(
        **{
            **vars_of(TRIANGLE),
            "quantities": (narrow, BASE, RISE),
            "bounds": (),
            "forms": (Form(narrow, sqrt(a**2 + b**2)),),
        }
    )
    with pytest.raises(OutOfRange) as refusal:
        relation.solve_for("side").value(base_line=30, rise=40)
    assert str(refusal.value) == (
        "These figures give 50 mm for the slanting side, but it must be at most 10 mm: got base "
        "line 30 mm, rise 40 mm; check these figures."
    )
    assert (refusal.value.quantity, refusal.value.value) == ("side", 50)
    with pytest.raises(OutOfRange, match=r"give 50 mm .* base line 30 mm, rise 40 mm;"):
        relation.solve_for("side").value(base_line=np.array([3, 30]), rise=np.array([4, 40]))


def test_an_answer_out_of_bounds_is_told_as_an_answer() -> None:
    """An answer that passes a limit set by the inputs is told with the reason of the limit."""
    short = Relation(**{**vars_of(TRIANGLE), "bounds": (Bound(SIDE, 2 * b, "steep roofs leak"),)})
    with pytest.raises(OutOfRange, match=r"give 5 mm .* at least 8 mm \(steep roofs leak\): got"):
        short.solve_for(SIDE).value(base_line=3, rise=4)


def test_an_answer_below_its_range_says_what_that_means() -> None:
    """What it means that an answer falls below the range is said where it is known."""
    fall = Quantity(
        "fall", "p", "p", "mm", "fall of the roof", Range.positive(below="the gutter is high")
    )
    relation = Relation(
        name="fall",
        answers="How far does it fall?",
        equation=Eq(fall.symbol, a - b),
        quantities=(fall, BASE, RISE),
        forms=(Form(fall, a - b),),
        source="Invented",
        limits="None.",
    )
    with pytest.raises(OutOfRange, match=r"more than 0 mm \(the gutter is high\): got"):
        relation.solve_for(fall).value(base_line=3, rise=4)


def test_compiling_takes_its_turn_before_it_touches_the_equation(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """One thread at a time writes the steps out, for the value alone as for the partials."""
    asked: list[bool] = []
    written_out = Form.whole.func

    def whole(form: Form) -> Expr:
        waits = threading.Thread(target=lambda: asked.append(SYMPY_LOCK.acquire(blocking=False)))
        waits.start()
        waits.join()
        return written_out(form)

    monkeypatch.setattr(Form, "whole", property(whole))
    fresh = Relation(**vars_of(TRIANGLE)).solve_for(SIDE)
    assert fresh.compiled(3.0, 4.0) == [5]
    assert asked == [False]


@pytest.mark.parametrize(
    "inputs", [{}, {"base_line": 3}, {"base_line": 3, "rise": 4, "side": 5}, {"base": 3, "rise": 4}]
)
def test_wrong_keywords_are_a_type_error(inputs: dict[str, float]) -> None:
    """Missing, surplus and misspelled inputs are refused with the names that are needed."""
    with pytest.raises(TypeError, match="triangle needs exactly: base_line, rise"):
        TRIANGLE.solve_for(SIDE).value(**inputs)


# ---- roots without a closed form ---------------------------------------------------------


def test_a_root_undoes_its_equation() -> None:
    """A root found numerically leads back to the turn that it began with."""
    turns = np.array([0.0, 0.2, 1.0, 2.5, 3.0])
    lifts = CAM.solve_for(LIFT).value(turn=turns, size=4.0)
    np.testing.assert_allclose(CAM.solve_for(TURN).value(lift=lifts, size=4.0), turns, atol=1e-12)


def test_a_root_broadcasts_and_agrees_with_scalars() -> None:
    """A column of lifts and a row of sizes give every combination, each as a scalar would."""
    lifts, sizes = np.array([[1.0], [2.0], [3.0]]), np.array([2.0, 4.0])
    table = CAM.solve_for(TURN).value(lift=lifts, size=sizes)
    one = CAM.solve_for(TURN).value(lift=3.0, size=2.0)
    assert table.shape == (3, 2)
    assert type(one) is float
    assert table[2, 0] == pytest.approx(one, rel=1e-12)


def test_partials_of_a_root_match_central_differences() -> None:
    """The implicit partials of a root are what small steps of the inputs give."""
    formula, inputs, step = CAM.solve_for(TURN), {"lift": 3.0, "size": 2.0}, 1e-5
    value, partials = formula.value_and_partials(**inputs)
    assert value == formula.value(**inputs)
    for name, at in inputs.items():
        ahead = formula.value(**{**inputs, name: at + step})
        behind = formula.value(**{**inputs, name: at - step})
        assert partials[name] == pytest.approx((ahead - behind) / (2 * step), rel=1e-8)


def test_a_root_outside_its_bracket_is_no_answer() -> None:
    """Where the bracket holds no root there is no answer, in an array as for a scalar."""
    with pytest.raises(NoAnswer, match="No turn satisfies the relation 'cam'"):
        CAM.solve_for(TURN).value(lift=100.0, size=1.0)
    with pytest.raises(NoAnswer, match="lift of the cam 100 mm"):
        CAM.solve_for(TURN).value(lift=np.array([1.0, 100.0]), size=1.0)


def test_working_of_a_root_shows_the_equation_filled_in() -> None:
    """For want of a closed form the working shows the equation, the figures and the root."""
    lines = CAM.solve_for(TURN).working_text(lift=3.0, size=2.0)
    assert lines[0].startswith("y = r·(")
    assert lines[1].startswith("3 = 2·(")
    assert "φ" in lines[1]
    assert lines[2] == f"φ = {CAM.solve_for(TURN).value(lift=3.0, size=2.0):.6g} rad"


# ---- working -----------------------------------------------------------------------------


def test_working_goes_step_by_step() -> None:
    """Each step is shown in letters, in figures and as a result with its unit."""
    assert TRIANGLE.solve_for(SIDE).working_text(base_line=3.0, rise=4.0) == (
        "q = b² + a² = 4² + 3² = 25",
        "c = √(q) = √(25) = 5 mm",
    )
    assert TRIANGLE.solve_for(SIDE).working(base_line=3.0, rise=4.0) == (
        "q = b^{2} + a^{2} = 4^{2} + 3^{2} = 25",
        r"c = \sqrt{q} = \sqrt{25} = 5\,\mathrm{mm}",
    )


def test_working_of_infinity() -> None:
    """An infinite input is shown by its sign."""
    end = TRIANGLE.solve_for(SIDE).working_text(base_line=math.inf, rise=4.0)[-1]
    assert end == "c = √(q) = √(∞) = ∞ mm"


def test_working_checks_its_inputs() -> None:
    """The working refuses what the value would refuse."""
    with pytest.raises(OutOfRange):
        TRIANGLE.solve_for(SIDE).working(base_line=-3.0, rise=4.0)


def test_a_formula_is_compiled_only_when_used() -> None:
    """Making a formula compiles nothing; its value compiles the value alone."""
    formula = Formula(TRIANGLE, Form(SIDE, exp(a) + b))
    assert "compiled" not in vars(formula)
    formula.value(base_line=1.0, rise=0.0)
    assert "compiled" in vars(formula)
    assert "compiled_with_partials" not in vars(formula)


# ---- steps handed on to other relations --------------------------------------------------


def test_steps_lead_to_the_unknown() -> None:
    """The steps handed on end in the unknown, and each builds on those before it."""
    assert TRIANGLE.steps_to(SIDE) == ((SQUARE, a**2 + b**2), (SIDE, sqrt(q)))
    assert TRIANGLE.last_step(SIDE) == sqrt(q)


def test_steps_are_handed_on_under_other_names() -> None:
    """A quantity that is called otherwise is so as the name of a step and inside of others."""
    run, hip = (Quantity(n, n, n, "mm", n, Range.positive()) for n in ("run", "hip"))
    steps = TRIANGLE.steps_to(SIDE, {BASE: run, SIDE: hip})
    assert steps == ((SQUARE, run.symbol**2 + b**2), (hip, sqrt(q)))
