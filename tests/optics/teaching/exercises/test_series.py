"""Exercises by kind, level and seed, and the series a class shares."""

import pytest
from hypothesis import given, settings

from optics.errors import ShimwrightError
from optics.teaching.exercises import (
    KINDS,
    Exercise,
    ExerciseLevel,
    Topic,
    exercise,
    numbered,
    series,
)
from tests.optics.teaching.exercises.drawn import exercises


def test_every_topic_has_an_exercise() -> None:
    """There are at least fourteen kinds, and each topic has one or more."""
    assert len(KINDS) >= 14
    assert {kind.topic for kind in KINDS.values()} == set(Topic)


def test_a_seed_gives_the_same_exercise_for_ever() -> None:
    """A question and its answer are written down here, so that a kept sheet stays right."""
    one = exercise("wrong_start", ExerciseLevel.APPRENTICE, "7")
    assert one.question.startswith("A helicoid of lead 18 mm with 6 starts is put together")
    assert one.answer.printed == "3.00 mm"


@settings(deadline=None)
@given(exercises())
def test_kind_level_and_seed_decide_everything(one: Exercise) -> None:
    """Made again from the same three, an exercise is the same to the last slip it knows."""
    again = exercise(one.kind, one.level, one.seed)
    assert (again, again.mistakes, again.hints) == (one, one.mistakes, one.hints)


@settings(deadline=None)
@given(exercises())
def test_an_exercise_can_be_done(one: Exercise) -> None:
    """The answer stands well clear of its own tolerance, and the hints lead up to it."""
    # Three tolerances are clear enough: 0.03 mm by a gauge read to 0.01 is drawn, and is fair.
    assert one.answer.size > 3 * one.answer.tolerance * (1 - 1e-9)
    assert [hint.heading for hint in one.hints] == [
        "What to ask",
        "In symbols",
        "In numbers",
        "The answer",
    ]
    assert one.hints[2].lines[-1].endswith("= ?")
    assert one.answer.printed in one.hints[3].lines[-1]
    assert one.answer.printed not in " ".join(one.hints[2].lines[-1:])


@pytest.mark.parametrize("topic", [None, *Topic])
def test_every_kind_comes_once_before_any_comes_again(topic: Topic | None) -> None:
    """The first round of a series holds each kind of its topic once, in an order of the seed's."""
    about = {name for name, kind in KINDS.items() if topic in (None, kind.topic)}
    whole = series(topic, ExerciseLevel.APPRENTICE, "class 4", 2 * len(about))
    for turn in (whole[: len(about)], whole[len(about) :]):
        assert {one.kind for one in turn} == about
        assert len(turn) == len(about)


def test_two_who_type_the_same_seed_have_the_same_sheet() -> None:
    """Spaces around a seed do not count; another seed gives other figures."""
    mine, yours = (series(None, ExerciseLevel.BENCH, seed, 24) for seed in ("b 12", " b 12 "))
    assert mine == yours
    assert mine[4] == numbered(None, ExerciseLevel.BENCH, "b 12", 5)
    others = series(None, ExerciseLevel.BENCH, "b 13", 24)
    assert {one.question for one in mine} != {one.question for one in others}


def test_a_kind_that_there_is_not_is_refused() -> None:
    """An unknown kind is refused with the names of those there are."""
    with pytest.raises(ShimwrightError, match="wrong_start"):
        exercise("magic", ExerciseLevel.BENCH, "1")
