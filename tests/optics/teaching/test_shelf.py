"""The invented cameras as the bench takes them."""

from optics.records import lantern_street
from optics.records.to_bench import camera_of
from optics.teaching.shelf import CORVANE, FINDERS, OSTRIN, TARNBROOK
from optics.typed import fields


def test_the_cameras_for_learning_are_those_on_the_shelf() -> None:
    """Exercises and posters speak of the very cameras that the pages offer."""
    assert [camera_of(part) for part in lantern_street.CAMERAS] == [OSTRIN, CORVANE, TARNBROOK]


def test_the_rangefinders_for_learning_are_those_on_the_shelf() -> None:
    """Base, its place and the magnification are those the Rangefinder page begins with."""
    for finder in FINDERS:
        part = lantern_street.RANGEFINDERS[finder.camera.name]
        rangefinder = finder.rangefinder
        assert rangefinder.base == fields.RANGEFINDER_BASE.read(part.base).value
        assert rangefinder.base_to_film == fields.BASE_TO_FILM.read(part.base_to_film).value
        assert rangefinder.magnification == fields.MAGNIFICATION.read(part.magnification).value
        assert finder.near_end == fields.NEAR_END.read(part.near_end).value
