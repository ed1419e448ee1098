"""Starts and marks of simulated barrels are told apart, or it is said that they cannot be."""

import math
import random
import re
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.body.witness import Mark, MarksOn, RankingFinding, Thread, rank, wording
from optics.body.witness.ranking import APART
from optics.camera.camera import Turn
from optics.errors import OutOfRange
from optics.measure.uncertainty import Estimate, Source, exact, within
from tests.optics.body.witness.barrels import ALLOWED, drawn, is_true, ranked

BARRELS = 2000
THREAD = Thread(18.0, 6, Turn.COUNTER_CLOCKWISE)
A, B = Mark("A", 0.0), Mark("B", math.radians(10))


def test_the_true_combination_comes_first() -> None:
    """Of 2,000 barrels with candidates over 4σ apart 99 % are ranked right, none told wrong."""
    # Nearly all of these are told, and hardly any of those whose candidates stand nearer.
    chance, seen = random.Random(2000), Counter[tuple[bool, bool, bool]]()
    while sum(count for (is_apart, *_), count in seen.items() if is_apart) < BARRELS:
        barrel = drawn(chance)
        ranking = ranked(barrel, chance)
        true_error, *others = sorted(barrel.true_errors(), key=abs)
        width = APART * max(c.spread for c in ranking.combinations)
        is_apart = all(abs(other - true_error) > width for other in others)
        seen[is_apart, is_true(ranking, barrel), ranking.finding is RankingFinding.TOLD] += 1
    right = sum(n for (is_apart, is_right, _), n in seen.items() if is_apart and is_right)
    assert right >= 0.99 * BARRELS
    assert seen[True, True, True] >= 0.97 * BARRELS
    assert seen[True, False, True] == seen[False, False, True] == 0
    assert seen[False, True, True] <= 0.06 * (seen[False, True, False] + seen[False, False, False])


@settings(max_examples=60, deadline=None)
@given(st.floats(-0.03, 0.03), st.floats(0.2, 1.6))
def test_candidates_too_near_each_other_are_not_told_apart(error: float, degrees: float) -> None:
    """Two marks less than 4σ apart at the film are never told, whatever the reading."""
    near = Mark("B", math.radians(degrees))
    found = rank(THREAD, [A, near], "A", within(error, 0.015, "reading"), spread=ALLOWED)
    assert found.finding is RankingFinding.CANNOT_TELL
    assert found.rivals


def test_errors_are_those_of_the_usual_barrel() -> None:
    """On six starts of lead 12 mm the others stand 2, 4 and 6 mm off, both ways."""
    thread = Thread(12.0, 6, Turn.CLOCKWISE)
    found = rank(thread, [A], "A", exact(0.0), spread=0.05)
    errors = sorted(c.error.value for c in found.combinations)
    assert errors == pytest.approx([-6, -4, -2, 0, 2, 4, 6])
    assert found.first.is_present
    assert found.finding is RankingFinding.TOLD


@pytest.mark.parametrize(
    ("extends", "marks_on", "error"),
    [
        (Turn.CLOCKWISE, MarksOn.BARREL, 0.5),
        (Turn.COUNTER_CLOCKWISE, MarksOn.BARREL, -0.5),
        (Turn.CLOCKWISE, MarksOn.RING, -0.5),
        (Turn.COUNTER_CLOCKWISE, MarksOn.RING, 0.5),
    ],
)
def test_a_mark_ten_degrees_on(extends: Turn, marks_on: MarksOn, error: float) -> None:
    """Ten degrees clockwise at lead 18 mm are 0.5 mm, out or in as the ring turns."""
    found = rank(Thread(18.0, 1, extends), [A, B], "A", exact(0.0), spread=0.05, marks_on=marks_on)
    at_b = next(c for c in found.combinations if c.mark is B)
    assert at_b.error.value == pytest.approx(error)
    # Two angles were read, each within half a degree: 0.025 mm.
    assert at_b.error.standard == pytest.approx(0.025 / math.sqrt(3) * math.sqrt(2))


