"""Finding where the image falls: collimator, depth gauge, focusing ring and tilted ruler."""

from sympy import Eq, Max, acos, atan, cos, pi, sqrt, tan

from optics.relation import Bound, Form, Quantity, Range, Relation
from optics.theory import front_cell, helicoid, lens
from optics.theory.focusing import FocusingLaw
from optics.theory.helicoid import lead, rotation
from optics.theory.lens import focal_length, focus_error, mark_distance, sharp_distance

collimator_focal_length = Quantity(
    "collimator_focal_length",
    "f_c",
    "f_c",
    "mm",
    "focal length of the collimator",
    Range.positive(),
)
reticle_shift = Quantity(
    "reticle_shift",
    r"\delta",
    "δ",
    "mm",
    "shift of the reticle from the collimator's focus (plus when moved inside, towards its lens)",
)
equivalent_distance = Quantity(
    "equivalent_distance",
    "D_q",
    "D_q",
    "mm",
    "distance at which the reticle seems to stand (minus: beyond infinity)",
    Range.closed(),
    typed_in="m",
)
_f, _e = focal_length.symbol, focus_error.symbol
_fc, _delta, _Dq = collimator_focal_length.symbol, reticle_shift.symbol, equivalent_distance.symbol

equivalent_target = Relation(
    name="equivalent_target",
    answers="At what distance does a shifted collimator reticle seem to stand?",
    equation=Eq(_Dq * _delta, _fc**2),
    quantities=(equivalent_distance, collimator_focal_length, reticle_shift),
    forms=(
        Form(equivalent_distance, _fc**2 / _delta),
        Form(reticle_shift, _fc**2 / _Dq),
        Form(collimator_focal_length, sqrt(_Dq * _delta)),
    ),
    source="Newton's conjugate equation; Ives, Airplane Photography (1920), on collimators",
    limits="Paraxial; measured from the collimator's outer focal point.",
)

collimator_error = Relation(
    name="collimator_error",
    answers="A collimator's reticle was shifted until it was sharp at the film: "
    "how far off is the lens?",
    equation=Eq(_e, _delta * (_f / _fc) ** 2),
    quantities=(focus_error, reticle_shift, focal_length, collimator_focal_length),
    forms=(
        Form(focus_error, _delta * (_f / _fc) ** 2),
        Form(reticle_shift, _e * (_fc / _f) ** 2),
        Form(focal_length, _fc * sqrt(_e / _delta)),
        Form(collimator_focal_length, _f * sqrt(_delta / _e)),
    ),
    source="Newton's conjugate equation applied twice",
    limits="Paraxial; exact only while the two lenses' facing focal points coincide, f + f_c "
    "apart: elsewhere collimator_conjugates.",
)

collimator_to_lens = Quantity(
    "collimator_to_lens",
    "g",
    "g",
    "mm",
    "distance from the collimator's lens to the camera's lens",
    Range.at_least(0),
)
_g = collimator_to_lens.symbol
_beyond = _fc + _f - _g  # How far the facing focal points reach past each other.

collimator_conjugates = Relation(
    name="collimator_conjugates",
    answers="A reticle was shifted until sharp, the lenses so far apart: how far off is the lens?",
    equation=Eq(_e * (_fc**2 / _delta - _fc + _g - _f), _f**2),
    quantities=(
        focus_error,
        reticle_shift,
        focal_length,
        collimator_focal_length,
        collimator_to_lens,
    ),
    forms=(
        # Multiplied by δ, so that a reticle in its focus gives no error and finite slopes.
        Form(focus_error, _delta * _f**2 / (_fc**2 - _delta * _beyond)),
        Form(reticle_shift, _e * _fc**2 / (_f**2 + _e * _beyond)),
        Form(focal_length, (sqrt(_e**2 + 4 * _e * (_fc**2 / _delta - _fc + _g)) - _e) / 2),
        Form(
            collimator_focal_length,
            (_delta + sqrt(_delta**2 + 4 * _delta * (_f**2 / _e + _f - _g))) / 2,
        ),
        Form(collimator_to_lens, _f + _fc + _f**2 / _e - _fc**2 / _delta),
    ),
    bounds=(
        Bound(
            reticle_shift,
            _fc,
            "there the reticle touches the collimator's lens",
            is_upper=True,
            is_open=True,
        ),
        Bound(
            reticle_shift,
            # From the camera's focal length on, no shift brings the image so near.
            _fc**2 / (_fc + Max(_f - _g, 0)),
            "there the reticle's image stands in the camera lens's front focal point, which is "
            "sharp nowhere",
            is_upper=True,
            is_open=True,
        ),
        Bound(
            focus_error,
            -_f,
            "the lens would stand on the film or behind it",
            is_open=True,
        ),
    ),
    source="Thin-lens equation of the collimator, then Newton's equation of the camera lens",
    limits="Paraxial; exact for thick lenses with g from the collimator's rear principal plane to "
    "the camera's front one; 10 mm of g count for δ·10/f_c² of the error.",
)

_wanted = Quantity(
    "wanted_distance",
    "y",
    "y",
    "mm",
    "distance a target is to stand for",
    Range.positive(),
    typed_in="m",
)
_place = Quantity(
    "target_place",
    "x_t",
    "xₜ",
    "mm",
    "distance of the target behind the collimator lens",
    Range.positive(),
)
_y, _xt = _wanted.symbol, _place.symbol

