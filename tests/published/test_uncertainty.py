"""The uncertainty engine against the GUM's own examples and two independent engines.

GUM is JCGM 100:2008, the Guide to the Expression of Uncertainty in Measurement; JCGM 101:2008
is its Supplement 1. The models below are written once and differentiated three times: by the
engine, by GTC and by the package uncertainties.
"""

import math
import random
import statistics
from collections.abc import Callable
from typing import Any

import GTC
import numpy
import pytest
import sympy
import uncertainties
import uncertainties.umath
from uncertainties import ufloat

from optics.errors import OutOfRange
from optics.measure.monte_carlo import drawn, middle
from optics.measure.uncertainty import (
    Estimate,
    Source,
    budget,
    combine,
    conformity,
    correlated,
    coverage_factor,
    exact,
    from_distances,
    from_repeats,
    within,
)
from optics.measure.verdict import Guard, Verdict, judge
from optics.relation import Form, Formula, Quantity, Relation
from optics.theory import collimation, lens

Rule = Callable[..., Any]


def formula(rule: Rule, *names: str) -> Formula:
    """Turn a rule of plain arithmetic into a formula of the engine."""
    inputs = tuple(Quantity(name, name, name, "", name) for name in names)
    answer = Quantity("answer", "y", "y", "", "answer")
    expression = rule(sympy, *(q.symbol for q in inputs))
    relation = Relation(
        name="model",
        answers="What does the model give?",
        equation=sympy.Eq(answer.symbol, expression),
        quantities=(answer, *inputs),
        forms=(Form(answer, expression),),
        source="the test",
        limits="none",
    )
    return relation.solve_for(answer)


def known(value: float, standard: float, dof: float = math.inf, name: str = "") -> Estimate:
    """Give an estimate of its own source."""
    return Estimate(value, {Source(name, dof): standard})


def correlation(one: Estimate, other: Estimate) -> float:
    """Return the correlation that shared sources leave between two estimates."""
    shared = math.fsum(part * other.parts.get(source, 0.0) for source, part in one.parts.items())
    return shared / (one.standard * other.standard)


# The t factors: GUM table G.2, printed the same in NIST TN 1297 table B.1. One figure of the
# print is itself wrong: t for 35 degrees of freedom and 90 % is 1.690, and 1.70 is printed.
# The levels 68.27, 95.45 and 99.73 % stand for one, two and three standard deviations.
ONE, TWO, THREE = (math.erf(k / math.sqrt(2)) for k in (1, 2, 3))
LEVELS = (ONE, 0.90, 0.95, TWO, 0.99, THREE)
TABLE_G_2 = """
1     1.84  6.31  12.71 13.97 63.66 235.80
2     1.32  2.92  4.30  4.53  9.92  19.21
3     1.20  2.35  3.18  3.31  5.84  9.22
4     1.14  2.13  2.78  2.87  4.60  6.62
5     1.11  2.02  2.57  2.65  4.03  5.51
6     1.09  1.94  2.45  2.52  3.71  4.90
7     1.08  1.89  2.36  2.43  3.50  4.53
8     1.07  1.86  2.31  2.37  3.36  4.28
9     1.06  1.83  2.26  2.32  3.25  4.09
10    1.05  1.81  2.23  2.28  3.17  3.96
11    1.05  1.80  2.20  2.25  3.11  3.85
12    1.04  1.78  2.18  2.23  3.05  3.76
13    1.04  1.77  2.16  2.21  3.01  3.69
14    1.04  1.76  2.14  2.20  2.98  3.64
15    1.03  1.75  2.13  2.18  2.95  3.59
16    1.03  1.75  2.12  2.17  2.92  3.54
17    1.03  1.74  2.11  2.16  2.90  3.51
18    1.03  1.73  2.10  2.15  2.88  3.48
19    1.03  1.73  2.09  2.14  2.86  3.45
20    1.03  1.72  2.09  2.13  2.85  3.42
25    1.02  1.71  2.06  2.11  2.79  3.33
30    1.02  1.70  2.04  2.09  2.75  3.27
35    1.01  1.70  2.03  2.07  2.72  3.23
40    1.01  1.68  2.02  2.06  2.70  3.20
45    1.01  1.68  2.01  2.06  2.69  3.18
50    1.01  1.68  2.01  2.05  2.68  3.16
100   1.005 1.660 1.984 2.025 2.626 3.077
inf   1.000 1.645 1.960 2.000 2.576 3.000
"""
MISPRINTED = {("35", 0.90): "1.69"}
T_FACTORS = [
    (row.split()[0], level, MISPRINTED.get((row.split()[0], level), printed))
    for row in TABLE_G_2.strip().splitlines()
    for level, printed in zip(LEVELS, row.split()[1:], strict=True)
]


