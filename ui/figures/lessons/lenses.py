"""Drawings of lenses: planes and rays, the front cell, the collimator, the cone of light."""

import math
from collections.abc import Mapping

import numpy as np
import plotly.graph_objects as go

from optics.theory import depth as theory
from optics.theory import front_cell, lens
from optics.units import format_distance
from ui.figures.frame import (
    LOWER,
    NEAREST,
    POINTS,
    UPPER,
    axis,
    band,
    bare,
    far_to_near,
    note,
    paper,
    spot,
    stroke,
    vergence_axis,
)
from ui.theme import Palette

# Shift and error of the collimator are drawn much too large, but never past the next lens.
_LARGER, _MOST = 30.0, 0.4


def thick_lens(values: Mapping[str, float], colours: Palette) -> go.Figure:
    """Rays through both principal planes to the film, over the extension against distance."""
    nearest = max(NEAREST, 1.02 * (4 * values["focal_length"] + values["hiatus"]))
    figure = paper(
        colours,
        xaxis=bare(),
        yaxis=bare(domain=UPPER, range=[-1.75, 1.5]),
        xaxis2=vergence_axis(colours, "distance from the film", nearest, anchor="y2"),
        yaxis2=axis(colours, "extension, mm", domain=LOWER, anchor="x2", rangemode="tozero"),
    )
    _rays(figure, values, colours)
    _extensions(figure, values, nearest, colours)
    return figure


def _rays(figure: go.Figure, values: Mapping[str, float], colours: Palette) -> None:
    f, x, h = (values[n] for n in ("focal_length", "extension", "hiatus"))
    rear, front, start = -(f + x), -(f + x) - h, -(f + x) - h - 1.2 * f
    subject = (
        lens.unit_focusing.solve_for(lens.film_distance).value(
            extension=x, focal_length=f, hiatus=h
        )
        if x
        else math.inf
    )
    share = (subject + start) / (subject + front) if math.isfinite(subject) else 1.0
    stroke(figure, [start, 0.14 * f], [0, 0], colours.line, width=1, dash="dashdot")
    for side in (-1, 1):
        stroke(figure, [start, front], [side * share, side], colours.accent)
        stroke(figure, [front, rear], [side, side], colours.accent, dash="dash", width=1.4)
        stroke(figure, [rear, 0], [side, 0], colours.accent)
        stroke(figure, [start, rear, -x], [side, side, 0], colours.quiet, dash="dot", width=1.4)
    for place, name in ((front, "H"), (rear, "H′")):
        stroke(figure, [place, place], [-1.25, 1.25], colours.text, width=1.4)
        shift = {"H": "right", "H′": "left"}[name] if h >= 0 else "center"
        note(figure, place, 1.4, name, colours.text, xanchor=shift)
    stroke(figure, [0, 0], [-1.25, 1.25], colours.text, width=5)
    note(figure, 0, 1.4, "film", colours.text)
    spot(figure, -x, 0, colours.refusal, "circle-open", "F′", textposition="top left")
    stroke(figure, [-x, 0], [-1.38, -1.38], colours.refusal, width=3)
    note(figure, -x / 2, -1.62, f"x = {x:.3f} mm", colours.text, xanchor="right")


def _extensions(
    figure: go.Figure, values: Mapping[str, float], nearest: float, colours: Palette
) -> None:
    f, h, distance = (values[n] for n in ("focal_length", "hiatus", "film_distance"))
    along = far_to_near(nearest)
    lower = {"xaxis": "x2", "yaxis": "y2"}
    exact = lens.unit_focusing.solve_for(lens.extension).value(
        film_distance=along, focal_length=f, hiatus=h
    )
    thumb = lens.newton.solve_for(lens.extension).value(subject_from_focus=along, focal_length=f)
    stroke(figure, 1 / along, thumb, colours.quiet, "f²/D: %{y:.3f} mm", dash="dash", **lower)
    stroke(figure, 1 / along, exact, colours.accent, "x: %{y:.3f} mm", **lower)
    if distance >= nearest:
        words = format_distance(distance)
        spot(
            figure,
            1 / distance,
            values["extension"],
            colours.refusal,
            "diamond",
            words,
            **lower,
            textposition="top right" if math.isinf(distance) else "top left",
        )


def moving_cell(values: Mapping[str, float], colours: Palette) -> go.Figure:
    """The cell's movement and that of the whole lens against distance."""
    f, f1, u = (values[n] for n in ("focal_length", "group_focal_length", "group_distance"))
    nearest = max(NEAREST, 2.02 * f1, 2.02 * f)
    along = far_to_near(nearest)
    figure = paper(
        colours,
        xaxis=vergence_axis(colours, "distance from the front group", nearest),
        yaxis=axis(colours, "movement, mm", rangemode="tozero"),
    )
    cell = front_cell.group_movement.solve_for(front_cell.movement).value(
        group_distance=along, group_focal_length=f1
    )
    whole = lens.infinity_target.solve_for(lens.focus_error).value(
        infinity_target_distance=along, focal_length=f
    )
    stroke(figure, 1 / along, whole, colours.quiet, "whole lens: %{y:.3f} mm", dash="dash")
    stroke(figure, 1 / along, cell, colours.accent, "front cell: %{y:.3f} mm")
    at = int(POINTS * 0.72)
    spot(
        figure,
        1 / along[at],
        whole[at],
        colours.quiet,
        "square-open",
        "whole lens",
        textposition="top left",
        size=8,
    )
    spot(
        figure,
        1 / along[at],
        cell[at],
        colours.accent,
        "circle-open",
        "front cell",
        textposition="bottom right",
        size=8,
    )
    if u >= nearest:
        words = f"{values['movement']:.3f} mm at {format_distance(u)}"
        spot(
            figure,
            1 / u,
            values["movement"],
            colours.refusal,
            "diamond",
            words,
            textposition="top right",
        )
    return figure


