"""What plots share: paper, pens, scales and the spots that mark a figure."""

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
import plotly.graph_objects as go

from optics.relation import Array
from optics.units import format_distance
from ui.theme import Palette

HEIGHT = 360
POINTS = 121
# What a plot to explore has more than one that only shows: its lines' names, and a finger's zoom.
EXPLORED: dict[str, Any] = {"showlegend": True, "dragmode": "zoom"}
NEAREST = 500.0
_TICKS = (math.inf, 10_000, 5000, 3000, 2000, 1500, 1200, 1000, 800, 700, 600, 500)
_ROOM = 0.11
UPPER, LOWER = (0.56, 1.0), (0.0, 0.42)


def paper(colours: Palette, **layout: Any) -> go.Figure:
    """An empty plot in the page's colours; still and without a legend unless told otherwise."""
    shared = {
        "height": HEIGHT,
        "margin": {"l": 56, "r": 12, "t": 10, "b": 42},
        "paper_bgcolor": "rgba(0,0,0,0)",
        "plot_bgcolor": "rgba(0,0,0,0)",
        "font": {"color": colours.text, "size": 12},
        "hoverlabel": {"bgcolor": colours.field, "font": {"color": colours.text}},
        "showlegend": False,
        "dragmode": False,
    }
    return go.Figure(layout=shared | layout)


def axis(colours: Palette, words: str = "", **more: Any) -> dict[str, Any]:
    """A scale with its title; fixed, so that a finger scrolls the page and not the plot."""
    return {
        "title": {"text": words, "font": {"size": 12}, "standoff": 4},
        "gridcolor": washed(colours.line),
        "linecolor": colours.line,
        "zerolinecolor": colours.line,
        "fixedrange": True,
        "tickangle": 0,
    } | more


def bare(**more: Any) -> dict[str, Any]:
    """A scale that is not shown, under a drawing."""
    return {"visible": False, "fixedrange": True} | more


def far_to_near(nearest: float) -> Array:
    """Distances from infinity (first) to near, even in 1/D."""
    with np.errstate(divide="ignore"):
        return np.asarray(1 / np.linspace(0, 1 / nearest, POINTS))


def vergence_axis(colours: Palette, title: str, nearest: float, **more: Any) -> dict[str, Any]:
    """A scale of distances even in 1/D: infinity has its place on the left."""
    ticks = vergence_ticks(nearest)
    return axis(
        colours,
        title,
        tickvals=[1 / t for t in ticks],
        ticktext=[format_distance(t) for t in ticks],
        range=[-0.02 / nearest, 1.03 / nearest],
        zeroline=False,
        **more,
    )


def vergence_ticks(nearest: float) -> list[float]:
    """Round distances that stand clear of each other on a scale of 1/D."""
    found: list[float] = []
    for distance in _TICKS:
        if distance >= nearest and (not found or 1 / distance - 1 / found[-1] >= _ROOM / nearest):
            found.append(distance)
    return found


def stroke(
    figure: go.Figure,
    xs: Sequence[float] | Array,
    ys: Sequence[float] | Array,
    colour: str,
    name: str = "",
    **more: Any,
) -> None:
    """A line; `dash` and `width` tell lines apart without their colours."""
    line = {"color": colour, "width": more.pop("width", 2), "dash": more.pop("dash", "solid")}
    hover = {"hoverinfo": "skip"} if not name else {"hovertemplate": name + "<extra></extra>"}
    figure.add_scatter(x=xs, y=ys, mode="lines", line=line, name=name, **(hover | more))


def spot(
    figure: go.Figure, x: float, y: float, colour: str, symbol: str, words: str, **more: Any
) -> None:
    """A marked point with its words beside it."""
    figure.add_scatter(
        x=[x],
        y=[y],
        mode="markers+text" if words else "markers",
        text=[words],
        textposition=more.pop("textposition", "top center"),
        name=words,
        hoverinfo="skip",
        marker={
            "color": colour,
            "symbol": symbol,
            "size": more.pop("size", 11),
            "line": {"color": colour, "width": 1.6},
        },
        cliponaxis=False,
        **more,
    )


def note(figure: go.Figure, x: float, y: float, words: str, colour: str, **more: Any) -> None:
    """Words at a place."""
    figure.add_annotation(
        x=x, y=y, text=words, showarrow=False, font={"color": colour, "size": 12}, **more
    )


def band(figure: go.Figure, xs: Array, low: Array, high: Array, colour: str, **more: Any) -> None:
    """A washed band between two lines."""
    edge = {"color": colour, "width": 1}
    figure.add_scatter(x=xs, y=low, mode="lines", line=edge, hoverinfo="skip", **more)
    figure.add_scatter(
        x=xs,
        y=high,
        mode="lines",
        line=edge,
        fill="tonexty",
        fillcolor=washed(colour),
        hoverinfo="skip",
        **more,
    )


def washed(colour: str) -> str:
    """A colour of the palette as a wash."""
    red, green, blue = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return f"rgba({red},{green},{blue},0.16)"
