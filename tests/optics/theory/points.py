"""Where the catalogue is tried: a realistic range for every quantity, in mm and rad."""

import math
import random
from collections.abc import Callable
from typing import Any

import mpmath
import sympy

from optics.relation import Form, Formula, Relation, Root

DIGITS = 40

RANGES: dict[str, tuple[float, float]] = {
    "acuity": (0.0001, 0.002),
    "aim_distance": (500, 3000),
    "airy_diameter": (0.001, 0.1),
    "base": (20, 120),
    "base_to_film": (0, 40),
    "best_value": (-0.5, 0.5),
    # Shorter than any lens, so that the body follows wherever the lens is focused.
    "body_focal_length": (12, 15),
    "body_hiatus": (-3, 3),
    "cell_shift": (0.01, 0.5),
    "cell_to_film": (30, 120),
    "channel": (0.1, 0.4),
    "chord": (1, 20),
    "circle_of_confusion": (0.01, 0.1),
    "collimator_focal_length": (100, 1000),
    "collimator_to_lens": (0.5, 600),
    "combined_focal_length": (20, 400),
    "compensator_focal_length": (50, 400),
    "compensator_shift": (-5, 5),
    "convergence": (1e-4, 0.08),
    "coupling_curvature": (-2e-4, 2e-4),
    "decentration": (-10, 10),
    "defocus_blur": (0.005, 0.2),
    "depth_each_way": (0.01, 2),
    "depth_mark_angle": (0.01, 1),
    "deviation": (0.005, 0.08),
    "diagonal": (20, 350),
    "divisor": (1000, 2000),
    "effective_base": (20, 200),
    "enlargement": (1, 20),
    "entrance_pupil": (5, 60),
    "exit_pupil": (5, 60),
    "expansion_coefficient": (5e-6, 3e-5),
    "extension": (0.01, 20),
    "eye_acuity": (1e-5, 4e-4),
    "f_number": (1, 45),
    "false_convergence": (-0.002, 0.002),
    "film_thickness": (0.05, 0.3),
    "finder_magnification": (0.3, 2),
    "first_focal_length": (50, 120),
    "first_reading": (-0.5, 0.5),
    "first_uncertainty": (0.005, 0.1),
    "focal_length": (20, 400),
    "focus_error": (-0.5, 0.5),
    "follower_gain": (0.005, 0.05),
    "found_height": (-0.5, 0.5),
    "front_radius": (20, 200),
    "gain": (0.01, 0.05),
    "gain_ratio": (0.8, 1.25),
    "glass_focal_length": (20, 400),
    "glass_index": (1.4, 1.9),
    "group_focal_length": (25, 60),
    "half_width": (0.001, 0.02),
    "height_error": (-0.005, 0.005),
    "hiatus": (-15, 15),
    "lath_distance": (500, 5000),
    "lead": (1, 20),
    "lean": (-1, 1),
    "length": (10, 200),
    "lens_power": (0.5, 10),
    "lift": (0.01, 5),
    "line_pairs": (1, 200),
    "magnification": (0.001, 1),
    "mark_angle": (0.05, 3),
    "mean_diameter": (15, 60),
    "mean_error": (-0.2, 0.2),
    "measured_register": (20, 100),
    "mirror_tilt": (1e-4, 0.05),
    "mirror_turn": (-0.04, 0.04),
    "movement": (0.01, 5),
    "nominal_register": (20, 100),
    "outside_diameter": (20, 60),
    "pitch": (0.5, 4),
    "place_across": (-50, 50),
    "place_up": (-50, 50),
    "play": (0.005, 0.3),
    "prism": (-4, 4),
    "pupil_magnification": (0.4, 2),
    "range_error": (1, 1000),
    "rear_radius": (-200, -20),
    "receiver_blur": (0.005, 0.05),
    "reference_depth": (-0.1, 0.3),
    "repeats": (2, 12),
    "rest": (0.05, 1),
    "reticle_shift": (-2, -0.01),
    "ring_diameter": (20, 80),
    "rotation": (-3, 3),
    "ruler_offset": (-200, 200),
    "ruler_slope": (0.1, 1.4),
    "scatter": (0.01, 0.2),
    "second_focal_length": (-500, -200),
    "second_reading": (-0.5, 0.5),
    "second_uncertainty": (0.005, 0.1),
    "separation": (-40, 40),
    "slope": (-0.01, 0.01),
    "slope_across": (-0.01, 0.01),
    "slope_angle": (-0.01, 0.01),
    "slope_up": (-0.01, 0.01),
    "spacing_error": (-2, 2),
    "standard_uncertainty": (0.005, 0.1),
    "starts": (2, 8),
    "starts_moved": (-3, 3),
    "stops": (1, 12),
    "target_element": (1, 6),
    "target_group": (1, 7),
    "thickness": (1, 15),
    "tilt": (0.001, 0.1),
    "tilt_factor": (1, 2),
    "travel": (-10, 10),
    "uniform_system": (0.5, 128),
    "viewing_distance": (200, 2000),
    "wanted_height": (-0.5, 0.5),
    "warming": (-40, 40),
    "wavelength": (0.0004, 0.0007),
    "wedge_angle": (0.01, 0.2),
    "wedge_index": (1.45, 1.8),
    "wedge_travel": (1, 40),
    "wedge_turn": (-1, 1),
    "zero_angle": (-0.5, 0.5),
    "zero_error": (-0.002, 0.002),
}

