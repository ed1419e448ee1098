"""The whole camera's budget, against numbers worked by hand and a simulation."""

import math

import numpy as np
import pytest

from optics.body.budget import (
    NAMES,
    Budget,
    Term,
    film_flatness,
    said_held,
    said_next,
    said_share,
    said_whole,
    said_worst,
    whole_camera,
)
from optics.errors import OutOfRange
from optics.measure.uncertainty import Estimate, Source, exact, from_repeats, within
from optics.measure.verdict import Verdict

ROOT3 = math.sqrt(3)


def camera(depth: float = 0.084) -> Budget:
    """Standard uncertainties of 0.003 and 0.004 mm, and a known error of 0.020 mm."""
    return whole_camera(
        [
            Term("gate", within(0.02, 0.003 * ROOT3, "gate")),
            Term("rangefinder", within(0.0, 0.004 * ROOT3, "rangefinder")),
        ],
        depth,
    )


def test_terms_add_like_the_sides_of_a_right_angle() -> None:
    """Of 3 and 4 thousandths the combined uncertainty is 5; the worst case adds the limits."""
    found = camera()
    assert found.combined.standard == pytest.approx(0.005)
    assert found.combined.value == pytest.approx(0.02)
    assert found.worst == pytest.approx(0.02 + 0.007 * ROOT3)
    assert [s.share for s in found.shares] == pytest.approx([9 / 25, 16 / 25])
    assert found.reach == pytest.approx(0.02 + 1.96 * 0.005, abs=1e-5)


def test_gain_is_what_falls_away() -> None:
    """Without the gate 1.96 × 0.004 is left; without the rangefinder 0.020 and 1.96 × 0.003."""
    found = camera()
    gains = {s.term.key: s.gain for s in found.shares}
    assert gains["gate"] == pytest.approx(found.reach - 1.96 * 0.004, abs=1e-6)
    assert gains["rangefinder"] == pytest.approx(1.96 * (0.005 - 0.003), abs=1e-6)
    assert found.next is not None
    assert found.next.term.key == "gate"


def test_whole_is_that_of_cameras_drawn_by_lot() -> None:
    """U at 95 % holds 95 % of 200,000 cameras, and none of them passes the worst case."""
    limits = [0.02, 0.015, 0.03, 0.01, 0.025]
    terms = [Term(key, within(0.01, limit, key)) for key, limit in zip(NAMES, limits, strict=False)]
    found = whole_camera(terms, 0.1)
    chance = np.random.default_rng(3)
    drawn = sum(chance.uniform(0.01 - limit, 0.01 + limit, 200_000) for limit in limits)
    away = np.abs(drawn - found.combined.value)
    assert np.mean(away <= found.combined.expanded) == pytest.approx(0.955, abs=0.01)
    assert np.abs(drawn).max() <= found.worst
    assert np.abs(drawn).max() >= 0.85 * found.worst


def test_shared_sources_add_with_their_signs() -> None:
    """A gauge error in two terms that work against each other cancels, and the shares tell."""
    gauge = Source("depth gauge")
    terms = [
        Term("register", Estimate(0.01, {gauge: 0.004})),
        Term("standard", Estimate(0.0, {gauge: -0.003})),
    ]
    found = whole_camera(terms, 0.05)
    assert found.combined.standard == pytest.approx(0.001)
    assert [s.share for s in found.shares] == pytest.approx([4, -3])
    assert found.worst == pytest.approx(0.01 + 0.001 * ROOT3)


def test_what_cannot_be_cured_is_not_advised() -> None:
    """Film flatness is never the term to work on, however large."""
    found = whole_camera([film_flatness(0.2), Term("scale", within(0, 0.05, "scale"))], 0.084)
    assert found.next is not None
    assert found.next.term.key == "scale"
    alone = whole_camera([film_flatness(0.2)], 0.084)
    assert alone.next is None
    assert said_next(alone).startswith("Nothing left to gain at the bench")


def test_a_spread_counts_with_its_factor() -> None:
    """A spread of three repeats enters the worst case with Student's 4.30, a limit with its own."""
    readings = from_repeats([0.01, 0.02, 0.03], 0.006, "register")
    found = whole_camera([Term("register", readings)], 0.05)
    assert found.worst == pytest.approx(0.02 + 0.006 + 4.303 * 0.01 / ROOT3, abs=1e-5)


def test_the_words() -> None:
    """The whole, its verdict, each share and the advice are said in one sentence each."""
    found = camera(0.025)
    assert said_whole(found) == "The whole camera is 0.020 mm too far out, ± 0.010 mm at 95 %."
    assert said_held(found) == (
        "Not sure to be inside the depth of focus of ± 0.025 mm (full aperture as engraved)."
    )
    assert said_worst(found) == "With everything at its limit the same way, 0.032 mm."
    assert said_share(found.shares[0]) == (
        "Film gate: 0.020 mm too far out, ± 0.006 mm; 36 % of the spread."
    )
    assert said_next(found) == (
        "Work on the film gate next: set the plate, or set the lens for the middle of the film's "
        "play. With it right the focus would be within 0.008 mm instead of 0.030 mm at 95 %."
    )
    assert said_next(camera()).startswith("Nothing has to be done. Most would still be gained at")
    assert "right in the mean" in said_whole(whole_camera([film_flatness(0.01)], 0.05))
    tiny = [*found.terms, Term("scale", within(0.0, 0.0001, "scale"))]
    assert "under 1 % of the spread" in said_share(whole_camera(tiny, 0.025).shares[2])


def test_a_camera_of_exact_figures() -> None:
    """Figures without uncertainty have no shares, and still a verdict."""
    found = whole_camera([Term("gate", exact(0.1))], 0.084)
    assert found.verdict is Verdict.OUTSIDE
    assert [s.share for s in found.shares] == [0.0]
    assert said_held(found).startswith("Outside the depth of focus")


def test_an_empty_or_doubled_budget_is_refused() -> None:
    """No term, a part twice, or a depth of focus of 0 is refused in one sentence."""
    gate = Term("gate", exact(0.1))
    with pytest.raises(OutOfRange, match="at least one term, each part once: got none"):
        whole_camera([], 0.084)
    with pytest.raises(OutOfRange, match="got gate, gate"):
        whole_camera([gate, gate], 0.084)
    for depth in (0.0, -1.0, math.inf, math.nan):
        with pytest.raises(OutOfRange, match="depth of focus must be more than 0 mm"):
            whole_camera([gate], depth)
