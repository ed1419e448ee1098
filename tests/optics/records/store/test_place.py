"""Where the records lie."""

from pathlib import Path

import platformdirs
import pytest

from optics.records.store import Store, default_path


def test_the_records_lie_in_the_users_data(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a word to the contrary the records lie where the system keeps a user's data."""
    monkeypatch.delenv("SHIMWRIGHT_DATA", raising=False)
    folder = platformdirs.user_data_path("shimwright", appauthor=False)
    assert default_path() == folder / "records.sqlite"


def test_the_environment_can_name_another_folder(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """SHIMWRIGHT_DATA names the folder; left empty it names none."""
    monkeypatch.setenv("SHIMWRIGHT_DATA", str(tmp_path))
    assert Store().path == tmp_path / "records.sqlite"
    monkeypatch.setenv("SHIMWRIGHT_DATA", " ")
    assert default_path().parent.name == "shimwright"
    monkeypatch.setenv("SHIMWRIGHT_DATA", "~/bench")
    assert default_path() == Path.home() / "bench" / "records.sqlite"
