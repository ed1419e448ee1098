"""The cam sheet, read back in millimetres against lifts found by halving."""

import math
import subprocess
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from optics.camera.camera import Camera, Helicoid, Lens, Turn
from optics.drawing.page import MARGIN
from optics.errors import OutOfRange
from optics.rangefinder.cam import Cam, LensLaw
from optics.rangefinder.stoning import StoningMap, StoningRules, stone
from optics.sheets.cam_sheet import cam_sheet
from tests.optics.rangefinder.test_cam import lift_by_halving
from tests.optics.rangefinder.test_stoning import read

MM = 25.4 / 72
MADE = date(2026, 3, 6)
DIAMETER, TURN = 58.0, 150.0
SKIRT = 8.0


def long_lens(extends: Turn = Turn.COUNTER_CLOCKWISE, turn: float = TURN) -> Cam:
    """A 90 mm lens for a body cut for 50 mm."""
    camera = Camera("Ostrin 35", Lens(90.0, 4.0, -1.0), Helicoid(24.0, 6, extends), 0.03)
    return Cam(camera, LensLaw(50.0, 0.5), math.radians(turn))


def mapped() -> StoningMap:
    """A map with a deep place at 70° and a low one at 105°."""
    return stone(long_lens(), read(long_lens(), [0.02, 0.03, 0.09, 0.0, 0.05]), StoningRules())


def drawn(cam: Cam, **asked: Any) -> bytes:
    """A sheet of the cam."""
    return cam_sheet(cam, asked.pop("diameter", DIAMETER), title="90 mm", made=MADE, **asked).pdf()


def open_lines(back: Any, page: int) -> list[list[tuple[float, float]]]:
    """The places, in mm, of every line of more than ten points on a page, longest first."""
    found = [[(x * MM, y * MM) for x, y in c["pts"]] for c in back.pages[page].curves]
    return sorted((one for one in found if len(one) > 10), key=len, reverse=True)


def profiles(back: Any, page: int) -> list[list[tuple[float, float]]]:
    """The outlines of the profile, closed along their foot, from the top of the page.

    Each without its closing point: foot, profile, foot.
    """
    outlines = [one[:-1] for one in open_lines(back, page) if one[0] == one[-1]]
    return sorted(outlines, key=lambda one: one[0][1])


@pytest.mark.parametrize("extends", list(Turn))
def test_the_developed_profile_is_the_lift_along_the_arc(
    read_back: Callable[[bytes], Any], page_size: str, extends: Turn
) -> None:
    """At 1:1 and 10:1 the profile stands as high as the lift at every half degree of arc."""
    cam = long_lens(extends)
    back = read_back(drawn(cam, page_size=page_size))
    true_size, tall = profiles(back, 1)
    for outline, times, skirt in ((true_size, 1, SKIRT), (tall, 10, 0.0)):
        foot, points = outline[0][1], outline[1:-1]
        far_end = points[0][0]
        side = 1 if extends is Turn.COUNTER_CLOCKWISE else -1
        assert len(points) == 301
        for half_degrees, (x, y) in enumerate(points):
            degrees = half_degrees / 2
            along = side * math.radians(degrees) * DIAMETER / 2
            lift = lift_by_halving(cam, degrees) if degrees else 0.0
            assert x - far_end == pytest.approx(along, abs=0.02)
            assert foot - skirt - y == pytest.approx(times * lift, abs=0.02)


@pytest.mark.parametrize("extends", list(Turn))
def test_the_polar_profile_is_the_lift_round_the_circle(
    read_back: Callable[[bytes], Any], page_size: str, extends: Turn
) -> None:
    """Seen from the back each place is as far round, and as far out, as its lift says."""
    cam = long_lens(extends)
    back = read_back(drawn(cam, page_size=page_size))
    circle, profile = open_lines(back, 2)
    middle = (np.array(circle).max(0) + np.array(circle).min(0)) / 2
    assert np.hypot(*(np.array(circle) - middle).T) == pytest.approx(DIAMETER / 2, abs=0.02)
    # The ring turns counter-clockwise from the front past a follower at rest: on the cam the
    # places follow clockwise from the front, so counter-clockwise from the back.
    side = 1 if extends is Turn.COUNTER_CLOCKWISE else -1
    for half_degrees, point in enumerate(profile):
        x, y = point - middle
        lift = lift_by_halving(cam, half_degrees / 2) if half_degrees else 0.0
        assert math.hypot(x, y) == pytest.approx(DIAMETER / 2 + lift, abs=0.02)
        turned = math.degrees(math.atan2(-side * x, -y)) % 360
        assert turned == pytest.approx(half_degrees / 2, abs=0.05) or half_degrees == 0


