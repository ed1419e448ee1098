"""What a depth-of-field table says, for whoever tells it."""

from collections.abc import Iterator
from functools import partial
from itertools import product

from optics.account import Account, Block, Role, Table, TableRow
from optics.scales.depth_part import DepthPart
from optics.scales.depth_table import DepthTable
from optics.scales.depth_wording import conventions_line
from optics.units import format_distance, format_length

_LINES = "In each row the upper line is where it is sharp from, the lower where to."
_HEADS = ("camera", "aperture", "focused at", "sharp from", "sharp to", "hyperfocal")


def depth_account(part: DepthPart, table: DepthTable) -> Account:
    """The hyperfocal distance of the first aperture, then near and far limit of everything."""
    at = partial(_at, part)
    stop, focused = part.stop_names[0], at(table.hyperfocal[0])
    headline = f"{stop} at {focused}: sharp from {at(table.near_at_hyperfocal[0])} to ∞"
    heads = ("focused at", *map(at, table.distances), "hyperfocal")
    rows = tuple(_row(part, table, row) for row in range(len(table.f_numbers)))
    return Account(
        title="Depth of field",
        headline=headline,
        large=(headline,),
        parts=(
            Table(heads, rows),
            Block((f"{_LINES} {_conventions(part, table)}",), Role.QUIET),
        ),
        is_finding=False,
    )


def _row(part: DepthPart, table: DepthTable, row: int) -> TableRow:
    at = partial(_at, part)
    stop, hyperfocal = part.stop_names[row], at(table.hyperfocal[row])
    limits = [(at(n), at(f)) for n, f in zip(table.near[row], table.far[row], strict=True)]
    said = (
        f"focused at {at(distance)} sharp from {near} to {far}"
        for distance, (near, far) in zip(table.distances, limits, strict=True)
    )
    return TableRow(
        (stop, *map("\n".join, limits), hyperfocal),
        f"{stop}: {'; '.join(said)}; hyperfocal distance {hyperfocal}.",
    )


def depth_lines(part: DepthPart, table: DepthTable) -> Iterator[tuple[str, ...]]:
    """The table line by line for a spreadsheet: one line an aperture and distance."""
    at = partial(_at, part)
    yield _HEADS
    for (row, stop), column in product(enumerate(part.stop_names), range(len(table.distances))):
        found = (table.distances[column], table.near[row, column], table.far[row, column])
        yield table.camera.name, stop, *map(at, found), at(table.hyperfocal[row])
    yield (_conventions(part, table),)


def _conventions(part: DepthPart, table: DepthTable) -> str:
    return f"{conventions_line(table)} Reckoned with {part.stops.words}."


def _at(part: DepthPart, mm: float) -> str:
    """A distance as a table shows it: metres throughout, so that a column can be run down."""
    if part.units == "imperial":
        return format_distance(float(mm), system=part.units)
    places = 3 if mm < 10_000 else 2 if mm < 100_000 else 0
    return format_length(float(mm), unit="m", places=places)
