"""The film error of a coupled rangefinder against distance, to explore."""

import math

import numpy as np
import plotly.graph_objects as go

from optics.rangefinder.curve import ErrorCurve
from optics.units import format_distance
from ui.figures.frame import EXPLORED, axis, paper, washed
from ui.theme import Palette

HEIGHT = 320
_TICKS = (math.inf, 10_000, 5000, 3000, 2000, 1500, 1200, 1000, 900, 800, 700, 600, 500, 400, 300)
_LEAST_GAP = 0.115
# Each line by its name: dash, marker and the palette's colour.
STYLES = {
    "as found": ("dot", "circle-open", "text"),
    "now": ("dashdot", "square-open", "caution"),
    "usual": ("dash", "triangle-up-open", "quiet"),
    "best near mark": ("solid", "diamond", "accent"),
    "best pair": ("longdash", "cross-open", "refusal"),
}
_MARKERS = 9


def rangefinder_plot(curve: ErrorCurve, colours: Palette) -> go.Figure:
    """Each coupling's error from infinity (left) to near, over the depth of focus.

    The couplings' names are those of `STYLES`.
    """
    figure = _paper(curve, colours)
    _depth(figure, curve, colours)
    for name, errors in curve.errors.items():
        _line(figure, curve, name, errors, colours)
    return figure


def _depth(figure: go.Figure, curve: ErrorCurve, colours: Palette) -> None:
    edge = {"color": colours.line, "width": 1}
    for sign, fill in ((-1, None), (1, "tonexty")):
        figure.add_scatter(
            x=curve.per_metre,
            y=sign * curve.band,
            mode="lines",
            line=edge,
            fill=fill,
            fillcolor=washed(colours.good),
            name="depth of focus",
            showlegend=sign > 0,
            hoverinfo="skip",
        )


def _line(
    figure: go.Figure, curve: ErrorCurve, name: str, errors: np.ndarray, colours: Palette
) -> None:
    dash, symbol, colour = STYLES[name]
    ink = getattr(colours, colour)
    figure.add_scatter(
        x=curve.per_metre,
        y=errors,
        mode="lines+markers",
        name=name,
        line={"color": ink, "width": 2, "dash": dash},
        marker={
            "color": ink,
            "symbol": symbol,
            "size": 9,
            "maxdisplayed": _MARKERS,
            "line": {"color": ink, "width": 1.6},
        },
        customdata=[format_distance(float(d)) for d in curve.film_distance],
        hovertemplate=f"{name}: %{{y:+.3f}} mm at %{{customdata}}<extra></extra>",
    )


def _paper(curve: ErrorCurve, colours: Palette) -> go.Figure:
    ticks = _ticks(float(curve.film_distance[-1]))
    return paper(
        colours,
        height=HEIGHT,
        margin={"l": 58, "r": 10, "t": 8, "b": 40},
        legend={
            "orientation": "h",
            "traceorder": "normal",
            "x": 0,
            "y": -0.2,
            "yanchor": "top",
            "font": {"size": 12},
            "itemwidth": 44,
        },
        xaxis=axis(
            colours,
            "subject from the film",
            fixedrange=False,
            tickvals=[1000 / distance for distance in ticks],
            ticktext=[format_distance(distance) for distance in ticks],
            zeroline=False,
        ),
        yaxis=axis(colours, "mm at the film, plus: too far out", fixedrange=False),
        **EXPLORED,
    )


def _ticks(near: float) -> list[float]:
    """Round distances, and the near end, that stand clear of each other on a scale of 1/D."""
    found: list[float] = []
    for distance in _TICKS:
        gap = _LEAST_GAP / near
        clear = not found or 1 / distance - 1 / found[-1] >= gap
        if clear and 1 / near - 1 / distance >= gap:
            found.append(distance)
    return [*found, near]
