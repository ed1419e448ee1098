"""Where marks belong on a ring, against a draughtsman who knows none of the formulas."""

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Turn
from optics.camera.stops import Stops
from optics.errors import NoAnswer, OutOfRange, ShimwrightError
from optics.scales.engraving import ScaleUnit
from optics.scales.scale_layout import (
    LARGEST,
    ScaleOn,
    Towards,
    clear_of_each_other,
    depth_row,
    runs,
    runs_right,
    scale_row,
)
from optics.theory.scale import depth_mark
from tests.optics.scales.rings import CORVANE, OSTRIN, Engraver

METRES, FEET = ScaleUnit.METRES, ScaleUnit.FEET
# A lens that moves whole has its focal length and hiatus between itself at infinity and the film.
ENGRAVERS = {
    "Ostrin 35": (OSTRIN, Engraver(47.0, 47.6, 18.0)),
    "Corvane 6×6": (CORVANE, Engraver(51.0, 92.0, 9.0)),
}
BED = replace(OSTRIN, focusing=Bed())


@pytest.mark.parametrize("name", ENGRAVERS)
@pytest.mark.parametrize("unit", ScaleUnit)
def test_marks_stand_where_the_lens_is_sharp(name: str, unit: ScaleUnit) -> None:
    """Every mark's angle is the turn at which halving intervals finds its distance sharp."""
    camera, engraver = ENGRAVERS[name]
    row = scale_row(camera, unit, 50.0)
    expected = [engraver.angle(mark.distance) for mark in row.marks]
    assert [mark.angle for mark in row.marks] == pytest.approx(expected, abs=1e-9)
    # The arc of an angle on a circle 50 mm across.
    assert [row.arc(mark) for mark in row.marks] == pytest.approx(
        [25 * angle for angle in expected], abs=1e-8
    )
    assert row.span == pytest.approx(max(expected))


@pytest.mark.parametrize("name", ENGRAVERS)
@pytest.mark.parametrize("unit", ScaleUnit)
@pytest.mark.parametrize("diameter", [20.0, 36.0, 52.0, 90.0, 300.0])
def test_a_chosen_series_is_legible(name: str, unit: ScaleUnit, diameter: float) -> None:
    """A series chosen here starts at ∞, never comes round to it, and no figure touches the next."""
    row = scale_row(ENGRAVERS[name][0], unit, diameter, figure_width=lambda f: 1.5 * len(f))
    assert row.marks[0].distance == math.inf
    assert all(mark.has_figure for mark in row.marks)
    assert row.span <= LARGEST
    for far, near in pairwise(row.marks):
        widths = 1.5 * (len(far.figure) + len(near.figure)) / 2
        assert row.arc(near) - row.arc(far) >= widths + 0.6 - 1e-9
    assert len(row.marks) >= (4 if diameter > 30 else 2)


def test_larger_rings_bear_more_marks() -> None:
    """Thinning gives way: the larger the ring, the more marks of the series are engraved."""
    counts = [len(scale_row(OSTRIN, METRES, d).marks) for d in (20, 40, 80, 160, 320)]
    assert counts == sorted(counts)
    assert counts[0] < counts[-1]


@pytest.mark.parametrize(
    ("focal_length", "unit", "nearest"),
    [
        (35, METRES, 700),
        (47, METRES, 1000),
        (75, METRES, 1500),
        (105, METRES, 2000),
        (47, FEET, 3 * 304.8),
        (75, FEET, 5 * 304.8),
    ],
)
def test_the_nearest_mark_suits_the_focal_length(
    focal_length: float, unit: ScaleUnit, nearest: float
) -> None:
    """Unless told otherwise a scale ends at a round distance near eighteen focal lengths."""
    # Common practice, no source.
    camera = replace(OSTRIN, lens=replace(OSTRIN.lens, focal_length=focal_length))
    row = scale_row(camera, unit, 60.0)
    assert row.marks[-1].distance == pytest.approx(nearest)
    assert 14 < nearest / focal_length < 25
    assert scale_row(camera, unit, 60.0, nearest=2500.0).marks[-1].distance == 2500.0


def test_a_list_is_engraved_whole() -> None:
    """Every distance asked for has its mark, and a sentence names the figures without room."""
    asked = [20e3, 10e3, 7e3, 5e3, 3e3, 1e3]
    row = scale_row(OSTRIN, METRES, 30.0, distances=asked)
    assert [mark.distance for mark in row.marks] == [math.inf, *asked]
    bare = [mark.figure for mark in row.marks if not mark.has_figure]
    assert bare
    (note,) = row.notes
    assert f"figures {', '.join(bare)} (metres)" in note
    assert scale_row(OSTRIN, METRES, 600.0, distances=asked).notes == ()
    assert row.marks[0].has_figure
    assert row.marks[-1].has_figure


def test_infinity_alone_is_a_scale() -> None:
    """A list with nothing in it still has the ∞ mark, by which every scale is set."""
    row = scale_row(OSTRIN, METRES, 52.0, distances=[])
    assert [mark.figure for mark in row.marks] == ["∞"]


