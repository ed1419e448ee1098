"""The film gate as part of a job."""

import pytest

from optics.errors import ShimwrightError
from optics.records.lantern_street import OSTRIN
from tests.optics.records.bench_jobs import (
    GATE,
    solved,
)


def test_gate_is_the_articles() -> None:
    """Film of 0.15 mm in a channel of 0.200 mm has 0.05 mm of play, half of it in the mean."""
    gate = solved(OSTRIN, gate=GATE).gate
    assert gate is not None
    assert gate.play.value == pytest.approx(0.05)
    assert gate.error.value == pytest.approx(0.025)


def test_typed_figures_replace_the_usual_ones() -> None:
    """Film, paper and a glass against the plate, each typed with its limit, are what counts."""
    own = {
        "plate": "on stops",
        "channel": "0,30 ± 0.01",
        "film_thickness": "0.11 ± 0.01",
        "paper": "0.09",
        "glass": "against the plate",
        "glass_thickness": "0.25",
    }
    gate = solved(OSTRIN, gate=own).gate
    assert gate is not None
    # 0.30 − 0.20 = 0.10 of play, 0.05 in the mean; the ground side lies 0.30 − 0.25 = 0.05 deep.
    assert gate.play.value == pytest.approx(0.10)
    assert gate.error.value == pytest.approx(0.0, abs=1e-12)


def test_sheet_film_lies_in_its_holder() -> None:
    """The holder's usual depth from the standard of 1998 stands in for a gauged one."""
    sheet = {"film": "sheet", "glass": "in the back", "glass_depth": "4.83", "slot": "0.305"}
    usual = solved(gate=sheet | {"holder": "4x5"}).gate
    gauged = solved(gate=sheet | {"holder_depth": "0.197 in"}).gate
    assert usual is not None
    assert gauged is not None
    assert usual.error.value == pytest.approx(gauged.error.value)
    assert usual.error.standard > gauged.error.standard


@pytest.mark.parametrize(
    ("gate", "why"),
    [
        ({}, "depth of the film channel"),
        ({"plate": "none"}, "how far it can bow"),
        ({"film": "glass"}, "choose one of perforated"),
        ({"channel": "0.1"}, "0.15"),
        ({"channel": "0.2", "glass": "against the plate"}, "thickness of the ground glass"),
        ({"glass": "in the back"}, "depth of the ground side"),
        ({"glass": "in the back", "glass_depth": "4.8", "holder": "9x9"}, "depth of the holder"),
        ({"glass": "against the plate", "plate": "sprung"}, "depth of the film channel"),
    ],
)
def test_gate_asks_for_what_it_needs(gate: dict[str, str], why: str) -> None:
    """A figure that is needed and missing, or cannot be, is named."""
    with pytest.raises(ShimwrightError, match=why):
        solved(gate=gate)
