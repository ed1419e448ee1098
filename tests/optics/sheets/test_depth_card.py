"""The pocket card, read back and held to rays traced by halving intervals."""

import math
import re
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from optics.camera.camera import Camera
from optics.camera.stops import Stops, f_number
from optics.drawing.page import MARGIN
from optics.drawing.ruler import LABEL
from optics.errors import OutOfRange
from optics.scales.depth_table import DepthTable, depth_table
from optics.scales.engraving import ScaleUnit
from optics.sheets.depth_card import SMALLEST, depth_card
from tests.optics.scales.rings import CORVANE, OSTRIN
from tests.optics.sheets.true_size import HOSTILE, MM, SIGNED

Read = Callable[[bytes], Any]
SIX = (2.8, 4.0, 5.6, 8.0, 11.0, 16.0)
METRES = (1e3, 1.2e3, 1.5e3, 2e3, 3e3, 5e3, 10e3, math.inf)
FEET = (*(304.8 * n for n in (3, 4, 5, 6, 8, 10, 15, 30)), math.inf)


def table_of(
    stops: tuple[float, ...] = SIX,
    distances: tuple[float, ...] = METRES,
    camera: Camera = OSTRIN,
    **how: Any,
) -> tuple[DepthTable, list[str]]:
    """A table for exact stops and their names."""
    used = [f_number(stop) for stop in stops]
    return depth_table(camera, used, distances, **how), [f"f/{stop:g}" for stop in stops]


def outline(back: Any) -> tuple[float, float, float, float]:
    """The card's outline: the only box on the page."""
    (box,) = back.pages[0].rects
    return tuple(box[k] * MM for k in ("x0", "top", "x1", "bottom"))


# The size of an everyday card: common practice.
@pytest.mark.parametrize("size", [(85.0, 54.0), (74.0, 50.0), (100.0, 58.0)])
def test_the_card_has_its_size(size: tuple[float, float], read_back: Read) -> None:
    """Both faces together are the stated size within 0.02 mm, with the fold between them."""
    back = read_back(depth_card(*table_of(), SIGNED, size=size).pdf())
    x0, top, x1, bottom = outline(back)
    is_beside = 2 * size[0] <= 180
    expected = (2 * size[0], size[1]) if is_beside else (size[0], 2 * size[1])
    assert (x1 - x0, bottom - top) == pytest.approx(expected, abs=0.02)
    folds = [line for line in back.pages[0].lines if line.get("dash", ([],))[0]]
    (fold,) = folds
    middle = fold["x0"] * MM - x0 if is_beside else fold["top"] * MM - top
    assert middle == pytest.approx(size[0] if is_beside else size[1], abs=0.02)


def test_all_that_belongs_on_it_lies_inside_its_faces(read_back: Read) -> None:
    """Nothing of the table is cut away or stands across the fold."""
    back = read_back(depth_card(*table_of(), SIGNED).pdf())
    x0, top, x1, bottom = outline(back)
    fold = (x0 + x1) / 2
    inside = [w for w in back.words() if x0 < w[1] < x1 and top < w[2] < bottom]
    assert len(inside) > 100
    for _, left, upper, right, lower in inside:
        assert upper >= top + 1
        assert lower <= bottom - 0.8
        assert x0 + 1.9 <= left
        assert right <= x1 - 1.9
        assert right <= fold - 1.9 or left >= fold + 1.9


def blur(focused: float, seen: float, stop: float, f: float) -> float:
    """The disc a thin lens, focused at one distance from itself, makes of a point at another."""

    def image(distance: float) -> float:
        return f if math.isinf(distance) else f * distance / (distance - f)

    at = image(focused)
    # Similar triangles from the lens's rim f/N wide to the point's own image.
    return f / stop * abs(image(seen) - at) / image(seen)


def limits(focused: float, stop: float, f: float, c: float) -> tuple[float, float]:
    """Nearest and farthest distance from the lens whose disc is no larger than allowed."""
    edges = []
    for far in (False, True):
        sharp, soft = focused, (1e12 if far else f * 1.0001)
        if math.isinf(focused):
            sharp = 1e12
        if far and blur(focused, math.inf, stop, f) <= c:
            edges.append(math.inf)
            continue
        for _ in range(200):
            middle = math.sqrt(sharp * soft)
            if blur(focused, middle, stop, f) <= c:
                sharp = middle
            else:
                soft = middle
        edges.append(sharp)
    return edges[0], edges[1]


