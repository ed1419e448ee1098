"""Front-cell focusing: only the front group moves; the rest of the lens and the film stay."""

from sympy import Eq, sqrt

from optics.relation import Bound, Form, Quantity, Range, Relation, Root
from optics.theory.focusing import FocusingLaw
from optics.theory.lens import (
    error_between,
    film_distance,
    focal_length,
    focus_error,
    magnification,
    mark_distance,
    sharp_distance,
)

group_focal_length = Quantity(
    "group_focal_length", "f_1", "f₁", "mm", "focal length of the front group", Range.positive()
)
movement = Quantity(
    "movement",
    "t",
    "t",
    "mm",
    "movement of the front cell out from its infinity position",
    Range.at_least(0),
)
cell_shift = Quantity(
    "cell_shift", r"\Delta t", "Δt", "mm", "shift of the front cell (plus when it moves out)"
)
group_distance = Quantity(
    "group_distance",
    "u",
    "u",
    "mm",
    "distance from the front group's front principal plane to the subject",
    Range.positive(),
    typed_in="m",
)
cell_to_film = Quantity(
    "cell_to_film",
    "K",
    "K",
    "mm",
    "distance from the film to the front group's front principal plane at infinity",
    Range.positive(),
)
_f, _e, _D, _m = (q.symbol for q in (focal_length, focus_error, film_distance, magnification))
_f1, _t, _dt, _u, _K = (
    q.symbol for q in (group_focal_length, movement, cell_shift, group_distance, cell_to_film)
)

group_movement = Relation(
    name="group_movement",
    answers="How far must the front cell move out for a subject measured from it?",
    equation=Eq(_t * (_u - _f1), _f1**2),
    quantities=(movement, group_distance, group_focal_length),
    forms=(
        Form(movement, _f1**2 / (_u - _f1)),
        Form(group_distance, _f1 + _f1**2 / _t),
        Form(group_focal_length, (sqrt(_t**2 + 4 * _t * _u) - _t) / 2),
    ),
    bounds=(Bound(group_distance, 2 * _f1, "the front group cannot serve a nearer subject"),),
    source="Newton's conjugate equation for the front group; checked by exact trace of a triplet",
    limits="Exact paraxially for thick groups: the rest of the lens keeps seeing the same image.",
)

_reach = Quantity(
    "cell_reach",
    "w",
    "w",
    "mm",
    "film distance less K and the group's focal length",
    Range.positive(),
)
_w = _reach.symbol
_reach_is = ((_reach, _D - _K - _f1),)

front_cell_focusing = Relation(
    name="front_cell_focusing",
    answers="How far must the front cell move out for a subject measured from the film?",
    equation=Eq(_D, _K + _t + _f1 + _f1**2 / _t),
    quantities=(film_distance, group_focal_length, cell_to_film, movement),
    forms=(
        Form(
            movement,
            2 * _f1**2 / (_w * (1 + Root(1 - 4 * _f1**2 / _w**2))),
            steps=_reach_is,
            branch="cell nearer the film",
        ),
        Form(film_distance, _K + _t + _f1 + _f1**2 / _t),
        Form(group_focal_length, (sqrt(_t**2 + 4 * _t * (_D - _K - _t)) - _t) / 2),
        Form(cell_to_film, _D - _t - _f1 - _f1**2 / _t),
    ),
    bounds=(Bound(film_distance, _K + 3 * _f1, "the front group cannot serve a nearer subject"),),
    source="group_movement with the subject measured from the film plane",
    limits="Paraxial; the film and the rear groups stand still.",
)

film_effect = Relation(
    name="film_effect",
    answers="How much does a small shift of the front cell move the focus at the film?",
    equation=Eq(_e, _dt * (_f / _f1) ** 2),
    quantities=(focus_error, cell_shift, focal_length, group_focal_length),
    forms=(
        Form(focus_error, _dt * (_f / _f1) ** 2),
        Form(cell_shift, _e * (_f1 / _f) ** 2),
        Form(focal_length, _f1 * sqrt(_e / _dt)),
        Form(group_focal_length, _f * sqrt(_dt / _e)),
    ),
    source="Longitudinal magnification of the groups behind the front cell, (f/f₁)²",
    limits="Small shifts: over a shift the factor changes by the part Δt·f/(f₁·f_r), f_r the focal "
    "length of the groups behind the cell; 1 mm in a triplet of 50 mm changes it by 0.2 per cent.",
)

cell_magnification = Relation(
    name="cell_magnification",
    answers="How large is the image when the front cell stands so far out?",
    equation=Eq(_m, _t * _f / _f1**2),
    quantities=(magnification, movement, focal_length, group_focal_length),
    forms=(
        Form(magnification, _t * _f / _f1**2),
        Form(movement, _m * _f1**2 / _f),
        Form(focal_length, _m * _f1**2 / _t),
        Form(group_focal_length, sqrt(_t * _f / _m)),
    ),
    source="Magnification t/f₁ of the front group times f/f₁ of the groups behind it",
    limits="Paraxial; the film and the rear groups stand still.",
)

cell_law = FocusingLaw(
    front_cell_focusing,
    movement,
    film_distance,
    _reach,
    focal_length,
    (group_focal_length, cell_to_film),
    at_film=(_f / _f1) ** 2,
)
"""Focusing by moving the front cell alone."""

_sharp_reach = Quantity(
    "sharp_reach",
    "w_s",
    "wₛ",
    "mm",
    "sharp distance less K and the group's focal length",
    Range.positive(),
)
_mark_reach = Quantity(
    "mark_reach",
    "w_m",
    "wₘ",
    "mm",
    "marked distance less K and the group's focal length",
    Range.positive(),
)
_sharp_movement = Quantity(
    "sharp_movement",
    "t_s",
    "tₛ",
    "mm",
    "movement for the distance that is really sharp",
    Range.at_least(0),
)
_mark_movement = Quantity(
    "mark_movement",
    "t_m",
    "tₘ",
    "mm",
    "movement the ring's mark calls for",
    Range.at_least(0),
)

cell_mark_error = error_between(
    cell_law,
    cell_law.at(sharp_distance, _sharp_reach, _sharp_movement),
    cell_law.at(mark_distance, _mark_reach, _mark_movement),
    name="cell_mark_error",
    answers="The front cell's ring stands at one distance and another is sharp: how far off is it?",
    near="the front group cannot serve a nearer subject",
    source="front_cell_focusing at two distances, carried to the film by film_effect",
    limits="Small errors, as film_effect.",
)