def test_a_front_cell_carries_more_to_the_film() -> None:
    """Where a travel counts double at the film, starts and marks do too."""
    thread = Thread(9.0, 3, Turn.CLOCKWISE, to_film=2.0)
    found = rank(thread, [A, B], "A", exact(0.0), spread=0.05)
    errors = sorted(c.error.value for c in found.combinations)
    assert errors == pytest.approx([-6, -5.5, 0, 0.5, 6, 6.5])


def test_marks_are_reached_the_shorter_way() -> None:
    """From 350° to 5° is fifteen degrees clockwise, not 345 back."""
    far, near = Mark("far", math.radians(350)), Mark("near", math.radians(5))
    found = rank(THREAD, [far, near], "far", exact(0.0), spread=0.05)
    at_near = next(c for c in found.combinations if c.mark is near and not c.starts_moved)
    assert math.degrees(at_near.ring_turn) == pytest.approx(-15)  # clockwise draws this one in


def test_probabilities_follow_bayes() -> None:
    """Errors of 0 and 2σ, alike before, stand as 1 to e⁻²; the sum is 1."""
    width = 0.05 / math.sqrt(3)
    moved = math.degrees(2 * width / 18 * 2 * math.pi)
    other = Mark("B", math.radians(moved))
    single = Thread(18.0, 1, Turn.CLOCKWISE)
    found = rank(single, [A, other], "A", exact(0.0), spread=0.05, angle_limit=0.0)
    first, second = (c.probability for c in found.combinations)
    assert second / first == pytest.approx(math.exp(-2), rel=1e-9)
    assert first + second == pytest.approx(1)


def test_a_reading_no_combination_explains() -> None:
    """An error of 0.7 mm with one mark and starts 3 mm apart has another cause."""
    found = rank(THREAD, [A], "A", within(0.7, 0.01, "reading"), spread=0.05)
    assert found.finding is RankingFinding.NONE_FITS


def test_shared_sources_stay_shared() -> None:
    """The reading's own source bears on every combination alike."""
    source = Source("dial")
    found = rank(THREAD, [A, B], "A", Estimate(0.0, {source: 0.01}), spread=0.05)
    assert {c.error.parts[source] for c in found.combinations} == {0.01}


@pytest.mark.parametrize("seed", range(40))
def test_doing_as_told_puts_the_barrel_right(seed: int) -> None:
    """Entered and set by the words alone, the lens is within the tolerance and what was read."""
    chance = random.Random(seed)
    barrel = drawn(chance)
    ranking = ranked(barrel, chance)
    angle = barrel.marks[barrel.present]
    for step in wording.instructions(ranking):
        if "enter it again" in step:
            barrel.camera.do(step)
        turned = re.search(r"instead of mark \w+: ([\d.]+)° (clockwise|counter-clockwise)", step)
        if turned:
            angle += float(turned[1]) * (1 if turned[2] == "clockwise" else -1)
    left = barrel.camera.fault(math.inf, angle)
    assert abs(left) == pytest.approx(abs(ranking.first.error.value), abs=0.015 + 0.08)


@pytest.mark.parametrize(
    ("marks", "present", "spread", "said"),
    [
        ([], "A", 0.05, "must number 1 to 12: got 0"),
        ([Mark(str(i), 0.1 * i) for i in range(13)], "0", 0.05, "must number 1 to 12: got 13"),
        ([A, Mark("A", 1.0)], "A", 0.05, "needs a name of its own: got A, A"),
        ([A, B], "C", 0.05, "must be one of A, B: got “C”"),
        ([A], "A", 0.0, "spread of the right combination must be more than 0 mm"),
        ([A], "A", math.inf, "spread of the right combination"),
        ([Mark("A", math.nan)], "A", 0.05, "is not a number"),
    ],
)
def test_bad_candidates_are_refused(
    marks: list[Mark], present: str, spread: float, said: str
) -> None:
    """Marks that cannot be ranked, or a spread of 0 with exact readings, are refused."""
    with pytest.raises(OutOfRange, match=said):
        rank(THREAD, marks, present, exact(0.0), spread=spread)
