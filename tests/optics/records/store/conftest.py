"""A store of its own for each test, with a clock that ticks one second a call."""

import json
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from optics.records.files import read_job
from optics.records.job import JobDocument
from optics.records.store import Store
from tests.optics.records.jobs import job

STARTED = datetime(2026, 3, 6, 9, 0, tzinfo=UTC)


def document(typed: dict[str, Any]) -> JobDocument:
    """Read a job as a file would hold it."""
    return read_job(json.dumps(typed, ensure_ascii=False).encode())


def titled(title: str, **changed: Any) -> JobDocument:
    """Give a job with a title."""
    return document({**job(), "title": title, **changed})


def ticking() -> Callable[[], str]:
    """Give a clock that is one second later at each look."""
    seconds = count()
    return lambda: (STARTED + timedelta(seconds=next(seconds))).isoformat()


@pytest.fixture(scope="module")
def shared_store(tmp_path_factory: pytest.TempPathFactory) -> Store:
    """Give one store to all the examples that a test draws: each adds to what is there."""
    return Store(tmp_path_factory.mktemp("shared") / "records.sqlite", ticking())


@pytest.fixture
def store(tmp_path: Path) -> Store:
    """Give an empty store."""
    return Store(tmp_path / "records.sqlite", ticking())