# Drawn by their powers of ten, from half a metre to a thousand kilometres.
DISTANCES: dict[str, tuple[float, float]] = dict.fromkeys(
    (
        "far_edge",
        "far_from_film",
        "far_limit",
        "film_distance",
        "focus_between",
        "group_distance",
        "hyperfocal",
        "infinity_target_distance",
        "limit_from_film",
        "limit_from_lens",
        "mark_distance",
        "near_edge",
        "near_from_film",
        "near_limit",
        "object_distance",
        "sharp_distance",
        "subject_from_focus",
        "wanted_distance",
    ),
    (2.7, 9),
) | {
    # To 40 m: farther out the shortest base and dullest eye cannot tell it from infinity.
    "range_distance": (2.7, 4.6),
}

# How far beyond the nearest distance that a relation allows, as powers of ten of a millimetre.
BEYOND = (-3, 9)

Pick = Callable[[float, float], float]


def drawn(relation: Relation, pick: Pick, beyond: Callable[[], float]) -> dict[str, float]:
    """Inputs for the relation's first form, within every range and lower bound."""
    nearest = {b.quantity.name: b.limit for b in relation.bounds if not b.is_upper}
    names = [q.name for q in relation.formulas[0].inputs]
    point = {name: _one(name, pick) for name in names if name not in nearest}
    for name, limit in nearest.items():
        if name in names:
            point[name] = (
                float(limit.subs({s: point[s.name] for s in limit.free_symbols})) + beyond()
            )
    if relation.name not in ("depth_far", "cell_depth_far"):
        return point
    return {
        **point,
        "circle_of_confusion": min(point["circle_of_confusion"], 0.75 * _most_blur(point)),
    }


def _most_blur(point: dict[str, float]) -> float:
    """The circle of confusion with which the far limit just reaches infinity."""
    f, stop = point["focal_length"], point["f_number"]
    if "movement" in point:
        return point["movement"] * f**2 / (stop * point["group_focal_length"] ** 2)
    s = point["object_distance"]
    return f**2 / (stop * (s - f)) if s > f else math.inf


def _one(name: str, pick: Pick) -> float:
    return 10 ** pick(*DISTANCES[name]) if name in DISTANCES else pick(*RANGES[name])


def seeded(relation: Relation, count: int) -> list[dict[str, float]]:
    """The same random points on every run: binary fractions, so rational without rounding."""
    chance = random.Random(relation.name)
    return [
        drawn(relation, chance.uniform, lambda: 10 ** chance.uniform(*BEYOND)) for _ in range(count)
    ]


def precise(expression: sympy.Expr, names: list[str]) -> Callable[..., Any]:
    """The expression as a function that computes with as many digits as mpmath is set to."""
    plain = expression.replace(Root, sympy.sqrt)
    symbols = {s.name: s for s in plain.free_symbols}
    arguments = [symbols.get(name, sympy.Symbol(name)) for name in names]
    function = sympy.lambdify(arguments, plain, modules="mpmath")
    return lambda point: function(*(mpmath.mpf(point[name]) for name in names))


def precise_form(formula: Formula) -> Callable[..., Any]:
    """The authored form at any precision, from a point that names all its inputs."""
    return precise(formula.form.whole, [q.name for q in formula.inputs])


def closed(relation: Relation) -> list[Formula]:
    """The formulas that have an authored expression."""
    return [formula for formula in relation.formulas if formula.form.expression is not None]


def form_id(form: Form) -> str:
    """A form's unknown and branch, to name a test by."""
    return f"{form.unknown.name} {form.branch}".strip().replace(" ", "-")
