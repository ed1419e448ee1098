"""Least squares with shared sources, against a published fit and a general optimiser."""

import math

import numpy as np
import pytest
from scipy.optimize import curve_fit

from optics.errors import NoAnswer, OutOfRange
from optics.measure.least_squares import Model, carried, covariance_of, least_squares
from optics.measure.uncertainty import Estimate, Source, within

# GUM (JCGM 100:2008) H.3, table H.6: thermometer readings at t_k and their corrections b_k, °C.
GUM_T = (21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511)
GUM_B = (-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160)


def line(places: np.ndarray) -> Model:
    """A straight line: intercept and slope."""
    slopes = np.column_stack([np.ones_like(places), places])
    return lambda values: (slopes @ values, slopes)


def bend(places: np.ndarray) -> Model:
    """An exponential, bent enough to need several steps."""

    def model(values: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        grown = np.exp(values[1] * places)
        return values[0] * grown, np.column_stack([grown, values[0] * places * grown])

    return model


def test_straight_line_is_the_gum_s_own() -> None:
    """The calibration line of GUM H.3 comes out with its printed figures and correlation."""
    places, measured = np.array(GUM_T) - 20, np.array(GUM_B)
    fit = least_squares(line(places), np.zeros(2), measured, np.eye(11))
    spread = math.sqrt(fit.chi_square / fit.dof)
    assert fit.values == pytest.approx([-0.1712, 0.00218], abs=5e-5)
    assert spread * np.sqrt(np.diag(fit.covariance)) == pytest.approx([0.0029, 0.00067], abs=5e-5)
    correlation = fit.covariance[0, 1] / math.sqrt(np.prod(np.diag(fit.covariance)))
    assert correlation == pytest.approx(-0.930, abs=5e-4)


def test_bent_model_with_correlation_agrees_with_a_general_optimiser() -> None:
    """Parameters, covariance and chi-square are those of scipy's general curve fit."""
    places = np.linspace(0, 2, 9)
    noise = np.random.default_rng(3).normal(0, 0.05, 9)
    measured = 2 * np.exp(0.7 * places) + noise
    covariance = 0.05**2 * (np.eye(9) + 0.5)
    fit = least_squares(bend(places), np.array([1.0, 0.1]), measured, covariance)
    values, theirs = curve_fit(
        lambda x, a, b: a * np.exp(b * x),
        places,
        measured,
        p0=[1, 0.1],
        sigma=covariance,
        absolute_sigma=True,
        xtol=1e-14,
        ftol=1e-14,
    )
    assert fit.values == pytest.approx(values, rel=1e-6)
    assert fit.covariance == pytest.approx(theirs, rel=1e-4)


def test_gain_is_the_slope_of_each_parameter() -> None:
    """Moving one measurement a little moves the parameters as the gain says."""
    places = np.linspace(0, 2, 6)
    measured = 2 * np.exp(0.7 * places) + 0.001 * np.array([1, -1, 1, -1, 1, -1])
    start, covariance = np.array([1.9, 0.6]), 0.01 * np.eye(6)
    fit = least_squares(bend(places), start, measured, covariance)
    for i in range(6):
        step = np.zeros(6)
        step[i] = 1e-5
        ahead, behind = (
            least_squares(bend(places), start, measured + side * step, covariance).values
            for side in (1, -1)
        )
        assert (ahead - behind) / 2e-5 == pytest.approx(fit.gain[:, i], rel=2e-3, abs=1e-6)


def test_shared_sources_make_the_covariance() -> None:
    """Two estimates that share a source are correlated by it, and their difference is not."""
    common = Source("common")
    a, b = (Estimate(0.0, {common: 0.3, Source(name): 0.4}) for name in "ab")
    assert covariance_of([a, b]) == pytest.approx(np.array([[0.25, 0.09], [0.09, 0.25]]))
    assert carried(0.0, np.array([1.0, -1.0]), [a, b]).standard == pytest.approx(0.4 * math.sqrt(2))


def test_what_the_data_leave_open_is_refused() -> None:
    """Two parameters that do the same, more parameters than data, and exact data are refused."""

    def twin(values: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        return np.full(3, values.sum()), np.ones((3, 2))

    for model, count in ((twin, 3), (line(np.array([1.0])), 1)):
        with pytest.raises(NoAnswer, match=r"do not determine .*; measure more marks.*\.$"):
            least_squares(model, np.zeros(2), np.ones(count), np.eye(count))
    exact = covariance_of([within(1.0, 0.0, "a"), within(2.0, 0.1, "b")])
    with pytest.raises(OutOfRange, match=r"uncertainty of its own: .*\.$"):
        least_squares(line(np.array([1.0, 2.0])), np.zeros(2), np.ones(2), exact)
