"""An exercise as the page shows it; every word comes from the exercise itself."""

import re
from collections.abc import Sequence
from html import escape

from optics.teaching.exercises import Exercise, Hint, Marked, Outcome

_SIGNS = {
    Outcome.RIGHT: ("✓", "inside"),
    Outcome.SLIP: ("≈", "unsure"),
    Outcome.NOT_YET: ("✕", "outside"),
    Outcome.UNREADABLE: ("?", "unsure"),
}
# A sign stays with its figure and a figure with its unit, as on the sheets.
_BOUND = re.compile(r"(?<=[⌀±f]) (?=\d)|(?<=\d) (?=(?:mm|cm|m|in|ft|yd|thou)\b)")
_INDEX = re.compile(r"(?<=\w)_(\w+)")


def question_html(number: int, exercise: Exercise) -> str:
    """The question under its number and name."""
    return (
        f'<section class="question"><h2>{number} · {escape(exercise.title)}</h2>'
        f"<p>{_set(exercise.question)}</p></section>"
    )


def marked_html(marked: Marked | None) -> str:
    """What came of the answer, by sign, words and colour; an empty line until it is checked."""
    if marked is None:
        return '<p class="verdict mark" role="status">&nbsp;</p>'
    sign, kind = _SIGNS[marked.outcome]
    named = f"<strong>{_opening(marked.slip)}.</strong> " if marked.slip else ""
    return (
        f'<p class="verdict mark {kind}" role="status"><span aria-hidden="true">{sign}</span> '
        f"{named}{_set(marked.sentence)}</p>"
    )


def _opening(words: str) -> str:
    return escape(words[:1].upper() + words[1:])


def hints_html(hints: Sequence[Hint], of: int) -> str:
    """The hints on the table, one under the other."""
    shown = "".join(_hint(number, hint, of) for number, hint in enumerate(hints, start=1))
    return f'<div class="hints">{shown}</div>'


def _hint(number: int, hint: Hint, of: int) -> str:
    lines = "".join(f"<li>{_set(line)}</li>" for line in hint.lines)
    return (
        f'<section class="hint"><h3>{number} of {of} · {escape(hint.heading)}</h3>'
        f"<ul>{lines}</ul></section>"
    )


def _set(text: str) -> str:
    """A line with its indices set low and its figures kept with their units."""
    return _INDEX.sub(r"<sub>\1</sub>", _BOUND.sub("\u00a0", escape(text)))
