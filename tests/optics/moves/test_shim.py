"""Shim remedies: what fits, what is taken out, and every reason why none will do."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.camera.camera import Bed, Camera, Lens
from optics.camera.shims import Pack
from optics.measure.uncertainty import Estimate, exact, within
from optics.measure.verdict import Verdict
from optics.moves import AtHand, Refused, Workshop
from optics.moves.shim import SHIM, said_pack
from optics.readings.remedies import Offer, Remedy, offer
from optics.units import Leaves

DRAWER = ((0.1, 3), (0.05, 4), (0.02, 5))


def camera_of(tolerance: float = 0.04) -> Camera:
    """Give a camera of a stated tolerance."""
    return Camera("", Lens(75.0, 3.5), Bed(), 0.05, tolerance)


def offered(
    error: float, drawer: Leaves = DRAWER, fitted: Leaves | None = None, tolerance: float = 0.04
) -> Offer:
    """Ask for a shim."""
    return offer(SHIM, camera_of(tolerance), exact(error), AtHand(Workshop(drawer, fitted)))


def remedy(
    error: float, drawer: Leaves = DRAWER, fitted: Leaves | None = None, tolerance: float = 0.04
) -> Remedy:
    """Ask for a shim and get one."""
    found = offered(error, drawer, fitted, tolerance)
    assert isinstance(found, Remedy), found
    return found


def reason(
    error: float, drawer: Leaves = DRAWER, fitted: Leaves | None = None, tolerance: float = 0.04
) -> str:
    """Ask for a shim and get the reason why not."""
    found = offered(error, drawer, fitted, tolerance)
    assert isinstance(found, Refused), found
    return found.reason


def test_too_far_in_is_shimmed_out() -> None:
    """A lens 0.15 mm too far in gets 0.15 mm of shim, in the fewest leaves."""
    found = remedy(-0.15)
    assert found.instruction == "Add 0.1 + 0.05 mm under the lens seat, 0.150 mm in all."
    assert found.residual.value == pytest.approx(0.0, abs=1e-12)
    assert found.amounts[0] == ("Wanted", "add 0.150 mm")


def test_too_far_out_loses_shim() -> None:
    """A lens 0.05 mm too far out on a pack of 0.15 mm keeps 0.10 mm of it."""
    found = remedy(0.05, fitted=((0.1, 1), (0.05, 1)))
    assert found.instruction == (
        "Fit 0.1 mm under the lens seat in place of 0.1 + 0.05 mm: remove 0.050 mm in all."
    )
    assert found.residual.value == pytest.approx(0.0, abs=1e-12)
    assert found.figures["added"] == pytest.approx(-0.05)


def test_fitted_leaves_may_be_used_again() -> None:
    """The leaves that are fitted now count with those in the drawer."""
    found = remedy(-0.1, drawer=((0.1, 1),), fitted=((0.3, 1),))
    assert found.instruction.startswith("Fit 0.3 + 0.1 mm under the lens seat in place of 0.3 mm:")


def test_all_shims_may_have_to_come_out() -> None:
    """Where no shim at all is right, all are taken out."""
    found = remedy(0.15, fitted=((0.1, 1), (0.05, 1)))
    assert found.instruction == (
        "Take 0.1 + 0.05 mm out from under the lens seat and fit none: remove 0.150 mm in all."
    )


def test_a_little_more_than_is_fitted_takes_all_out() -> None:
    """Where the error is a little more than what is fitted, all comes out and the rest is told."""
    found = remedy(0.17, fitted=((0.15, 1),))
    assert found.residual.value == pytest.approx(0.02)
    assert "and fit none: remove 0.150 mm" in found.instruction


def test_unknown_shims_are_thinned_by_an_amount() -> None:
    """Where it is not known what is fitted, the amount comes out only if so much is fitted."""
    found = remedy(0.123)
    assert found.instruction == (
        "Remove 0.12 mm of shim from under the lens seat, only if that much is fitted."
    )
    assert found.only_if == "if that much is fitted"
    assert "the seat itself is not to be cut" in found.notes[0]
    assert found.residual.value == pytest.approx(0.003)


# The reasons, and the figures in them, are worked by hand.
REASONS = [
    ((0.009,), {}, "Less than a quarter of the tolerance is left: leave the shims alone."),
    ((-0.009,), {}, "Less than a quarter of the tolerance is left: leave the shims alone."),
    ((0.004,), {"tolerance": 0.01}, "The shim to come out is less than 0.01 mm: leave it alone."),
    ((10.2,), {}, "10.200 mm is more than shims can put right: look for a wrong thread start"),
    ((-10.2,), {}, "10.200 mm is more than shims can put right: look for a wrong thread start"),
    ((-0.2,), {"drawer": ()}, "Add 0.200 mm, but the drawer is empty; enter the shim leaves"),
    ((-2.0,), {}, "Add 2.000 mm, but the drawer holds 0.600 mm; enter the shim leaves you have."),
    (
        (0.3,),
        {"fitted": ((0.1, 2),)},
        "0.300 mm would have to come out and only 0.200 mm is fitted; the seat itself is not "
        "to be cut, so use another remedy.",
    ),
    ((0.3,), {"fitted": ()}, "0.300 mm would have to come out and no shim is fitted; the seat"),
    ((-0.1,), {"drawer": ((1.0, 2),)}, "Add 0.100 mm, but no leaf at hand brings the lens nearer"),
    (
        (-0.5,),
        {"fitted": ((9.8, 1),)},
        "The pack would come to 10.300 mm, more than the 10 mm that shims can make up",
    ),
]


@pytest.mark.parametrize(("error", "case", "words"), REASONS)
def test_why_no_shim_will_do(error: tuple[float], case: dict[str, Leaves], words: str) -> None:
    """Where no shim serves, the reason is said with its figures in one sentence."""
    said = reason(*error, **case)  # type: ignore[arg-type]
    assert said.startswith(words)
    assert said.endswith(".")


stocks = st.lists(
    st.tuples(st.sampled_from((0.02, 0.0254, 0.05, 0.1, 0.3, 2.0)), st.integers(1, 3)), max_size=4
)


@settings(max_examples=300, deadline=None)
@given(st.floats(-3, 3), stocks, st.one_of(st.none(), stocks), st.floats(0.001, 0.3))
def test_a_shim_never_makes_it_worse(
    error: float, drawer: Leaves, fitted: Leaves | None, tolerance: float
) -> None:
    """Whatever is in the drawer and under the seat, a shim offered leaves less error than was."""
    found = offered(error, drawer, fitted, tolerance)
    if isinstance(found, Remedy):
        assert abs(found.residual.value) < abs(error)
        assert (found.change.value > 0) == (error < 0)


def test_ties_and_the_nearest_pack_are_told() -> None:
    """A pack that serves as well, and one that is nearer with more leaves, are told."""
    tie = remedy(-0.1, drawer=((0.05, 2), (0.08, 1), (0.02, 1)))
    assert tie.notes == ("A tie: 0.08 + 0.02 mm would do as well.",) or tie.notes == (
        "A tie: 2 × 0.05 mm would do as well.",
    )
    nearer = remedy(-0.105, drawer=((0.1, 1), (0.055, 1), (0.05, 1)))
    assert nearer.notes == ("Nearest with more leaves: 0.055 + 0.05 mm.",)


def test_each_leaf_brings_its_own_uncertainty() -> None:
    """Four leaves that go in, each known to ± 0.004 mm, are known to ± 0.008 mm together."""
    found = remedy(-0.2, drawer=((0.05, 4),))
    assert found.change.standard == pytest.approx(0.008 / 3**0.5)


@pytest.mark.parametrize(
    ("error", "drawer", "fitted", "changed"),
    [(0.1, (), ((0.1, 5),), 1), (0.5, (), ((0.1, 5),), 5), (0.4, ((0.1, 1),), ((0.5, 1),), 2)],
)
def test_leaves_that_stay_bring_none(
    error: float, drawer: Leaves, fitted: Leaves, changed: int
) -> None:
    """One leaf taken off five is one leaf's doubt, all five are five, one for another two."""
    found = remedy(error, drawer, fitted)
    assert found.change.standard == pytest.approx(0.004 * (changed / 3) ** 0.5)


