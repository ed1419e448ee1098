"""The lens standard as part of a job."""

import math

import pytest

from optics.errors import ShimwrightError
from tests.optics.records.bench_jobs import (
    STANDARD,
    solved,
    spoilt,
)


def test_standard_is_the_one_worked_by_hand() -> None:
    """The readings rise by 0.392 mm over 60 mm: 22.5 minutes; the leaf sums come from stock."""
    answer = solved(standard=STANDARD, workshop={"drawer": "0.02 × 6; 0.03 × 4; 0.05 × 6"}).standard
    assert answer is not None
    swing = 60 * math.degrees(answer.standard.plane.swing.value)
    assert swing == pytest.approx(22.5, abs=0.05)
    assert answer.view.worst.name in ("top right", "bottom left")
    assert answer.plan is not None
    assert all(shim.pack is not None for shim in answer.plan.shims)


def test_corners_are_those_that_were_gauged() -> None:
    """Named corners are those of the gauged rectangle, and of the picture where it is not given."""
    near = solved(standard=spoilt(STANDARD, screws=None)).standard
    wide = solved(standard=spoilt(STANDARD, screws=None, corners=None)).standard
    assert near is not None
    assert wide is not None
    assert near.plan is None
    assert (near.standard.readings[0].x, near.standard.readings[0].y) == (-30, 25)
    assert (wide.standard.readings[0].x, wide.standard.readings[0].y) == (-42, 28)


def test_close_up_the_lens_counts_more_than_the_film() -> None:
    """At a third of life-size a leaning lens counts 1.38 times, worked by hand, a film once."""
    close = spoilt(STANDARD, subject="525 mm")
    lens = solved(standard=close).standard
    film = solved(standard=spoilt(close, leans="film")).standard
    assert lens is not None
    assert film is not None
    assert lens.view.factor == pytest.approx(1.38, abs=0.005)
    assert film.view.factor == 1


def test_middle_is_put_right_only_with_the_right_depth() -> None:
    """The shims move the middle by what it is out; without the right depth that is refused."""
    right = spoilt(STANDARD, middle="put right", nominal="0.300")
    drawer = {"drawer": "0.02 × 20; 0.03 × 9; 0.05 × 9"}
    answer = solved(standard=right, workshop=drawer).standard
    assert answer is not None
    assert answer.plan is not None
    # The plane passes 0.184 mm in the middle, so 0.116 mm is lacking.
    assert answer.view.middle.value == pytest.approx(-0.116, abs=0.001)
    assert answer.plan.shift.value == pytest.approx(0.116, abs=answer.harmless)
    with pytest.raises(ShimwrightError, match="depth that is right there is needed"):
        solved(standard=spoilt(right, nominal=None))


@pytest.mark.parametrize(
    ("changes", "why"),
    [
        ({"depths": "left = 0.1; middle = 0.2; right = 0.3"}, "not on one line"),
        ({"depths": "top left = 0.1; right = 0.2"}, "got 2"),
        ({"screws": "top = 0.1; bottom = 0.1"}, "screw"),
        ({"screws": "left = 0.1; middle = 0.1; right = none"}, "line across"),
    ],
)
def test_places_that_fix_no_plane_are_refused(changes: dict[str, str], why: str) -> None:
    """Three readings on one line, two readings, or two screws are refused and say what lacks."""
    with pytest.raises(ShimwrightError, match=why):
        solved(standard=spoilt(STANDARD, **changes))
