"""The camera as described: its tolerance, its depth of focus, and what it refuses."""

import math

import pytest

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Lens, Turn
from optics.errors import OutOfRange, Unreadable

LEFT = Turn.COUNTER_CLOCKWISE
BED = Camera("", Lens(135.0, 4.5), Bed(), 0.1)


def test_the_tolerance_is_half_the_depth_of_focus_unless_stated() -> None:
    """f/5 and 0.025 mm have ± 0.125 mm of focus (a textbook's N·c); half of it is allowed."""
    lens = Lens(50.0, 5.0)
    assert Camera("", lens, Bed(), 0.025).depth_of_focus == pytest.approx(0.125)
    assert Camera("", lens, Bed(), 0.025).allowed_error == pytest.approx(0.0625)
    assert Camera("", lens, Bed(), 0.025, tolerance=0.02).allowed_error == 0.02


def test_the_depth_of_focus_grows_near_by() -> None:
    """At life size the depth of focus doubles, N·c·(1 + m), and with p 0.5 it trebles."""
    near = 4 * 135.0  # object and image both at 2f
    assert BED.magnification_at(near) == pytest.approx(1.0)
    assert BED.depth_at(near) == pytest.approx(2 * 0.45)
    telephoto = Camera("", Lens(135.0, 4.5, pupil_magnification=0.5), Bed(), 0.1)
    assert telephoto.depth_at(near) == pytest.approx(3 * 0.45)


def test_the_depth_of_focus_of_a_front_cell_stays_as_it_is() -> None:
    """Nothing behind the front cell moves, so f/3.5 and 0.05 mm leave 0.175 mm at any distance."""
    cell = FrontCell(50.0, 9.0, Turn.CLOCKWISE, cell_to_film=80.0)
    for pupils in (0.5, 1.0, 2.0):
        folder = Camera("", Lens(75.0, 3.5, 0.0, pupils), cell, 0.05)
        for distance in (600.0, 1000.0, math.inf):
            assert folder.depth_at(distance) == pytest.approx(0.175, rel=1e-12)
    with pytest.raises(OutOfRange, match="cannot serve a nearer subject"):
        folder.depth_at(200.0)


def test_the_extension_at_the_film_is_the_lenss_or_the_cells() -> None:
    """A whole lens of 135 mm moves 15 mm for 1.5 m; a cell moves 1 mm, which is 2.25 at film."""
    assert BED.film_side_extension(1500.0) == pytest.approx(15.0)  # 270 + 15 + 135²/15 = 1500
    cell = FrontCell(50.0, 9.0, Turn.CLOCKWISE, cell_to_film=80.0)
    folder = Camera("", Lens(75.0, 3.5), cell, 0.05)
    assert folder.film_side_extension(80.0 + 1 + 50 + 2500) == pytest.approx(2.25)
    for camera in (BED, folder):
        assert camera.film_side_extension(math.inf) == 0.0


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"lens": Lens(0.0, 4.5)}, r"^The focal length must be more than 0 mm: got 0 mm;"),
        ({"lens": Lens(math.nan, 4.5)}, r"^The focal length is not a number; enter it again"),
        ({"lens": Lens(50.0, -1.0)}, r"^The f-number must be more than 0: got −1;"),
        ({"circle_of_confusion": -0.1}, r"^The circle of confusion .* must be at least 0 mm: got"),
        ({"lens": Lens(math.inf, 4.5)}, r"^The focal length must be finite: got infinity mm;"),
        ({"lens": Lens(50.0, math.inf)}, r"^The f-number must be finite: got infinity;"),
        ({"lens": Lens(50.0, 4.0, math.nan)}, r"^The hiatus .* is not a number; enter it again"),
        ({"lens": Lens(50.0, 4.0, 0.0, 0.0)}, r"^The pupil magnification .* more than 0: got 0;"),
        ({"circle_of_confusion": math.inf}, r"^The circle of confusion .* must be finite: got"),
        ({"focusing": Helicoid(-18.0, 6, LEFT)}, r"^The lead .* must be more than 0 mm: got −18"),
        ({"focusing": Helicoid(math.inf, 6, LEFT)}, r"^The lead .* must be finite: got infinity"),
        ({"focusing": Helicoid(18.0, 0, LEFT)}, r"^The number of thread starts must be at least 1"),
        ({"focusing": Helicoid(18.0, 6, LEFT, -52.0)}, r"^The ring diameter must be more than 0"),
        ({"focusing": FrontCell(0.0, 9.0, LEFT, 80.0)}, r"^The focal length of the front group"),
        ({"focusing": FrontCell(50.0, -9.0, LEFT, 80.0)}, r"^The lead .* must be more than 0 mm"),
        (
            {"focusing": FrontCell(50.0, 9.0, LEFT, 0.0)},
            r"^The distance from the film to the",
        ),
        ({"tolerance": 0.0}, r"^The focus tolerance must be more than 0 mm: got 0 mm; leave it"),
        ({"tolerance": math.inf}, r"^The focus tolerance must be more than 0 mm: got inf mm;"),
    ],
)
def test_a_camera_that_no_formula_could_use_is_refused(
    changes: dict[str, object], said: str
) -> None:
    """A focal length, f-number, circle or tolerance without a meaning is refused at once."""
    figures = {"lens": Lens(50.0, 4.0), "focusing": Bed(), "circle_of_confusion": 0.03, **changes}
    with pytest.raises(OutOfRange, match=said):
        Camera("", **figures)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"lens": Lens("47", 4.0)}, r"^The focal length must be a number: got '47'; give it as"),  # type: ignore[arg-type]
        ({"circle_of_confusion": "0.03 mm"}, r"^The circle of confusion .* got '0\.03 mm'; give"),
        ({"focusing": Helicoid("18", 6, LEFT)}, r"^The lead .* must be a number: got '18'; give"),  # type: ignore[arg-type]
        ({"tolerance": "0.02"}, r"^The focus tolerance must be a number: got '0\.02'; give it as"),
    ],
)
def test_text_is_no_figure_of_a_camera(changes: dict[str, object], said: str) -> None:
    """A text where a number belongs is refused when the camera is made, not at its first use."""
    figures = {"lens": Lens(50.0, 4.0), "focusing": Bed(), "circle_of_confusion": 0.03, **changes}
    with pytest.raises(Unreadable, match=said):
        Camera("", **figures)  # type: ignore[arg-type]


def test_turning_has_two_senses() -> None:
    """Each sense of turning is the other's opposite."""
    assert Turn.CLOCKWISE.opposite is Turn.COUNTER_CLOCKWISE
    assert Turn.COUNTER_CLOCKWISE.opposite is Turn.CLOCKWISE


def test_only_a_front_cell_has_a_groups_constants() -> None:
    """Whole lenses need focal length and hiatus, a front cell its group and its place."""
    helicoid = Camera("", Lens(50.0, 4.0, -1.5), Helicoid(18.0, 6, Turn.CLOCKWISE), 0.03)
    assert helicoid.constants == {"focal_length": 50.0, "hiatus": -1.5}
    folder = Camera("", Lens(75.0, 3.5), FrontCell(50.0, 9.0, Turn.CLOCKWISE, 80.0), 0.05)
    assert folder.constants == {"group_focal_length": 50.0, "cell_to_film": 80.0}
