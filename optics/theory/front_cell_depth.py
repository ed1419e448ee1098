"""How much a front-cell focusing lens forgives: the cone at the film never changes.

Stop, rear groups and film stand still while the front cell is screwed out, so the light comes to
the film from the same exit pupil over the same way at every distance, unlike with a lens that moves
as a whole (`depth_of_focus`, `depth_near`, `depth_far`), whose cone grows longer close up.
"""

from sympy import Eq, Expr, Max, sqrt

from optics.relation import Bound, Form, Quantity, Range, Relation, Root
from optics.theory.depth import circle_of_confusion, depth_each_way, f_number
from optics.theory.front_cell import cell_to_film, group_focal_length, movement
from optics.theory.lens import focal_length

near_from_film = Quantity(
    "near_from_film",
    "D_n",
    "Dₙ",
    "mm",
    "near limit of the depth of field from the film plane",
    Range.positive(),
    typed_in="m",
)
far_from_film = Quantity(
    "far_from_film",
    "D_f",
    "D_f",
    "mm",
    "far limit of the depth of field from the film plane",
    Range.positive(),
    typed_in="m",
)
_N, _c, _eps = f_number.symbol, circle_of_confusion.symbol, depth_each_way.symbol
_f, _f1, _t, _K = (q.symbol for q in (focal_length, group_focal_length, movement, cell_to_film))
_Dn, _Df = near_from_film.symbol, far_from_film.symbol

cell_depth_of_focus = Relation(
    name="cell_depth_of_focus",
    answers="How far may the film be from the image of a front-cell focusing lens before a point "
    "becomes a visible disc, and how large is the disc?",
    equation=Eq(_eps, _N * _c),
    quantities=(depth_each_way, f_number, circle_of_confusion),
    forms=(
        Form(depth_each_way, _N * _c),
        Form(f_number, _eps / _c),
        Form(circle_of_confusion, _eps / _N),
    ),
    source="Similar triangles at the exit pupil, which stands still; checked by trace of a triplet",
    limits="The same at every distance, exactly, while the stop stands behind the front cell and "
    "does not move with it; N is the f-number at infinity. Geometric blur only.",
)

_cell_depth = Quantity(
    "cell_depth",
    r"\tau",
    "τ",
    "mm",
    "depth of focus carried to the cell, each way",
    Range.at_least(0),
)
_from_focus = Quantity(
    "limit_from_group_focus",
    "v",
    "v",
    "mm",
    "limit from the group's front focal point",
    Range.positive(),
)
_reach = Quantity(
    "limit_reach",
    "w",
    "w",
    "mm",
    "limit less K and the group's focal length, carried by τ",
    Range.positive(),
)
_tau, _v, _w = _cell_depth.symbol, _from_focus.symbol, _reach.symbol
_carried = _N * _c * (_f1 / _f) ** 2
_depth_step = ((_cell_depth, _carried),)
# Newton's equation of the group for a lens that had been focused on the limit.
_moved = 2 * _f1**2 / (_w * (1 + Root(1 - 4 * _f1**2 / _w**2)))
_field_quantities = (
    movement,
    group_focal_length,
    cell_to_film,
    focal_length,
    f_number,
    circle_of_confusion,
)
_SOURCE = "Depth of focus N·c carried to the front cell by (f₁/f)²; checked by trace of a triplet"
_LIMITS = (
    "From the film plane; stop behind the front cell. Small depths, as film_effect: each side is "
    "out by about the part τ over the distance from the group's image to the stop. At 1.5 m and "
    "f/8 that is 0.8 mm of 264 mm for a triplet of 75 mm."
)


def _from_depth(*steps: tuple[Quantity, Expr]) -> tuple[Form, ...]:
    """The forms that follow once the depth at the cell is known, by `steps`."""
    return (
        Form(circle_of_confusion, _tau * (_f / _f1) ** 2 / _N, steps=steps),
        Form(f_number, _tau * (_f / _f1) ** 2 / _c, steps=steps),
        Form(focal_length, _f1 * sqrt(_N * _c / _tau), steps=steps),
    )


cell_depth_near = Relation(
    name="cell_depth_near",
    answers="From what distance on does the picture of a front-cell focusing lens look sharp?",
    equation=Eq(_Dn, _K + _t + _f1 + _f1**2 / (_t + _carried)),
    quantities=(near_from_film, *_field_quantities),
    forms=(
        Form(near_from_film, _K + _t + _f1 + _f1**2 / (_t + _tau), steps=_depth_step),
        Form(
            movement,
            _moved - _tau,
            steps=(*_depth_step, (_reach, _Dn - _K - _f1 + _tau)),
            branch="cell nearer the film",
        ),
        *_from_depth((_from_focus, _Dn - _K - _t - _f1), (_cell_depth, _f1**2 / _v - _t)),
        Form(cell_to_film, _Dn - _t - _f1 - _f1**2 / (_t + _tau), steps=_depth_step),
    ),
    bounds=(
        Bound(
            near_from_film, _K + 3 * _f1 - _carried, "the front group cannot serve a nearer subject"
        ),
    ),
    source=_SOURCE,
    limits=_LIMITS,
)

cell_depth_far = Relation(
    name="cell_depth_far",
    answers="Up to what distance does the picture of a front-cell focusing lens look sharp?",
    equation=Eq(_Df, _K + _t + _f1 + _f1**2 / Max(0, _t - _carried)),
    quantities=(far_from_film, *_field_quantities),
    forms=(
        # With the cell farther in than τ the limit would lie beyond infinity: infinity it is.
        Form(far_from_film, _K + _t + _f1 + _f1**2 / Max(0, _t - _tau), steps=_depth_step),
        Form(
            movement,
            _moved + _tau,
            steps=(*_depth_step, (_reach, _Df - _K - _f1 - _tau)),
            branch="cell nearer the film",
        ),
        *_from_depth((_from_focus, _Df - _K - _t - _f1), (_cell_depth, _t - _f1**2 / _v)),
        Form(cell_to_film, _Df - _t - _f1 - _f1**2 / (_t - _tau), steps=_depth_step),
    ),
    bounds=(
        Bound(
            far_from_film, _K + 3 * _f1 + _carried, "the front group cannot serve a nearer subject"
        ),
    ),
    source=_SOURCE,
    limits=_LIMITS + " Beyond the hyperfocal setting, a movement of τ, it is infinity, exactly.",
)
