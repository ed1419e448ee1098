"""What the repairer is told that a table of depth takes for granted."""

import math

from optics.camera.camera import Camera, FrontCell, Helicoid, Lens, Turn
from optics.scales.depth_table import depth_table
from optics.scales.depth_wording import conventions_line

# f²/(N·c) is 10 m at f/8, so the hyperfocal distance is 10.05 m from the lens.
CAMERA = Camera("fifty", Lens(50.0, 2.0), Helicoid(18.0, 6, Turn.CLOCKWISE), 0.03125)
TABLE = depth_table(CAMERA, [8.0], [10050.0, math.inf], from_="lens")


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
