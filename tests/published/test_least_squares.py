"""Least squares on data made to break it: NIST's Statistical Reference Datasets.

Filip is a polynomial of tenth degree whose columns nearly say the same; Pontius one of second
degree whose columns differ by thirteen powers of ten. Data and certified values are those of
NIST/ITL StRD, Linear Least Squares Regression (Filip.dat, Pontius.dat), read in a public copy in
the test suite of a program for phonetics; the certified figures were worked there with 500 digits.
"""

import math
from fractions import Fraction

import numpy as np
import pytest

from optics.errors import NoAnswer
from optics.measure.least_squares import LeastSquaresFit, Model, least_squares

# y x, y x …
FILIP = """
     0.8116 -6.860120914,  0.9072 -4.324130045,  0.9052 -4.358625055,  0.9039 -4.358426747,
     0.8053 -6.955852379,  0.8377 -6.661145254,  0.8667 -6.355462942,  0.8809 -6.118102026,
     0.7975 -7.115148017,  0.8162 -6.815308569,  0.8515 -6.519993057,  0.8766 -6.204119983,
     0.8885 -5.853871964,  0.8859 -6.109523091,  0.8959 -5.79832982,  0.8913 -5.482672118,
     0.8959 -5.171791386,  0.8971 -4.851705903,  0.9021 -4.517126416,  0.909 -4.143573228,
     0.9139 -3.709075441,  0.9199 -3.499489089,  0.8692 -6.300769497,  0.8872 -5.953504836,
     0.89 -5.642065153,  0.891 -5.031376979,  0.8977 -4.680685696,  0.9035 -4.329846955,
     0.9078 -3.928486195,  0.7675 -8.56735134,  0.7705 -8.363211311,  0.7713 -8.107682739,
     0.7736 -7.823908741,  0.7775 -7.522878745,  0.7841 -7.218819279,  0.7971 -6.920818754,
     0.8329 -6.628932138,  0.8641 -6.323946875,  0.8804 -5.991399828,  0.7668 -8.781464495,
     0.7633 -8.663140179,  0.7678 -8.473531488,  0.7697 -8.247337057,  0.77 -7.971428747,
     0.7749 -7.676129393,  0.7796 -7.352812702,  0.7897 -7.072065318,  0.8131 -6.774174009,
     0.8498 -6.478861916,  0.8741 -6.159517513,  0.8061 -6.835647144,  0.846 -6.53165267,
     0.8751 -6.224098421,  0.8856 -5.910094889,  0.8919 -5.598599459,  0.8934 -5.290645224,
     0.894 -4.974284616,  0.8957 -4.64454848,  0.9047 -4.290560426,  0.9129 -3.885055584,
     0.9209 -3.408378962,  0.9219 -3.13200249,  0.7739 -8.726767166,  0.7681 -8.66695597,
     0.7665 -8.511026475,  0.7703 -8.165388579,  0.7702 -7.886056648,  0.7761 -7.588043762,
     0.7809 -7.283412422,  0.7961 -6.995678626,  0.8253 -6.691862621,  0.8602 -6.392544977,
     0.8809 -6.067374056,  0.8301 -6.684029655,  0.8664 -6.378719832,  0.8834 -6.065855188,
     0.8898 -5.752272167,  0.8964 -5.132414673,  0.8963 -4.811352704,  0.9074 -4.098269308,
     0.9119 -3.66174277,  0.9228 -3.2644011
"""
FILIP_VALUES = (
    -1467.48961422980,
    -2772.17959193342,
    -2316.37108160893,
    -1127.97394098372,
    -354.478233703349,
    -75.1242017393757,
    -10.8753180355343,
    -1.06221498588947,
    -0.670191154593408e-1,
    -0.246781078275479e-2,
    -0.402962525080404e-4,
)
FILIP_DEVIATIONS = (
    298.084530995537,
    559.779865474950,
    466.477572127796,
    227.204274477751,
    71.6478660875927,
    15.2897178747400,
    2.23691159816033,
    0.221624321934227,
    0.142363763154724e-1,
    0.535617408889821e-3,
    0.896632837373868e-5,
)
FILIP_RESIDUAL = 0.334801051324544e-2

