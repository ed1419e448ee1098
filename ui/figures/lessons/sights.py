"""Drawings of what is coupled: the triangle, the error of a straight coupling, the cam."""

import math
from collections.abc import Mapping

import numpy as np
import plotly.graph_objects as go

from optics.relation import Array
from optics.theory import cam as cams
from optics.theory import depth, lens, rangefinder
from optics.units import format_distance
from ui.figures.frame import (
    LOWER,
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

_NEAR, _FAR = 500.0, 50_000.0
_EXACT_NEAR = 1000.0
_SIZES = {
    1e-3: "1 µm",
    1e-2: "0.01 mm",
    0.1: "0.1 mm",
    1: "1 mm",
    10: "1 cm",
    100: "10 cm",
    1e3: "1 m",
    1e4: "10 m",
}


def triangle(values: Mapping[str, float], colours: Palette) -> go.Figure:
    """The triangle, over what the eye leaves uncertain in the world and at the film."""
    figure = paper(
        colours,
        xaxis=bare(range=[-1.2, 10.6]),
        yaxis=bare(domain=UPPER, range=[-1.0, 1.7]),
        xaxis2=axis(
            colours,
            "distance from the base, m",
            anchor="y2",
            type="log",
            tickvals=[0.5, 1, 2, 5, 10, 20, 50],
            zeroline=False,
        ),
        yaxis2=axis(
            colours,
            "error",
            domain=LOWER,
            anchor="x2",
            type="log",
            zeroline=False,
            tickvals=list(_SIZES),
            ticktext=list(_SIZES.values()),
        ),
    )
    _sight_lines(figure, values, colours)
    _uncertain(figure, values, colours)
    return figure


def _sight_lines(figure: go.Figure, values: Mapping[str, float], colours: Palette) -> None:
    distance = values["film_distance"]
    is_far = math.isinf(distance)
    top, end = 1.2, 10.0
    stroke(figure, [0, end], [0, 0], colours.accent)
    stroke(figure, [0, end], [top, top if is_far else 0], colours.accent)
    stroke(figure, [0, 0], [0, top], colours.text, width=4)
    stroke(figure, [-0.9, -0.9], [-0.5, 1.5], colours.text, width=4)
    note(figure, -0.9, -0.75, "film", colours.text)
    note(figure, 0.15, top / 2, f"b = {values['base']:.4g} mm", colours.text, xanchor="left")
    note(figure, -0.45, -0.25, f"k = {values['base_to_film']:.3g}", colours.quiet, yanchor="top")
    angle = math.degrees(values["convergence"])
    words = f"γ = {angle:.3f}°"
    if is_far:
        note(figure, end, top / 2, f"subject at ∞, {words}", colours.text, xanchor="right")
    else:
        spot(figure, end, 0, colours.refusal, "diamond", words, textposition="top left")
        note(figure, end, -0.5, format_distance(distance), colours.text, xanchor="right")


def _uncertain(figure: go.Figure, values: Mapping[str, float], colours: Palette) -> None:
    along = np.geomspace(_NEAR, _FAR, POINTS)
    seen = {
        "eye_acuity": values["eye_acuity"],
        "effective_base": rangefinder.virtual_base.solve_for(rangefinder.effective_base).value(
            base=values["base"], finder_magnification=values["finder_magnification"]
        ),
    }
    world = rangefinder.range_uncertainty.solve_for(rangefinder.range_error)
    film = rangefinder.film_uncertainty.solve_for(lens.focus_error).value(
        focal_length=values["focal_length"], **seen
    )
    lower = {"xaxis": "x2", "yaxis": "y2"}
    errors = world.value(range_distance=along, **seen)
    stroke(figure, along / 1000, errors, colours.accent, "%{y:.3g} mm at %{x:.3g} m", **lower)
    flat = np.full_like(along, film)
    stroke(figure, along / 1000, flat, colours.refusal, "film: %{y:.4f} mm", dash="dash", **lower)
    spot(
        figure,
        along[12] / 1000,
        film,
        colours.refusal,
        "square-open",
        f"film {film:.4f} mm",
        textposition="top right",
        size=8,
        **lower,
    )
    distance = values["film_distance"] - values["base_to_film"]
    if _NEAR <= distance <= _FAR:
        error = world.value(range_distance=distance, **seen)
        spot(
            figure,
            distance / 1000,
            error,
            colours.accent,
            "circle",
            f"{error:.3g} mm",
            textposition="top left",
            **lower,
        )


def coupling(values: Mapping[str, float], colours: Palette) -> go.Figure:
    """The error when the images meet, for the coupling typed and for one exact at ∞ and 1 m."""
    nearest = max(600.0, 1.02 * (4 * values["focal_length"] + values["hiatus"]))
    along = far_to_near(nearest)
    figure = paper(
        colours,
        xaxis=vergence_axis(colours, "subject from the film", nearest),
        yaxis=axis(colours, "mm at the film, plus: too far out"),
    )
    allowed = depth.depth_of_focus.solve_for(depth.depth_each_way).value(
        f_number=values["f_number"],
        circle_of_confusion=values["circle_of_confusion"],
        magnification=0.0,
        pupil_magnification=1.0,
    )
    band(figure, 1 / along, np.full(POINTS, -allowed), np.full(POINTS, allowed), colours.good)
    exact = {**values, "zero_error": 0.0, "gain": _exact_gain(values, nearest)}
    for given, ink, dash, symbol in (
        (exact, colours.quiet, "dash", "triangle-up-open"),
        (values, colours.accent, "solid", "circle"),
    ):
        figure.add_scatter(
            x=1 / along,
            y=_errors(given, along),
            mode="lines+markers",
            line={"color": ink, "width": 2, "dash": dash},
            hovertemplate="%{y:+.3f} mm<extra></extra>",
            marker={"color": ink, "symbol": symbol, "size": 8, "maxdisplayed": 8},
        )
    distance, error = values["film_distance"], values["focus_error"]
    if distance >= nearest:
        spot(figure, 1 / distance, error, colours.refusal, "diamond", f"{error:+.3f} mm")
    return figure


def _errors(values: Mapping[str, float], along: Array) -> Array:
    formula = rangefinder.coupling_error.solve_for(lens.focus_error)
    names = [q.name for q in formula.inputs if q.name != "film_distance"]
    return formula.value(film_distance=along, **{n: values[n] for n in names})


def _exact_gain(values: Mapping[str, float], nearest: float) -> float:
    """The gain of a coupling without error at infinity and at 1 m, or as near as there is."""
    formula = rangefinder.coupling_error.solve_for(rangefinder.gain)
    wanted = {"focus_error": 0.0, "zero_error": 0.0, "film_distance": max(_EXACT_NEAR, nearest)}
    return formula.value(**{q.name: wanted.get(q.name, values[q.name]) for q in formula.inputs})


def cam(values: Mapping[str, float], colours: Palette) -> go.Figure:
    """Lift against extension: the cam, its ramp for far subjects, and the body's own lens."""
    formula = cams.cam_lift.solve_for(cams.lift)
    lenses = {n: values[n] for n in ("focal_length", "hiatus", "body_focal_length", "body_hiatus")}
    reach = max(1.2 * values["extension"], _at_one_metre(values))
    along = np.linspace(0, reach, POINTS)
    lifts = formula.value(extension=along, **lenses)
    _, slopes = formula.value_and_partials(extension=0.0, **lenses)
    figure = paper(
        colours,
        xaxis=axis(colours, "extension of the lens, mm", zeroline=False),
        yaxis=axis(colours, "lift of the follower, mm", zeroline=False),
    )
    top = 1.25 * float(max(lifts[-1], slopes["extension"] * reach))
    own = along[along <= top]
    stroke(figure, own, own, colours.line, "body's own lens: %{y:.3f} mm", dash="dot")
    stroke(
        figure, along, slopes["extension"] * along, colours.quiet, "ramp: %{y:.3f} mm", dash="dash"
    )
    stroke(figure, along, lifts, colours.accent, "cam: %{y:.3f} mm")
    x, lift = values["extension"], values["lift"]
    note(figure, own[-1], own[-1], "its own lens", colours.quiet, xanchor="right", yanchor="bottom")
    spot(figure, x, lift, colours.refusal, "diamond", f"{lift:.3f} mm", textposition="bottom right")
    return figure


def _at_one_metre(values: Mapping[str, float]) -> float:
    return lens.unit_focusing.solve_for(lens.extension).value(
        film_distance=max(1000.0, 4.1 * values["focal_length"] + values["hiatus"]),
        focal_length=values["focal_length"],
        hiatus=values["hiatus"],
    )
