"""Marks: right, a slip by its name, or not yet."""

from hypothesis import given, settings
from hypothesis import strategies as st

from optics.teaching.exercises import Exercise, ExerciseLevel, Outcome, Slip, exercise, mark
from optics.units.printing import fixed
from tests.optics.teaching.exercises.drawn import exercises, typed


def other_way(one: Exercise) -> str:
    """The right amount with the wrong word for its way."""
    answer = one.answer
    assert answer.senses is not None
    number = fixed(answer.size / answer.unit_size, 12)
    return f"{number} {answer.senses.words(-answer.value)}"


@settings(deadline=None)
@given(exercises())
def test_the_wrong_way_is_recognised(one: Exercise) -> None:
    """The right size the wrong way is named as that, by word and, where signs count, by sign."""
    answer = one.answer
    if answer.senses is None:
        return
    number = fixed(answer.size / answer.unit_size, 12)
    assert mark(one, other_way(one)).slip is Slip.SENSE
    assert mark(one, number).slip is Slip.NO_SENSE
    if answer.senses.by_sign:
        right, wrong = ("+", "−") if answer.value > 0 else ("−", "+")
        assert mark(one, wrong + number).slip is Slip.SIGN
        assert mark(one, right + number).outcome is Outcome.RIGHT


@settings(deadline=None)
@given(exercises())
def test_a_minus_where_none_belongs_is_named(one: Exercise) -> None:
    """An amount without a way that is typed with a minus is a slip of sign, or refused."""
    if one.answer.senses is None:
        marked = mark(one, f"−{typed(one, one.answer.size)}")
        assert marked.slip is Slip.SIGN or marked.outcome is Outcome.UNREADABLE


def test_rounding_too_soon_is_named() -> None:
    """An answer that is near, and off by more than the figures allow, is told to keep digits."""
    one = exercise("hyperfocal", ExerciseLevel.APPRENTICE, "1")
    assert mark(one, typed(one, one.answer.size * 1.03)).slip is Slip.ROUNDED


def test_anything_else_is_not_yet_and_offers_the_next_hint() -> None:
    """A wrong amount that no slip explains brings the next hint, and never the answer."""
    one = exercise("hyperfocal", ExerciseLevel.APPRENTICE, "1")
    wrong = typed(one, one.answer.size * 1.37)
    for seen, hint in enumerate([*one.hints[:3], one.hints[2]]):
        marked = mark(one, wrong, hints_seen=seen)
        assert marked.outcome is Outcome.NOT_YET
        assert marked.sentence == f"Not yet. {hint.heading}: {hint.lines[0]}"
        assert one.answer.printed not in marked.sentence


@settings(deadline=None)
@given(exercises(), st.one_of(st.text(), st.from_regex(r"[-+0-9.,/ ]{0,12}[a-z°'\"]{0,12}")))
def test_no_text_is_an_error(one: Exercise, text: str) -> None:
    """Whatever is typed, the marker answers with one of its outcomes and a sentence."""
    marked = mark(one, text)
    assert marked.outcome in Outcome
    assert marked.sentence
    assert (marked.outcome is Outcome.SLIP) == (marked.slip is not None)


def test_what_was_understood_is_said() -> None:
    """The echo shows the amount with its way, as it was read."""
    one = exercise("shim_to_add", ExerciseLevel.APPRENTICE, "1")
    assert mark(one, "5 thou remove").echo == "remove 0.127 mm = 5 thou"
