"""An account as part of a result document."""

from typing import Annotated

from pydantic import Field

from optics.account.account import Account, Said, Table
from optics.typed.result_parts import Out


class SectionOut(Out):
    """Sentences that belong together and whom they are for; of a table, its cells as well."""

    heading: str
    role: str
    lines: tuple[str, ...]
    heads: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()

    @classmethod
    def of(cls, part: Said) -> "SectionOut":
        """The part as JSON can hold it."""
        said = cls(heading=part.heading, role=part.role, lines=part.said)
        if not isinstance(part, Table):
            return said
        rows = tuple(row.cells for row in part.rows)
        return said.model_copy(update={"heads": part.heads, "rows": rows})


class AccountOut(Out):
    """All that is said of one result, as page, terminal and paper say it."""

    title: str
    headline: str
    verdict: Annotated[str | None, Field(description="null where nothing was held to a tolerance")]
    judged: Annotated[str, Field(description="the verdict in a sentence; may be empty")]
    what_to_do: tuple[str, ...]
    sections: tuple[SectionOut, ...]
    cautions: tuple[str, ...]
    notes: tuple[str, ...]

    @classmethod
    def of(cls, account: Account) -> "AccountOut":
        """The account as JSON can hold it."""
        return cls(
            title=account.title,
            headline=account.headline,
            verdict=account.verdict,
            judged=account.judged,
            what_to_do=account.to_do,
            sections=tuple(map(SectionOut.of, account.told())),
            cautions=tuple(caution.text for caution in account.cautions),
            notes=account.notes,
        )