def half_last_digit(printed: str) -> float:
    """Return half a unit of the last place of a printed figure, and a hair for ties."""
    return 0.5 * 10.0 ** -len(printed.partition(".")[2]) * 1.0001


@pytest.mark.parametrize(("dof", "level", "printed"), T_FACTORS)
def test_the_coverage_factor_is_the_printed_t(dof: str, level: float, printed: str) -> None:
    """The coverage factor agrees with every figure of GUM table G.2 to its last digit."""
    factor = coverage_factor(float(dof), level)
    assert factor == pytest.approx(float(printed), abs=half_last_digit(printed))


def test_three_readings_need_a_factor_of_4_30() -> None:
    """Three repeated readings have two degrees of freedom and k 4.30 (GUM table G.2)."""
    assert from_repeats([1.0, 1.1, 1.3], 0.0, "reading").coverage == pytest.approx(4.30, abs=0.005)


# GUM 4.4.3 and table 1: twenty readings of a temperature in °C. The twenty values are given
# from memory; their mean and both deviations are the printed ones.
TEMPERATURES = (
    96.90,
    98.18,
    98.25,
    98.61,
    99.03,
    99.49,
    99.56,
    99.74,
    99.89,
    100.07,
    100.33,
    100.42,
    100.68,
    100.95,
    101.11,
    101.20,
    101.57,
    101.84,
    102.36,
    102.72,
)


def test_gum_4_4_3_twenty_readings() -> None:
    """Twenty readings give mean 100.145 and standard uncertainty 0.333 (GUM 4.4.3)."""
    mean = from_repeats(TEMPERATURES, 0.0, "temperature")
    assert mean.value == pytest.approx(100.145, abs=0.0005)
    assert mean.standard == pytest.approx(0.333, abs=0.0005)
    assert mean.standard * math.sqrt(20) == pytest.approx(1.489, abs=0.0005)
    assert mean.dof == pytest.approx(19)


def test_gum_g_4_1_product_of_three() -> None:
    """A product of three inputs has u 1.03 %, 19.0 degrees of freedom and U 2.2 % (GUM G.4.1)."""
    product = combine(
        formula(lambda m, a, b, c: a * b * c, "a", "b", "c"),
        a=known(1.0, 0.0025, 9),
        b=known(1.0, 0.0057, 4),
        c=known(1.0, 0.0082, 14),
    )
    assert product.standard == pytest.approx(0.0103, abs=0.00005)
    # The print takes whole degrees of freedom; unrounded they are 18.9987, hence U is tested.
    assert product.dof == pytest.approx(19.0, abs=0.05)
    assert product.expanded == pytest.approx(0.022, abs=0.0005)


def end_gauge() -> Estimate:
    """Give GUM H.1, calibration of an end gauge in nm, with the data of GTC's documentation."""
    difference = known(215.0, 5.8, 24).plus(known(0.0, 3.9, 5)).plus(known(0.0, 6.7, 8))
    # A cyclic variation of ± 0.5 °C spreads as an arcsine, u = limit/√2 (GUM H.1.3.4).
    theta = known(-0.1, 0.2).plus(known(0.0, 0.5 / math.sqrt(2)))
    return combine(
        formula(
            lambda m, ls, d, da, th, al, dt: ls + d - ls * (da * th + al * dt),
            *("standard", "difference", "coefficients", "theta", "coefficient", "warmer"),
        ),
        standard=known(50000623.0, 25.0, 18),
        difference=difference,
        coefficients=known(0.0, 1e-6 / math.sqrt(3), 50),
        theta=theta,
        coefficient=within(11.5e-6, 2e-6, "coefficient"),
        warmer=known(0.0, 0.05 / math.sqrt(3), 2),
    )


def test_gum_h_1_end_gauge() -> None:
    """The end gauge is 50 000 838 nm with u 32 nm and 16 degrees of freedom (GUM H.1)."""
    length = end_gauge()
    assert length.value == 50000838.0
    assert length.standard == pytest.approx(32, abs=0.5)
    # The print cuts 16.7 off to 16. From the printed 32 nm it would be 17.5.
    assert math.floor(length.dof) == 16
    assert length.dof == pytest.approx(16.7, abs=0.1)