def test_the_table_gives_the_lift_every_five_degrees(read_back: Callable[[bytes], Any]) -> None:
    """Each row has the turn, the arc and the lift that halving finds."""
    words = read_back(drawn(long_lens())).reader.pages[0].extract_text().split()
    for degrees in range(5, 151, 5):
        arc = f"{math.radians(degrees) * DIAMETER / 2:.2f}"
        row = words.index(arc, words.index(f"{degrees}°"))
        assert words[row + 1] == f"{lift_by_halving(long_lens(), degrees):.3f}"


def test_the_map_says_what_to_take_off(read_back: Callable[[bytes], Any]) -> None:
    """With a map each row ends in the first pass and the whole cut, straight between readings."""
    found = mapped()
    back = read_back(drawn(long_lens(), found=found))
    lines = back.reader.pages[0].extract_text().splitlines()
    text = " ".join(lines)
    # Read at 0, 35, 70, 105, 140°; 20° is 4/7 of the way from 0.02 to 0.03: 0.0257; step 0.002.
    for row, first, whole in (("35°", 0.02, 0.03), ("70°", 0.06, 0.09), ("20°", 0.016, 0.024)):
        words = text[text.index(f" {row} ", text.index("In all")) :].split()[:12]
        words = words[: words.index("±") + 4]
        assert words[-2:] == [f"{first:.3f}", f"{whole:.3f}"]
    for said in (
        "Take off at most 0.090 mm, at 70° from ∞, and nothing at 105° from ∞.",
        "Take off two thirds of it as listed",
        "with 0.020 mm less lift than now",
        "True within",
        "The low place, at 105° from ∞",
        "Metal stoned off does not come back",
        "Ring turned counter-clockwise from ∞, seen from the front.",
    ):
        assert said in " ".join(text.split())


def test_the_bars_stand_for_the_metal(read_back: Callable[[bytes], Any]) -> None:
    """Each bar is a hundred times as high as the metal that is to come off at its place."""
    back = read_back(drawn(long_lens(), found=mapped()))
    bars = [(r["x0"] * MM, r["x1"] * MM, r["height"] * MM) for r in back.pages[1].rects]
    first = profiles(back, 1)[0][1][0]
    by_degrees = {
        round(math.degrees(((x0 + x1) / 2 - first) / (DIAMETER / 2))): h for x0, x1, h in bars
    }
    assert by_degrees[35] == pytest.approx(3.0, abs=0.02)
    assert by_degrees[70] == pytest.approx(9.0, abs=0.02)
    assert by_degrees[140] == pytest.approx(5.0, abs=0.02)
    assert 105 not in by_degrees
    assert max(by_degrees) == 140


@pytest.mark.parametrize("lowers", [True, False])
def test_the_cam_as_read_lies_on_the_side_of_its_metal(
    read_back: Callable[[bytes], Any], lowers: bool
) -> None:
    """Dashed at 10:1, the cam as read stands over the profile, or under it where cutting raises."""
    cam = long_lens()
    readings = read(cam, [0.02, 0.03, 0.09, 0.0, 0.05])
    found = stone(cam, readings, StoningRules(cutting_lowers=lowers))
    back = read_back(drawn(cam, found=found))
    tall = profiles(back, 1)[-1][1:-1]
    as_read = next(one for one in open_lines(back, 1) if len(one) == 281)
    gap = [b[1] - a[1] for a, b in zip(as_read, tall, strict=False)]
    side = 1 if lowers else -1
    assert gap[140] == pytest.approx(side * 10 * found.removal[2], abs=0.03)
    assert min(side * one for one in gap) > -0.01