# By the definition of lead and 2^(k/2) of the engraved stop: 360 x 5.65685 x 0.03 / 18, and so on.
@pytest.mark.parametrize(
    ("marked", "stops", "degrees"),
    [
        (4, Stops.EXACT, 2.4),
        (5.6, Stops.EXACT, 3.39411),
        (5.6, Stops.MARKED, 3.36),
        (11, Stops.EXACT, 6.78823),
        (16, Stops.EXACT, 9.6),
    ],
)
def test_depth_marks_stand_as_reckoned_by_hand(marked: float, stops: Stops, degrees: float) -> None:
    """A depth mark stands where the thread has moved the lens by the stop times the blur."""
    row = depth_row(OSTRIN, 52.0, f_numbers=[marked], stops=stops)
    (mark,) = row.marks
    assert math.degrees(mark.angle) == pytest.approx(degrees, abs=1e-4)
    assert row.arc(mark) == pytest.approx(degrees / 360 * math.pi * 52, abs=1e-4)


def test_depth_marks_of_a_front_cell_blur_as_allowed() -> None:
    """Turned by its depth mark a front cell images a star as far off the film as the blur asks."""
    (mark,) = depth_row(CORVANE, 36.0, f_numbers=[8.0]).marks
    moved = mark.angle / (2 * math.pi) * 9.0
    # A front group of 51 mm before a thin rear lens 12 mm behind it that makes 75 mm of both.
    power = (1 / 75 - 1 / 51) / (1 - 12 / 51)

    def image(gap: float) -> float:
        return 1 / (power + 1 / (51 - gap))

    assert 1 / (1 / 51 + power - 12 * power / 51) == pytest.approx(75)
    assert image(12) - image(12 + moved) == pytest.approx(8 * 0.05, rel=0.02)


def _extension(distance: float) -> float:
    """How far out a thin lens of 50 mm stands for a distance from the film, as a polynomial."""
    return float(np.roots([1, 100 - distance, 2500]).min())


# A thin lens of 50 mm at f/8 and blur of 0.03 mm: the image whose cone is 0.03 mm wide at the film,
# the subject it belongs to, and the movement of the ring between that and the mark; near and far.
@pytest.mark.parametrize(
    ("distance", "needed"), [(300, (0.331, 0.325)), (600, (0.269, 0.265)), (1000, (0.256, 0.253))]
)
def test_depth_marks_stand_narrow_close_up(distance: float, needed: tuple[float, float]) -> None:
    """The exact limits of a near subject lie outside its depth marks on either side."""
    lens = replace(OSTRIN.lens, focal_length=50.0, hiatus=0.0)
    row = depth_row(replace(OSTRIN, lens=lens), 52.0, f_numbers=[8], circle_of_confusion=0.03)
    marked = row.marks[0].angle / (2 * math.pi) * 18.0
    out = _extension(distance)
    for cone, expected in zip((0.03, -0.03), needed, strict=True):
        image = (50 + out) / (1 - cone / (50 / 8))
        subject = 1 / (1 / 50 - 1 / image)
        moved = abs(_extension(subject + 50 + out) - out)
        assert moved == pytest.approx(expected, abs=5e-4)
        assert marked == pytest.approx(0.240, abs=5e-4)
        assert marked < moved
    assert "a little narrow" in depth_mark.limits


def test_depth_figures_are_clear_of_the_index_and_each_other() -> None:
    """Figures without room go, the outermost stay, and every mark asked for stays."""
    row = depth_row(OSTRIN, 30.0, f_numbers=[2.8, 4, 5.6, 8, 11, 16, 22])
    assert [mark.marked for mark in row.marks] == [2.8, 4, 5.6, 8, 11, 16, 22]
    shown = [mark for mark in row.marks if mark.has_figure]
    assert shown[-1].figure == "22"
    assert len(shown) < 7
    edges = [(row.arc(m) - 0.8 * len(m.figure), row.arc(m) + 0.8 * len(m.figure)) for m in shown]
    assert edges[0][0] > 0
    assert all(a[1] < b[0] for a, b in pairwise(edges))


def test_chosen_depth_marks_do_not_crowd() -> None:
    """Whole stops chosen here begin at full aperture and stand at least 0.8 mm apart."""
    for diameter in (30.0, 52.0, 200.0):
        row = depth_row(OSTRIN, diameter)
        arcs = [0.0, *(row.arc(mark) for mark in row.marks)]
        assert min(np.diff(arcs)) >= 0.8 - 1e-9
        assert row.marks[-1].marked == 22
    assert depth_row(OSTRIN, 300.0).marks[0].marked == 2.8


def test_depth_marks_halfway_round_are_left_out_and_named() -> None:
    """A mark that would stand on the far side of the ring is left out with a sentence."""
    camera = replace(OSTRIN, focusing=Helicoid(1.0, 1, Turn.CLOCKWISE, 52.0))
    row = depth_row(camera, 52.0, f_numbers=[4, 22])
    assert [mark.marked for mark in row.marks] == [4]
    assert "Left out: f/22" in row.notes[0]


