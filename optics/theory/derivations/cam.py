"""What a cam has to tell a body that was cut for another lens."""

from sympy import Eq

from optics.theory.cam import body_focal_length, body_hiatus, cam_lift, lift
from optics.theory.derivations.chain import Derivation, follows, known, nearly
from optics.theory.lens import extension, film_distance, focal_length, hiatus, unit_focusing

_f, _h, _x, _y = (q.symbol for q in (focal_length, hiatus, extension, lift))
_f0, _h0, _D = body_focal_length.symbol, body_hiatus.symbol, film_distance.symbol

CAM_LIFT = Derivation(
    cam_lift,
    "Two lenses, one subject",
    (
        known(unit_focusing, "The lens on the camera, at extension x, is sharp at D."),
        known(
            unit_focusing,
            "The body was cut for another lens: it believes in the D at which that one is sharp, "
            "standing y out.",
            Eq(_D, 2 * _f0 + _h0 + _y + _f0**2 / _y),
        ),
        follows(
            Eq(2 * _f0 + _h0 + _y + _f0**2 / _y, 2 * _f + _h + _x + _f**2 / _x),
            "Both must mean the same subject. The cam has to turn x into y.",
            (1, 2),
            film_distance,
            body_hiatus,
        ),
        nearly(
            Eq(_y, _x * (_f0 / _f) ** 2),
            "For far subjects the lift is the extension times the square of the focal lengths' "
            "ratio: a straight ramp. Close up the cam bends away from it.",
            (3,),
            lift,
            small=(extension,),
        ),
    ),
    (film_distance,),
)
