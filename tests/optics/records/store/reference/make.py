"""Writes the reference databases: one for each schema there has been, as it would be found.

Run from the top of the house: python -m tests.optics.records.store.reference.make
A database that is there is never written again, for it is what that schema once was.
"""

import sqlite3
from contextlib import closing
from pathlib import Path

from optics.records.store.connection import opened
from optics.records.store.migrations import LATEST, bring_up_to_date

HERE = Path(__file__).parent
TIME = "2026-03-06T09:00:00+00:00"
JOB = """{
  "format": "shimwright job",
  "version": 1,
  "title": "Reference ∞ “a”",
  "intake": {"customer": {"name": "Zoë"}, "identity": {"serial": "41 207"}},
  "camera": {
    "name": "Ostrin 35",
    "lens": {"focal_length": "47 mm", "full_aperture": "f/2,8"},
    "focusing": {"kind": "helicoid", "lead": "18 mm", "extends": "clockwise"},
    "circle_of_confusion": "0.03 mm"
  },
  "found": [{"reading": {"kind": "mark", "sharp_at": "18,7 m"}}]
}
"""
ITEM = """{
  "format": "shimwright library item",
  "version": 1,
  "item": {"kind": "lens", "name": "The 47", "part": {"focal_length": "47", "full_aperture": "2.8"}}
}
"""


def fill(connection: sqlite3.Connection, schema: int) -> None:
    """Put in what a user of that schema could have kept: two jobs, one of them changed."""
    for number, deleted in ((1, None), (2, TIME)):
        connection.execute(
            "INSERT INTO job VALUES (?, 2, ?, ?, NULL, ?, 'Reference ∞ “a”', 'Zoë', 'Ostrin 35', "
            "'ostrin 35', '41 207', 'booked in', '', '', ?, 'reference ∞ “a” zoe 41 207')",
            (number, TIME, TIME, deleted, f"digest {number}"),
        )
        for revision, text in ((1, JOB.replace("“a”", "“b”")), (2, JOB)):
            connection.execute(
                "INSERT INTO job_revision (owner, number, parent, saved, document) "
                "VALUES (?, ?, ?, ?, ?)",
                (number, revision, revision - 1 or None, TIME, text),
            )
    connection.execute("INSERT INTO job_figure VALUES (1, 'focus error as found', 0.118)")
    if schema >= 2:
        connection.execute("INSERT INTO draft VALUES ('a page', ?, '{\"x\": \"18,\"}')", (TIME,))
    if schema >= 3:
        connection.execute(
            "INSERT INTO item VALUES (1, 1, ?, ?, NULL, 'lens', 'The 47', 'the 47')", (TIME, TIME)
        )
        connection.execute(
            "INSERT INTO item_revision (owner, number, saved, document) VALUES (1, 1, ?, ?)",
            (TIME, ITEM),
        )
    if schema >= 5:
        connection.execute("UPDATE job SET words = words || ' 41207 '")
    if schema >= 4:
        connection.execute("UPDATE job_revision SET author = 'Zoë' WHERE number = 2")


def make(schema: int, file: Path) -> None:
    """Write the database of one schema."""
    with closing(opened(file)) as connection:
        bring_up_to_date(connection, to=schema)
        connection.execute("BEGIN")
        fill(connection, schema)
        connection.commit()
        connection.execute("PRAGMA journal_mode = DELETE")
        connection.execute("VACUUM")


if __name__ == "__main__":
    for number in range(1, LATEST + 1):
        reference = HERE / f"schema_{number:03}.sqlite"
        if not reference.exists():
            make(number, reference)
