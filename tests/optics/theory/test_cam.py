"""The cam's relations by hand-worked numbers, at infinity, and against their own equations."""

import math

import numpy as np
import pytest

from optics.theory.cam import cam_lift, straight_follower

BODY = {"body_focal_length": 50.0, "body_hiatus": 0.0}
SIGHTS = {"base": 40.0, "base_to_film": 20.0, "follower_gain": 0.02}


def test_lift_of_a_longer_lens_by_hand() -> None:
    """A 90 mm lens 10 mm out is sharp at 1000 mm, where 50 mm needs the published 2.7864 mm."""
    # f 50, D 1000: published check value; f 90, D 1000: 10.0000.
    lift = cam_lift.solve_for("lift").value(extension=10.0, focal_length=90.0, hiatus=0.0, **BODY)
    assert lift == pytest.approx(2.7864, abs=5e-5)


def test_lift_of_a_straight_follower_by_hand() -> None:
    """Sights 40 mm apart on a subject 2582 mm before them converge 0.015491 rad: 0.77453 mm."""
    # D = 100 + 1 + 1 + 2500 = 2602 mm; 2602 − 20 = 2582; atan(40/2582) = 0.0154906; over 0.02.
    formula = straight_follower.solve_for("lift")
    lift = formula.value(extension=1.0, focal_length=50.0, hiatus=1.0, **SIGHTS)
    assert lift == pytest.approx(0.77453, abs=5e-6)


@pytest.mark.parametrize(
    ("relation", "body", "slope"),
    # At infinity the slopes are (f₀/f)² and b/(G·f²), by the small-angle rule.
    [(cam_lift, BODY, (50 / 90) ** 2), (straight_follower, SIGHTS, 40 / (0.02 * 90**2))],
)
def test_infinity_has_no_lift_and_a_finite_slope(
    relation: object, body: dict[str, float], slope: float
) -> None:
    """At infinity the lift is nothing and its slope is that of the small-angle rule."""
    formula = relation.solve_for("lift")  # type: ignore[attr-defined]
    lift, slopes = formula.value_and_partials(extension=0.0, focal_length=90.0, hiatus=1.0, **body)
    assert lift == 0
    assert slopes["extension"] == pytest.approx(slope)
    assert all(math.isfinite(one) for one in slopes.values())


def test_every_form_of_the_straight_follower_agrees() -> None:
    """Each unknown solved from the others gives back what went in."""
    known = {"extension": 3.0, "focal_length": 90.0, "hiatus": -1.0, **SIGHTS}
    known["lift"] = straight_follower.solve_for("lift").value(**known)
    for unknown in ("extension", "base", "follower_gain"):
        rest = {name: value for name, value in known.items() if name != unknown}
        got = straight_follower.solve_for(unknown).value(**rest)
        assert got == pytest.approx(known[unknown], rel=1e-12)


@pytest.mark.parametrize("relation", [cam_lift, straight_follower])
def test_partials_are_the_slopes_of_the_answer(relation: object) -> None:
    """Every partial derivative equals a central difference of the answer."""
    formula = relation.solve_for("lift")  # type: ignore[attr-defined]
    body = BODY if relation is cam_lift else SIGHTS
    known = {"extension": 4.0, "focal_length": 90.0, "hiatus": -1.0, **body}
    _, slopes = formula.value_and_partials(**known)
    for name, value in known.items():
        step = 1e-5 * max(abs(value), 0.1)
        ends = [formula.value(**{**known, name: value + side * step}) for side in (-1, 1)]
        assert slopes[name] == pytest.approx((ends[1] - ends[0]) / (2 * step), rel=1e-6, abs=1e-10)


def test_arrays_and_single_numbers_agree() -> None:
    """A lift worked out in an array is the same as by itself."""
    formula = cam_lift.solve_for("lift")
    out = np.linspace(0, 12, 7)
    known = {"focal_length": 90.0, "hiatus": -1.0, **BODY}
    singly = [formula.value(extension=float(one), **known) for one in out]
    assert formula.value(extension=out, **known).tolist() == singly
