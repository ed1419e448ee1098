"""Tables as CSV that no spreadsheet takes for a formula."""

import csv
import io
from collections.abc import Iterable, Sequence

# What makes a spreadsheet read a cell as a formula (OWASP, CSV injection).
_FORMULA_MARKS = ("=", "+", "-", "@", "\t", "\r")


def csv_text(rows: Iterable[Sequence[str]]) -> str:
    """The rows as CSV text; a cell that a spreadsheet would run gets an apostrophe before it."""
    out = io.StringIO()
    csv.writer(out).writerows([[_harmless(cell) for cell in row] for row in rows])
    return out.getvalue()


def _harmless(cell: str) -> str:
    return f"'{cell}" if cell.lstrip(" ").startswith(_FORMULA_MARKS) else cell
