"""What the repairer is told of depth of field, stops and blur."""

import math

from optics.camera.blur import blur_budget
from optics.camera.camera import Camera, FrontCell, Helicoid, Lens, Turn
from optics.camera.stops import meaning
from optics.scales.depth_table import depth_table
from optics.scales.depth_wording import (
    blur_line,
    conventions_line,
    hyperfocal_line,
    limits_line,
    stop_line,
)

# f²/(N·c) is 10 m at f/8, so the hyperfocal distance is 10.05 m from the lens.
CAMERA = Camera("fifty", Lens(50.0, 2.0), Helicoid(18.0, 6, Turn.CLOCKWISE), 0.03125)
TABLE = depth_table(CAMERA, [8.0], [10050.0, math.inf], from_="lens")


def test_limits_and_hyperfocal_distance_are_said() -> None:
    """Focused at 10.05 m at f/8 a lens of 50 mm is sharp from half of it to infinity."""
    assert hyperfocal_line(TABLE, 0) == "f/8: focused at 10.05 m it is sharp from 5.025 m to ∞."
    assert limits_line(TABLE, 0, 0) == "f/8, focused at 10.05 m: sharp from 5.025 m to ∞."
    assert limits_line(TABLE, 0, 1) == "f/8, focused at ∞: sharp from 10 m to ∞."


def test_no_blur_allowed_is_said() -> None:
    """With no blur allowed there is no hyperfocal distance, and the words say why."""
    table = depth_table(CAMERA, [8.0], [1000.0], circle_of_confusion=0.0)
    assert hyperfocal_line(table, 0).startswith("No blur is allowed")


def test_conventions_are_said() -> None:
    """A table says where its distances begin and what it takes as sharp."""
    text = conventions_line(TABLE)
    assert text.startswith("Distances from the lens's front principal plane; circle of confusion ")
    assert conventions_line(depth_table(CAMERA, 8, 1000.0)).startswith("Distances from the film; ")


def test_the_pupils_have_no_part_in_a_front_cell() -> None:
    """A front cell's table says that the cell alone moves, not a pupil magnification."""
    folder = Camera("", Lens(75.0, 3.5), FrontCell(51.0, 9.0, Turn.CLOCKWISE, 92.0), 0.05)
    said = conventions_line(depth_table(folder, 8, 1000.0))
    assert "; the front cell alone moves, so that the pupils have no part; blur" in said
    assert "magnification" not in said


def test_blur_is_said_with_its_causes() -> None:
    """A tenth of a millimetre out at f/4 is said to be 0.025 mm of defocus, and sharp enough."""
    text = blur_line(blur_budget(CAMERA, 0.1, [4]), 0)
    assert "defocus 0.025 mm" in text
    assert text.endswith("film and eye 0.000 mm); looks sharp.")


def test_stops_are_said_with_their_table() -> None:
    """A stop is said with the table that has it, with all of them, or with none."""
    assert stop_line(meaning(11)).startswith("11: exactly f/11.31 in whole stops; ")
    assert stop_line(meaning(12.5)) == "12.5: exactly f/12.65 in old continental stops."
    assert stop_line(meaning(3.7)) == "3.7: in no series, taken as f/3.7 as engraved."
