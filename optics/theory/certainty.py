"""How well a figure is known: repeats, instrument limits, and two readings of one thing."""

from sympy import Eq, sqrt

from optics.relation import Form, Quantity, Range, Relation

standard_uncertainty = Quantity(
    "standard_uncertainty", "u", "u", "mm", "standard uncertainty of the result", Range.positive()
)
scatter = Quantity(
    "scatter", "s_r", "sᵣ", "mm", "standard deviation of the repeats", Range.at_least(0)
)
repeats = Quantity("repeats", "n_r", "nᵣ", "", "number of repeats", Range.at_least(1))
half_width = Quantity(
    "half_width", "a", "a", "mm", "limit of the instrument, each way", Range.at_least(0)
)
_u, _s, _n, _a = (q.symbol for q in (standard_uncertainty, scatter, repeats, half_width))

mean_uncertainty = Relation(
    name="mean_uncertainty",
    answers="How well is the mean of some repeats known, read on an instrument with a limit?",
    equation=Eq(_u**2, _s**2 / _n + _a**2 / 3),
    quantities=(standard_uncertainty, scatter, repeats, half_width),
    forms=(
        Form(standard_uncertainty, sqrt(_s**2 / _n + _a**2 / 3)),
        Form(scatter, sqrt(_n * (_u**2 - _a**2 / 3))),
        Form(repeats, _s**2 / (_u**2 - _a**2 / 3)),
        Form(half_width, sqrt(3 * (_u**2 - _s**2 / _n))),
    ),
    source="JCGM 100:2008 (GUM), 4.2.3 for the repeats and 4.3.7 for the limit",
    limits="Repeats independent of each other; the limit one and the same for all of them.",
)

first_reading = Quantity("first_reading", "x_1", "x₁", "mm", "first reading")
second_reading = Quantity("second_reading", "x_2", "x₂", "mm", "second reading")
first_uncertainty = Quantity(
    "first_uncertainty",
    "u_1",
    "u₁",
    "mm",
    "standard uncertainty of the first reading",
    Range.positive(),
)
second_uncertainty = Quantity(
    "second_uncertainty",
    "u_2",
    "u₂",
    "mm",
    "standard uncertainty of the second reading",
    Range.positive(),
)
best_value = Quantity("best_value", r"\bar{x}", "x̄", "mm", "weighted mean of the two readings")
_x1, _x2, _best = first_reading.symbol, second_reading.symbol, best_value.symbol
_u1, _u2 = first_uncertainty.symbol, second_uncertainty.symbol

weighted_mean = Relation(
    name="weighted_mean",
    answers="Two readings of one thing disagree a little: what is the best value?",
    equation=Eq(_best, (_x1 / _u1**2 + _x2 / _u2**2) / (1 / _u1**2 + 1 / _u2**2)),
    quantities=(
        best_value,
        first_reading,
        first_uncertainty,
        second_reading,
        second_uncertainty,
    ),
    forms=(
        Form(best_value, (_x1 / _u1**2 + _x2 / _u2**2) / (1 / _u1**2 + 1 / _u2**2)),
        Form(first_reading, _best + (_best - _x2) * _u1**2 / _u2**2),
        Form(second_reading, _best + (_best - _x1) * _u2**2 / _u1**2),
    ),
    source="J. R. Taylor, An Introduction to Error Analysis, 2e, eq. 7.10",
    limits="Independent readings that agree within their uncertainties; else one of them is wrong.",
)

weighted_uncertainty = Relation(
    name="weighted_uncertainty",
    answers="How well are two readings of one thing known together?",
    equation=Eq(1 / _u**2, 1 / _u1**2 + 1 / _u2**2),
    quantities=(standard_uncertainty, first_uncertainty, second_uncertainty),
    forms=(
        Form(standard_uncertainty, 1 / sqrt(1 / _u1**2 + 1 / _u2**2)),
        Form(first_uncertainty, 1 / sqrt(1 / _u**2 - 1 / _u2**2)),
        Form(second_uncertainty, 1 / sqrt(1 / _u**2 - 1 / _u1**2)),
    ),
    source="J. R. Taylor, An Introduction to Error Analysis, 2e, eq. 7.12",
    limits="Independent readings; each uncertainty itself well known.",
)