def test_gum_h_1_expanded_at_99_percent() -> None:
    """The end gauge's expanded uncertainty at 99 % is 93 nm, from rounded u and ν (GUM H.1.6)."""
    length = end_gauge()
    factor = coverage_factor(math.floor(length.dof), level=0.99)
    assert factor == pytest.approx(2.92, abs=0.005)
    assert factor * round(length.standard) == pytest.approx(93, abs=0.5)


# GUM table H.2: five simultaneous readings of volt, milliampere and radian. The readings are
# given from memory; every printed mean, deviation, correlation and result below follows.
VOLTS = (5.007, 4.994, 5.005, 4.990, 4.999)
MILLIAMPERES = (19.663, 19.639, 19.640, 19.685, 19.678)
RADIANS = (1.0456, 1.0438, 1.0468, 1.0428, 1.0433)


def read_together(*columns: tuple[float, ...]) -> list[Estimate]:
    """Give the means of simultaneous readings; each set of readings is a source they share."""
    count = len(columns[0])
    sources = [Source(f"set {number}") for number in range(1, count + 1)]
    estimates = []
    for column in columns:
        mean = math.fsum(column) / count
        scale = math.sqrt(count * (count - 1))
        parts = {s: (x - mean) / scale for s, x in zip(sources, column, strict=True)}
        estimates.append(Estimate(mean, parts))
    return estimates


def test_gum_h_2_input_correlations() -> None:
    """Readings taken together share their sources, and correlate as printed (GUM table H.2)."""
    volt, current, angle = read_together(VOLTS, MILLIAMPERES, RADIANS)
    assert volt.standard == pytest.approx(0.0032, abs=0.00005)
    assert current.standard == pytest.approx(0.0095, abs=0.00005)
    assert angle.standard == pytest.approx(0.00075, abs=0.000005)
    assert correlation(volt, current) == pytest.approx(-0.36, abs=0.005)
    assert correlation(volt, angle) == pytest.approx(0.86, abs=0.005)
    assert correlation(current, angle) == pytest.approx(-0.65, abs=0.005)


def test_gum_h_2_resistance_reactance_impedance() -> None:
    """Correlated inputs give 127.732(71), 219.847(295) and 254.260(236) ohms (GUM H.2)."""
    volt, current, angle = read_together(VOLTS, MILLIAMPERES, RADIANS)
    amperes = exact(0.0).plus(current, 1e-3)
    inputs = {"volt": volt, "ampere": amperes, "angle": angle}
    resistance = combine(formula(lambda m, v, i, a: v / i * m.cos(a), *inputs), **inputs)
    reactance = combine(formula(lambda m, v, i, a: v / i * m.sin(a), *inputs), **inputs)
    impedance = combine(formula(lambda m, v, i: v / i, "volt", "ampere"), volt=volt, ampere=amperes)
    assert resistance.value == pytest.approx(127.732, abs=0.0005)
    assert resistance.standard == pytest.approx(0.071, abs=0.0005)
    assert reactance.value == pytest.approx(219.847, abs=0.0005)
    # 0.2956 from these readings; the guide rounds its inputs on the way and prints 0.295.
    assert reactance.standard == pytest.approx(0.295, abs=0.001)
    assert impedance.value == pytest.approx(254.260, abs=0.0005)
    assert impedance.standard == pytest.approx(0.236, abs=0.0005)
    assert correlation(resistance, reactance) == pytest.approx(-0.588, abs=0.0005)
    assert correlation(resistance, impedance) == pytest.approx(-0.485, abs=0.0005)
    assert correlation(reactance, impedance) == pytest.approx(0.993, abs=0.0005)


# GUM table H.6, as in GTC's example of H.3: thermometer reading and correction in °C.
THERMOMETER = (
    21.521,
    22.012,
    22.512,
    23.003,
    23.507,
    23.999,
    24.513,
    25.002,
    25.503,
    26.010,
    26.511,
)
CORRECTION = (
    -0.171,
    -0.169,
    -0.166,
    -0.159,
    -0.164,
    -0.165,
    -0.156,
    -0.157,
    -0.159,
    -0.161,
    -0.160,
)


