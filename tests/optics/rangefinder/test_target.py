"""The focusing target: what a loupe can show."""

import itertools
import math

import pytest

from optics.camera.camera import Camera, Helicoid, Lens, Turn
from optics.errors import OutOfRange
from optics.rangefinder.target import LINE_WIDTHS, FocusingTarget

OSTRIN = Camera("Ostrin", Lens(50.0, 2.8), Helicoid(18.0, 6, Turn.CLOCKWISE), 0.03)


def test_the_finest_line_by_hand() -> None:
    """A loupe of 8 shows 9 micrometres on the glass, which is a sixth of a millimetre at 1 m."""
    # 250 mm × π/10800 / 8 = 0.00909 mm; a 50 mm lens 1 m from the film: m = 2.7864/50.
    target = FocusingTarget(OSTRIN, 1000.0, 8.0)
    assert target.finest_on_glass == pytest.approx(0.00909, abs=5e-6)
    assert target.finest_on_target == pytest.approx(0.00909 * 50 / 2.7864, rel=1e-3)
    assert target.best_width == 0.25


def test_farther_off_the_best_bars_are_wider() -> None:
    """The bars to look at grow with distance until even the widest are too fine."""
    widths = [FocusingTarget(OSTRIN, d, 4.0).best_width for d in (500, 2000, 5000, 20_000)]
    assert widths == [0.25, 0.7, 2.0, None]


def test_a_target_at_infinity_is_refused() -> None:
    """A target cannot be pinned up at infinity."""
    with pytest.raises(OutOfRange, match="must be finite: got infinity"):
        FocusingTarget(OSTRIN, math.inf, 4.0)


def test_widths_go_by_the_square_root_of_two() -> None:
    """Each width is 0.7 of the one before, as far as two digits can say."""
    ratios = [b / a for a, b in itertools.pairwise(LINE_WIDTHS)]
    assert ratios == pytest.approx([0.7071] * len(ratios), abs=0.012)


@pytest.mark.parametrize(("loupe", "acuity"), [(0.0, 3e-4), (8.0, 0.0)])
def test_a_loupe_or_eye_that_shows_nothing_is_refused(loupe: float, acuity: float) -> None:
    """No magnification and no acuity are refused."""
    with pytest.raises(OutOfRange, match="must be more than 0: got 0"):
        FocusingTarget(OSTRIN, 1000.0, loupe, acuity)
