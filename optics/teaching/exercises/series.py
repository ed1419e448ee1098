"""Exercises by kind, level and seed, and whole series of them that a class can share."""

from optics.errors import ShimwrightError
from optics.teaching.exercises.draw import Draw
from optics.teaching.exercises.exercise import Exercise, ExerciseLevel, Topic
from optics.teaching.exercises.kinds import KINDS

LONGEST_SEED = 40


def exercise(kind: str, level: ExerciseLevel, seed: str) -> Exercise:
    """One exercise; the same three give the same one always and everywhere.

    Errors: ShimwrightError for a kind that there is not.
    """
    if kind not in KINDS:
        raise ShimwrightError(
            f"There is no exercise “{kind}”; there are {', '.join(KINDS)}.", quantity="kind"
        )
    known = KINDS[kind]
    task = known.make(Draw(f"{kind}/{level}/{seed}"), level)
    return Exercise(kind, known.title, known.topic, level, seed, task)


def numbered(topic: Topic | None, level: ExerciseLevel, seed: str, number: int) -> Exercise:
    """Exercise `number` (from 1) of the series on a topic, or on all of them.

    Every kind comes once before any comes again, each time with new figures.
    """
    seed = seed.strip()
    about = [kind.name for kind in KINDS.values() if topic in (None, kind.topic)]
    turn, place = divmod(number - 1, len(about))
    return exercise(Draw(f"{seed}/{turn}").shuffled(about)[place], level, f"{seed}/{number}")


def series(
    topic: Topic | None, level: ExerciseLevel, seed: str, count: int
) -> tuple[Exercise, ...]:
    """The first `count` exercises of a series."""
    return tuple(numbered(topic, level, seed, n) for n in range(1, count + 1))
