"""What was typed under a key that is another now stands under today's."""

import pytest

from optics.records.store import Store
from tests.ui.windows import BROWSER, open_window
from ui.kept import drafts
from ui.kept.older_keys import lifted

# As they were kept, and where their fields stand now.
_OLDER = {
    "kind": "focusing.kind",
    "negative": "scale.negative",
    "scale.from": "scale.reference",
    "depth.from": "depth.measured_from",
    "budget.film_flatness": "budget.terms.film_flatness",
    "rangefinder.read.pairs": "rangefinder.pairs",
    "rangefinder.read.tape": "rangefinder.tape",
    "rangefinder.round2.far_reads": "rangefinder.rounds.1.far_reads",
    "rangefinder.apart1.measured": "rangefinder.apart.0.measured",
    "rangefinder.sheet": "rangefinder.sheet.sheet",
    "rangefinder.compensator.index": "rangefinder.compensator.counter-turning wedges.index",
    "cam.law": "rangefinder.cam.body.kind",
    "cam.straight.gain": "rangefinder.cam.body.a straight follower.gain",
    "cam.body.hiatus": "rangefinder.cam.body.a lens it was cut for.hiatus",
    "cam.lifts": "rangefinder.cam.lifts",
    "whole.suspect": "diagnosis.suspects.0.cause",
    "whole.suspect.slipped ring.chance": "diagnosis.suspects.0.slipped ring.chance",
    "whole.seen_blur": "diagnosis.seen_blur",
}


@pytest.mark.parametrize("camera", ["Ostrin 35", "Job 12", "No. 3.5 (library)"])
@pytest.mark.parametrize(("older", "today"), _OLDER.items())
def test_an_older_key_is_lifted_to_the_fields_place(camera: str, older: str, today: str) -> None:
    """Whatever the camera is called, its text moves, and once moved it stays."""
    changes = lifted({f"{camera}.{older}": "typed"})
    assert changes == {f"{camera}.{older}": None, f"{camera}.{today}": "typed"}
    assert lifted({f"{camera}.{today}": "typed"}) == {}


def test_a_figure_of_two_compensators_is_kept_for_both() -> None:
    """Whichever of the two it was typed for, it stands there."""
    key = "Job 1.rangefinder.compensator"
    assert lifted({f"{key}.focal_length": "55"}) == {
        f"{key}.focal_length": None,
        f"{key}.swung lens.focal_length": "55",
        f"{key}.sliding wedge.focal_length": "55",
    }


@pytest.mark.parametrize(
    "key",
    [
        "Ostrin 35.rangefinder.compensator.kind",
        "Ostrin 35.whole.row0.place",
        "Ostrin 35.whole.row.used",
        "Ostrin 35.scale.angle.marks",
        "Ostrin 35.gate.channel",
        "class.cam.lift",
        "library.kind",
        "record 3.work.state",
    ],
)
def test_keys_of_today_are_left_alone(key: str) -> None:
    """No field of another page, and none that is where it was, loses its text."""
    assert lifted({key: "typed"}) == {}


def test_what_was_typed_under_todays_key_stays() -> None:
    """A text typed since is not overwritten by the older one."""
    assert lifted({"Job 1.negative": "6×6 cm", "Job 1.scale.negative": "24×36 mm"}) == {
        "Job 1.negative": None
    }


def test_a_draft_kept_from_before_opens_with_todays_keys(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The text stands in today's field, and the store is told of it with the next writing."""
    records.merge_draft(BROWSER, {"Job 1.rangefinder.read.pairs": "∞ = 22"})
    open_window(monkeypatch)
    assert drafts.draft().texts == {"Job 1.rangefinder.pairs": "∞ = 22"}
    drafts.draft().write()
    assert records.draft(BROWSER) == {"Job 1.rangefinder.pairs": "∞ = 22"}
