"""What a practice bench offers, and where it judges a camera."""

import math

import pytest

from optics.errors import NoAnswer
from optics.finding.causes.gain import GAIN
from optics.finding.causes.zero import ZERO
from optics.finding.diagnosis import Faults
from optics.readings.practised import engraved, film_per_degree, scale_at, scale_place
from optics.readings.readings import Moved
from optics.teaching.practice.stand import Stand, errors
from tests.optics.teaching.practice.stands import CORVANE, OSTRIN, STANDS, TARNBROOK


@pytest.mark.parametrize("stand", STANDS, ids=lambda s: s.camera.name)
def test_a_sound_camera_is_right_everywhere(stand: Stand) -> None:
    """Without faults every place is in focus, and no place is the register."""
    assert set(errors(stand, Faults())) == {0.0}
    assert "register" not in {duty.words for duty in stand.duties}


def test_a_thick_shim_is_out_everywhere_but_in_the_rangefinder() -> None:
    """A seat 0.1 mm too thick puts stop, marks and corners 0.1 mm out, not the finder."""
    for duty, error in zip(OSTRIN.duties, errors(OSTRIN, Faults(seat=0.1)), strict=True):
        assert error == pytest.approx(0.0 if duty.words == "rangefinder" else 0.1)


def test_marks_are_those_that_rings_bear() -> None:
    """Near 25 focal lengths of 47 mm, 1.175 m, the mark is 1.2 m."""
    assert engraved(OSTRIN.camera, 25) == 1200.0


def test_a_degree_of_ring_is_its_part_of_the_lead() -> None:
    """With a lead of 18 mm a degree is 0.05 mm; on a bed there is no ring."""
    assert film_per_degree(OSTRIN.camera) == pytest.approx(0.05)
    assert film_per_degree(TARNBROOK.camera) == 0.0


def test_scale_is_read_and_set_at_the_same_place() -> None:
    """The place of a distance on the scale reads that distance; inside ∞ there is no figure."""
    place = scale_place(OSTRIN.camera, Moved.RING, 1200.0)
    assert scale_at(OSTRIN.camera, Moved.RING, place) == pytest.approx(1200.0)
    assert math.isinf(scale_at(OSTRIN.camera, Moved.RING, 0.0))
    with pytest.raises(NoAnswer):
        scale_at(OSTRIN.camera, Moved.RING, -1.0)


def test_a_camera_without_a_rangefinder_has_none_of_its_faults() -> None:
    """The front-cell folder offers no rangefinder reading and is never drawn with its faults."""
    assert not [name for name in CORVANE.offered if "rangefinder" in name]
    assert not {ZERO, GAIN} & set(CORVANE.priors.by_cause)
    assert {ZERO, GAIN} <= set(OSTRIN.priors.by_cause)


def test_what_is_moved_suits_the_camera() -> None:
    """A ring is turned where there is one; on a bed the target, the reticle or the pointer is."""
    assert {o.moved for o in OSTRIN.offered.values()} == {None, Moved.RETICLE, Moved.RING}
    assert Moved.RING not in {o.moved for o in TARNBROOK.offered.values()}