# Twenty loads, from 150 000 in steps of as much, read twice.
PONTIUS = (
    0.11019,
    0.21956,
    0.32949,
    0.43899,
    0.54803,
    0.65694,
    0.76562,
    0.87487,
    0.98292,
    1.09146,
    1.20001,
    1.30822,
    1.41599,
    1.52399,
    1.63194,
    1.73947,
    1.84646,
    1.95392,
    2.06128,
    2.16844,
    0.11052,
    0.22018,
    0.32939,
    0.43886,
    0.54798,
    0.65739,
    0.76596,
    0.87474,
    0.98300,
    1.09150,
    1.20004,
    1.30818,
    1.41613,
    1.52408,
    1.63159,
    1.73965,
    1.84696,
    1.95445,
    2.06177,
    2.16829,
)
PONTIUS_VALUES = (0.673565789473684e-3, 0.732059160401003e-6, -0.316081871345029e-14)
PONTIUS_DEVIATIONS = (0.107938612033077e-3, 0.157817399981659e-9, 0.486652849992036e-16)


def filip() -> tuple[np.ndarray, np.ndarray]:
    """Places and measurements."""
    pairs = [tuple(map(float, pair.split())) for pair in FILIP.split(",")]
    measured, places = np.array(pairs).T
    return places, measured


def polynomial(places: np.ndarray, degree: int) -> Model:
    """A polynomial, its coefficients from the constant up."""
    powers = np.vander(places, degree + 1, increasing=True)
    return lambda values: (powers @ values, powers)


def fitted(places: np.ndarray, measured: np.ndarray, degree: int) -> LeastSquaresFit:
    """The polynomial through the measurements, all of them alike."""
    model, count = polynomial(places, degree), len(measured)
    return least_squares(model, np.zeros(degree + 1), measured, np.eye(count))


def deviations(fit: LeastSquaresFit) -> np.ndarray:
    """Standard deviations of the coefficients, from the scatter about the fit."""
    return math.sqrt(fit.chi_square / fit.dof) * np.sqrt(np.diag(fit.covariance))


def test_filip_is_fitted_to_five_digits() -> None:
    """With columns that agree to ten digits, values and deviations are those certified."""
    fit = fitted(*filip(), 10)
    assert fit.condition > 1e8
    assert fit.values == pytest.approx(FILIP_VALUES, rel=1e-5)
    assert deviations(fit) == pytest.approx(FILIP_DEVIATIONS, rel=1e-5)
    assert math.sqrt(fit.chi_square / fit.dof) == pytest.approx(FILIP_RESIDUAL, rel=1e-8)


def test_pontius_is_fitted_whatever_its_units() -> None:
    """Columns thirteen powers of ten apart lose nothing: units are no condition."""
    places = np.tile(np.arange(1, 21) * 150_000.0, 2)
    fit = fitted(places, np.array(PONTIUS), 2)
    assert fit.values == pytest.approx(PONTIUS_VALUES, rel=1e-9)
    assert deviations(fit) == pytest.approx(PONTIUS_DEVIATIONS, rel=1e-9)


@pytest.mark.parametrize("far", [0.0, 1e2, 1e4])
def test_a_parabola_far_from_its_origin_is_found_again(far: float) -> None:
    """A parabola and its covariance lose no more digits than their condition has, never twice."""
    places = far + np.arange(12.0)
    fit = fitted(places, places**2 - 3 * places + 2, 2)
    lost = 1e-14 * fit.condition
    terms = np.array([1.0, places[-1], places[-1] ** 2])
    assert np.abs((fit.values - [2.0, -3.0, 1.0]) * terms).max() <= lost * terms[2]
    exact = _exact_covariance([Fraction(int(place)) for place in places])
    assert fit.covariance == pytest.approx(exact, rel=lost)


def _exact_covariance(places: list[Fraction]) -> np.ndarray:
    """The inverse of a parabola's normal equations, worked in fractions by Cramer's rule."""
    sums = [sum((place**power for place in places), Fraction(0)) for power in range(5)]
    rows = [sums[i : i + 3] for i in range(3)]

    def minor(i: int, j: int) -> Fraction:
        (a, b), (c, d) = ([rows[m][n] for n in range(3) if n != j] for m in range(3) if m != i)
        return a * d - b * c

    whole = sum(((-1) ** j * rows[0][j] * minor(0, j) for j in range(3)), Fraction(0))
    return np.array(
        [[float((-1) ** (i + j) * minor(j, i) / whole) for j in range(3)] for i in range(3)]
    )


def test_what_is_truly_undetermined_is_refused_by_name() -> None:
    """Columns alike to the last digit are refused, with the condition and what to do."""
    places = np.array([1.0, 1.0, 2.0, 2.0])
    with pytest.raises(NoAnswer, match=r"do not determine .* \(.*\); measure more marks"):
        fitted(places, np.array([1.0, 1.0, 4.0, 4.0]), 2)
    with pytest.raises(NoAnswer, match="condition number"):
        fitted(1e8 + np.arange(12.0), np.arange(12.0), 2)