def calibration_line() -> tuple[Estimate, Estimate]:
    """Fit a line by least squares: intercept at 20 °C and slope as sums of the same readings."""
    # The eleven readings share one scatter, 0.0035 °C as printed, taken as known.
    count = len(THERMOMETER)
    away = [t - 20.0 for t in THERMOMETER]
    mean = math.fsum(away) / count
    spread = math.fsum((a - mean) ** 2 for a in away)
    slope = intercept = exact(0.0)
    for a, b in zip(away, CORRECTION, strict=True):
        reading = known(b, 0.0035)
        slope = slope.plus(reading, (a - mean) / spread)
        intercept = intercept.plus(reading, 1 / count - mean * (a - mean) / spread)
    return intercept, slope


def test_gum_h_3_calibration_line() -> None:
    """The line is −0.1712(29) + 0.00218(67)·(t − 20) with r −0.93 (GUM H.3)."""
    intercept, slope = calibration_line()
    assert intercept.value == pytest.approx(-0.1712, abs=0.00005)
    assert intercept.standard == pytest.approx(0.0029, abs=0.00005)
    assert slope.value == pytest.approx(0.00218, abs=0.000005)
    assert slope.standard == pytest.approx(0.00067, abs=0.000005)
    assert correlation(intercept, slope) == pytest.approx(-0.930, abs=0.0005)


def test_gum_h_3_correction_at_30_degrees() -> None:
    """The correction at 30 °C is −0.1494(41), its two parts being correlated (GUM H.3.4)."""
    intercept, slope = calibration_line()
    correction = intercept.plus(slope, 10.0)
    assert correction.value == pytest.approx(-0.1494, abs=0.00005)
    assert correction.standard == pytest.approx(0.0041, abs=0.00005)


def test_jcgm_101_9_2_3_four_rectangular() -> None:
    """Four rectangular inputs of u 1 add up to u 2.00, and the GUM's U is 3.92 (JCGM 101 9.2.3)."""
    total = exact(0.0)
    for number in range(4):
        total = total.plus(within(0.0, math.sqrt(3), f"input {number}"))
    assert total.standard == pytest.approx(2.00, abs=0.005)
    assert total.expanded == pytest.approx(3.92, abs=0.005)


def test_jcgm_101_9_2_3_the_normal_factor_errs_on_the_safe_side() -> None:
    """The analytic 95 % interval of four rectangular inputs, ± 3.8794, lies inside the GUM's."""
    total = exact(0.0)
    for number in range(4):
        total = total.plus(within(0.0, math.sqrt(3), f"input {number}"))
    assert 3.8794 < total.expanded < 3.8794 * 1.011


# ---------------------------------------------------------------- independent engines

RULES: tuple[Rule, ...] = (
    lambda m, a, b, c: a * b / c,
    lambda m, a, b, c: m.sqrt(a * a + b * b) - c,
    lambda m, a, b, c: a * m.sin(b) + c * m.cos(a),
    lambda m, a, b, c: m.exp(-a / 7) + b * c,
    lambda m, a, b, c: a + b - c,
    lambda m, a, b, c: 1 / (1 / a - 1 / (b + 20)) + c * c,
)
FORMULAS = tuple(formula(rule, "a", "b", "c") for rule in RULES)


def random_base(chance: random.Random) -> list[tuple[float, dict[int, float]]]:
    """Draw three inputs, each with a source of its own and one shared by all, as numbers."""
    return [
        (chance.uniform(1, 9), {i: chance.uniform(0.01, 0.2), 3: chance.uniform(-0.2, 0.2)})
        for i in range(3)
    ]


def chained(chance: random.Random, base: list[Any], apply: Callable[..., Any]) -> Any:
    """Run a random model of two stages, whose second stage shares all inputs with the first."""
    first = apply(chance.randrange(len(RULES)), *base)
    second = apply(chance.randrange(len(RULES)), base[2], base[0], base[1])
    third = apply(1, first, second, base[0])
    return third, second


SEEDS = range(40)


def engine_answer(seed: int, dofs: list[float]) -> Estimate:
    """Run the random model through the engine."""
    chance = random.Random(seed)
    sources = [Source(f"source {i}", dof) for i, dof in enumerate(dofs)]
    base = [
        Estimate(value, {sources[i]: part for i, part in parts.items()})
        for value, parts in random_base(chance)
    ]
    third, second = chained(chance, base, lambda i, a, b, c: combine(FORMULAS[i], a=a, b=b, c=c))
    return third.plus(second, -0.7)


def other_answer(seed: int, causes: list[Any], maths: Any) -> Any:
    """Run the same model through another engine, whose causes have mean 0 and deviation 1."""
    chance = random.Random(seed)
    base = [
        value + sum(part * causes[i] for i, part in parts.items())
        for value, parts in random_base(chance)
    ]
    third, second = chained(chance, base, lambda i, a, b, c: RULES[i](maths, a, b, c))
    return third - 0.7 * second