target_place = Relation(
    name="target_place",
    answers="Where behind a collimator lens does a target stand for a given distance?",
    equation=Eq(1 / _xt, 1 / _fc + 1 / _y),
    quantities=(_place, collimator_focal_length, _wanted),
    forms=(
        Form(_place, 1 / (1 / _fc + 1 / _y)),
        Form(_wanted, 1 / (1 / _xt - 1 / _fc)),
        Form(collimator_focal_length, 1 / (1 / _xt - 1 / _y)),
    ),
    source="Conjugates of a thin lens, virtual image; OpenStax, College Physics, ch. 25",
    limits="Thin collimator lens, the camera close in front of it.",
)

_spot = Quantity(
    "spot_shift",
    "d",
    "d",
    "mm",
    "shift of the returned mark in the autocollimator",
    Range.at_least(0),
)
_mirror = Quantity(
    "mirror_tilt", r"\theta", "θ", "rad", "tilt of the mirror", Range.between(0, 0.78)
)

autocollimation = Relation(
    name="autocollimation",
    answers="How far is a mirror, or a flat film gate, tilted?",
    equation=Eq(_spot.symbol, _fc * tan(2 * _mirror.symbol)),
    quantities=(_spot, collimator_focal_length, _mirror),
    forms=(
        Form(_spot, _fc * tan(2 * _mirror.symbol)),
        Form(_mirror, atan(_spot.symbol / _fc) / 2),
        Form(collimator_focal_length, _spot.symbol / tan(2 * _mirror.symbol)),
    ),
    source="Autocollimator principle, θ = d/2f for small angles",
    limits="Paraxial; a mirror doubles the angle.",
)

measured_register = Quantity(
    "measured_register",
    "R",
    "R",
    "mm",
    "register measured from lens seat to film",
    Range.positive(),
)
nominal_register = Quantity(
    "nominal_register", "R_0", "R₀", "mm", "register the lens is made for", Range.positive()
)
_R, _R0 = measured_register.symbol, nominal_register.symbol

register_error = Relation(
    name="register_error",
    answers="The lens seat was gauged from the film: how far off is the lens?",
    equation=Eq(_e, _R - _R0),
    quantities=(focus_error, measured_register, nominal_register),
    forms=(
        Form(focus_error, _R - _R0),
        Form(measured_register, _R0 + _e),
        Form(nominal_register, _R - _e),
    ),
    source="Definition of the focus error",
    limits="Film plane and lens seat parallel; says nothing of the lens above its seat.",
)

_phi, _L = rotation.symbol, lead.symbol
_z, _Ds = helicoid.travel.symbol, sharp_distance.symbol
_target_error = Quantity(
    "target_error", "e_m", "eₘ", "mm", "extension the target calls for beyond the mark's"
)
_wanted_travel = _target_error.symbol - _e


def _turned_between(law: FocusingLaw, marks: Relation, **words: str) -> Relation:
    """The focus error from a turn of the ring, for one way of focusing with its error of marks."""
    travel = helicoid.ring_rotation.expression(helicoid.travel)
    target_steps = marks.steps_to(focus_error, {focus_error: _target_error})
    return Relation(
        equation=Eq(_e, marks.expression(focus_error) - travel * law.at_film),
        quantities=(focus_error, rotation, lead, sharp_distance, mark_distance, *law.lengths),
        forms=(
            Form(
                focus_error,
                _target_error.symbol - _z * law.at_film,
                steps=(*target_steps, *helicoid.ring_rotation.steps_to(helicoid.travel)),
            ),
            Form(rotation, 2 * pi * _wanted_travel / (_L * law.at_film), steps=target_steps),
            Form(lead, 2 * pi * _wanted_travel / (_phi * law.at_film), steps=target_steps),
        ),
        bounds=marks.bounds,
        **words,
    )


rotation_error = _turned_between(
    lens.unit_law,
    lens.mark_error,
    name="rotation_error",
    answers="The ring was turned from a mark until a target was sharp: how far off was the lens?",
    source="mark_error less the travel of the turn",
    limits="Paraxial; no play in the thread: end every turn in the same direction.",
)

cell_rotation_error = _turned_between(
    front_cell.cell_law,
    front_cell.cell_mark_error,
    name="cell_rotation_error",
    answers="A front cell was turned from a mark until a target was sharp: how far off was it?",
    source="cell_mark_error less the travel of the turn, carried to the film",
    limits="Small errors, as film_effect; no play in the thread.",
)

aim_distance = Quantity(
    "aim_distance",
    "D_0",
    "D₀",
    "mm",
    "distance from the film to the ruler's zero",
    Range.positive(),
    typed_in="m",
)
ruler_offset = Quantity(
    "ruler_offset",
    "r",
    "r",
    "mm",
    "place of best sharpness along the ruler (plus towards the camera)",
)
ruler_slope = Quantity(
    "ruler_slope",
    r"\beta",
    "β",
    "rad",
    "angle between the ruler and the lens axis",
    Range.between(0, 1.5707),
)
_D0, _r, _beta = aim_distance.symbol, ruler_offset.symbol, ruler_slope.symbol

tilted_ruler = Relation(
    name="tilted_ruler",
    answers="At what distance does the sharpest place of a slanting ruler lie?",
    equation=Eq(_Ds, _D0 - _r * cos(_beta)),
    quantities=(sharp_distance, aim_distance, ruler_offset, ruler_slope),
    forms=(
        Form(sharp_distance, _D0 - _r * cos(_beta)),
        Form(aim_distance, _Ds + _r * cos(_beta)),
        Form(ruler_offset, (_D0 - _Ds) / cos(_beta)),
        Form(ruler_slope, acos((_D0 - _Ds) / _r)),
    ),
    bounds=(
        Bound(ruler_offset, _D0 / cos(_beta), "the ruler would reach the film", is_upper=True),
    ),
    source="Plane geometry",
    limits="The ruler's zero lies on the axis and its slope in a plane through the axis.",
)
