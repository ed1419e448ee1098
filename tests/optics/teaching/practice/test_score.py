"""The score's rules, each by itself."""

import pytest

from optics.moves.turning import film_per_degree
from optics.teaching.practice.levels import Level
from optics.teaching.practice.score import JudgedPlace, Score, score
from optics.teaching.practice.sitting import Action, Adjust, Finish, Read, Sitting
from tests.optics.teaching.practice.stands import OSTRIN, sitting

OUT, IN = 0.2, 0.01


def place(found: float, left: float) -> JudgedPlace:
    """Give a place with ± 0.042 mm allowed."""
    return JudgedPlace("somewhere", found, left, 0.042)


def mended(*more: Action, seed: int = 1) -> Sitting:
    """Give a sitting of a slipped ring turned back in one go, and what was done besides."""
    start = sitting(seed=seed)
    assert [cause.name for cause in start.found.practice.causes] == ["ring"]
    degrees = start.found.practice.hidden["ring"] / film_per_degree(OSTRIN.camera)
    return sitting(*more, Adjust("turn the barrel", round(degrees, 1)), seed=seed)


def test_points_for_focus_are_shared_among_what_was_wrong() -> None:
    """Of three places that were out, two brought in are forty points of sixty."""
    found = Score((place(OUT, IN), place(OUT, IN), place(OUT, OUT), place(IN, IN)), 0, 1)
    assert (found.focus, found.points) == (40, 40)
    assert not found.is_right


def test_what_was_right_and_was_spoilt_takes_a_share_away() -> None:
    """One of two brought in and a right place put out leave nothing, and never less."""
    assert Score((place(OUT, IN), place(OUT, OUT), place(IN, OUT)), 0, 1).focus == 0
    assert Score((place(OUT, OUT), place(IN, OUT)), 0, 1).focus == 0


def test_doing_nothing_earns_nothing() -> None:
    """A camera laid down as it came has no points, however few its readings."""
    assert score(sitting(Finish())).points == 0


def test_all_inside_with_few_readings_in_one_round_is_a_hundred() -> None:
    """A ring found with six readings and put right in one round is a hundred points."""
    done = mended(*[Read("∞ mark")] * 6)
    assert score(done).points == 100
    assert score(done).is_right


@pytest.mark.parametrize(("readings", "points"), [(0, 20), (6, 20), (7, 19), (26, 0), (40, 0)])
def test_each_reading_beyond_six_costs_a_point(readings: int, points: int) -> None:
    """Twenty points less one for each reading beyond six, and never below nothing."""
    assert Score((place(OUT, IN),), readings, 1).for_readings == points


@pytest.mark.parametrize(("rounds", "points"), [(1, 20), (2, 15), (5, 0), (9, 0)])
def test_each_round_beyond_the_first_costs_five(rounds: int, points: int) -> None:
    """Twenty points less five for each round beyond the first."""
    assert Score((place(OUT, IN),), 0, rounds).for_rounds == points


def test_a_round_that_the_camera_needs_is_free() -> None:
    """Twelve readings and two rounds are full points where two are needed, and no more."""
    wrong = (place(OUT, IN),)
    assert Score(wrong, 12, 2, needed=2).points == 100
    assert Score(wrong, 12, 2).points == 89
    assert Score(wrong, 13, 3, needed=2).points == 94
    assert Score(wrong, 0, 1, needed=2).points == 100


def test_fewer_readings_and_rounds_are_never_worse() -> None:
    """With the same camera as left, one reading or round more never gains a point."""
    for many in range(30):
        for rounds in range(1, 6):
            here = Score((place(OUT, IN),), many, rounds).points
            assert Score((place(OUT, IN),), many + 1, rounds).points <= here
            assert Score((place(OUT, IN),), many, rounds + 1).points <= here


@pytest.mark.parametrize("count", [1, 5, 30])
def test_as_left_readings_are_never_punished(count: int) -> None:
    """However many readings verify the camera as left, the points are the same."""
    done = mended(*[Read("∞ mark")] * 8)
    verified = sitting(*done.actions, *[Read("1.2 m mark")] * count, Finish())
    assert score(verified).points == score(done).points
    assert score(verified).readings == 8


def test_all_places_are_judged_once() -> None:
    """Stop, three marks, worst corner, rangefinder twice and its height: eight places."""
    places = score(sitting()).places
    assert [p.name for p in places] == [
        "infinity stop",
        "∞ mark",
        "3 m mark",
        "1.2 m mark",
        "rangefinder at 10 m",
        "rangefinder at 1.2 m",
        "worst corner",
        "rangefinder's height",
    ]
    assert [p.found for p in places] == [p.left for p in places]


def test_a_height_that_is_off_is_a_place_that_is_wrong() -> None:
    """Images at different heights are outside by more than an eye's minute of arc."""
    seed = next(s for s in range(99) if sitting(level=Level.TWO, seed=s).found.height)
    height = score(sitting(level=Level.TWO, seed=seed)).places[-1]
    assert height.is_angle
    assert not height.was_inside