@pytest.mark.parametrize("seed", SEEDS)
def test_random_models_agree_with_gtc(seed: int) -> None:
    """Value, uncertainty and degrees of freedom of random models with a shared source are GTC's."""
    dofs = [float(random.Random(-seed - 1).choice((2, 3, 5, 11, math.inf))) for _ in range(4)]
    ours = engine_answer(seed, dofs)
    theirs = other_answer(seed, [GTC.ureal(0, 1, dof) for dof in dofs], GTC)
    assert ours.value == pytest.approx(theirs.x, rel=1e-12)
    assert ours.standard == pytest.approx(theirs.u, rel=1e-10)
    assert ours.dof == pytest.approx(theirs.df, rel=1e-8)


@pytest.mark.parametrize("seed", SEEDS)
def test_random_models_agree_with_uncertainties(seed: int) -> None:
    """Value and uncertainty of random models with a shared source are the package's."""
    ours = engine_answer(seed, [math.inf] * 4)
    theirs = other_answer(seed, [ufloat(0, 1) for _ in range(4)], uncertainties.umath)
    assert ours.value == pytest.approx(theirs.nominal_value, rel=1e-12)
    assert ours.standard == pytest.approx(theirs.std_dev, rel=1e-10)


def test_the_ruler_chain_agrees_with_gtc() -> None:
    """A ruler's offset carried to the sharp distance and on to the film has GTC's uncertainty."""
    aim, offset = within(1500.0, 3.0, "aim"), from_repeats([38.0, 41.0, 40.0], 0.5, "offset")
    slope = within(0.7, 0.02, "slope")
    sharp = combine(
        collimation.tilted_ruler.solve_for("sharp_distance"),
        aim_distance=aim,
        ruler_offset=offset,
        ruler_slope=slope,
    )
    error = combine(
        lens.mark_error.solve_for("focus_error"),
        sharp_distance=sharp,
        mark_distance=exact(1500.0),
        focal_length=exact(75.0),
        hiatus=exact(-2.0),
    )
    rectangular = GTC.type_b.uniform
    repeats = GTC.type_a.estimate([38.0, 41.0, 40.0]) + GTC.ureal(0, rectangular(0.5))
    distance = GTC.ureal(1500, rectangular(3)) - repeats * GTC.cos(
        GTC.ureal(0.7, rectangular(0.02))
    )
    # The lens stands where D = 2f + h + x + f²/x, whose lesser root is taken here by radicals.
    reach = distance + 2 - 150
    mark = 1500 + 2 - 150
    theirs = (reach - GTC.sqrt(reach**2 - 4 * 75**2)) / 2 - (
        mark - math.sqrt(mark**2 - 4 * 75**2)
    ) / 2
    assert error.value == pytest.approx(theirs.x, rel=1e-9)
    assert error.standard == pytest.approx(theirs.u, rel=1e-8)
    assert error.dof == pytest.approx(theirs.df, rel=1e-6)


def test_distances_are_averaged_where_the_lens_is_straight_in_them() -> None:
    """Tries far apart give the mean error of the tries, not the error at their mean distance."""
    # Each try's own error, by the lens formula written anew; GTC takes their mean (GUM 4.1.4,
    # note, the second way).
    tries, f = [5000.0, 50_000.0, 7000.0], 50.0
    rule = lens.mark_error.solve_for("focus_error")
    sharp = from_distances(tries, 0.0, "distance")
    error = combine(
        rule,
        sharp_distance=sharp,
        mark_distance=exact(math.inf),
        focal_length=exact(f),
        hiatus=exact(0.0),
    )

    def extension(d: float) -> float:
        return (d - 2 * f - math.sqrt((d - 2 * f) ** 2 - 4 * f**2)) / 2

    theirs = GTC.type_a.estimate([extension(d) for d in tries], label="tries")
    # Straight in 1/D but for the lens's own thickness on the tape, 2f/D: two parts in a hundred.
    assert error.value == pytest.approx(theirs.x, rel=0.02)
    assert error.standard == pytest.approx(theirs.u, rel=0.04)
    assert error.dof == theirs.df
    assert sharp.value == pytest.approx(statistics.harmonic_mean(tries))


