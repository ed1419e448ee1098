"""A register gauged, against numbers worked by hand, and the right way round."""

import pytest

from optics.measure.uncertainty import exact, within
from optics.readings.kinds.register import RegisterReading
from tests.optics.readings.kinds.bench import (
    CAMERA,
    error,
)


def test_a_register_gauged_too_long_is_too_far_out() -> None:
    """A seat 0.034 mm too far from the film carries the lens 0.034 mm too far out."""
    long, short = (RegisterReading(exact(measured), exact(17.526)) for measured in (17.560, 17.500))
    assert error(CAMERA, long) == pytest.approx(0.034, abs=1e-9)
    assert error(CAMERA, short) == pytest.approx(-0.026, abs=1e-9)


def test_a_limit_is_carried_to_the_film() -> None:
    """A register known to ± 0.015 mm gives the error to ± 0.015/√3 standard, and k 1.96."""
    reading = RegisterReading(within(17.56, 0.015, "gauge"), exact(17.526))
    found = reading.steps(CAMERA)[-1].result
    assert found.standard == pytest.approx(0.0086603, abs=1e-7)
    assert found.expanded == pytest.approx(0.016974, abs=1e-6)


def test_the_steps_show_their_working() -> None:
    """Each step shows its numbers, in plain text and in LaTeX, up to the same answer."""
    step = RegisterReading(exact(17.56), exact(17.526)).steps(CAMERA)[0]
    assert step.working_text() == ("e = R − R₀ = 17.56 − 17.526 = 0.034 mm",)
    assert step.working()[0].startswith("e = R - R_0 = 17.56 - 17.526 = 0.034")
