"""Taking a bundle in beside what is there."""

import zipfile
from pathlib import Path

from optics.records.lantern_street import OSTRIN, TARNBROOK
from optics.records.library import CameraItem
from optics.records.store import Store
from tests.optics.records.store.conftest import titled


def counts(store: Store, file: Path) -> tuple[int, int, int]:
    """Import a bundle and return what came of it."""
    done = store.import_all(file)
    return done.jobs, done.items, done.already


def test_nothing_is_taken_twice(store: Store, tmp_path: Path) -> None:
    """Two jobs alike come as two, and the same bundle brings nothing the second time."""
    for title in ("twin", "twin", "single"):
        store.add_job(titled(title))
    store.add_item(CameraItem(name="Ours", part=OSTRIN))
    store.export_all(tmp_path / "all.zip")
    other = Store(tmp_path / "other.sqlite")
    assert counts(other, tmp_path / "all.zip") == (3, 1, 0)
    assert counts(other, tmp_path / "all.zip") == (0, 0, 4)
    other.delete_job(1)
    assert counts(other, tmp_path / "all.zip") == (1, 0, 3)


def test_an_item_of_the_same_name_is_not_written_over(store: Store, tmp_path: Path) -> None:
    """An item that differs from the one of its name comes in beside it under a new name."""
    store.add_item(CameraItem(name="Ours", part=OSTRIN))
    store.export_all(tmp_path / "all.zip")
    other = Store(tmp_path / "other.sqlite")
    other.add_item(CameraItem(name="ours", part=TARNBROOK))
    assert counts(other, tmp_path / "all.zip") == (0, 1, 0)
    assert [line.name for line in other.items()] == ["ours", "Ours (2)"]
    assert counts(other, tmp_path / "all.zip") == (0, 0, 1)


def test_more_than_one_batch_comes_in(store: Store, tmp_path: Path) -> None:
    """A bundle of many jobs comes in whole and in its order."""
    with zipfile.ZipFile(tmp_path / "all.zip", "w") as bundle:
        for n in range(230):
            text = f'{{"format": "shimwright job", "version": 1, "title": "{n}"}}'
            bundle.writestr(f"{n}.json", text)
    assert counts(store, tmp_path / "all.zip") == (230, 0, 0)
    assert [line.title for line in store.jobs(limit=999)] == [str(n) for n in range(229, -1, -1)]