def test_infinity_may_be_one_try_among_several() -> None:
    """A try sharp at infinity counts as no nearness at all; with none else it stays infinity."""
    assert from_distances([math.inf, 300e3, math.inf], 0.0, "distance").value == pytest.approx(
        900e3
    )
    only = from_distances([math.inf, math.inf], 0.0, "distance")
    assert (only.value, only.standard) == (math.inf, 0.0)


def test_a_distance_of_nothing_is_refused() -> None:
    """A try of 0 is no distance; it is refused in words."""
    with pytest.raises(ValueError, match=r"^The distance must be more than 0 mm: got 0 mm"):
        from_distances([1000.0, 0.0], 0.0, "distance")


# ---------------------------------------------------------------- what must hold besides


def test_a_figure_is_known_no_better_for_having_been_moved() -> None:
    """A well known move after two tries raises the degrees of freedom, but U does not fall."""
    read = from_repeats([0.120, 0.126], 0.0, "reading")
    assert read.coverage == pytest.approx(12.71, abs=0.005)
    after = read.moved(within(-0.12, 0.012, "setting"))
    assert after.standard > read.standard
    assert after.coverage * after.standard < read.expanded
    assert after.expanded == read.expanded
    # Where the move is the worse known of the two, its own doubt shows.
    assert read.moved(within(-0.12, 0.2, "setting")).expanded > read.expanded


def test_a_figure_less_itself_is_certain() -> None:
    """A figure taken from itself leaves nothing and no uncertainty, the source being shared."""
    figure = from_repeats([1.0, 1.1, 1.3], 0.02, "reading")
    nothing = figure.plus(figure, -1.0)
    assert (nothing.value, nothing.standard, nothing.expanded) == (0.0, 0.0, 0.0)


def test_two_instruments_of_one_kind_do_not_share_their_error() -> None:
    """Two figures with limits of the same name stay independent: 3 and 4 make 5."""
    root = math.sqrt(3)
    total = within(0.0, 3.0, "caliper").plus(within(0.0, 4.0, "caliper"))
    assert total.standard * root == pytest.approx(5.0)


def test_the_budget_shares_add_up_to_the_whole() -> None:
    """The budget names each source once, largest first, and its shares add up to one."""
    lines = list(budget(end_gauge()))
    assert math.fsum(share for *_, share in lines) == pytest.approx(1.0)
    sizes = [size for _, size, _ in lines]
    assert sizes == sorted(sizes, reverse=True)
    # GUM table H.1 prints 25 nm for the standard and 16.6 nm for the temperature difference.
    assert sizes[:2] == pytest.approx([25, 16.6], abs=0.05)


def test_a_tiny_uncertainty_is_still_one() -> None:
    """An uncertainty too small to be squared keeps its size and its degrees of freedom."""
    tiny = Estimate(1.0, {Source("tiny", 4): 3e-200, Source("other", math.inf): 4e-200})
    assert tiny.standard == pytest.approx(5e-200)
    # Worked by hand: 1/((3/5)⁴/4) = 4·625/81.
    assert tiny.dof == pytest.approx(4 * 625 / 81)
    assert [share for *_, share in budget(tiny)] == pytest.approx([16 / 25, 9 / 25])


@pytest.mark.parametrize("limit", [-0.1, math.inf, math.nan])
def test_a_limit_that_is_none_is_refused(limit: float) -> None:
    """A limit below zero, without end or not a number is refused in words."""
    with pytest.raises(ValueError, match=r"^The limit of gauge must be zero or more and finite"):
        within(1.0, limit, "gauge")


def test_no_reading_and_an_infinite_repeat_are_refused() -> None:
    """No reading at all, and infinity among several, are refused in words."""
    with pytest.raises(ValueError, match=r"^The gauge needs at least one reading: got none"):
        from_repeats([], 0.1, "gauge")
    with pytest.raises(ValueError, match=r"^Repeated readings of gauge must all be finite"):
        from_repeats([1.0, math.inf], 0.1, "gauge")
    assert from_repeats([math.inf], 0.1, "gauge").value == math.inf


# ---------------------------------------------------------------- conformity and guard bands


@pytest.mark.parametrize(("dof", "level", "printed"), T_FACTORS)
def test_conformity_within_k_is_the_level(dof: str, level: float, printed: str) -> None:
    """A figure at the middle of ± k·u conforms with the level of GUM table G.2."""
    share = conformity(Estimate(0.0, {Source("u", float(dof)): 1.0}), float(printed))
    # A k rounded in its last digit shifts the level by as much times twice the density there.
    assert share == pytest.approx(level, abs=2 * 0.25 * half_last_digit(printed) + 1e-4)