def collimator(values: Mapping[str, float], colours: Palette) -> go.Figure:
    """Reticle, collimator lens, camera lens and focal plane; shift and error drawn larger.

    The collimator is drawn 1 long and the camera 0.8, whatever their focal lengths.
    """
    shift, error = values["reticle_shift"], values["focus_error"]
    first, camera, plane = 1.0, 1.5, 2.3
    reticle = _MOST * math.tanh(_LARGER * shift / values["collimator_focal_length"])
    image = plane + _MOST * math.tanh(3 * _LARGER * error / values["focal_length"])
    figure = paper(colours, xaxis=bare(range=[-0.5, 3.0]), yaxis=bare(range=[-1.7, 1.6]))
    stroke(figure, [-0.45, 2.95], [0, 0], colours.line, dash="dashdot", width=1)
    for side in (-1, 1):
        # A near subject's rays still part between the lenses, a far one's already close.
        wider = side * (0.8 + 0.35 * reticle)
        stroke(figure, [reticle, first, camera, image], [0, 0.8 * side, wider, 0], colours.accent)
    for place, name, height in ((first, "collimator", 1.38), (camera, "camera lens", -1.38)):
        stroke(figure, [place, place], [-1.15, 1.15], colours.text, width=2)
        note(figure, place, height, name, colours.text)
    stroke(figure, [plane, plane], [-1.15, 1.15], colours.text, dash="dash")
    note(figure, plane, 1.38, "focal plane", colours.text)
    spot(figure, 0, 0, colours.quiet, "circle-open", "")
    for place, symbol, words in (
        (reticle, "square", f"δ = {shift:+.2f} mm"),
        (image, "diamond", f"e = {error:+.4f} mm"),
    ):
        spot(figure, place, 0, colours.refusal, symbol, "")
        note(figure, place, -0.62, words, colours.text)
    return figure


def depth(values: Mapping[str, float], colours: Palette) -> go.Figure:
    """What is sharp in front of the lens, over the cone of light at the film."""
    figure = paper(
        colours,
        xaxis=vergence_axis(colours, "from the lens", _nearest(values), anchor="y"),
        yaxis=bare(domain=(0.74, 1.0), range=[-1, 1]),
        xaxis2=axis(
            colours, "behind the image, mm", anchor="y2", range=[-0.6, 0.6], zeroline=False
        ),
        yaxis2=axis(colours, "cone, mm", domain=(0.0, 0.5), anchor="x2", range=[-0.11, 0.11]),
    )
    _field(figure, values, colours)
    _cone(figure, values, colours)
    return figure


def _nearest(values: Mapping[str, float]) -> float:
    return min(NEAREST, 0.8 * values["near_limit"])


def _field(figure: go.Figure, values: Mapping[str, float], colours: Palette) -> None:
    """Near limit, focus, far limit and hyperfocal distance on one line."""
    blur = {n: values[n] for n in ("focal_length", "f_number", "circle_of_confusion")}
    focus, near = values["object_distance"], values["near_limit"]
    far = theory.depth_far.solve_for(theory.far_limit).value(
        object_distance=focus, pupil_magnification=values["pupil_magnification"], **blur
    )
    hyperfocal = theory.hyperfocal_distance.solve_for(theory.hyperfocal).value(**blur)
    stroke(figure, [1 / far, 1 / near], [0, 0], colours.accent, width=9)
    places = (
        (near, "square", "near", "bottom right", colours.accent),
        (focus, "diamond", "", "top center", colours.refusal),
        (far, "triangle-left", "far", "bottom left", colours.accent),
        (hyperfocal, "x-thin", "hyperfocal", "top right", colours.text),
    )
    for distance, symbol, word, where, colour in places:
        words = f"{word} {format_distance(distance)}" if word else ""
        spot(figure, 1 / distance, 0, colour, symbol, words, textposition=where)


def _cone(figure: go.Figure, values: Mapping[str, float], colours: Palette) -> None:
    lower = {"xaxis": "x2", "yaxis": "y2"}
    known = {n: values[n] for n in ("f_number", "pupil_magnification")}
    size = lens.magnification_from_distance.solve_for(lens.magnification).value(
        object_distance=values["object_distance"], focal_length=values["focal_length"]
    )
    allowed = theory.depth_of_focus.solve_for(theory.depth_each_way).value(
        circle_of_confusion=values["circle_of_confusion"], magnification=size, **known
    )
    away = np.linspace(-0.6, 0.6, POINTS)
    disc = theory.depth_of_focus.solve_for(theory.circle_of_confusion).value(
        depth_each_way=np.abs(away), magnification=size, **known
    )
    stroke(figure, away, np.sign(away) * disc / 2, colours.accent, **lower)
    stroke(figure, away, -np.sign(away) * disc / 2, colours.accent, **lower)
    edge = np.array([-allowed, allowed])
    band(figure, edge, np.full(2, -0.11), np.full(2, 0.11), colours.good, **lower)
    half = values["circle_of_confusion"] / 2
    for side in (-1, 1):
        stroke(figure, [side * allowed] * 2, [-half, half], colours.refusal, width=5, **lower)
    note(figure, 0, 0.1, f"± {allowed:.3f} mm", colours.text, xref="x2", yref="y2")
