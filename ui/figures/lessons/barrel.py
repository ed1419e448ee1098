"""Threads and rings unrolled: starts side by side, and the marks of a scale."""

import math
from collections.abc import Mapping

import numpy as np
import plotly.graph_objects as go

from optics.theory import helicoid, scale
from optics.units import format_distance
from ui.figures.frame import axis, bare, note, paper, spot, stroke
from ui.theme import Palette

# Beyond so many the lines of the starts would merge.
_MOST_LINES = 24
_MARKS = (math.inf, 10_000, 5000, 3000, 2000, 1500, 1200, 1000, 900, 800, 700, 600, 500)
_LONGER = 1.05
_CLEAR = 0.07


def unrolled_thread(values: Mapping[str, float], colours: Palette) -> go.Figure:
    """Travel against the ring's turn: one slanting line for each start."""
    lead, turn, travel = (values[n] for n in ("lead", "rotation", "travel"))
    starts, moved = values["starts"], values["starts_moved"]
    shift = helicoid.start_shift.solve_for(helicoid.travel).value(
        starts_moved=moved, lead=lead, starts=starts
    )
    low, high = sorted((0.0, turn))
    ends = np.array([low - 0.6, high + 0.6]) if high - low < 5 else np.array([low, high])
    reach = [
        min(0.0, travel, travel + shift) - 0.55 * lead,
        max(0.0, travel, travel + shift) + 0.55 * lead,
    ]
    figure = paper(
        colours,
        xaxis=axis(colours, "turn of the ring, °", range=list(np.degrees(ends)), ticksuffix="°"),
        yaxis=axis(colours, "travel, mm", range=reach),
    )
    _starts(figure, lead, starts, (ends, reach), colours)
    along = helicoid.ring_rotation.solve_for(helicoid.travel).value(rotation=ends, lead=lead)
    stroke(figure, np.degrees(ends), along, colours.accent, "this start: %{y:.3f} mm", width=4)
    at = math.degrees(turn)
    if moved:
        stroke(figure, [at, at], [travel, travel + shift], colours.refusal, dash="dot")
        spot(
            figure,
            at,
            travel + shift,
            colours.refusal,
            "square",
            f"{shift:+.2f} mm",
            textposition="middle left",
        )
    where = "bottom right" if at < math.degrees(ends[1]) / 2 else "bottom left"
    words = f"{travel:.3f} mm at {at:.1f}°"
    spot(figure, at, travel, colours.accent, "circle", words, textposition=where)
    return figure


def _starts(
    figure: go.Figure,
    lead: float,
    starts: float,
    frame: tuple[np.ndarray, list[float]],
    colours: Palette,
) -> None:
    """Every other start that the picture has room for, numbered where it begins."""
    ends, reach = frame
    along = helicoid.ring_rotation.solve_for(helicoid.travel).value(rotation=ends, lead=lead)
    count = min(int(starts), _MOST_LINES)
    shifts = helicoid.start_shift.solve_for(helicoid.travel).value(
        starts_moved=np.arange(-2.0 * count, 2.0 * count + 1), lead=lead, starts=float(count)
    )
    for number, shift in zip(range(-2 * count, 2 * count + 1), shifts, strict=True):
        if number and reach[0] < along[0] + shift < reach[1]:
            stroke(figure, np.degrees(ends), along + shift, colours.quiet, width=1)
            name = f"{number % count + 1}"
            note(
                figure,
                math.degrees(ends[0]),
                along[0] + shift,
                name,
                colours.quiet,
                xanchor="left",
                yanchor="bottom",
            )


def unrolled_scale(values: Mapping[str, float], colours: Palette) -> go.Figure:
    """The ring's marks by their angles, and those of a lens a little longer below them."""
    figure = paper(
        colours,
        xaxis=axis(colours, "angle on the ring, °", ticksuffix="°", zeroline=False),
        yaxis=bare(range=[-2.1, 2.1]),
    )
    longer = values["focal_length"] * _LONGER
    rows = ((1.0, values["focal_length"], "this lens"), (-1.0, longer, f"{longer:.4g} mm"))
    for side, focal_length, name in rows:
        _row(figure, values, (side, focal_length, name), colours)
    at = math.degrees(values["mark_angle"])
    words = f"{format_distance(values['film_distance'])} at {at:.1f}°"
    spot(figure, at, 0, colours.refusal, "diamond", words, textposition="middle right")
    return figure


def _row(
    figure: go.Figure,
    values: Mapping[str, float],
    row: tuple[float, float, str],
    colours: Palette,
) -> None:
    side, focal_length, name = row
    marks = np.array([d for d in _MARKS if d > 4 * focal_length + values["hiatus"]])
    angles = np.degrees(
        scale.scale_mark.solve_for(scale.mark_angle).value(
            film_distance=marks,
            focal_length=focal_length,
            **{n: values[n] for n in ("hiatus", "lead", "zero_angle")},
        )
    )
    ink = colours.accent if side > 0 else colours.quiet
    gaps = np.full_like(angles, np.nan)
    heights = np.stack([np.full_like(angles, 0.25 * side), np.full_like(angles, 0.75 * side), gaps])
    ticks = np.stack([angles, angles, gaps])
    width = 3 if side > 0 else 1.5
    stroke(figure, ticks.T.ravel(), heights.T.ravel(), ink, width=width)
    clear = _CLEAR * float(angles[-1] - angles[0])
    last = -math.inf
    for distance, angle in zip(marks, angles, strict=True):
        if angle - last > clear:
            words = format_distance(float(distance)).replace(" ", "\u00a0")
            note(
                figure,
                angle,
                1.0 * side,
                words,
                ink,
                textangle=-55 if side > 0 else 55,
                yanchor="bottom" if side > 0 else "top",
            )
            last = angle
    stroke(figure, [angles[0], angles[-1]], [0.25 * side] * 2, ink, width=1)
    note(figure, angles[0], 0.5 * side, name, ink, xanchor="right", xshift=-8)
