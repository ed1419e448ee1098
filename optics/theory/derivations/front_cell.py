"""Why a front cell moves so little, and how its movement is seen at the film."""

from sympy import Eq

from optics.relation import Quantity, Range
from optics.theory.derivations.chain import Derivation, drawn, follows, known, nearly
from optics.theory.front_cell import (
    cell_shift,
    film_effect,
    group_distance,
    group_focal_length,
    group_movement,
    movement,
)
from optics.theory.lens import focal_length, focus_error, newton, thin_lens

_v1 = Quantity("group_image", "v_1", "v₁", "mm", "distance from the front group to its image")
_zo = Quantity("rear_subject", "z_o", "zₒ", "mm", "the front group's image from the rear focus")
_zi = Quantity("rear_image", "z_i", "zᵢ", "mm", "the film from the rear groups' other focus")
_fr = Quantity(
    "rear_focal_length", "f_r", "fᵣ", "mm", "focal length of the rear groups", Range.positive()
)
_mr = Quantity("rear_magnification", "m_r", "mᵣ", "", "magnification of the rear groups")
_t, _u, _f1, _f = (q.symbol for q in (movement, group_distance, group_focal_length, focal_length))
_e, _dt = focus_error.symbol, cell_shift.symbol
_z, _y, _r, _m = (q.symbol for q in (_zo, _zi, _fr, _mr))

GROUP_MOVEMENT = Derivation(
    group_movement,
    "The rear groups must never notice",
    (
        known(
            thin_lens,
            "The lens equation of the front group alone.",
            Eq(1 / _f1, 1 / _u + 1 / _v1.symbol),
        ),
        drawn(
            Eq(_v1.symbol, _f1 + _t),
            "Film and rear groups stand still, so the front group's image must stay where it "
            "was with the subject at infinity: one f₁ behind it, and t more when it has moved out.",
        ),
        follows(
            Eq(_t * (_u - _f1), _f1**2),
            "Put it in and clear the fractions: Newton's equation, but with the short focal "
            "length of the front group. That is why the cell moves so little.",
            (1, 2),
            group_distance,
            _v1,
        ),
        follows(
            Eq(_t, _f1**2 / (_u - _f1)),
            "Solved for the movement.",
            (3,),
            movement,
        ),
    ),
    (_v1,),
)

FILM_EFFECT = Derivation(
    film_effect,
    "What a shift of the cell does at the film",
    (
        known(
            newton,
            "Newton's equation of the rear groups: the front group's image is their subject.",
            Eq(_z * _y, _r**2),
        ),
        drawn(
            Eq((_z + _dt) * (_y - _e), _r**2),
            "Screw the cell out a little: its image goes out with it, and what the rear groups "
            "make of it follows, away from the film by e.",
        ),
        follows(
            Eq(_e, _y * _dt / (_z + _dt)),
            "Take the first from the second.",
            (1, 2),
            _fr,
            focus_error,
        ),
        nearly(
            Eq(_e, _dt * _y / _z),
            "For a small shift the one in the denominator may be left out.",
            (3,),
            focus_error,
            small=(cell_shift,),
        ),
        drawn(Eq(_m, _y / _r), "The magnification of the rear groups, image from their focus."),
        follows(
            Eq(_e, _dt * _m**2),
            "A depth is magnified by the square, where a height is magnified once.",
            (1, 4, 5),
            _zo,
            focus_error,
            _zi,
        ),
        drawn(
            Eq(_f, _f1 * _m),
            "The rear groups enlarge all that the front group throws, and with it the focal "
            "length.",
        ),
        follows(
            Eq(_e, _dt * (_f / _f1) ** 2),
            "So the two focal lengths tell what no gauge can reach between the groups.",
            (6, 7),
            focus_error,
            _mr,
        ),
    ),
    (_zo, _zi, _fr, _mr),
)
