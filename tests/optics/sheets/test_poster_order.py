"""The poster of the order of work."""

from collections.abc import Callable
from typing import Any

from optics.camera.cautions import FLASH, LOCAL_RULES, OLD_GLASS, SOLVENTS, SPRINGS, SUN
from optics.sheets.bench_sheet import ORDER_OF_WORK
from optics.sheets.poster_order import CARE_AT, TITLE
from tests.optics.sheets.posters_read import drawn


def test_every_step_stands_in_its_order(read_back: Callable[[bytes], Any]) -> None:
    """All ten steps are there, one under the other, in the order of the bench sheet."""
    text = read_back(drawn(TITLE)).text
    places = [text.index(words) for words in ORDER_OF_WORK]
    assert places == sorted(places)
    assert len(places) == 10


def test_every_caution_is_said_in_full_and_at_a_step(read_back: Callable[[bytes], Any]) -> None:
    """No caution is shortened, each belongs to a step, and local rules come before all."""
    text = read_back(drawn(TITLE)).text.replace(" ", "")
    for caution in (SUN, SPRINGS, SOLVENTS, FLASH, OLD_GLASS):
        assert caution.text.replace(" ", "") in text
        assert any(caution in cares for cares in CARE_AT.values())
    assert LOCAL_RULES.replace(" ", "") in text
