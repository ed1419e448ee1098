"""What jobs on one kind of camera show, against figures worked with another library."""

import statistics
from typing import Any

import pytest

from optics.records.store import ShopFigure, Store
from optics.records.store.learned import figures
from tests.optics.records.jobs import HELICOID, job, record
from tests.optics.records.store.conftest import document

NOMINAL = 28.80
FOUND = (28.862, 28.871, 28.85, 28.84)


def gauged(measured: float, camera: str = "Ostrin 35", **more: Any) -> dict[str, Any]:
    """Give a job whose register was gauged as found: its focus error is measured less nominal."""
    typed = job(HELICOID)
    typed["camera"]["name"] = camera
    part = {
        "kind": "register",
        "measured": f"{measured} mm",
        "nominal": f"{NOMINAL} mm",
        "limit": "0.01 mm",
    }
    return {**typed, "found": [{"reading": part}], **more}


def the(figure: str, learned: list[ShopFigure]) -> ShopFigure:
    """Return one figure of several."""
    return next(one for one in learned if one.name == figure)


def test_mean_and_spread_are_those_of_the_jobs(store: Store) -> None:
    """Mean, sample standard deviation, least and most agree with the standard library's."""
    for measured in FOUND:
        store.add_job(document(gauged(measured)))
    store.add_job(document(gauged(29.9, camera="Corvane")))
    errors = [measured - NOMINAL for measured in FOUND]
    one = the("focus error as found", store.learned("  OSTRIN   35 "))
    assert one.jobs == 4
    assert one.mean == pytest.approx(statistics.mean(errors), abs=1e-12)
    assert one.spread == pytest.approx(statistics.stdev(errors), abs=1e-12)
    assert (one.least, one.most) == (pytest.approx(0.04), pytest.approx(0.071))


def test_one_job_has_no_spread(store: Store) -> None:
    """From a single job there is a mean and no spread, from none there is nothing."""
    assert store.learned("Ostrin 35") == []
    store.add_job(document(gauged(28.86)))
    assert the("focus error as found", store.learned("Ostrin 35")).spread is None


def test_what_is_learned_follows_the_jobs(store: Store) -> None:
    """A changed, undone, deleted, restored and archived job counts as it is now."""
    number = store.add_job(document(gauged(28.86)))
    store.save_job(number, document(gauged(28.90)))

    def mean() -> list[float]:
        return [round(x.mean, 6) for x in store.learned("Ostrin 35") if "error" in x.name]

    assert mean() == [0.1]
    store.undo_job(number)
    assert mean() == [0.06]
    store.delete_job(number)
    assert mean() == []
    store.restore_job(number)
    store.archive_job(number)
    assert mean() == [0.06]


def test_every_figure_of_a_whole_job() -> None:
    """A whole job gives the error as found and as left, the shims found, and what they became."""
    found = figures(document(record()))
    # Register 28.802 against 28.80; leaves 0.05 × 2 + 0.1 found, 0.05 in and 0.1 out; by hand.
    assert found["focus error as left"] == pytest.approx(0.002, abs=1e-9)
    assert found["shims found"] == pytest.approx(0.2)
    assert found["shims added less removed"] == pytest.approx(-0.05)
    assert found["circle of confusion"] == 0.03
    # 47²/18.63 m is 0.12 mm: the lens is too far out.
    assert found["focus error as found"] == pytest.approx(0.12, abs=0.002)


def test_a_job_that_cannot_be_worked_out_yet_is_kept_all_the_same(store: Store) -> None:
    """A job without a camera, or with a reading that makes no sense for it, simply tells less."""
    typed = gauged(28.86)
    del typed["camera"]
    assert figures(document(typed)) == {}
    turned = {"kind": "rotation", "turned": "3°", "sense": "clockwise"}
    on_a_bed = job({"kind": "bed"}) | {"found": [{"reading": turned}]}
    assert figures(document(on_a_bed)) == {"circle of confusion": 0.03}
    assert store.add_job(document(on_a_bed)) == 1


def test_depth_marks_teach_the_circle_they_were_made_for() -> None:
    """Depth marks engraved by a circle of confusion give that circle back."""
    # Angle each side of the index: 360°·N·c/lead, for f/8, c 0.04 mm and a lead of 18 mm: 6.4°.
    scale = {
        "marks": "inf = 0",
        "depth_marks": "8 = 12.8",
        "limit": "0.1",
        "across": True,
    }
    found = figures(document({**job(), "scale": scale}))
    assert found["circle of confusion of the depth marks"] == pytest.approx(0.04, rel=0.02)
