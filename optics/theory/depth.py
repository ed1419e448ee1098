"""How much focus error the picture forgives."""

from sympy import Eq

from optics.relation import Form, Quantity, Relation
from optics.theory.lens import magnification, pupil_magnification

f_number = Quantity("f_number", "N", "N", "", "f-number", low=0)
circle_of_confusion = Quantity(
    "circle_of_confusion", "c", "c", "mm", "circle of confusion (blur disc still taken as sharp)",
    low=0, low_allowed=True,
)  # fmt: skip
depth_each_way = Quantity(
    "depth_each_way", r"\epsilon", "ε", "mm", "depth of focus each way from the film", low=0,
    low_allowed=True,
)  # fmt: skip
_N, _c, _eps = f_number.symbol, circle_of_confusion.symbol, depth_each_way.symbol
_m, _p = magnification.symbol, pupil_magnification.symbol

depth_of_focus = Relation(
    name="depth_of_focus",
    answers="How far may the film be from the image before a point becomes a visible disc, "
    "and how large is the disc?",
    equation=Eq(_eps, _N * _c * (1 + _m / _p)),
    quantities=(
        depth_each_way, f_number, circle_of_confusion, magnification, pupil_magnification,
    ),
    forms=(
        Form(depth_each_way, _N * _c * (1 + _m / _p)),
        Form(circle_of_confusion, _eps / (_N * (1 + _m / _p))),
        Form(f_number, _eps / (_c * (1 + _m / _p))),
        Form(magnification, _p * (_eps / (_N * _c) - 1)),
        Form(pupil_magnification, _m / (_eps / (_N * _c) - 1)),
    ),
    source="Similar triangles at the exit pupil; ±N·c for distant subjects in textbooks",
    limits="Geometric blur only: no diffraction, no aberration.",
)  # fmt: skip