def read_metres(text: str) -> float:
    """A figure of a card in metres."""
    return math.inf if text == "∞" else 1000 * float(text)


def read_feet(text: str) -> float:
    """A figure of a card in feet and inches."""
    if text == "∞":
        return math.inf
    found = re.fullmatch(r"(?:(\d+)′)?(?:(\d*)([¼½¾]?)″)?", text)
    assert found, text
    quarters = {"": 0.0, "¼": 0.25, "½": 0.5, "¾": 0.75}[found[3] or ""]
    return 304.8 * float(found[1] or 0) + 25.4 * (float(found[2] or 0) + quarters)


@pytest.mark.parametrize("unit", ScaleUnit)
def test_every_limit_is_what_rays_say(unit: ScaleUnit, read_back: Read) -> None:
    """Near and far of every cell agree with halved intervals on the blur disc, as rounded."""
    # From the lens, so that a thin lens needs no hiatus.
    distances = METRES if unit is ScaleUnit.METRES else FEET
    table, names = table_of(distances=distances, from_="lens")
    back = read_back(depth_card(table, names, SIGNED, unit=unit).pdf())
    read = read_metres if unit is ScaleUnit.METRES else read_feet
    seen = 0
    for side, half in enumerate((SIX[:3], SIX[3:])):
        rows = face_rows(back, side, len(half))
        for focused, row in zip(distances, rows, strict=True):
            for stop, cell in zip(half, row, strict=True):
                near, far = (read(part) for part in cell.split("–"))
                expected = limits(focused, f_number(stop), 47.0, 0.03)
                for got, wanted in zip((near, far), expected, strict=True):
                    if math.isinf(wanted) or wanted > 1e11:
                        assert math.isinf(got)
                        continue
                    assert abs(got - wanted) <= rounding(wanted, unit) / 2 + 1e-6
                    seen += 1
    assert seen > 60


def rounding(mm: float, unit: ScaleUnit) -> float:
    """How coarsely a card gives a distance, in mm."""
    if unit is ScaleUnit.METRES:
        return 1 if mm < 500 else 10 if mm < 9995 else 100 if mm < 99950 else 1000
    return 25.4 * (0.25 if mm < 3044.9 else 1 if mm < 9132 else 12)


def face_rows(back: Any, side: int, count: int) -> list[list[str]]:
    """The cells of one face, a row for each distance, its characters put in order."""
    x0, top, x1, bottom = outline(back)
    middle = (x0 + x1) / 2
    crop = back.pages[0].crop(
        [v / MM for v in ((x0, middle)[side], top, (middle, x1)[side], bottom)]
    )
    lines = crop.extract_text(x_tolerance=1.2).splitlines()
    found = [re.findall(r"[\d.′″¼½¾∞]+–[\d.′″¼½¾∞]+", line) for line in lines]
    return [row for row in found if len(row) == count]


def test_the_hyperfocal_lines_are_what_rays_say(read_back: Read) -> None:
    """Focused where the card says, infinity is just sharp, and so is the distance under it."""
    table, names = table_of((4.0, 8.0), from_="lens")
    text = read_back(depth_card(table, names, SIGNED).pdf()).text
    at = [float(n) for n in re.search(r"∞ sharp at ([\d.]+) ([\d.]+)", text).groups()]
    sharp_from = [float(n) for n in re.search(r"and from ([\d.]+) ([\d.]+)", text).groups()]
    for stop, metres, near in zip((4.0, 8.0), at, sharp_from, strict=True):
        assert blur(1000 * metres, math.inf, stop, 47.0) == pytest.approx(0.03, rel=0.005)
        assert limits(1000 * metres, stop, 47.0, 0.03)[0] == pytest.approx(1000 * near, rel=0.005)


