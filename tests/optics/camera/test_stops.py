"""Engraved stops against printed series."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optics.camera.stops import (
    F_NUMBER_TABLES,
    FULL,
    HALF,
    OLD_CONTINENTAL,
    TABLES,
    THIRD,
    UNIFORM_SYSTEM,
    Stops,
    StopTable,
    f_number,
    meaning,
)
from optics.errors import OutOfRange

# Dictionary of Optometry, table F1 (which edition: not at hand; the figures are those of 2^(k/2)).
TABLE_F1 = {0.7: 0.707, 1.4: 1.414, 2.8: 2.828, 5.6: 5.657, 11: 11.314, 22: 22.627}
# A periodical of 1913, quoted at sizes.com.
UNIFORM_1913 = {4: 8, 8: 11.3, 16: 16, 32: 22.6, 64: 32, 128: 45.2}


@pytest.mark.parametrize(("marked", "exact"), TABLE_F1.items())
def test_whole_stops_are_the_printed_exact_ones(marked: float, exact: float) -> None:
    """A whole stop's exact f-number is the one the dictionary prints."""
    assert meaning(marked).table is FULL
    assert f_number(marked) == pytest.approx(exact, abs=5e-4)


@pytest.mark.parametrize(("marked", "exact"), UNIFORM_1913.items())
def test_uniform_system_stops_are_the_printed_f_numbers(marked: float, exact: float) -> None:
    """A stop of the Uniform System is the f-number printed beside it in 1913."""
    # The 1913 table rounds f/45.25 down to 45.2, so a little over half a digit is allowed.
    assert f_number(marked, table="uniform_system") == pytest.approx(exact, abs=0.06)


def test_uniform_system_numbers_are_never_taken_for_f_numbers() -> None:
    """Even as marked, U.S. 8 is calculated with as f/11.3 and not as f/8."""
    assert f_number(8, Stops.MARKED, "uniform_system") == pytest.approx(11.3, abs=0.05)


@pytest.mark.parametrize("table", TABLES.values(), ids=lambda t: t.key)
def test_engraved_figures_are_their_exact_ones_rounded(table: StopTable) -> None:
    """No engraved figure is off its exact one by more than about a sixth of a stop."""
    if table is UNIFORM_SYSTEM:
        return
    assert len(table.marks) == len(table.places)
    for stop in table.stops:
        # A sixth of a stop is 2^(1/12), 5.9 per cent.
        assert stop.marked == pytest.approx(stop.exact, rel=0.059)


@pytest.mark.parametrize("table", TABLES.values(), ids=lambda t: t.key)
def test_every_table_rises_and_says_where_it_is_from(table: StopTable) -> None:
    """The stops of a table rise, and the table names a source or says that it has none."""
    assert list(table.marks) == sorted(table.marks)
    exact = [stop.exact for stop in table.stops]
    assert exact == sorted(exact)
    assert any(word in table.source for word in ("source", "ISO", "Society"))


@pytest.mark.parametrize(
    ("table", "count"), [(FULL, 1), (HALF, 2), (THIRD, 3), (OLD_CONTINENTAL, 1)]
)
def test_so_many_steps_halve_the_light(table: StopTable, count: int) -> None:
    """One, two or three steps of a table double the exact f-number's square."""
    exact = [stop.exact for stop in table.stops]
    for wide, narrow in zip(exact, exact[count:], strict=False):
        assert narrow**2 / wide**2 == pytest.approx(2, rel=1e-12)


def test_a_figure_of_two_series_names_both() -> None:
    """The stop 6.3 is a third stop and an old continental one, and both are told."""
    found = meaning(6.3)
    assert found.table is THIRD
    assert [table for table, _ in found.others] == [OLD_CONTINENTAL]


def test_a_figure_of_no_series_is_taken_as_engraved() -> None:
    """The stop 3.7 is in no series, stays 3.7, and its source says so."""
    found = meaning(3.7)
    assert (found.f_number, found.table) == (3.7, None)
    assert "as engraved" in found.source


@given(st.sampled_from([(t, m) for t in F_NUMBER_TABLES for m in t.marks]))
def test_marked_stops_stay_as_marked_on_request(both: tuple[StopTable, float]) -> None:
    """Asked for as marked, every stop of every table is the figure engraved."""
    table, marked = both
    assert f_number(marked, Stops.MARKED, table.key) == marked


def test_a_stop_its_table_lacks_is_refused_with_those_it_has() -> None:
    """A figure that the chosen series lacks is refused in one sentence with the series."""
    with pytest.raises(OutOfRange, match=r"one of the whole stops .*5\.6, 8.*: got 6\.3; .*\."):
        meaning(6.3, "full")
    with pytest.raises(OutOfRange, match="f-number must be more than 0"):
        meaning(0)
