"""Marks an answer: right, a slip known by name, or not yet with the next hint."""

from dataclasses import dataclass
from enum import StrEnum

from optics.errors import ShimwrightError
from optics.teaching.exercises.answer import Answer, TypedAnswer, is_near
from optics.teaching.exercises.exercise import Exercise
from optics.teaching.exercises.slips import Slip, reach

# An amount as near as this, and not right, was most likely rounded on the way.
_ROUNDED = 0.05


class Outcome(StrEnum):
    """What came of an answer."""

    RIGHT = "right"
    SLIP = "a slip"
    NOT_YET = "not yet"
    UNREADABLE = "not understood"


@dataclass(frozen=True)
class Marked:
    """The outcome, the slip by its name if one is recognised, and one sentence that helps."""

    outcome: Outcome
    sentence: str
    slip: Slip | None = None
    echo: str = ""


def mark(exercise: Exercise, text: str, hints_seen: int = 0) -> Marked:
    """What came of an answer as typed; no text whatever is an error.

    `hints_seen` says how many hints are on the table, so that the next one is offered.
    """
    answer = exercise.answer
    try:
        typed = answer.read(text)
    except ShimwrightError as refusal:
        return Marked(Outcome.UNREADABLE, str(refusal))
    if is_near(abs(typed.amount), answer.size, answer.tolerance):
        return _right_size(answer, typed)
    for mistake in exercise.mistakes:
        if is_near(abs(typed.amount), mistake.amount, reach(answer, mistake)):
            return Marked(Outcome.SLIP, mistake.sentence, mistake.slip, typed.echo)
    if is_near(abs(typed.amount), answer.size, _ROUNDED * answer.size):
        sentence = (
            f"Very near, but off by more than the figures allow: round at the end alone, to "
            f"{answer.step}."
        )
        return Marked(Outcome.SLIP, sentence, Slip.ROUNDED, typed.echo)
    return Marked(Outcome.NOT_YET, _not_yet(exercise, hints_seen), None, typed.echo)


def _not_yet(exercise: Exercise, hints_seen: int) -> str:
    # The last hint is the answer itself, which nobody has asked for yet.
    left = exercise.hints[min(hints_seen, len(exercise.hints) - 2)]
    return f"Not yet. {left.heading}: {left.lines[0]}"


def _right_size(answer: Answer, typed: TypedAnswer) -> Marked:
    senses = answer.senses
    if senses is None:
        if typed.amount >= 0:
            return Marked(Outcome.RIGHT, f"Right: {answer.printed}.", echo=typed.echo)
        sentence = "The size is right; it is an amount without a sign, so leave the minus away."
        return Marked(Outcome.SLIP, sentence, Slip.SIGN, typed.echo)
    if typed.sense == 0:
        sentence = f"The size is right; say which way: {senses.plus} or {senses.minus}."
        return Marked(Outcome.SLIP, sentence, Slip.NO_SENSE, typed.echo)
    if typed.sense * answer.value > 0:
        return Marked(Outcome.RIGHT, f"Right: {answer.printed}.", echo=typed.echo)
    wrong = senses.words(-answer.value)
    if typed.was_signed:
        sentence = f"The size is right and the sign is not: plus means {senses.plus}."
        return Marked(Outcome.SLIP, sentence, Slip.SIGN, typed.echo)
    sentence = f"The size is right and the way is not: think again whether it is {wrong}."
    return Marked(Outcome.SLIP, sentence, Slip.SENSE, typed.echo)
