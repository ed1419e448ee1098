"""An exercise as the page shows it; every word comes from the exercise itself."""

from collections.abc import Sequence
from html import escape

from optics.bench.exercises import Exercise, Hint, Marked, Outcome

_SIGNS = {
    Outcome.RIGHT: ("✓", "inside"),
    Outcome.SLIP: ("≈", "unsure"),
    Outcome.NOT_YET: ("✕", "outside"),
    Outcome.UNREADABLE: ("?", "unsure"),
}


def question_html(number: int, exercise: Exercise) -> str:
    """The question under its number and name."""
    return (
        f'<section class="question"><h2>{number} · {escape(exercise.title)}</h2>'
        f"<p>{escape(exercise.question)}</p></section>"
    )


def marked_html(marked: Marked | None) -> str:
    """What came of the answer, by sign, words and colour; an empty line until it is checked."""
    if marked is None:
        return '<p class="verdict mark" role="status">&nbsp;</p>'
    sign, kind = _SIGNS[marked.outcome]
    named = f" ({escape(marked.slip)})" if marked.slip else ""
    return (
        f'<p class="verdict mark {kind}" role="status"><span aria-hidden="true">{sign}</span> '
        f"{escape(marked.sentence)}{named}</p>"
    )


def hints_html(hints: Sequence[Hint], of: int) -> str:
    """The hints on the table, one under the other."""
    return "".join(_hint(number, hint, of) for number, hint in enumerate(hints, start=1))


def _hint(number: int, hint: Hint, of: int) -> str:
    lines = "".join(f"<li>{escape(line)}</li>" for line in hint.lines)
    return (
        f'<section class="hint"><h3>{number} of {of} · {escape(hint.heading)}</h3>'
        f"<ul>{lines}</ul></section>"
    )


def score_html(line: str) -> str:
    """The score so far."""
    return f'<p class="score">{escape(line)}</p>'
