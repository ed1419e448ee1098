"""The rangefinder's part of a job is text that is kept as it was typed, and refused in words."""

import json
from typing import Any

import pytest

from optics.errors import Unreadable
from optics.rangefinder.part import RangefinderPart
from optics.records.files import read_job, write_job
from tests.optics.records.rangefinders import ROUND, rangefinder_job


def read(**changed: Any) -> RangefinderPart:
    """Read a job's rangefinder as a file would be."""
    part = read_job(json.dumps(rangefinder_job(**changed)).encode()).rangefinder
    assert part is not None
    return part


def test_what_was_typed_is_kept() -> None:
    """Every figure of a rangefinder is written back as it was typed."""
    typed = rangefinder_job()
    job = read_job(json.dumps(typed).encode())
    again = json.loads(write_job(job))["rangefinder"]
    assert (
        typed["rangefinder"].items() <= (again | {"rounds": typed["rangefinder"]["rounds"]}).items()
    )
    assert ROUND.items() <= again["rounds"][0].items()
    assert read_job(write_job(job).encode()) == job


def test_only_the_base_must_be_known() -> None:
    """A base alone is a rangefinder: nothing before the film, no magnification, a usual eye."""
    part = RangefinderPart(base="41")
    assert (part.base_to_film, part.magnification, part.acuity) == ("0 mm", "1", "60″")
    assert (part.pairs, part.rounds) == (None, ())


REFUSED = [
    ({"base": "0"}, "rangefinder → base: The rangefinder base must be more than 0 mm"),
    ({"base": "41 kg"}, "rangefinder → base: The rangefinder base"),
    ({"acuity": "-5"}, "rangefinder → acuity: The eye's acuity must be at least 0 ″"),
    ({"pairs": "3 m"}, "write each target with its reading, such as 3 m = 2.85"),
    ({"pairs": "3 m = 1,200"}, "The distance on the lens scale “1,200”"),
    ({"pairs": "0 m = 3"}, "The true distance “0 m” must be greater than 0"),
    ({"rounds": [{**ROUND, "infinity_turned": "−1/4 cw"}]}, "a sign and a word for the way round"),
    ({"rounds": [{**ROUND, "far_reads": "abc"}]}, "The lens scale on the far target"),
    ({"rounds": [{"near_turned": "1/8"}]}, "this field is missing"),
    ({"rounds": [ROUND] * 41}, "at most 40"),
    ({"near_adjuster": "lever"}, "it must be screw or eccentric"),
    ({"bas": "41"}, "this field is not known"),
    ({"base": 41}, "write the figure as text with its unit"),
]


@pytest.mark.parametrize(("changed", "said"), REFUSED)
def test_what_cannot_be_is_refused_with_its_place(changed: dict[str, Any], said: str) -> None:
    """Nonsense is refused with the field it stands in and one sentence."""
    with pytest.raises(Unreadable) as refusal:
        read(**changed)
    assert said in str(refusal.value)
    assert str(refusal.value).startswith("In rangefinder")
