"""The metal to take off a cam along its turn."""

import numpy as np
import plotly.graph_objects as go

from optics.rangefinder.stoning import StoningMap
from ui.figures.frame import EXPLORED, axis, paper
from ui.theme import Palette

HEIGHT = 240


def cam_plot(found: StoningMap, colours: Palette) -> go.Figure:
    """Metal at each place: the first pass as bars, the whole as a line with markers."""
    degrees = np.degrees(found.rotation)
    figure = paper(
        colours,
        height=HEIGHT,
        margin={"l": 58, "r": 10, "t": 8, "b": 40},
        legend={"orientation": "h", "x": 1, "xanchor": "right", "y": 1.02, "yanchor": "bottom"},
        xaxis=axis(colours, "ring turned from ∞, degrees", fixedrange=False),
        yaxis=axis(colours, "metal off, mm", fixedrange=False, rangemode="tozero"),
        **EXPLORED,
    )
    figure.add_bar(
        x=degrees,
        y=found.first_pass,
        name="first pass",
        width=1.6,
        marker={
            "color": colours.field,
            "line": {"color": colours.text, "width": 1.4},
            "pattern": {"shape": "/", "fgcolor": colours.text},
        },
        hovertemplate="first pass %{y:.3f} mm at %{x:.4g}°<extra></extra>",
    )
    figure.add_scatter(
        x=degrees,
        y=found.cut,
        mode="lines+markers",
        name="in all",
        line={"color": colours.accent, "width": 2},
        marker={"symbol": "diamond", "size": 9, "color": colours.accent},
        hovertemplate="in all %{y:.3f} mm at %{x:.4g}°<extra></extra>",
    )
    return figure
