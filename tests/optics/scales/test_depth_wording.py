"""What the repairer is told of a depth table."""

from optics.camera.camera import Camera, FrontCell, Helicoid, Lens, Turn
from optics.scales.depth_table import depth_table
from optics.scales.depth_wording import conventions_line

CAMERA = Camera("fifty", Lens(50.0, 2.0), Helicoid(18.0, 6, Turn.CLOCKWISE), 0.03125)


def test_conventions_are_said() -> None:
    """A table says where its distances begin and what it takes as sharp."""
    text = conventions_line(depth_table(CAMERA, 8, 1000.0, from_="lens"))
    assert text.startswith("Distances from the lens's front principal plane; circle of confusion ")
    assert conventions_line(depth_table(CAMERA, 8, 1000.0)).startswith("Distances from the film; ")


def test_the_pupils_have_no_part_in_a_front_cell() -> None:
    """A front cell's table says that the cell alone moves, not a pupil magnification."""
    folder = Camera("", Lens(75.0, 3.5), FrontCell(51.0, 9.0, Turn.CLOCKWISE, 92.0), 0.05)
    said = conventions_line(depth_table(folder, 8, 1000.0))
    assert "; the front cell alone moves, so that the pupils have no part; blur" in said
    assert "magnification" not in said
