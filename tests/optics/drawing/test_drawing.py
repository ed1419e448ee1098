"""Arcs that are true circles."""

import math

import numpy as np
import pytest

from optics.drawing.drawing import arc_steps, on_circle


@pytest.mark.parametrize("radius", [1.0, 24.0, 100.0])
@pytest.mark.parametrize("sweep", [0.01, -1.0, 2.5, -math.tau, math.tau])
def test_an_arc_stays_on_its_circle(radius: float, sweep: float) -> None:
    """Worked out along every piece, an arc is within 0.005 mm of its circle, end to end."""
    at, start = np.array(on_circle((10, 20), radius, 0.7)), np.linspace(0, 1, 50)[:, None]
    turned = 0.0
    for first, second, end in arc_steps((10, 20), radius, 0.7, sweep):
        a, b, c = (np.array(point) for point in (first, second, end))
        # The cubic of Bernstein polynomials.
        points = (
            (1 - start) ** 3 * at
            + 3 * (1 - start) ** 2 * start * a
            + 3 * (1 - start) * start**2 * b
            + start**3 * c
        )
        x, y = (points - (10, 20)).T
        assert np.hypot(x, y) == pytest.approx(radius, abs=0.005 * min(1, radius / 10))
        turned += np.unwrap(np.arctan2(y, x))[-1] - np.unwrap(np.arctan2(y, x))[0]
        at = c
    # Down the page is plus, so that clockwise is plus too.
    assert turned == pytest.approx(sweep, abs=1e-9)


def test_angles_begin_at_the_top_and_run_clockwise() -> None:
    """A quarter turn from the top leads to the right of the centre."""
    assert on_circle((0, 0), 5, 0) == pytest.approx((0, -5))
    assert on_circle((0, 0), 5, math.pi / 2) == pytest.approx((5, 0))
