"""The poster of the unrolled thread."""

from collections.abc import Callable
from itertools import pairwise
from typing import Any

import pytest

from optics.sheets.poster_starts import TITLE
from tests.optics.sheets.posters_read import drawn


def test_all_threads_run_alike_and_a_pitch_apart(read_back: Callable[[bytes], Any]) -> None:
    """Once round, a thread rises by six of the gaps between neighbours: the lead is 6 pitches."""
    found = [
        (a[0], a[1], a[2], a[3])
        for a in read_back(drawn(TITLE)).lines()
        if abs(a[0] - a[2]) > 3 and abs(a[1] - a[3]) > 3
    ]
    slopes = [abs((a[3] - a[1]) / (a[2] - a[0])) for a in found]
    assert max(slopes) - min(slopes) < 1e-3
    width = max(a[2] for a in found) - min(a[0] for a in found)
    # Where each thread, drawn on, would cross the left edge.
    left = min(a[0] for a in found)
    crossings = sorted(max(a[1], a[3]) + slopes[0] * (a[0] - left) for a in found)
    gaps = [b - a for a, b in pairwise(crossings)]
    assert gaps == pytest.approx([gaps[0]] * len(gaps), abs=0.05)
    assert slopes[0] * width == pytest.approx(6 * gaps[0], rel=1e-3)


def test_one_start_is_worth_a_sixth_of_the_lead(read_back: Callable[[bytes], Any]) -> None:
    """Lead 18 mm and six starts make 3.00 mm and 60° of ring for each start, as in the hand."""
    text = read_back(drawn(TITLE)).text
    assert "3.00 mm, as much as 60° of ring" in text
    assert f"± {2.8 * 0.03:.3f} mm" in text
    assert "−6.00 −3.00 +3.00 +6.00 +9.00" in text
