"""Places in words, and places from which no plane can be told."""

import math

import pytest

from optics.body.standard import depth_readings, measure_standard
from optics.errors import OutOfRange
from optics.measure.places import Point, check_places, in_the_picture, place_name
from optics.measure.uncertainty import exact

SQUARE = [(-10.0, -10.0), (10.0, -10.0), (10.0, 10.0), (-10.0, 10.0)]


@pytest.mark.parametrize(
    ("x", "y", "name", "picture"),
    [
        (-18, 12, "top left", "bottom left"),
        (18, -12, "bottom right", "top right"),
        (0, 12, "top", "bottom"),
        (-18, 0, "left", "left"),
        (0, 0, "middle", "middle"),
    ],
)
def test_places_have_names(x: float, y: float, name: str, picture: str) -> None:
    """A place of the film is named as seen from the front, and stands on its head in the print."""
    assert (place_name(x, y), in_the_picture(x, y)) == (name, picture)


def test_the_picture_agrees_with_a_pinhole() -> None:
    """What a pinhole throws on the film's top right, seen from the front, was low on the right."""
    # The photographer looks along +z with x to the right; who looks at the camera from the
    # front has the photographer's right on the left.
    subject = (1.0, -1.0)  # to the photographer's right, and low: so in the print
    on_film = (-subject[0], -subject[1])  # through the hole, in the photographer's axes
    seen_from_front = (-on_film[0], on_film[1])
    assert place_name(*seen_from_front) == "top right"
    assert in_the_picture(*seen_from_front) == place_name(*subject) == "bottom right"


@pytest.mark.parametrize(
    ("places", "said"),
    [
        ([], r"needs 3 to 12 readings: got 0; add 3 more"),
        (SQUARE[:2], r"needs 3 to 12 readings: got 2; add 1 more at another place, not on one"),
        ([(x, x * x) for x in range(13)], r"needs 3 to 12 readings: got 13; leave out 1"),
        ([(0, 0)] * 4, r"not on one line: got 4 on the same place"),
        ([(-9, 3), (0, 3), (9, 3)], r"a line across, which leaves open .* up and down: add one"),
        ([(5, -9), (5, 0), (5, 9)], r"a line up and down, .* left and right: add one to the left"),
        ([(-9, -9), (0, 0), (9, 9.001)], r"a slanting line, .* add one in another corner"),
        ([(0, 0), (1, math.nan), (2, 5)], r"not a finite number"),
        ([(0, 0), (1, math.inf), (2, 5)], r"not a finite number"),
    ],
)
def test_bad_places_are_refused(places: list[Point], said: str) -> None:
    """Places that fix no plane are refused in one sentence that says what is missing."""
    with pytest.raises(OutOfRange, match=said) as refusal:
        check_places(places, "reading")
    assert str(refusal.value).endswith(".")
    assert refusal.value.quantity


def test_repeats_and_a_shared_zero() -> None:
    """Each place keeps its own spread, and all share the gauge's zero."""
    found = depth_readings(SQUARE, [[1.0], [1.01, 1.02, 1.03], [1.0], [1.0]], 0.005, 0.02)
    assert [r.place for r in found] == ["bottom left", "bottom right", "top right", "top left"]
    assert found[1].depth.value == pytest.approx(1.02)
    shared = set.intersection(*(set(r.depth.parts) for r in found))
    assert [source.name for source in shared] == ["zero of the depth gauge"]
    assert len(found[1].depth.parts) == 3


def test_a_place_without_a_reading_is_refused() -> None:
    """Four places and three readings are refused."""
    with pytest.raises(OutOfRange, match="got 4 places and 3 readings"):
        depth_readings(SQUARE, [[1.0]] * 3, 0.005)


def test_the_whole_measurement_refuses_too() -> None:
    """A standard gauged on a line is refused as a whole."""
    readings = depth_readings([(0, 0), (5, 0), (9, 0)], [[1.0]] * 3, 0.005)
    with pytest.raises(OutOfRange, match="line across"):
        measure_standard(readings)
    assert exact(1.0).standard == 0
