"""Records of a test's own for the pages."""

from pathlib import Path

import pytest

from optics.records.store import Store


@pytest.fixture
def records(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Store:
    """An empty store, where the pages look for theirs."""
    monkeypatch.setenv("SHIMWRIGHT_DATA", str(tmp_path))
    return Store()