@pytest.mark.parametrize("begin", ["film", "lens"])
@pytest.mark.parametrize("stops", Stops)
def test_the_card_says_what_it_rests_on(begin: str, stops: Stops, read_back: Read) -> None:
    """Each face states the blur allowed, which stops, the unit, and where distances begin."""
    table, names = table_of(from_=begin, circle_of_confusion=0.025)
    back = read_back(depth_card(table, names, SIGNED, stops=stops).pdf())
    assert back.text.count(f"metres from the {begin}") == 2
    assert back.text.count(f"circle of confusion 0.025 mm · {stops.value} stops · 2026-03-06") == 2
    assert back.text.count("Ostrin 35") >= 2
    assert back.text.count(LABEL) == 2
    assert "Source: Two rays from the entrance pupil's rim" in back.text
    assert all(back.font_files().values())
    assert back.reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"


def test_few_stops_leave_the_back_for_words(read_back: Read) -> None:
    """A table that fits the front has what it means on the back."""
    table, names = table_of((4.0, 8.0, 16.0), camera=CORVANE, distances=METRES[2:])
    back = read_back(depth_card(table, names, SIGNED).pdf())
    x0, top, x1, bottom = outline(back)
    behind = " ".join(w[0] for w in back.words() if w[1] > (x0 + x1) / 2 and top < w[2] < bottom)
    assert "Sharp from – to, focused at the distance in the first column" in behind
    assert "front cell 51 mm" in behind
    assert back.text.count("∞ sharp at") == 3


def test_the_card_of_a_front_cell_is_narrower_close_up(read_back: Read) -> None:
    """At 1.5 m and f/8 marked the Corvane's card says 1.38–1.64 m, for the cone does not grow."""
    # By hand, formula book: K + t + f₁ + f₁²/(t ± 0.18496) with t 1.91944; whole, 1.37–1.65.
    table = depth_table(CORVANE, [8.0], [1500.0, math.inf])
    back = read_back(depth_card(table, ["f/8"], SIGNED, stops=Stops.MARKED).pdf())
    assert face_rows(back, 0, 1)[0] == ["1.38–1.64"]
    text = " ".join(back.text.split())
    assert "the front cell alone moves" in text
    assert "Depth of focus N·c carried to the front cell" in text


@pytest.mark.parametrize("typed", HOSTILE)
def test_any_name_fits_the_card(typed: str, page_size: str, read_back: Read) -> None:
    """However long or odd the camera's name, it stays on its face and the sheet on its page."""
    table, names = table_of(camera=replace(OSTRIN, name=typed))
    signed = replace(SIGNED, title=typed, made_by=typed, page_size=page_size)
    back = read_back(depth_card(table, names, signed).pdf())
    x0, top, x1, bottom = outline(back)
    for _, left, upper, right, _ in back.words():
        if top < upper < bottom and x0 < left < x1:
            assert right <= x1 - 1.9
            assert right <= (x0 + x1) / 2 - 1.9 or left >= (x0 + x1) / 2 + 1.9
    assert back.extent()[2] <= float(back.pages[0].width) * MM - MARGIN + 0.3
    assert back.extent()[3] <= float(back.pages[0].height) * MM - MARGIN + 0.3


def test_a_nameless_camera_goes_by_its_focal_length(read_back: Read) -> None:
    """Without a name the card bears the focal length."""
    table, names = table_of(camera=replace(OSTRIN, name=" "))
    assert "47 mm metres from the film" in read_back(depth_card(table, names, SIGNED).pdf()).text


@pytest.mark.parametrize(
    ("size", "distances", "words"),
    [
        ((20.0, 54.0), METRES, "card's width must be from 50 mm to 170 mm"),
        ((85.0, 200.0), METRES, "card's height"),
        ((85.0, 54.0), tuple(1000.0 + 100 * n for n in range(40)), f"at least {SMALLEST} points"),
        ((120.0, 100.0), METRES, "leave room for the rulers"),
    ],
)
def test_a_table_too_large_is_refused(
    size: tuple[float, float], distances: tuple[float, ...], words: str
) -> None:
    """What could not be read, or not be printed, is refused with what to change."""
    table, names = table_of(distances=distances)
    with pytest.raises(OutOfRange, match=words):
        depth_card(table, names, SIGNED, size=size)