def test_a_long_cam_comes_in_pieces_that_join(read_back: Callable[[bytes], Any]) -> None:
    """A cam longer than the paper comes in equal pieces, each beginning where the last ended."""
    cam = long_lens(turn=340.0)
    back = read_back(drawn(cam, diameter=70.0))
    assert len(back.pages) == 4
    first, second = (profiles(back, page)[0] for page in (1, 2))
    lengths = [one[-1][0] - one[0][0] for one in (first, second)]
    assert sum(lengths) == pytest.approx(math.radians(340) * 35, abs=0.04)
    ends = [
        foot - SKIRT - y for foot, y in ((first[0][1], first[-2][1]), (second[0][1], second[1][1]))
    ]
    assert ends[0] == pytest.approx(ends[1], abs=0.02)
    assert ends[0] == pytest.approx(lift_by_halving(cam, 170), abs=0.02)
    for page in (1, 2):
        assert "170°" in [word[0] for word in back.words(page)]


def test_every_true_size_page_has_its_rulers(
    read_back: Callable[[bytes], Any], page_size: str
) -> None:
    """Each page with a drawing has 100 mm across and 100 mm up."""
    back = read_back(drawn(long_lens(), found=mapped(), page_size=page_size))
    for page in (1, 2):
        sides = {(round(x1 - x0, 2), round(y1 - y0, 2)) for x0, y0, x1, y1 in back.lines(page)}
        assert {(100.0, 0.0), (0.0, 100.0)} <= sides


@pytest.mark.parametrize(("diameter", "turn"), [(30.0, 60.0), (58.0, 150.0), (120.0, 300.0)])
def test_everything_stays_inside_the_margins(
    read_back: Callable[[bytes], Any], page_size: str, diameter: float, turn: float
) -> None:
    """Small cams and large, with a table by the degree, stay inside the margins of both papers."""
    cam = long_lens(turn=turn)
    step = math.radians(1)
    back = read_back(drawn(cam, diameter=diameter, page_size=page_size, step=step))
    for number, page in enumerate(back.pages):
        left, top, right, bottom = back.extent(number)
        assert left >= MARGIN - 1.5
        assert top >= MARGIN - 1.5
        assert right <= float(page.width) * MM - MARGIN + 1.5
        assert bottom <= float(page.height) * MM - MARGIN + 1.5
    rows = [w for n in range(len(back.pages)) for w in back.words(n) if w[0].endswith("°")]
    assert {f"{n}°" for n in range(int(turn) + 1)} <= {w[0] for w in rows}


def test_a_printed_profile_is_as_long_as_its_arc(tmp_path: Path) -> None:
    """Drawn at 300 dots per inch by another program, the template's foot is its arc ± 1 dot."""
    (tmp_path / "cam.pdf").write_bytes(drawn(long_lens()))
    command = ["pdftoppm", "-r", "300", "-gray", "-f", "2", "-l", "2", "cam.pdf", "cam"]
    subprocess.run(command, cwd=tmp_path, check=True)
    data = next(tmp_path.glob("*.pgm")).read_bytes()
    width, height = map(int, data.split(maxsplit=4)[1:3])
    image = np.frombuffer(data[-width * height :], np.uint8).reshape(height, width)
    dark = image[: height // 3] < 160
    arc = math.radians(TURN) * DIAMETER / 2 / 25.4 * 300
    rows = [np.flatnonzero(row) for row in dark if np.count_nonzero(row) > 0.9 * arc]
    # The foot is the only row that is dark without a gap; rows of text have many.
    foot = next(row for row in rows if row[-1] - row[0] == len(row) - 1)
    assert len(foot) == pytest.approx(arc, abs=1.5)


def test_the_same_cam_has_the_same_bytes() -> None:
    """The same cam and date give the same bytes."""
    assert drawn(long_lens(), found=mapped()) == drawn(long_lens(), found=mapped())


@pytest.mark.parametrize("diameter", [0.0, -5.0, 400.0])
def test_a_cam_that_cannot_be_drawn_is_refused(diameter: float) -> None:
    """A cam of no diameter, or too large for the paper, is refused with the limit."""
    with pytest.raises(OutOfRange, match=r"more than 0 mm and at most 1\d\d mm"):
        drawn(long_lens(), diameter=diameter)


def test_an_unknown_paper_is_refused() -> None:
    """A paper that is neither A4 nor Letter is refused."""
    with pytest.raises(OutOfRange, match="A4 or Letter"):
        drawn(long_lens(), page_size="A5")