def test_the_verdict_is_of_what_is_left() -> None:
    """The verdict on a remedy is of the residual, with the reading's uncertainty in it."""
    known = offer(SHIM, camera_of(), within(-0.15, 0.005, "gauge"), AtHand(Workshop(DRAWER)))
    assert isinstance(known, Remedy)
    assert known.verdict is Verdict.INSIDE
    assert remedy(-0.15).verdict is Verdict.NOT_STATED
    vague = Estimate(-0.15, {}).plus(remedy(-0.15).change, 10.0)
    found = offer(SHIM, camera_of(), Estimate(-0.15, vague.parts), AtHand(Workshop(DRAWER)))
    assert isinstance(found, Remedy)
    assert found.verdict is Verdict.UNSURE


def test_packs_are_said_as_leaves() -> None:
    """Packs are said as numbers of leaves, thick first, in mm."""
    assert said_pack(Pack(((0.1, 1), (0.02, 2)))) == "0.1 + 2 × 0.02 mm"
    assert said_pack(Pack(((0.0381, 1),))) == "0.0381 mm"
    assert said_pack(Pack(())) == "no shim"


def test_what_is_known_to_be_fitted_comes_out_without_a_condition() -> None:
    """Leaves that are known to be there are told to come out plainly."""
    assert remedy(0.05, fitted=((0.05, 1),)).only_if == ""


@settings(max_examples=300, deadline=None)
@given(st.floats(-3, 3), stocks, stocks, st.floats(0.001, 0.3))
def test_no_shim_is_taken_out_that_is_not_fitted(
    error: float, drawer: Leaves, fitted: Leaves, tolerance: float
) -> None:
    """Of known leaves no more is ever told to come out than there is."""
    found = offered(error, drawer, fitted, tolerance)
    if isinstance(found, Remedy):
        there = sum(thickness * count for thickness, count in fitted)
        assert -found.change.value <= there + 1e-9
