"""The engraved scale: where marks stand on a ring, and what they tell of their maker."""

from sympy import Eq, asin, pi, sin, sqrt

from optics.relation import Form, Quantity, Range, Relation
from optics.theory import front_cell, lens
from optics.theory.depth import circle_of_confusion, f_number
from optics.theory.front_cell import cell_to_film, group_focal_length
from optics.theory.helicoid import lead, ring_diameter
from optics.theory.lens import film_distance, focal_length, hiatus

mark_angle = Quantity(
    "mark_angle", r"\psi", "ψ", "rad",
    "angle of a mark from the ring's zero (plus in the direction that extends the lens)",
)  # fmt: skip
zero_angle = Quantity(
    "zero_angle", r"\psi_0", "ψ₀", "rad", "angle at which the ring's infinity should stand"
)
chord = Quantity("chord", "a", "a", "mm", "straight distance between two marks on the ring's edge")
depth_mark_angle = Quantity(
    "depth_mark_angle", r"\beta", "β", "rad", "angle of a depth mark from the index",
    Range.at_least(0),
)  # fmt: skip
_psi, _psi0, _a, _beta = (q.symbol for q in (mark_angle, zero_angle, chord, depth_mark_angle))
_D, _L, _dia = film_distance.symbol, lead.symbol, ring_diameter.symbol
_f, _f1 = focal_length.symbol, group_focal_length.symbol
_N, _c = f_number.symbol, circle_of_confusion.symbol

_extension_steps = (
    *lens.unit_focusing.solve_for(lens.extension).form.steps,
    (lens.extension, lens.unit_focusing.last_step(lens.extension)),
)
_movement_steps = (
    *front_cell.front_cell_focusing.solve_for(front_cell.movement).form.steps,
    (front_cell.movement, front_cell.front_cell_focusing.last_step(front_cell.movement)),
)

scale_mark = Relation(
    name="scale_mark",
    answers="Where on the ring of a unit-focusing lens does a distance belong?",
    equation=Eq(_psi, _psi0 + 2 * pi * lens.unit_focusing.expression(lens.extension) / _L),
    quantities=(mark_angle, zero_angle, film_distance, focal_length, hiatus, lead),
    forms=(
        Form(
            mark_angle,
            _psi0 + 2 * pi * lens.extension.symbol / _L,
            steps=_extension_steps,
        ),
        Form(
            film_distance,
            lens.unit_focusing.last_step(film_distance),
            steps=((lens.extension, (_psi - _psi0) * _L / (2 * pi)),),
        ),
        Form(
            focal_length,
            lens.unit_focusing.last_step(focal_length),
            steps=((lens.extension, (_psi - _psi0) * _L / (2 * pi)),),
        ),
        Form(
            hiatus,
            lens.unit_focusing.last_step(hiatus),
            steps=((lens.extension, (_psi - _psi0) * _L / (2 * pi)),),
        ),
        Form(zero_angle, _psi - 2 * pi * lens.extension.symbol / _L, steps=_extension_steps),
        Form(lead, 2 * pi * lens.extension.symbol / (_psi - _psi0), steps=_extension_steps),
    ),
    bounds=lens.unit_focusing.bounds,
    source="unit_focusing on a thread",
    limits="Paraxial; a thread of constant lead; the whole lens moves.",
)

cell_scale_mark = Relation(
    name="cell_scale_mark",
    answers="Where on the ring of a front-cell focusing lens does a distance belong?",
    equation=Eq(
        _psi, _psi0 + 2 * pi * front_cell.front_cell_focusing.expression(front_cell.movement) / _L
    ),
    quantities=(mark_angle, zero_angle, film_distance, group_focal_length, cell_to_film, lead),
    forms=(
        Form(
            mark_angle,
            _psi0 + 2 * pi * front_cell.movement.symbol / _L,
            steps=_movement_steps,
        ),
        Form(
            film_distance,
            front_cell.front_cell_focusing.last_step(film_distance),
            steps=((front_cell.movement, (_psi - _psi0) * _L / (2 * pi)),),
        ),
        Form(
            group_focal_length,
            front_cell.front_cell_focusing.last_step(group_focal_length),
            steps=((front_cell.movement, (_psi - _psi0) * _L / (2 * pi)),),
        ),
        Form(
            cell_to_film,
            front_cell.front_cell_focusing.last_step(cell_to_film),
            steps=((front_cell.movement, (_psi - _psi0) * _L / (2 * pi)),),
        ),
        Form(zero_angle, _psi - 2 * pi * front_cell.movement.symbol / _L, steps=_movement_steps),
        Form(lead, 2 * pi * front_cell.movement.symbol / (_psi - _psi0), steps=_movement_steps),
    ),
    bounds=front_cell.front_cell_focusing.bounds,
    source="front_cell_focusing on a thread",
    limits="Paraxial; a thread of constant lead; only the front cell moves.",
)

ring_chord = Relation(
    name="ring_chord",
    answers="How far apart in a straight line are two marks on a ring's edge?",
    equation=Eq(_a, _dia * sin(_psi / 2)),
    quantities=(chord, ring_diameter, mark_angle),
    forms=(
        Form(chord, _dia * sin(_psi / 2)),
        Form(mark_angle, 2 * asin(_a / _dia)),
        Form(ring_diameter, _a / sin(_psi / 2)),
    ),
    source="Chord of a circle",
    limits="Marks not more than half a turn apart.",
)

depth_mark = Relation(
    name="depth_mark",
    answers="How far from the index do the depth marks of an aperture stand?",
    equation=Eq(_beta, 2 * pi * _N * _c / _L),
    quantities=(depth_mark_angle, f_number, circle_of_confusion, lead),
    forms=(
        Form(depth_mark_angle, 2 * pi * _N * _c / _L),
        Form(f_number, _beta * _L / (2 * pi * _c)),
        Form(circle_of_confusion, _beta * _L / (2 * pi * _N)),
        Form(lead, 2 * pi * _N * _c / _beta),
    ),
    source="Depth of focus N·c each way, carried to the ring by the lead",
    limits="Distant subjects, unit focusing; close up the marks stand a little narrow, by about "
    "the magnification (6 per cent of their distance for 50 mm at 1 m).",
)

cell_depth_mark = Relation(
    name="cell_depth_mark",
    answers="How far from the index do the depth marks of a front-cell focusing lens stand?",
    equation=Eq(_beta, 2 * pi * _N * _c * _f1**2 / (_L * _f**2)),
    quantities=(
        depth_mark_angle, f_number, circle_of_confusion, lead, focal_length, group_focal_length,
    ),
    forms=(
        Form(depth_mark_angle, 2 * pi * _N * _c * _f1**2 / (_L * _f**2)),
        Form(f_number, _beta * _L * _f**2 / (2 * pi * _c * _f1**2)),
        Form(circle_of_confusion, _beta * _L * _f**2 / (2 * pi * _N * _f1**2)),
        Form(lead, 2 * pi * _N * _c * _f1**2 / (_beta * _f**2)),
        Form(focal_length, _f1 * sqrt(2 * pi * _N * _c / (_beta * _L))),
        Form(group_focal_length, _f * sqrt(_beta * _L / (2 * pi * _N * _c))),
    ),
    source="Depth of focus N·c carried back through the groups behind the cell, (f/f₁)²",
    limits="Distant subjects; small movements, as film_effect.",
)  # fmt: skip
