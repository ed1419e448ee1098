"""Windows of a browser without a browser: a session and a cookie each, on records of their own."""

from types import SimpleNamespace
from typing import Any

import pytest
import streamlit as st

from ui.kept import drafts

BROWSER = "0123456789abcdef" * 2


def open_window(patch: pytest.MonkeyPatch, browser: str = BROWSER) -> dict[str, Any]:
    """Give the pages a session of its own in a browser of this name; the session."""
    session: dict[str, Any] = {}
    patch.setattr(st, "session_state", session)
    patch.setattr(st, "context", SimpleNamespace(cookies={drafts.BROWSER: browser}))
    return session
