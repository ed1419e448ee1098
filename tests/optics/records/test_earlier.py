"""What was kept before semicolons alone parted figures keeps its meaning."""

import json
from pathlib import Path
from typing import Any

import pytest

from optics.errors import Unreadable
from optics.records.files import read_job, read_kept_job
from optics.records.job import JobDocument
from optics.records.library import read_item
from optics.records.store import Store
from optics.records.store.connection import writing
from tests.optics.records.jobs import job

EARLIER = {
    "workshop": {"drawer": "0.05 × 4; 2 thou × 3", "fitted": "0.1, 0.05"},
    "readings": [
        {"kind": "mark", "mark": "1.5 m", "sharp_at": "1.62, 1.63"},
        {"kind": "mark", "sharp_at": "18, 7 m"},
        {"kind": "mark", "sharp_at": "1435"},
        {"kind": "register", "measured": "28.7 28.8", "nominal": "28.8", "place": "10 -8"},
        {"kind": "register", "measured": "28.71,28.82", "nominal": "28.8"},
    ],
    "scale": {"marks": "∞ = 0; 3 m = 17.3, 17.2\n1.5 m=34.9", "limit": "0.2", "negative": "24x36"},
    "gate": {"channel": "0.01 in ± 0.01"},
    "standard": {
        "depths": "top left = 0.02, 0.03; -30 25 = 0.4; 10, 5 = 0.1",
        "limit": "0.01",
        "frame": "84, 56",
        "screws": "top left = 0.2 + 2 thou; top = none; right = ?",
    },
    "rangefinder": {
        "base": "41",
        "pairs": "∞ = 28, 30; 1 m = 1.03",
        "rounds": [{"far_reads": "28, 29", "near_reads": "1.0 1.1"}],
    },
}
# Each text as it was understood when it was kept, written as now.
NOW = {
    "workshop": {"drawer": "0.05 mm × 4; 2 thou × 3", "fitted": "0.1; 0.05"},
    "readings": ["1.62; 1.63", "18; 7 m", "1435 m", "28.7; 28.8", "28.71; 28.82"],
    "scale": "∞ = 0; 3 m = 17.3; 17.2; 1.5 m = 34.9",
    "gate": "0.01 in ± 0.01 mm",
    "depths": "top left = 0.02; 0.03; -30, 25 = 0.4; 10, 5 = 0.1",
    "frame": "84 × 56",
    "screws": "top left = 0.2 mm + 2 thou; top = none; right = ?",
    "pairs": "∞ = 28; 30; 1 m = 1.03",
    "round": ("28; 29", "1.0; 1.1"),
}


def kept() -> dict[str, Any]:
    """Give a job as it was kept."""
    return {**job(), **EARLIER}


def shown(found: JobDocument) -> dict[str, Any]:
    """Return the texts that have changed."""
    texts = found.model_dump()
    reads = texts["rangefinder"]["rounds"][0]
    return {
        "workshop": texts["workshop"],
        "readings": [one.get("sharp_at", one.get("measured")) for one in texts["readings"]],
        "scale": texts["scale"]["marks"],
        "gate": texts["gate"]["channel"],
        **{name: texts["standard"][name] for name in ("depths", "frame", "screws")},
        "pairs": texts["rangefinder"]["pairs"],
        "round": (reads["far_reads"], reads["near_reads"]),
    }


def test_a_kept_job_is_written_as_now_with_the_figures_it_had() -> None:
    """Commas, spaces and line ends that parted figures become semicolons; no figure changes."""
    found = read_kept_job(json.dumps(kept()).encode())
    assert shown(found) == NOW
    assert found.readings[3].model_dump()["place"] == "10, -8"
    assert found.camera == read_job(json.dumps(job()).encode()).camera
    assert found.scale is not None
    assert found.scale.negative == "24x36"


def test_a_kept_job_opens_and_its_revision_stays_as_typed(tmp_path: Path) -> None:
    """The records give the job as now, and still hold what was typed; undo reaches it too."""
    store, typed = Store(tmp_path / "records.sqlite"), json.dumps(kept())
    number = store.add_job(read_job(json.dumps(job()).encode()))
    with writing(store.path) as connection:
        connection.execute("UPDATE job_revision SET document = ?", (typed,))
    assert shown(store.job(number).job) == NOW
    assert shown(store.job_at(number, 1)) == NOW
    assert store.export_job(number).decode() == typed
    store.save_job(number, store.job(number).job)
    assert shown(store.undo_job(number).job) == NOW


def test_a_kept_item_is_written_as_now() -> None:
    """The library's stock is read in the meaning it was kept with."""
    item = {"kind": "shim stock", "name": "Top drawer", "part": {"drawer": "0.05 x 4, 2 thou"}}
    text = {"format": "shimwright library item", "version": 1, "item": item}
    assert read_item(json.dumps(text).encode()).part.model_dump()["drawer"] == "0.05 mm × 4; 2 thou"


def test_a_job_file_is_asked_instead() -> None:
    """What is typed now may mean another thing, so a file to be solved is refused as a field is."""
    with pytest.raises(Unreadable, match=r"0\.05 mm × 4"):
        read_job(json.dumps(kept()).encode())


def test_what_never_had_a_meaning_stays_refused() -> None:
    """A kept text that no rule ever read is refused in the words of its field."""
    wrong = {**job(), "readings": [{"kind": "mark", "sharp_at": "18; x"}]}
    with pytest.raises(Unreadable, match=r"readings no\. 1 → sharp_at"):
        read_kept_job(json.dumps(wrong).encode())


def test_a_kept_figure_out_of_its_range_can_be_opened_and_set_right() -> None:
    """A ruler at 95° to the axis opens as it was kept, while a job file to be solved is refused."""
    ruler = {"kind": "ruler", "mark": "1.5 m", "aim": "1.5 m", "offset": "20", "slope": "95°"}
    data = json.dumps({**job(), "readings": [ruler]}).encode()
    assert read_kept_job(data).model_dump()["readings"][0]["slope"] == "95°"
    with pytest.raises(Unreadable, match="slope of the ruler to the lens axis must be at most"):
        read_job(data)
