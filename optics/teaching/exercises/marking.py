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
    # The last hint is the answer itself, which nobody has asked for yet.
    left = exercise.hints[min(hints_seen, len(exercise.hints) - 2)]
    sentence = f"Not yet. {left.heading}: {left.lines[0]}"
    return Marked(Outcome.NOT_YET, sentence, echo=typed.echo)


def _right_size(answer: Answer, typed: TypedAnswer) -> Marked:
    """Of an answer of the right size: right, or the slip in its sign or its way."""
    senses = answer.senses
    # A way that was not said counts as 0, and is none.
    is_right = typed.amount >= 0 if senses is None else typed.sense * answer.value > 0
    if is_right:
        return Marked(Outcome.RIGHT, f"Right: {answer.printed}.", echo=typed.echo)
    if senses is None:
        slip, is_wrong = Slip.SIGN, "; it is an amount without a sign, so leave the minus away"
    elif typed.sense == 0:
        slip, is_wrong = Slip.NO_SENSE, f"; say which way: {senses.plus} or {senses.minus}"
    elif typed.was_signed:
        slip, is_wrong = Slip.SIGN, f" and the sign is not: plus means {senses.plus}"
    else:
        wrong = senses.words(-answer.value)
        slip, is_wrong = Slip.SENSE, f" and the way is not: think again whether it is {wrong}"
    return Marked(Outcome.SLIP, f"The size is right{is_wrong}.", slip, typed.echo)
