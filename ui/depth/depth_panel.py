"""The depth-of-field table as the page shows it and as CSV."""

from collections.abc import Sequence
from html import escape
from typing import Literal

from optics.camera.stops import Stops
from optics.records.csv_export import csv_text
from optics.scales import depth_wording as wording
from optics.scales.depth_table import DepthTable
from optics.units import format_distance, format_length
from ui.answers.bench_panel import wide_html

System = Literal["metric", "imperial"]


def depth_html(
    table: DepthTable, stops: Sequence[str], system: System, reckoned: Stops = Stops.EXACT
) -> str:
    """Near and far limit for every aperture and distance.

    `stops` are the apertures' names, `reckoned` says with which of their f-numbers.
    """
    heads = "".join(f"<th>{_at(d, system)}</th>" for d in table.distances)
    rows = "".join(_row(table, row, stops[row], system) for row in range(len(table.f_numbers)))
    limits = (
        f'<table class="depth"><thead><tr><th>focused at</th>{heads}'
        f"<th>hyperfocal</th></tr></thead><tbody>{rows}</tbody></table>"
    )
    return (
        f'<section class="answer" id="table">{_in_short(table, stops[0], system)}'
        f"{wide_html(limits, 'Depth of field, near limit over far limit')}"
        '<p class="quiet">In each row the upper line is where it is sharp from, the lower where '
        f"to. {escape(_conventions(table, reckoned))}</p></section>"
    )


def _conventions(table: DepthTable, reckoned: Stops) -> str:
    return f"{wording.conventions_line(table)} Reckoned with {reckoned.words}."


def _in_short(table: DepthTable, stop: str, system: System) -> str:
    """The line that stays in sight on a telephone, where the table is below the fields."""
    focused, near = (_at(mm, system) for mm in (table.hyperfocal[0], table.near_at_hyperfocal[0]))
    return (
        f'<p class="headline in-short" role="status">{escape(stop)} at {focused}: sharp from '
        f'{near} to ∞<a class="jump" href="#table">Table ↓</a></p>'
    )


def _row(table: DepthTable, row: int, stop: str, system: System) -> str:
    cells = "".join(
        f"<td>{_at(near, system)}<br>{_at(far, system)}</td>"
        for near, far in zip(table.near[row], table.far[row], strict=True)
    )
    hyperfocal = _at(table.hyperfocal[row], system)
    return f"<tr><th>{escape(stop)}</th>{cells}<td>{hyperfocal}</td></tr>"


def depth_csv(
    table: DepthTable,
    camera: str,
    stops: Sequence[str],
    system: System,
    reckoned: Stops = Stops.EXACT,
) -> str:
    """The table as CSV, one line an aperture and distance."""
    head = ["camera", "aperture", "focused at", "sharp from", "sharp to", "hyperfocal"]
    lines = [
        [
            camera,
            stops[row],
            _at(table.distances[column], system),
            _at(table.near[row, column], system),
            _at(table.far[row, column], system),
            _at(table.hyperfocal[row], system),
        ]
        for row in range(len(table.f_numbers))
        for column in range(len(table.distances))
    ]
    return csv_text([head, *lines, [_conventions(table, reckoned)]])


def _at(mm: float, system: System) -> str:
    """A distance as a table shows it: metres throughout, so that a column can be run down."""
    if system == "imperial":
        return format_distance(float(mm), system=system)
    places = 3 if mm < 10_000 else 2 if mm < 100_000 else 0
    return format_length(float(mm), unit="m", places=places)
