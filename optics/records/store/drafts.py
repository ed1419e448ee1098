"""Drafts: whatever stands in the fields of a page, readable or not, until it is saved."""

import json
import sqlite3
from collections.abc import Mapping
from typing import Any

from optics.errors import NotKept, Unreadable
from optics.records.files import LARGEST_FILE


def save(connection: sqlite3.Connection, key: str, typed: Mapping[str, Any], now: str) -> None:
    """Keep what is typed under a key, in place of what was there."""
    connection.execute(
        "INSERT INTO draft VALUES (?, ?, ?) "
        "ON CONFLICT (key) DO UPDATE SET saved = excluded.saved, typed = excluded.typed",
        (key, now, _as_text(typed)),
    )


def merge(
    connection: sqlite3.Connection, key: str, changed: Mapping[str, str | None], now: str
) -> None:
    """Change some fields of a draft and leave the others; None forgets a field."""
    patch = _as_text(changed)
    # Merged by the database, so that two windows of one browser do not undo each other.
    connection.execute(
        "INSERT INTO draft VALUES (:key, :now, json_patch('{}', :patch)) ON CONFLICT (key) "
        "DO UPDATE SET saved = excluded.saved, typed = json_patch(typed, :patch)",
        {"key": key, "now": now, "patch": patch},
    )
    (size,) = connection.execute("SELECT length(typed) FROM draft WHERE key = ?", (key,)).fetchone()
    _check_size(size)


def _as_text(typed: Mapping[str, Any]) -> str:
    try:
        text = json.dumps(dict(typed), allow_nan=False)
    except (TypeError, ValueError, RecursionError):
        raise NotKept(
            "A draft holds text, choices and lists only: this one cannot be kept."
        ) from None
    _check_size(len(text))
    return text


def _check_size(size: int) -> None:
    if size > LARGEST_FILE:
        raise NotKept(
            f"A draft may take at most {LARGEST_FILE:,} bytes: got {size:,}; save the job.",
            quantity="draft",
            value=size,
            limit=LARGEST_FILE,
        )


def typed(connection: sqlite3.Connection, key: str) -> dict[str, Any] | None:
    """What was typed under a key; None where nothing is kept."""
    row = connection.execute("SELECT typed FROM draft WHERE key = ?", (key,)).fetchone()
    if row is None:
        return None
    try:
        return dict(json.loads(row[0]))
    except (TypeError, ValueError):
        raise Unreadable(f"The draft {key!r:.60} is damaged: restore a backup.") from None


def keys(connection: sqlite3.Connection) -> list[tuple[str, str]]:
    """Every draft's key and when it was kept (UTC), the newest first."""
    rows = connection.execute("SELECT key, saved FROM draft ORDER BY saved DESC, key")
    return [(key, saved) for key, saved in rows]


def drop(connection: sqlite3.Connection, key: str) -> None:
    """Forget a draft, once what it held has been saved."""
    connection.execute("DELETE FROM draft WHERE key = ?", (key,))
