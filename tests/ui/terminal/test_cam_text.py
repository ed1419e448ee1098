"""A cam's answer as lines of text."""

from tests.optics.rangefinder.test_cam_part import answered
from ui.terminal.cam_text import cam_blocks


def test_a_new_cam_is_a_table() -> None:
    """Without lifts every row says place, distance and lift."""
    _, table = cam_blocks(answered())
    assert table[1] == "- ∞, sharp at ∞: 0.000 mm"
    assert any(line.startswith("- 20° from ∞") and line.endswith("1.000 mm") for line in table)


def test_metal_is_listed_place_by_place() -> None:
    """What to take off first and in all stands for each place, with a warning of its own."""
    blocks = cam_blocks(answered(lifts="0 = 0; 20 = 1.03; 40 = 2"))
    cuts = next(block for block in blocks if block[0] == "Metal to come off")
    assert cuts[2] == "- 20° from ∞: 0.02 mm now, 0.03 mm in all"
    assert any("does not come back" in line for block in blocks for line in block)
