"""How far a leaning lens leans the sharp plane."""

from sympy import Eq, tan

from optics.relation import Quantity, Range
from optics.theory.derivations.chain import Derivation, drawn, follows, nearly
from optics.theory.lens import (
    image_distance,
    magnification,
    object_distance,
)
from optics.theory.standard import image_tilt, lens_tilt, tilt

_edge = Quantity(
    "meeting_height", "Y", "Y", "mm", "height at which the planes meet", Range.positive()
)
_alpha, _tau, _m = tilt.symbol, image_tilt.symbol, magnification.symbol
_s, _v, _Y = object_distance.symbol, image_distance.symbol, _edge.symbol

LENS_TILT = Derivation(
    lens_tilt,
    "Subject, lens and image meet in one line",
    (
        drawn(
            Eq(tan(_alpha), _s / _Y),
            "Lean the lens by α against a subject that stands square. Far up or down, at Y, its "
            "plane cuts the subject's: there a ray along the subject's plane meets the lens.",
        ),
        drawn(
            Eq(tan(_tau - _alpha), _v / _Y),
            "Bent, that ray leaves along the sharp plane, for the images of all points on its way "
            "lie on it: the sharp plane passes through the same line. Against the lens it leans by "
            "τ − α.",
        ),
        drawn(Eq(_m, _v / _s), "Magnification is image distance over subject distance."),
        follows(
            Eq(tan(_tau - _alpha), _m * tan(_alpha)),
            "Divide the second by the first.",
            (1, 2, 3),
            object_distance,
            image_distance,
            image_tilt,
        ),
        nearly(
            Eq(_tau, (1 + _m) * _alpha),
            "A small lean counts 1 + m times: once because the axis leans, m times because the "
            "subject then lies askew before the lens. Far subjects: once.",
            (4,),
            image_tilt,
            small=(tilt,),
            order=2,
        ),
    ),
    (object_distance, image_distance, _edge),
)
