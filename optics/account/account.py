"""An account: all that is said of one result, in its order, and what is to be drawn beside it.

Whoever shows it decides how it looks and nothing of what it says: every word, figure and verdict
is here. What is drawn is referred to by the data themselves, for page and paper draw differently.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import TypeAlias

from optics.camera.cautions import Caution
from optics.measure.verdict import Verdict


class Role(StrEnum):
    """Whom a block or a table is for, and how much it matters."""

    FOUND = "found"
    """Told to everybody, the camera's owner too."""
    BENCH = "at the bench"
    WEIGHED = "weighed"
    """What stands behind the finding: for the sheet that lies at the bench too."""
    TO_DO = "to do"
    QUIET = "quiet"
    WORKING = "working"
    ASIDE = "aside"
    """Worth knowing, and not of this result: folded away where that can be done."""


@dataclass(frozen=True)
class Block:
    """Sentences that belong together; under a heading each is an item of a list."""

    lines: tuple[str, ...]
    role: Role = Role.BENCH
    heading: str = ""
    verdict: Verdict | None = None

    @property
    def said(self) -> tuple[str, ...]:
        """Every sentence."""
        return self.lines


@dataclass(frozen=True)
class TableRow:
    """A row of a table: its cells, the same as one sentence, and what is drawn with it.

    `bar` are shares of the longest bar: as much as is sure, and as much as may be besides.
    Without a sentence the cells are one. `is_limit` says that the bar is what is allowed.
    """

    cells: tuple[str, ...]
    sentence: str = ""
    verdict: Verdict | None = None
    bar: tuple[float, ...] = ()
    is_limit: bool = False

    @property
    def said(self) -> str:
        """The row as one sentence."""
        if self.sentence:
            return self.sentence
        name, *rest = filter(None, self.cells)
        return f"{name}: {'; '.join(rest)}"


@dataclass(frozen=True)
class Table:
    """Rows under heads; the first cell of a row names it, `bar_at` is the cell with the bars."""

    heads: tuple[str, ...]
    rows: tuple[TableRow, ...]
    heading: str = ""
    role: Role = Role.BENCH
    bar_at: int = 0

    @property
    def said(self) -> tuple[str, ...]:
        """Every row as a sentence."""
        return tuple(row.said for row in self.rows)


@dataclass(frozen=True)
class Card:
    """One thing that can be done: how, by how much, what it leaves and what to mind.

    One that is idle does not apply, and its `words` say why.
    """

    title: str
    words: str
    amounts: tuple[tuple[str, str], ...] = ()
    verdict: Verdict | None = None
    judged: str = ""
    notes: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    aside: str = ""
    is_idle: bool = False

    @property
    def said(self) -> str:
        """The whole card as it is told in one go."""
        care = (f"{caution.heading}: {caution.text}" for caution in self.cautions)
        return " ".join(filter(None, (self.words, self.judged, *care, *self.notes)))


@dataclass(frozen=True)
class Cards:
    """What can be done: what comes first of all, then each thing, and what comes last.

    `is_called_for` is whether anything has to be done; `in_order` whether one follows the other.
    """

    first: tuple[str, ...]
    cards: tuple[Card, ...]
    heading: str = "What to do"
    last: tuple[str, ...] = ()
    is_called_for: bool = True
    in_order: bool = False
    role: Role = Role.TO_DO

    @property
    def said(self) -> tuple[str, ...]:
        """Every sentence."""
        return (*self.first, *(f"{card.title}: {card.said}" for card in self.cards), *self.last)


@dataclass(frozen=True)
class Figure:
    """What is drawn, as data, and what is said beside the drawing."""

    drawn: tuple[object, ...]
    beside: tuple[Block, ...] = ()


Part: TypeAlias = Block | Table | Cards | Figure
Said: TypeAlias = Block | Table | Cards


@dataclass(frozen=True)
class Account:
    """One result: its headline, how it stands to its tolerance, then all the rest in order.

    `large` are the words of the headline that answer, to be set large (none: its first clause).
    `judged` is the sentence of the verdict, which is None where nothing was held against a
    tolerance. `plain` names what was looked at to somebody who does not know the trade.
    `is_finding` says that it tells of the camera as it was measured, which belongs in its
    record; advice that would be the same for any camera does not.
    """

    title: str
    headline: str
    verdict: Verdict | None = None
    judged: str = ""
    parts: tuple[Part, ...] = ()
    cautions: tuple[Caution, ...] = ()
    notes: tuple[str, ...] = ()
    large: tuple[str, ...] = ()
    plain: str = ""
    is_finding: bool = True

    def told(self) -> Iterator[Said]:
        """All that is said, in order: what stands beside a figure as well."""
        for part in self.parts:
            if isinstance(part, Figure):
                yield from part.beside
            else:
                yield part

    def lines(self, role: Role) -> tuple[str, ...]:
        """Every sentence of a role."""
        return tuple(line for part in self.told() if part.role is role for line in part.said)

    @property
    def said(self) -> tuple[str, ...]:
        """What was found, for whoever reads of the camera."""
        return (self.headline, *filter(None, [self.judged]), *self.lines(Role.FOUND))

    @property
    def to_do(self) -> tuple[str, ...]:
        """What whoever works on it is to do."""
        return self.lines(Role.TO_DO)

    @property
    def at_bench(self) -> tuple[str, ...]:
        """What came out, and what to do about it."""
        return (*self.said, *self.to_do)

    @property
    def weighed(self) -> tuple[str, ...]:
        """What stands behind it; rows that are no sentences make one together."""
        return tuple(
            line
            for part in self.told()
            if part.role is Role.WEIGHED
            for line in (_together(part) if isinstance(part, Table) else part.said)
        )

    @property
    def is_open(self) -> bool:
        """Whether it was held against its tolerance and is not proved right."""
        return self.verdict not in (None, Verdict.INSIDE)


def _together(table: Table) -> tuple[str, ...]:
    if all(line.endswith(".") for line in table.said):
        return table.said
    return (f"{table.heading}: {'; '.join(table.said)}.",)
