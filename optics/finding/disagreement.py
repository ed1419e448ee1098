"""Two readings of one thing that cannot both be true, where each is answered by itself.

A diagnosis weighs its readings and finds such pairs in its own way (`diagnosis/outlying.py`).
Answered one by one, each would bring its own remedies, and one of the two would be wrong.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Protocol

from optics.camera.camera import Camera
from optics.finding.diagnosis.wording import begun, reading_words
from optics.measure.uncertainty import Estimate, chance_apart
from optics.readings.readings import Reading
from optics.readings.wording import NOT_KNOWN, said_half_width, said_offset
from optics.units import format_length


class Answered(Protocol):
    """A reading and the focus error (mm at the film) that it showed, whatever else is known."""

    @property
    def camera(self) -> Camera:
        """The camera as described."""

    @property
    def reading(self) -> Reading:
        """What was read."""

    @property
    def error(self) -> Estimate:
        """The focus error, + when too far out."""


@dataclass(frozen=True)
class Disagreement:
    """Two answers by their places in the list, how far they lie apart, and how far they may (mm).

    `apart` is the first less the second, with the sources that both share allowed for.
    """

    indices: tuple[int, int]
    answers: tuple[Answered, Answered]
    apart: Estimate
    allowed: float

    @property
    def is_known(self) -> bool:
        """Whether something says how well each of the two is known."""
        return all(answer.error.standard for answer in self.answers)


def disagreements(found: Sequence[Answered | None]) -> tuple[Disagreement, ...]:
    """Of each thing the pair of answers that lies farthest apart, if too far; the widest first.

    Equation: |e₁ − e₂| > k·u(e₁ − e₂), as `chance_apart`. Where nothing says how well one of them
    is known, they may lie as far apart as two figures inside tolerance can. None stands for an
    answer that is not compared.
    Limits: readings of one thing at the same time; once something was moved they may differ.
    """
    numbered = [(index, answer) for index, answer in enumerate(found) if answer is not None]
    things = {index: answer.reading.thing for index, answer in numbered}
    pairs = [pair for pair in combinations(numbered, 2) if things[pair[0][0]] == things[pair[1][0]]]
    compared = [_compared(one, other, len(pairs)) for one, other in pairs]
    wrong = [pair for pair in compared if abs(pair.apart.value) > pair.allowed]
    widest = sorted(wrong, key=lambda pair: abs(pair.apart.value))
    # One slip among many readings contradicts them all; the last of a thing is its widest.
    of_each = {things[pair.indices[0]]: pair for pair in widest}
    return tuple(sorted(of_each.values(), key=lambda pair: -abs(pair.apart.value)))


def _compared(one: tuple[int, Answered], other: tuple[int, Answered], pairs: int) -> Disagreement:
    (first, before), (second, after) = one, other
    apart = before.error.plus(after.error, -1.0)
    allowed = 2 * before.camera.allowed_error
    if before.error.standard and after.error.standard:
        allowed = chance_apart(apart, pairs)
    return Disagreement((first, second), (before, after), apart, allowed)


def disagreement_line(found: Disagreement) -> str:
    """What was read twice, both that it showed, and what to do before anything else."""
    one, other = map(_said, found.answers)
    place = reading_words(found.answers[0].reading)
    apart = format_length(abs(found.apart.value), places=3)
    limit = format_length(found.allowed, places=3)
    allow, wrong = f"both ± together allow {limit}", "cannot both be true"
    if not found.is_known:
        allow, wrong = f"within tolerance they would lie {limit} apart at most", "do not agree"
    return (
        f"{begun(place)} was read twice, and the two {wrong}: {one}, and {other}. They lie {apart} "
        f"apart, and {allow}. Take both again before anything is moved."
    )


def _said(answer: Answered) -> str:
    error = answer.error
    known = said_half_width(error.expanded) if error.standard else NOT_KNOWN
    return f"{said_offset(error.value)} {answer.reading.by} ({known})"
