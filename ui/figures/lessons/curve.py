"""The answer of any relation, drawn against one of its inputs."""

import math
from collections.abc import Mapping

import numpy as np
import plotly.graph_objects as go

from optics.relation import Array, Formula, Quantity
from optics.teaching.classroom import shop
from ui.figures.frame import axis, paper, spot, stroke
from ui.theme import Palette

_POINTS = 161
# Where a figure is zero or infinite, this is how far the plot reaches on either side of it.
_AROUND_ZERO = {"mm": 1.0, "rad": 0.02}


def curve(
    formula: Formula,
    values: Mapping[str, float],
    answer: float,
    along: Quantity,
    colours: Palette,
) -> go.Figure:
    """The answer while one input changes and the others stay; the diamond is where it stands.

    Distances are drawn in metres, angles in degrees. Where the relation has no answer the line
    is interrupted.
    """
    unknown = formula.form.unknown
    xs = _reach(along, values[along.name])
    given = [xs if q is along else np.full_like(xs, values[q.name]) for q in formula.inputs]
    with np.errstate(all="ignore"):
        ys = np.broadcast_to(np.asarray(formula.compiled(*given)[0], np.float64), xs.shape)
    ys = np.where(np.isfinite(ys), ys, np.nan)
    tall = _heights(ys, answer)
    across, up = _size(along), _size(unknown)
    figure = paper(
        colours,
        xaxis=_axis(colours, along),
        yaxis=_axis(colours, unknown, range=[v / up for v in tall]),
    )
    stroke(figure, xs / across, ys / up, colours.accent, "%{x:.4g}, %{y:.4g}")
    at = values[along.name]
    if math.isfinite(at) and math.isfinite(answer):
        words = f"{unknown.plain} = {shop.said(unknown, answer)}"
        spot(figure, at / across, answer / up, colours.refusal, "diamond", words)
    return figure


def _reach(along: Quantity, value: float) -> Array:
    """From half the figure to twice it, within what the quantity may be."""
    allowed = along.range
    if math.isinf(value):
        low, high = 1000.0, 100_000.0
    elif value == 0:
        wide = _AROUND_ZERO.get(along.unit, 1.0)
        low, high = -wide, wide
    else:
        low, high = sorted((value / 2, 2 * value))
        # A glass of index 1 is no glass: stay a quarter of the way clear of such an end.
        if math.isfinite(allowed.low):
            low = max(low, allowed.low + (value - allowed.low) / 4)
    return np.linspace(max(low, allowed.lowest), min(high, allowed.high), _POINTS)


def _heights(ys: Array, answer: float) -> tuple[float, float]:
    """From where to where the answer is drawn: a pole beside the figure is cut off."""
    low, high = np.nanpercentile(ys, [6, 94]) if np.isfinite(ys).any() else (0.0, 1.0)
    if math.isfinite(answer):
        low, high = min(low, answer), max(high, answer)
    room = 0.2 * (high - low) or 0.1 * abs(high) or 1.0
    return float(low - room), float(high + room)


def _size(quantity: Quantity) -> float:
    if quantity.typed_in == "m":
        return 1000.0
    return math.pi / 180 if quantity.unit == "rad" else 1.0


def _axis(colours: Palette, quantity: Quantity, **more: object) -> dict[str, object]:
    unit = shop.field_of(quantity).unit
    named = f"{quantity.words} {quantity.plain}"
    return axis(colours, f"{named}, {unit}" if unit else named, **more)
