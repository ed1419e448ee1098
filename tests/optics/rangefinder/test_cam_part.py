"""A cam's texts on the bench: a body cut for the very lens needs just the lens's travel as lift."""

import json
from typing import Any

import pytest

from optics.errors import ShimwrightError
from optics.rangefinder.cam import LensLaw, StraightLaw
from optics.rangefinder.cam_part import CamAnswer, CamPart
from optics.rangefinder.stoning import StoningMap
from optics.records.files import read_job
from optics.records.lantern_street import OSTRIN
from optics.records.solve import solve
from tests.optics.records.rangefinders import RANGEFINDER

# The lens and its hiatus are the Ostrin's own, and its lead is 18 mm: 20° are 1.000 mm.
OWN_LENS = {"kind": "a lens it was cut for", "focal_length": "47 mm", "hiatus": "0.6"}
CAM: dict[str, Any] = {"body": OWN_LENS, "turn": "52"}


def answered(**changed: Any) -> CamAnswer:
    """Solve a job with this cam."""
    known = {key: text for key, text in RANGEFINDER.items() if key not in ("pairs", "rounds")}
    job = {
        "format": "shimwright job",
        "version": 1,
        "camera": OSTRIN.model_dump(mode="json", exclude_none=True),
        "rangefinder": known | {"cam": CAM | changed},
    }
    found = solve(read_job(json.dumps(job).encode())).cam
    assert found is not None
    return found


def stoned(**changed: Any) -> StoningMap:
    """The map of the lifts read."""
    found = answered(**changed).stoning
    assert found is not None
    return found


def test_without_lifts_there_is_the_table_of_a_new_cam() -> None:
    """The lift needed is the lens's own travel: 18 mm a turn, so 1 mm at 20°."""
    found = answered()
    assert found.stoning is None
    table = found.cam.table(0.3490658503988659)
    assert table.lift[:3] == pytest.approx([0.0, 1.0, 2.0], abs=1e-9)


def test_a_high_place_is_cut_down() -> None:
    """Two hundredths too high in the middle come off there and nowhere else."""
    found = stoned(lifts="0 = 0; 20 = 1.01; 1.03; 40° = 2,00")
    assert found.cut == pytest.approx([0.0, 0.02, 0.0])


def test_where_cutting_raises_the_lift_a_low_place_is_cut() -> None:
    """On a cam that holds its follower back, metal comes off where the lift is too small."""
    found = stoned(lifts="0 = 0; 20 = 0.98; 40 = 2", cutting="raises the lift")
    assert found.cut == pytest.approx([0.0, 0.02, 0.0])


def test_a_gain_that_can_be_set_saves_metal() -> None:
    """Lifts a twentieth too steep need no stone where the gain can be lowered by a tenth."""
    lifts = "0 = 0; 20 = 1.05; 40 = 2.10; 50 = 2.625"
    assert max(stoned(lifts=lifts).cut) > 0.1
    set_lower = stoned(lifts=lifts, gain_less="10 %")
    assert set_lower.gain == pytest.approx(1 / 1.05, abs=1e-6)
    assert max(set_lower.cut) == 0


def test_what_the_gauge_is_unsure_of_can_be_left_on() -> None:
    """Held back, even the low place has the uncertainty to spare, so that none is left too low."""
    lifts = "0 = 0; 20 = 1.02; 40 = 2"
    plain, held = (
        stoned(lifts=lifts, limit="0.005", hold_back=how) for how in ("nothing", "the uncertainty")
    )
    assert held.removal.min() == pytest.approx(plain.readings[0].lift.expanded)
    assert plain.removal.min() == pytest.approx(0)


def test_a_straight_follower_takes_the_rangefinders_base() -> None:
    """A body that turns its sights in proportion needs base and gain; 58′ are 16.87 mrad."""
    law = answered(body={"kind": "a straight follower", "gain": "58"}).cam.law
    assert isinstance(law, StraightLaw)
    assert (law.base, law.base_to_film) == (41.0, 24.0)
    assert law.gain == pytest.approx(0.01687, abs=5e-6)


def test_the_bodys_gain_may_be_unknown() -> None:
    """A lens the body was cut for needs no gain, and then none is made up."""
    law = answered().cam.law
    assert law == LensLaw(47.0, 0.6, None)


@pytest.mark.parametrize(
    ("changed", "why"),
    [
        ({"turn": "0"}, "turn from infinity must be more than 0"),
        ({"lifts": "1,200 = 1.2"}, "may be a decimal mark"),
        ({"lifts": "10 = 0.5; 60 = 3"}, "must be read between"),
        ({"lifts": "0 = 0; 20 = 1", "gain_less": "100"}, "gain at its least must be above 0"),
        ({"lifts": "0 = 0; 20 = 1", "gain_more": "-1"}, "gain at its most must be 1 or more"),
        ({"body": {"kind": "a straight follower"}}, "gain"),
        ({"colour": "red"}, "colour"),
    ],
)
def test_what_cannot_be_is_refused(changed: dict[str, Any], why: str) -> None:
    """Every impossible or unknown field is refused in a sentence that names it."""
    with pytest.raises(ShimwrightError, match=why):
        answered(**changed)


def test_texts_are_kept_as_typed() -> None:
    """A cam's part gives back the very texts."""
    part = CamPart.model_validate(CAM | {"lifts": "0 = 0; 20° = 1,02", "gain_less": "2,5 %"})
    assert (part.lifts, part.gain_less) == ("0 = 0; 20° = 1,02", "2,5 %")
