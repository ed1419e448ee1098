"""The poster of causes and readings."""

from collections.abc import Callable
from typing import Any

import pytest

from optics.finding.causes import ALL
from optics.readings.spots import Spot
from optics.sheets.poster_focus import TITLE
from tests.optics.sheets.posters_read import MM, drawn


def discs(back: Any) -> list[tuple[float, float]]:
    """The middles of the black discs of the table, in mm."""
    return [
        ((c["x0"] + c["x1"]) / 2 * MM, (c["top"] + c["bottom"]) / 2 * MM)
        for c in back.pages[0].curves
        if 6 < (c["x1"] - c["x0"]) * MM < 7.5 and c["top"] * MM > 240
    ]


def test_every_disc_of_the_table_is_a_cause_that_disturbs_a_reading(
    read_back: Callable[[bytes], Any],
) -> None:
    """There are as many discs in each column as causes that disturb that kind of reading."""
    places = discs(read_back(drawn(TITLE)))
    columns = sorted({round(x) for x, _ in places})
    counted = [sum(round(x) == column for x, _ in places) for column in columns]
    # The columns run from the depth gauge to the rangefinder, as the table of evidence does.
    assert counted == [sum(spot in cause.spots for cause in ALL) for spot in Spot]


def test_the_register_runs_from_the_film_to_the_seat(read_back: Callable[[bytes], Any]) -> None:
    """The dimension begins at the film's own line and ends at the face the shim lies on."""
    lines = read_back(drawn(TITLE)).lines()
    (film,) = {round(a[0], 1) for a in lines if abs(a[0] - a[2]) < 0.1 and 55 < a[3] - a[1] < 57}
    (dimension,) = [a for a in lines if a[1] == a[3] and abs(a[0] - film) < 0.1]
    assert dimension[2] == pytest.approx(138, abs=0.1)
