"""Drawings of the body: a leaning lens, the film in its gate; and readings with their widths."""

import math
from collections.abc import Mapping

import numpy as np
import plotly.graph_objects as go

from optics.theory import certainty, depth, lens, standard
from ui.figures.frame import (
    axis,
    band,
    bare,
    note,
    paper,
    spot,
    stroke,
    washed,
)
from ui.theme import Palette


def leaning_lens(values: Mapping[str, float], colours: Palette) -> go.Figure:
    """Film, lens and sharp plane at their true angles, over the error up the frame."""
    figure = paper(
        colours,
        xaxis=bare(range=[-1.6, 1.6], scaleanchor="y", constrain="domain"),
        yaxis=bare(domain=(0.5, 1.0), range=[-0.5, 0.55]),
        xaxis2=axis(colours, "place up the frame, mm", anchor="y2", zeroline=False),
        yaxis2=axis(colours, "error, mm", domain=(0.0, 0.38), anchor="x2"),
    )
    _planes(figure, values, colours)
    _up_the_frame(figure, values, colours)
    return figure


def _planes(figure: go.Figure, values: Mapping[str, float], colours: Palette) -> None:
    stroke(figure, [-1.55, 1.55], [0, 0], colours.line, dash="dashdot", width=1)
    for place, angle, ink, dash, width, name in (
        (-0.9, values["tilt"], colours.text, "solid", 2.0, "lens"),
        (0.9, 0.0, colours.text, "solid", 5.0, "film"),
        (0.9, values["image_tilt"], colours.accent, "dash", 2.0, "sharp plane"),
    ):
        dx, dy = 0.42 * math.sin(angle), 0.42 * math.cos(angle)
        stroke(figure, [place - dx, place + dx], [-dy, dy], ink, dash=dash, width=width)
        above = -dy - 0.03 if name == "film" else dy + 0.02
        anchor = "top" if name == "film" else "bottom"
        note(figure, place + (dx if name != "film" else 0), above, name, ink, yanchor=anchor)
    stroke(figure, [-0.9, -0.9], [-0.42, 0.42], colours.quiet, dash="dot", width=1.4)
    for place, key, letter in ((-0.86, "tilt", "α"), (0.94, "image_tilt", "τ")):
        words = f"{letter} = {math.degrees(values[key]):.2f}°"
        note(figure, place, -0.2, words, colours.text, xanchor="left")


def _up_the_frame(figure: go.Figure, values: Mapping[str, float], colours: Palette) -> None:
    half = values["place_up"]
    along = np.linspace(-half, half, 9)
    lower = {"xaxis": "x2", "yaxis": "y2"}
    allowed = depth.depth_of_focus.solve_for(depth.depth_each_way).value(
        f_number=values["f_number"],
        circle_of_confusion=values["circle_of_confusion"],
        magnification=values["magnification"],
        pupil_magnification=1.0,
    )
    band(figure, along, np.full(9, -allowed), np.full(9, allowed), colours.good, **lower)
    formula = standard.tilted_defocus.solve_for(lens.focus_error)
    for angle, ink, dash, symbol, name in (
        (values["image_tilt"], colours.accent, "solid", "circle", "leaning lens"),
        (values["tilt"], colours.quiet, "dash", "square-open", "leaning film"),
    ):
        errors = formula.value(
            mean_error=0.0,
            tilt_factor=1.0,
            slope_across=0.0,
            place_across=0.0,
            slope_up=math.tan(angle),
            place_up=along,
        )
        figure.add_scatter(
            x=along,
            y=errors,
            mode="lines+markers",
            name=name,
            **lower,
            line={"color": ink, "width": 2, "dash": dash},
            marker={"color": ink, "symbol": symbol, "size": 8},
            hovertemplate=f"{name}: %{{y:+.3f}} mm<extra></extra>",
        )


def gate(values: Mapping[str, float], colours: Palette) -> go.Figure:
    """Rails, film and plate cut through; the emulsion is the film's thick edge."""
    thick, room = values["film_thickness"], values["play"]
    lies = values["rest"] * room
    end = room + thick
    low = min(0.0, values["reference_depth"])
    figure = paper(
        colours,
        xaxis=axis(
            colours,
            "depth behind the rails, mm",
            zeroline=False,
            range=[low - 0.35 * end, 1.35 * max(end, values["reference_depth"])],
        ),
        yaxis=bare(range=[-1.75, 1.75]),
    )
    for side in (-1, 1):
        _block(figure, (low - 0.3 * end, 0.0), (0.9 * side, 1.4 * side), colours.line, colours)
    note(figure, low - 0.15 * end, 1.5, "rails", colours.text)
    _block(figure, (end, 1.3 * end), (-1.4, 1.4), colours.line, colours)
    note(figure, 1.15 * end, 1.55, "plate", colours.text)
    _block(figure, (lies, lies + thick), (-1.3, 1.3), colours.accent, colours)
    stroke(figure, [lies, lies], [-1.3, 1.3], colours.accent, width=5)
    note(figure, lies + thick / 2, 1.5, "film", colours.accent)
    glass = values["reference_depth"]
    stroke(figure, [glass, glass], [-1.55, 1.55], colours.refusal, dash="dot", width=2.4)
    note(figure, glass, -1.65, "ground glass", colours.refusal)
    if lies != glass:
        stroke(figure, [glass, lies], [0, 0], colours.refusal, width=2)
    spot(
        figure,
        lies,
        0,
        colours.refusal,
        "diamond",
        f"e = {values['focus_error']:+.3f} mm",
        textposition="top right",
    )
    return figure


def _block(
    figure: go.Figure,
    across: tuple[float, float],
    up: tuple[float, float],
    ink: str,
    colours: Palette,
) -> None:
    """A solid part, hatched by a wash and an outline."""
    (x0, x1), (y0, y1) = across, up
    figure.add_shape(
        type="rect",
        x0=x0,
        x1=x1,
        y0=y0,
        y1=y1,
        line={"color": ink, "width": 1.4},
        fillcolor=washed(ink if ink != colours.line else colours.text),
    )


def readings(values: Mapping[str, float], colours: Palette) -> go.Figure:
    """Both readings and their weighted mean, each with twice its standard uncertainty."""
    together = certainty.weighted_uncertainty.solve_for(certainty.standard_uncertainty).value(
        first_uncertainty=values["first_uncertainty"],
        second_uncertainty=values["second_uncertainty"],
    )
    rows = (
        (3, values["first_reading"], values["first_uncertainty"], "circle", "first"),
        (2, values["second_reading"], values["second_uncertainty"], "square", "second"),
        (1, values["best_value"], together, "diamond", "together"),
    )
    figure = paper(
        colours,
        xaxis=axis(colours, "mm"),
        yaxis=axis(
            colours,
            tickvals=[3, 2, 1],
            ticktext=[row[4] for row in rows],
            range=[0.4, 3.7],
            automargin=True,
        ),
    )
    for height, value, width, symbol, _ in rows:
        ink = colours.refusal if symbol == "diamond" else colours.accent
        figure.add_scatter(
            x=[value],
            y=[height],
            mode="markers",
            hoverinfo="skip",
            marker={"color": ink, "symbol": symbol, "size": 13},
            error_x={"array": [2 * width], "color": ink, "thickness": 3, "width": 9},
        )
        note(figure, value, height + 0.3, f"{value:+.3f} mm ± {2 * width:.3f}", colours.text)
    return figure
