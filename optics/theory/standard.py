"""The lens standard: how tilted it stands, and what that does to the picture."""

import math

from sympy import Eq, asin, atan, sin, sqrt, tan

from optics.relation import Form, Quantity, Range, Relation
from optics.theory.lens import focal_length, focus_error, magnification

slope_across = Quantity(
    "slope_across",
    "s_x",
    "sₓ",
    "",
    "slope across the frame (plus when the right side, seen from the front, is farther out)",
)
slope_up = Quantity(
    "slope_up", "s_y", "s_y", "", "slope up the frame (plus when the top is farther out)"
)
slope = Quantity(
    "slope", "s", "s", "", "slope along one direction (plus when its end is farther out)"
)
slope_angle = Quantity(
    "slope_angle",
    r"\theta",
    "θ",
    "rad",
    "angle of the slope (plus when its end is farther out)",
    Range.above(-math.pi / 2, up_to=math.pi / 2),
)
tilt = Quantity(
    "tilt",
    r"\alpha",
    "α",
    "rad",
    "tilt of the standard against the film",
    Range.between(0, math.pi / 2),
)
image_tilt = Quantity(
    "image_tilt",
    r"\tau",
    "τ",
    "rad",
    "tilt of the sharp plane against the film",
    Range.between(0, math.pi),
)
_sx, _sy, _alpha, _tau = (q.symbol for q in (slope_across, slope_up, tilt, image_tilt))
_f, _m, _e = focal_length.symbol, magnification.symbol, focus_error.symbol

angle_of_slope = Relation(
    name="angle_of_slope",
    answers="At what angle does a plane lean along one direction?",
    equation=Eq(tan(slope_angle.symbol), slope.symbol),
    quantities=(slope_angle, slope),
    forms=(Form(slope_angle, atan(slope.symbol)), Form(slope, tan(slope_angle.symbol))),
    source="Definition of the tangent",
    limits="Along the one direction; for the whole tilt see plane_tilt.",
)

plane_tilt = Relation(
    name="plane_tilt",
    answers="How far is a plane tilted in all, from its slopes across and up?",
    equation=Eq(tan(_alpha), sqrt(_sx**2 + _sy**2)),
    quantities=(tilt, slope_across, slope_up),
    forms=(Form(tilt, atan(sqrt(_sx**2 + _sy**2))),),
    source="Steepest slope of a plane",
    limits="Slopes measured along two directions square to each other.",
)

lens_tilt = Relation(
    name="lens_tilt",
    answers="How far does a tilted lens tilt the sharp plane at the film?",
    equation=Eq(tan(_tau - _alpha), _m * tan(_alpha)),
    quantities=(image_tilt, tilt, magnification),
    forms=(
        Form(image_tilt, _alpha + atan(_m * tan(_alpha))),
        Form(magnification, tan(_tau - _alpha) / tan(_alpha)),
    ),
    source="Plane of subject, lens and image meet in one line; (1 + m)·α for small tilts",
    limits="Thin lens tilted about its middle, subject square to the camera, magnification taken "
    "along the lens's own axis; a tilted film counts once.",
)

_hinge = Quantity(
    "hinge_distance",
    "J",
    "J",
    "mm",
    "distance of the hinge line below the lens",
    Range.positive(),
    typed_in="m",
)
_J = _hinge.symbol

hinge_line = Relation(
    name="hinge_line",
    answers="About which line does the sharp plane swing when a tilted lens is focused?",
    equation=Eq(_J * sin(_alpha), _f),
    quantities=(_hinge, focal_length, tilt),
    forms=(
        Form(_hinge, _f / sin(_alpha)),
        Form(focal_length, _J * sin(_alpha)),
        Form(tilt, asin(_f / _J)),
    ),
    source="H. M. Merklinger, Focusing the View Camera: J = f/sin θ",
    limits="Thin lens.",
)

place_across = Quantity(
    "place_across",
    "X",
    "X",
    "mm",
    "place across the frame from its middle (plus to the right, seen from the front)",
)
place_up = Quantity("place_up", "Y", "Y", "mm", "place up the frame from its middle (plus upwards)")
tilt_factor = Quantity(
    "tilt_factor",
    "q",
    "q",
    "",
    "how often the tilt counts (film: 1; lens: 1 + m)",
    Range.positive(),
)
mean_error = Quantity(
    "mean_error",
    "e_0",
    "e₀",
    "mm",
    "focus error in the middle of the frame (plus when the lens is too far from the film)",
)
_X, _Y, _q, _e0 = (q.symbol for q in (place_across, place_up, tilt_factor, mean_error))

tilted_defocus = Relation(
    name="tilted_defocus",
    answers="How far out of focus is a place of the frame?",
    equation=Eq(_e, _e0 + _q * (_sx * _X + _sy * _Y)),
    quantities=(
        focus_error,
        mean_error,
        tilt_factor,
        slope_across,
        place_across,
        slope_up,
        place_up,
    ),
    forms=(
        Form(focus_error, _e0 + _q * (_sx * _X + _sy * _Y)),
        Form(mean_error, _e - _q * (_sx * _X + _sy * _Y)),
    ),
    source="A plane over the frame; lens_tilt for small tilts",
    limits="Small tilts; a flat standard and a flat film.",
)

shim_under_screw = Quantity(
    "screw_shim", r"\Delta z", "Δz", "mm", "shim change under a screw (plus to add)"
)
_wanted = Quantity("wanted_height", "z_w", "z_w", "mm", "height wanted at the screw")
_found = Quantity("found_height", "z_f", "z_f", "mm", "height found at the screw")

screw_shim = Relation(
    name="screw_shim",
    answers="What shim does a screw of the mount need?",
    equation=Eq(shim_under_screw.symbol, _wanted.symbol - _found.symbol),
    quantities=(shim_under_screw, _wanted, _found),
    forms=(
        Form(shim_under_screw, _wanted.symbol - _found.symbol),
        Form(_wanted, _found.symbol + shim_under_screw.symbol),
        Form(_found, _wanted.symbol - shim_under_screw.symbol),
    ),
    source="Definition of the shim change",
    limits="The mount stays flat: bent struts or plates are not cured by shims.",
)
