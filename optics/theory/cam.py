"""The cam: what a coupled lens must tell a body that was cut for another."""

from sympy import Eq, atan, sqrt, tan

from optics.relation import Form, Quantity, Range, Relation
from optics.theory.lens import extension, focal_length, hiatus
from optics.theory.rangefinder import base, base_to_film

lift = Quantity("lift", "y", "y", "mm", "lift of the follower from infinity", Range.at_least(0))
body_focal_length = Quantity(
    "body_focal_length",
    "f_0",
    "f₀",
    "mm",
    "focal length the body's follower is cut for",
    Range.positive(),
)
body_hiatus = Quantity(
    "body_hiatus", "h_0", "h₀", "mm", "hiatus the body's follower is cut for", Range.at_most(1e6)
)
_vergence = Quantity(
    "reach_vergence",
    "r",
    "r",
    "1/mm",
    "one over the body lens's reach, 1/(D − h₀ − 2f₀)",
    Range.at_least(0),
)
_difference = Quantity(
    "length_difference", "d", "d", "mm", "2f + h of this lens less 2f₀ + h₀ of the body's"
)
_y, _f0, _h0 = lift.symbol, body_focal_length.symbol, body_hiatus.symbol
_x, _f, _h = extension.symbol, focal_length.symbol, hiatus.symbol
_r, _d = _vergence.symbol, _difference.symbol

cam_lift = Relation(
    name="cam_lift",
    answers="How far must the cam push the follower when the lens stands at an extension?",
    # Both lenses are focused on the same subject, so both film distances are equal.
    equation=Eq(2 * _f0 + _h0 + _y + _f0**2 / _y, 2 * _f + _h + _x + _f**2 / _x),
    quantities=(lift, extension, focal_length, hiatus, body_focal_length, body_hiatus),
    forms=(
        # In 1/D, so that infinity gives no lift and finite slopes.
        Form(
            lift,
            2 * _f0**2 * _r / (1 + sqrt(1 - 4 * _f0**2 * _r**2)),
            steps=(
                (_difference, 2 * _f + _h - 2 * _f0 - _h0),
                (_vergence, _x / (_f**2 + _x**2 + _d * _x)),
            ),
            branch="lens nearer the film",
        ),
        Form(
            extension,
            2 * _f**2 * _r / (1 + sqrt(1 - 4 * _f**2 * _r**2)),
            steps=(
                (_difference, 2 * _f0 + _h0 - 2 * _f - _h),
                (_vergence, _y / (_f0**2 + _y**2 + _d * _y)),
            ),
            branch="lens nearer the film",
        ),
    ),
    source="unit_focusing of both lenses at the same film distance",
    limits="Paraxial; the follower moves as the body's own lens would; whole-lens focusing.",
)

follower_gain = Quantity(
    "follower_gain",
    "G_y",
    "G_y",
    "rad/mm",
    "convergence for each mm of the follower's lift",
    Range.positive(),
)
_nearness = Quantity(
    "nearness",
    "v",
    "v",
    "1/mm",
    "one over the distance from the base line, 1/(D − k)",
    Range.at_least(0),
)
_span = Quantity(
    "span", "d", "d", "mm", "two focal lengths and the hiatus, less the base line's place"
)
_G, _b, _k = follower_gain.symbol, base.symbol, base_to_film.symbol
_v, _s = _nearness.symbol, _span.symbol
_span_is = (_span, 2 * _f + _h - _k)
_seen_from_base = (_nearness, _x / (_f**2 + _x**2 + _s * _x))
_seen_by_sights = (_nearness, tan(_G * _y) / _b)

straight_follower = Relation(
    name="straight_follower",
    answers="How far must the cam push a follower that turns the sights by a straight line?",
    # The sights meet on the subject for which the lens is focused.
    equation=Eq(tan(_G * _y), _b / (2 * _f + _h - _k + _x + _f**2 / _x)),
    quantities=(lift, follower_gain, base, base_to_film, extension, focal_length, hiatus),
    forms=(
        Form(lift, atan(_b * _v) / _G, steps=(_span_is, _seen_from_base)),
        Form(follower_gain, atan(_b * _v) / _y, steps=(_span_is, _seen_from_base)),
        Form(base, tan(_G * _y) / _v, steps=(_span_is, _seen_from_base)),
        Form(
            extension,
            2 * _f**2 * _r / (1 + sqrt(1 - 4 * _f**2 * _r**2)),
            steps=(_span_is, _seen_by_sights, (_vergence, _v / (1 - _s * _v))),
            branch="lens nearer the film",
        ),
    ),
    source="triangle and unit_focusing for the same subject",
    limits="Paraxial; no curvature between follower and sights; zero set right at infinity.",
)