def test_another_circle_of_confusion_is_taken() -> None:
    """Depth marks follow the circle of confusion given instead of the camera's."""
    half = depth_row(OSTRIN, 52.0, f_numbers=[8], circle_of_confusion=0.015)
    whole = depth_row(OSTRIN, 52.0, f_numbers=[8])
    assert half.marks[0].angle == pytest.approx(whole.marks[0].angle / 2)
    assert half.circle_of_confusion == 0.015


def _seen(point: np.ndarray, forward: tuple[int, ...], up: tuple[int, ...]) -> float:
    """How far right a point is seen by someone who looks along `forward` with `up` upwards."""
    return float(np.cross(forward, up) @ point)


@pytest.mark.parametrize("extends", Turn)
@pytest.mark.parametrize("scale_on", ScaleOn)
@pytest.mark.parametrize("tops", Towards)
def test_the_scale_runs_the_way_a_ring_turns_in_space(
    extends: Turn, scale_on: ScaleOn, tops: Towards
) -> None:
    """Turned in space by a mark's angle, the ring brings mark and index together on top."""
    camera = replace(OSTRIN, focusing=Helicoid(18.0, 6, extends, 52.0))
    # The lens looks along +z, the index is at the top of the barrel, +y.
    from_front, from_above = (0, 0, -1), (0, -1, 0)
    top = np.array([0.0, 1.0, 0.0])
    angle = math.radians(20) * (-1 if extends is Turn.CLOCKWISE else 1)
    turn = np.array(
        [[math.cos(angle), -math.sin(angle), 0], [math.sin(angle), math.cos(angle), 0], [0, 0, 1]]
    )
    is_clockwise = _seen(turn @ top, from_front, (0, 1, 0)) > 0
    assert is_clockwise is (extends is Turn.CLOCKWISE)
    # On the ring the mark must be where the turn will take it to the index; a mark on the fixed
    # part must be where the turn takes the index.
    mark = turn.T @ top if scale_on is ScaleOn.RING else turn @ top
    up = (0, 0, 1) if tops is Towards.FRONT else (0, 0, -1)
    assert runs_right(runs(camera, scale_on), tops) is (_seen(mark, from_above, up) > 0)
    is_seen_right = _seen(mark, from_front, (0, 1, 0)) > 0
    assert (runs(camera, scale_on) is Turn.CLOCKWISE) is is_seen_right


def test_figures_get_room_in_the_order_asked_for() -> None:
    """Of figures that touch, the one named first stays, exactly at the gap both do."""
    assert clear_of_each_other([0, 1, 2], [1, 1, 1], [1, 0, 2], 0.1) == [False, True, False]
    assert clear_of_each_other([0, 1.1, 2.2], [1, 1, 1], [1, 0, 2], 0.1) == [True, True, True]
    assert clear_of_each_other([], [], [], 0.1) == []


SHORT = Camera("Short lead", OSTRIN.lens, Helicoid(2.0, 1, Turn.CLOCKWISE), 0.03)


@pytest.mark.parametrize(
    ("call", "error", "words"),
    [
        (lambda: scale_row(BED, METRES, 52), NoAnswer, "needs a focusing thread: got a bed"),
        (lambda: depth_row(BED, 52), NoAnswer, "needs a focusing thread: got a bed"),
        (lambda: runs(BED), NoAnswer, "needs a focusing thread: got a bed"),
        (lambda: scale_row(OSTRIN, METRES, 0.0), OutOfRange, "ring diameter"),
        (lambda: scale_row(OSTRIN, METRES, 52, distances=[150.0]), OutOfRange, "at least 188.6 mm"),
        (
            lambda: scale_row(SHORT, METRES, 52, distances=[1000.0]),
            OutOfRange,
            "1 m mark must stand at most 345° from ∞: got 440",
        ),
        (lambda: depth_row(OSTRIN, 52, f_numbers=[0]), OutOfRange, "f-number"),
        (lambda: depth_row(OSTRIN, 52, circle_of_confusion=-1), OutOfRange, "circle of confusion"),
    ],
)
def test_what_cannot_be_laid_out_is_refused(
    call: object, error: type[ShimwrightError], words: str
) -> None:
    """Beds, meaningless figures and marks beyond one turn are refused in one sentence."""
    with pytest.raises(error) as refusal:
        call()  # type: ignore[operator]
    assert words in str(refusal.value)
    assert str(refusal.value).count(".\n") == 0


def test_a_thread_too_short_for_the_usual_series_ends_sooner() -> None:
    """A series chosen here ends before it would come round to ∞."""
    row = scale_row(SHORT, METRES, 52)
    assert row.span <= LARGEST
    assert row.marks[-1].distance > 1000
    assert isinstance(CORVANE.focusing, FrontCell)