def test_conformity_at_the_edge_is_one_half() -> None:
    """A figure at its limit conforms as often as not (JCGM 106:2012, ILAC-G8:09/2019)."""
    assert conformity(known(1.0, 0.01), 1.0) == pytest.approx(0.5)
    assert conformity(exact(1.0), 1.0) == 1.0
    assert conformity(exact(-1.001), 1.0) == 0.0


def test_with_a_guard_band_of_u_no_more_than_1_in_40_is_wrongly_accepted() -> None:
    """A figure U inside its limit is outside it with 2.5 % (ILAC-G8:09/2019, w = U)."""
    figure = known(0.0, 0.1)
    at_the_edge = Estimate(1.0 - figure.expanded, figure.parts)
    assert 1 - conformity(at_the_edge, 1.0) == pytest.approx(0.025, abs=1e-6)
    assert judge(at_the_edge, 1.0) is Verdict.INSIDE
    assert judge(Estimate(at_the_edge.value + 1e-9, figure.parts), 1.0) is Verdict.UNSURE


def test_without_a_guard_band_the_figure_alone_decides() -> None:
    """With w = 0 a figure just inside is accepted and one just outside is not (ILAC-G8)."""
    assert judge(known(0.999, 0.1), 1.0, Guard.NONE) is Verdict.INSIDE
    assert judge(known(1.001, 0.1), 1.0, Guard.NONE) is Verdict.OUTSIDE


# ---------------------------------------------------------------- covariances and draws

# GUM table H.2: standard uncertainties in V, mA and rad, and correlations, all to the digits
# that follow from the readings above.
H_2_COLUMNS = (VOLTS, MILLIAMPERES, RADIANS)


def h_2_covariance() -> numpy.ndarray:
    """Give the covariance of the three means, as numpy works it out."""
    return numpy.cov(numpy.array(H_2_COLUMNS)) / len(VOLTS)


def h_2_results(
    volt: Estimate, milliampere: Estimate, angle: Estimate
) -> tuple[Estimate, Estimate, Estimate]:
    """Give resistance, reactance and impedance."""
    inputs = {"volt": volt, "ampere": exact(0.0).plus(milliampere, 1e-3), "angle": angle}
    rules: tuple[Rule, ...] = (
        lambda m, v, i, a: v / i * m.cos(a),
        lambda m, v, i, a: v / i * m.sin(a),
        lambda m, v, i, a: v / i,
    )
    resistance, reactance, impedance = (combine(formula(rule, *inputs), **inputs) for rule in rules)
    return resistance, reactance, impedance


def test_gum_h_2_from_a_covariance_matrix() -> None:
    """From means and covariance matrix H.2 gives what it gives from readings, and GTC gives."""
    means = [math.fsum(column) / len(column) for column in H_2_COLUMNS]
    ours = h_2_results(*correlated(means, h_2_covariance(), "means", dof=4))
    volt, current, angle = GTC.type_a.multi_estimate_real(H_2_COLUMNS)
    theirs = (
        volt / (current / 1000) * GTC.cos(angle),
        volt / (current / 1000) * GTC.sin(angle),
        volt / (current / 1000),
    )
    for one, other in zip(ours, theirs, strict=True):
        assert one.value == pytest.approx(other.x, rel=1e-12)
        assert one.standard == pytest.approx(other.u, rel=1e-9)
    assert ours[0].standard == pytest.approx(0.071, abs=0.0005)
    assert correlation(ours[0], ours[1]) == pytest.approx(-0.588, abs=0.0005)


def test_gum_h_2_from_a_covariance_matrix_agrees_with_uncertainties() -> None:
    """From the covariance matrix H.2 has the package's values and uncertainties."""
    means = [math.fsum(column) / len(column) for column in H_2_COLUMNS]
    ours = h_2_results(*correlated(means, h_2_covariance(), "means"))
    volt, current, angle = uncertainties.correlated_values(means, h_2_covariance())
    theirs = (
        volt / (current / 1000) * uncertainties.umath.cos(angle),
        volt / (current / 1000) * uncertainties.umath.sin(angle),
        volt / (current / 1000),
    )
    for one, other in zip(ours, theirs, strict=True):
        assert one.value == pytest.approx(other.nominal_value, rel=1e-12)
        assert one.standard == pytest.approx(other.std_dev, rel=1e-9)


