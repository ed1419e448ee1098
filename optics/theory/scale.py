"""The engraved scale: where marks stand on a ring, and what they tell of their maker."""

from sympy import Eq, asin, pi, sin, sqrt

from optics.relation import Form, Quantity, Range, Relation
from optics.theory import front_cell, lens
from optics.theory.depth import circle_of_confusion, f_number
from optics.theory.focusing import FocusingLaw
from optics.theory.front_cell import group_focal_length
from optics.theory.helicoid import lead, ring_diameter
from optics.theory.lens import focal_length

mark_angle = Quantity(
    "mark_angle",
    r"\psi",
    "ψ",
    "rad",
    "angle of a mark from the ring's zero (plus in the direction that extends the lens)",
)
zero_angle = Quantity(
    "zero_angle", r"\psi_0", "ψ₀", "rad", "angle at which the ring's infinity should stand"
)
chord = Quantity("chord", "a", "a", "mm", "straight distance between two marks on the ring's edge")
depth_mark_angle = Quantity(
    "depth_mark_angle",
    r"\beta",
    "β",
    "rad",
    "angle of a depth mark from the index",
    Range.at_least(0),
)
_psi, _psi0, _a, _beta = (q.symbol for q in (mark_angle, zero_angle, chord, depth_mark_angle))
_L, _dia = lead.symbol, ring_diameter.symbol
_f, _f1 = focal_length.symbol, group_focal_length.symbol
_N, _c = f_number.symbol, circle_of_confusion.symbol


def _mark_on_ring(law: FocusingLaw, **words: str) -> Relation:
    """Where a distance belongs on the ring, for one way of focusing."""
    moved = law.moved.symbol
    steps = law.relation.steps_to(law.moved)
    by_angle = ((law.moved, (_psi - _psi0) * _L / (2 * pi)),)
    lengths = (law.distance, *law.constants)
    return Relation(
        equation=Eq(_psi, _psi0 + 2 * pi * law.movement / _L),
        quantities=(mark_angle, zero_angle, *lengths, lead),
        forms=(
            Form(mark_angle, _psi0 + 2 * pi * moved / _L, steps=steps),
            *(Form(q, law.relation.last_step(q), steps=by_angle) for q in lengths),
            Form(zero_angle, _psi - 2 * pi * moved / _L, steps=steps),
            Form(lead, 2 * pi * moved / (_psi - _psi0), steps=steps),
        ),
        bounds=law.relation.bounds,
        **words,
    )


scale_mark = _mark_on_ring(
    lens.unit_law,
    name="scale_mark",
    answers="Where on the ring of a unit-focusing lens does a distance belong?",
    source="unit_focusing on a thread",
    limits="Paraxial; a thread of constant lead; the whole lens moves.",
)

cell_scale_mark = _mark_on_ring(
    front_cell.cell_law,
    name="cell_scale_mark",
    answers="Where on the ring of a front-cell focusing lens does a distance belong?",
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


def _depth_mark_on_ring(law: FocusingLaw, more: tuple[Form, ...] = (), **words: str) -> Relation:
    """Where the depth mark of an aperture stands, for one way of focusing.

    `more` are the forms for the lengths by which a movement reaches the film.
    """
    at_film = _L * law.at_film
    return Relation(
        equation=Eq(_beta, 2 * pi * _N * _c / at_film),
        quantities=(
            depth_mark_angle,
            f_number,
            circle_of_confusion,
            lead,
            *(f.unknown for f in more),
        ),
        forms=(
            Form(depth_mark_angle, 2 * pi * _N * _c / at_film),
            Form(f_number, _beta * at_film / (2 * pi * _c)),
            Form(circle_of_confusion, _beta * at_film / (2 * pi * _N)),
            Form(lead, 2 * pi * _N * _c / (_beta * law.at_film)),
            *more,
        ),
        bounds=(),
        **words,
    )


depth_mark = _depth_mark_on_ring(
    lens.unit_law,
    name="depth_mark",
    answers="How far from the index do the depth marks of an aperture stand?",
    source="Depth of focus N·c each way, carried to the ring by the lead",
    limits="Distant subjects, unit focusing; close up the marks stand a little narrow, by about "
    "the magnification (6 per cent of their distance for 50 mm at 1 m).",
)

cell_depth_mark = _depth_mark_on_ring(
    front_cell.cell_law,
    more=(
        Form(focal_length, _f1 * sqrt(2 * pi * _N * _c / (_beta * _L))),
        Form(group_focal_length, _f * sqrt(_beta * _L / (2 * pi * _N * _c))),
    ),
    name="cell_depth_mark",
    answers="How far from the index do the depth marks of a front-cell focusing lens stand?",
    source="Depth of focus N·c carried back through the groups behind the cell, (f/f₁)²",
    limits="At every distance, since the cone at the film stays as it is (cell_depth_of_focus); "
    "small movements, as film_effect.",
)
