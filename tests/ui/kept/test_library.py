"""The user's library among the examples."""

import pytest

from optics.records.job import JobDocument
from optics.records.lantern_street import CAMERAS
from optics.records.library import CameraItem
from optics.records.store import Store
from tests.ui.windows import open_window
from ui.kept.library import known_cameras, library_cameras


def test_library_cameras_have_names_of_their_own(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A camera kept under an example's name is told from the example, and follows changes."""
    open_window(monkeypatch)
    name = CAMERAS[0].name
    number = records.add_item(CameraItem(name=name, part=CAMERAS[0]))
    assert library_cameras() == {f"{name} (library)": CAMERAS[0]}
    records.save_item(number, CameraItem(name=name, part=CAMERAS[1]))
    assert library_cameras() == {f"{name} (library)": CAMERAS[1]}
    records.delete_item(number)
    assert library_cameras() == {}


def test_a_camera_is_known_from_job_library_and_example(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The last job that describes the kind comes first, and never the job that asks."""
    open_window(monkeypatch)
    first, second = CAMERAS[:2]
    old = records.add_job(JobDocument(camera=first))
    records.add_job(JobDocument(camera=second))
    records.add_item(CameraItem(name="the grey one", part=first))
    asking = records.add_job(JobDocument(camera=first))
    places = [place for place, _ in known_cameras(first.name.upper(), asking)]
    assert places == [f"Job {old}", "the library: the grey one", f"the example {first.name}"]
    assert list(known_cameras("never seen", asking)) == []
