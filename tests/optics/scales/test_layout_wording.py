"""The layout of a scale in words."""

import pytest

from optics.camera.camera import Helicoid, Turn
from optics.camera.stops import Stops
from optics.scales.layout_wording import (
    depth_marks_line,
    depth_source_line,
    face_runs_line,
    source_line,
    strip_runs_line,
    turning_line,
)
from optics.scales.scale_layout import ScaleOn, Towards, depth_row
from tests.optics.scales.rings import CORVANE, OSTRIN


def test_the_ring_s_turn_is_said_whichever_part_bears_the_scale() -> None:
    """What extends the lens is said by its own sense, as the camera's datum has it."""
    assert isinstance(OSTRIN.focusing, Helicoid)
    assert OSTRIN.focusing.extends is Turn.COUNTER_CLOCKWISE
    for scale_on, what in ((ScaleOn.RING, "the ring"), (ScaleOn.BODY, "the ring with its index")):
        assert turning_line(OSTRIN, scale_on).startswith(
            f"Turning {what} counter-clockwise, seen from the front, moves the lens out"
        )


@pytest.mark.parametrize(
    ("scale_on", "tops", "side", "face"),
    [
        (ScaleOn.RING, Towards.FRONT, "left", "clockwise"),
        (ScaleOn.RING, Towards.FILM, "right", "clockwise"),
        (ScaleOn.BODY, Towards.FRONT, "right", "counter-clockwise"),
    ],
)
def test_the_scale_s_run_is_said_for_barrel_and_face(
    scale_on: ScaleOn, tops: Towards, side: str, face: str
) -> None:
    """A ring that extends counter-clockwise has its near marks clockwise of ∞, left on top."""
    up = "front of the lens" if tops is Towards.FRONT else "film side"
    assert strip_runs_line(OSTRIN, scale_on, tops) == (
        f"Looked at from outside with the {up} up, the figures stand upright and nearer marks lie "
        f"to the {side} of ∞."
    )
    assert face_runs_line(OSTRIN, scale_on) == f"Seen from the front, nearer marks lie {face} of ∞."


def test_depth_marks_say_what_they_were_reckoned_with() -> None:
    """The circle of confusion and the kind of stops are named."""
    exact = depth_marks_line(OSTRIN, depth_row(OSTRIN, 52.0))
    assert exact.startswith("Depth marks for a circle of confusion of 0.03 mm and the exact")
    marked = depth_marks_line(OSTRIN, depth_row(OSTRIN, 52.0, stops=Stops.MARKED))
    assert "the f-numbers as engraved" in marked


def test_sources_are_named() -> None:
    """Each kind of lens, and depth of field, names by what it was worked out."""
    assert source_line(OSTRIN).startswith("Source: Newton's conjugate equation with the subject")
    assert source_line(CORVANE).startswith("Source: Newton's conjugate equation for the front")
    assert depth_source_line(OSTRIN).startswith("Source: Two rays from the entrance pupil's rim")
    assert depth_source_line(CORVANE).startswith("Source: Depth of focus N·c carried to the front")


def test_depth_marks_of_a_front_cell_are_right_at_every_distance() -> None:
    """A whole lens's depth marks are said to be for distant subjects, a front cell's for all."""
    whole = depth_marks_line(OSTRIN, depth_row(OSTRIN, 52.0))
    assert whole.endswith(
        "(f/5.6 is f/5.657; the full aperture as engraved), for distant subjects."
    )
    by_cell = depth_marks_line(CORVANE, depth_row(CORVANE, 36.0))
    assert by_cell.endswith("(f/5.6 is f/5.657; the full aperture as engraved), at every distance.")
