"""The thread is taken from the camera, or refused."""

import math

import pytest

from optics.body.witness import Thread
from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Lens, Turn
from optics.errors import NoAnswer, OutOfRange


def camera(focusing: Helicoid | FrontCell | Bed) -> Camera:
    """A camera that focuses in the way given."""
    return Camera("Corvane", Lens(75.0, 3.5), focusing, 0.05)


def test_a_helicoid_is_taken_as_it_is() -> None:
    """Lead, starts, sense and ring come from the camera, and starts can be set."""
    focusing = Helicoid(18.0, 6, Turn.CLOCKWISE, 52.0)
    assert Thread.of(camera(focusing)) == Thread(18.0, 6, Turn.CLOCKWISE, 1.0, 52.0)
    assert Thread.of(camera(focusing), starts=4).starts == 4


def test_a_front_cell_counts_by_the_square_of_its_ratio() -> None:
    """A cell of 50 mm in a lens of 75 mm moves the image 2.25 times as far; one start."""
    thread = Thread.of(camera(FrontCell(50.0, 9.0, Turn.CLOCKWISE, 90.0)))
    assert thread.to_film == pytest.approx(2.25)
    assert thread.starts == 1
    assert list(thread.starts_to_try()) == [0]


def test_a_bed_has_no_thread() -> None:
    """A lens on a bed is refused in one sentence."""
    with pytest.raises(NoAnswer, match="has no thread"):
        Thread.of(camera(Bed()))


@pytest.mark.parametrize("starts", [0, -1, 37])
def test_starts_are_counted_from_one(starts: int) -> None:
    """A thread has 1 to 36 starts."""
    with pytest.raises(OutOfRange, match=r"must be 1 to 36: got"):
        Thread(18.0, starts, Turn.CLOCKWISE)
    with pytest.raises(OutOfRange, match="lead"):
        Thread(0.0, 1, Turn.CLOCKWISE)


def test_entries_lie_evenly_round_the_barrel() -> None:
    """Two starts out on a six-start thread are 120° against the sense that extends."""
    for extends, angle in ((Turn.CLOCKWISE, 250), (Turn.COUNTER_CLOCKWISE, 130)):
        thread = Thread(18.0, 6, extends)
        found = thread.entry_angle(2, math.radians(10))
        assert math.degrees(found) == pytest.approx(angle)
