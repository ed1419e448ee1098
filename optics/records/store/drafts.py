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


def _as_text(typed: Mapping[str, Any]) -> str:
    try:
        text = json.dumps(dict(typed), allow_nan=False)
    except (TypeError, ValueError, RecursionError):
        raise NotKept(
            "A draft holds text, choices and lists only: this one cannot be kept."
        ) from None
    if len(text) > LARGEST_FILE:
        raise NotKept(
            f"A draft may take at most {LARGEST_FILE:,} bytes: got {len(text):,}; save the job.",
            quantity="draft",
            value=len(text),
            limit=LARGEST_FILE,
        )
    return text


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
