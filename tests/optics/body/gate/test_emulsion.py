"""Where the emulsion lies, against film thrown into its gate many times over."""

import math

import numpy as np
import pytest

from optics.body.gate import Gate, Plate, against_plate, in_back, measure_gate
from optics.errors import NoAnswer, OutOfRange
from optics.measure.uncertainty import exact, within
from optics.measure.verdict import Verdict

FILM = within(0.15, 0.01, "film thickness")
CHANNEL = within(0.20, 0.005, "channel")


def test_play_is_shared_out_evenly() -> None:
    """In a 0.200 mm channel film of 0.15 mm lies 0.025 ± 0.025 mm behind the rails."""
    found = measure_gate(Gate(exact(0.15), Plate.STOPS, exact(0.20)))
    assert found.play.value == pytest.approx(0.05)
    assert found.depth.value == found.error.value == pytest.approx(0.025)
    assert found.half_range == pytest.approx(0.025)
    assert found.error.standard == pytest.approx(0.025 / math.sqrt(3))


def test_error_is_that_of_film_thrown_into_its_gate() -> None:
    """Mean and spread are those of 200,000 films and channels drawn within their limits."""
    chance = np.random.default_rng(11)
    count = 200_000
    film = chance.uniform(0.14, 0.16, count)
    channel = chance.uniform(0.195, 0.205, count)
    glass = chance.uniform(0.0, 0.01, count)
    # The back of the film is somewhere between resting on the plate and as far forward as goes.
    back = chance.uniform(film, channel)
    lens_too_far_out = (back - film) - glass
    reference = within(0.005, 0.005, "ground glass")
    found = measure_gate(Gate(FILM, Plate.STOPS, CHANNEL), reference)
    assert found.error.value == pytest.approx(lens_too_far_out.mean(), abs=2e-4)
    # To first order the play counts with its mean; what is left is of the second order.
    assert found.error.standard == pytest.approx(lens_too_far_out.std(), rel=0.01)
    assert found.depth.value == pytest.approx((back - film).mean(), abs=2e-4)


def test_a_sprung_plate_leaves_no_play() -> None:
    """A plate that touches the film holds the emulsion on the rails, channel known or not."""
    for channel in (CHANNEL, None):
        found = measure_gate(Gate(FILM, Plate.SPRUNG, channel))
        assert (found.play.value, found.error.value, found.error.standard) == (0, 0, 0)


def test_backing_paper_takes_its_room() -> None:
    """Paper behind the film lessens the play by its thickness."""
    found = measure_gate(Gate(exact(0.11), Plate.STOPS, exact(0.25), paper=exact(0.09)))
    assert found.play.value == pytest.approx(0.05)


def test_film_without_a_plate_bows() -> None:
    """Without a plate the emulsion lies anywhere within the bow stated."""
    found = measure_gate(Gate(FILM, Plate.NONE, bow=exact(0.2)))
    assert found.error.value == pytest.approx(0.1)
    assert found.error.standard == pytest.approx(0.1 / math.sqrt(3))


def test_the_ground_glass_against_the_plate() -> None:
    """A glass of 0.13 mm against the plate has its ground side 0.07 mm behind the rails."""
    reference = against_plate(CHANNEL, exact(0.13))
    found = measure_gate(Gate(exact(0.15), Plate.STOPS, CHANNEL), reference)
    assert reference.value == pytest.approx(0.07)
    assert found.error.value == pytest.approx(0.025 - 0.07)
    # The channel counts whole in the one and half in the other, so half is left.
    assert found.error.standard == pytest.approx(math.hypot(0.025, 0.0025) / math.sqrt(3))


def test_the_ground_glass_in_a_back() -> None:
    """A glass as deep as the emulsion of a sheet half-way in its slot leaves no error."""
    slot, sheet = 0.3, 0.18
    holder = exact(5.0)
    emulsion = 5.0 - sheet - (slot - sheet) / 2  # half-way, gauged from the holder's face
    reference = in_back(exact(emulsion), holder, exact(slot))
    found = measure_gate(Gate(exact(sheet), Plate.STOPS, exact(slot)), reference)
    assert found.error.value == pytest.approx(0, abs=1e-12)


def test_what_is_left_of_the_tolerance() -> None:
    """Mean and half the play are taken off the tolerance, and a verdict follows."""
    found = measure_gate(Gate(exact(0.15), Plate.STOPS, exact(0.20)))
    assert found.tolerance_left(0.084) == pytest.approx(0.034)
    assert found.tolerance_left(0.04) == pytest.approx(-0.01)
    assert found.verdict(0.084) is Verdict.INSIDE
    assert found.verdict(0.03) is Verdict.UNSURE


def test_missing_figures_are_asked_for() -> None:
    """A plate on its stops needs the channel, and film without one its bow."""
    with pytest.raises(NoAnswer, match="needs the depth of the film channel: got none; gauge"):
        measure_gate(Gate(FILM, Plate.STOPS))
    with pytest.raises(NoAnswer, match="how far it can bow back"):
        measure_gate(Gate(FILM, Plate.NONE))


@pytest.mark.parametrize("bow", [-0.1, math.inf, math.nan])
def test_a_bow_that_is_none_is_refused(bow: float) -> None:
    """A bow is 0 or more and finite."""
    with pytest.raises(OutOfRange, match="bow of the film must be 0 mm or more"):
        measure_gate(Gate(FILM, Plate.NONE, bow=exact(bow)))


def test_pinched_film_is_refused() -> None:
    """Film and paper thicker than the channel are refused."""
    with pytest.raises(OutOfRange, match="the film would be pinched"):
        measure_gate(Gate(FILM, Plate.STOPS, CHANNEL, paper=exact(0.09)))
    with pytest.raises(OutOfRange, match=r"at most 0\.200 mm thick"):
        against_plate(CHANNEL, exact(1.5))


def test_the_working_can_be_shown() -> None:
    """The steps show play and error with their numbers."""
    found = measure_gate(Gate(exact(0.15), Plate.STOPS, exact(0.20)))
    assert [step.working_text() for step in found.steps] == [
        ("w = g − t = 0.2 − 0.15 = 0.05 mm",),
        ("e = −d_g + w·r = −0 + 0.05·0.5 = 0.025 mm",),
    ]