def test_gum_h_2_by_draws() -> None:
    """A hundred thousand draws of H.2's results repeat their uncertainties and correlations."""
    means = [math.fsum(column) / len(column) for column in H_2_COLUMNS]
    results = h_2_results(*correlated(means, h_2_covariance(), "means"))
    draws = drawn(results)
    assert draws.std(axis=0) == pytest.approx([r.standard for r in results], rel=0.01)
    assert numpy.corrcoef(draws.T)[0, 1] == pytest.approx(-0.588, abs=0.01)
    assert numpy.corrcoef(draws.T)[1, 2] == pytest.approx(0.993, abs=0.001)


def test_gum_h_3_from_a_covariance_matrix() -> None:
    """Intercept and slope with printed u and r give −0.1494(41) at 30 °C, as GTC's fit does."""
    # The correlation is printed as −0.930 and both uncertainties with two digits.
    fit = GTC.type_a.line_fit([t - 20.0 for t in THERMOMETER], CORRECTION)
    intercept, slope = fit.a_b
    shared = -0.930 * 0.0029 * 0.00067
    matrix = [[0.0029**2, shared], [shared, 0.00067**2]]
    ours = correlated([-0.1712, 0.00218], matrix, "line", dof=9)
    at_30 = ours[0].plus(ours[1], 10.0)
    assert at_30.value == pytest.approx(-0.1494, abs=0.00006)
    assert at_30.standard == pytest.approx(0.0041, abs=0.00015)
    theirs = intercept + 10 * slope
    assert at_30.value == pytest.approx(theirs.x, abs=0.0001)
    assert at_30.standard == pytest.approx(theirs.u, abs=0.00015)
    line = calibration_line()
    for one, other in zip(line, (intercept, slope), strict=True):
        assert one.value == pytest.approx(other.x, rel=1e-9)
        assert one.standard == pytest.approx(other.u, rel=0.01)


def test_fully_correlated_figures_are_taken() -> None:
    """Two figures that always move together keep together, and their difference is certain."""
    one, other = correlated([1.0, 2.0], [[0.04, 0.06], [0.06, 0.09]], "pair")
    assert (one.standard, other.standard) == pytest.approx((0.2, 0.3))
    assert one.plus(other, -2 / 3).standard == pytest.approx(0.0, abs=1e-8)


@pytest.mark.parametrize(
    ("matrix", "words"),
    [
        ([[1.0, 0.5], [0.4, 1.0]], "must be symmetric with 2 rows and columns"),
        ([[1.0]], "must be symmetric with 2 rows and columns"),
        ([[1.0, 2.0], [2.0, 1.0]], "a variance of zero or more"),
    ],
)
def test_what_is_no_covariance_is_refused(matrix: list[list[float]], words: str) -> None:
    """A matrix that is no covariance of the figures is refused in words."""
    with pytest.raises(ValueError, match=words):
        correlated([1.0, 2.0], matrix, "pair")


def test_jcgm_101_9_2_3_by_draws() -> None:
    """Four rectangular inputs drawn by chance have the printed ± 3.88 at 95 % (JCGM 101 9.2.3)."""
    total = exact(0.0)
    for number in range(4):
        total = total.plus(within(0.0, math.sqrt(3), f"input {number}"))
    low, high = middle(drawn([total], count=1_000_000)[:, 0])
    # A million draws settle each end to about 0.005.
    assert (low, high) == pytest.approx((-3.8794, 3.8794), abs=0.02)


@pytest.mark.parametrize("dof", [0, -1, math.nan])
def test_no_coverage_without_a_degree_of_freedom(dof: float) -> None:
    """Below one degree of freedom there is no factor, and that is said."""
    with pytest.raises(OutOfRange, match=r"^The degrees of freedom must be at least 1: got"):
        coverage_factor(dof)


@pytest.mark.parametrize("level", [0.0, 1.0, 95.0, math.nan])
def test_a_level_lies_between_nothing_and_certainty(level: float) -> None:
    """A level of 95 is refused, as 0.95 is meant."""
    with pytest.raises(OutOfRange, match=r"^The level of confidence must be between 0 and 1: got"):
        coverage_factor(10, level)


def test_what_is_not_a_number_is_not_known_within_anything() -> None:
    """A figure that is not a number is refused, alone and among repeated readings."""
    for figure in (
        lambda: within(math.nan, 1.0, "gauge"),
        lambda: from_repeats([1.0, math.nan], 0.0, "gauge"),
        lambda: from_repeats([math.nan], 0.1, "gauge"),
    ):
        with pytest.raises(OutOfRange, match=r"^The gauge is not a number; enter it again\.$"):
            figure()
