"""Why a front cell leaves the depth of focus alone, and what that makes of the depth of field."""

from sympy import Eq, pi

from optics.relation import Quantity, Range
from optics.theory.depth import circle_of_confusion, depth_each_way, f_number
from optics.theory.derivations.chain import Derivation, drawn, follows, known
from optics.theory.front_cell import (
    cell_shift,
    cell_to_film,
    film_effect,
    group_focal_length,
    group_movement,
    movement,
)
from optics.theory.front_cell_depth import cell_depth_near, cell_depth_of_focus, near_from_film
from optics.theory.helicoid import lead, ring_rotation
from optics.theory.lens import (
    entrance_pupil,
    exit_pupil,
    focal_length,
    pupil_magnification,
    pupil_ratio,
)
from optics.theory.scale import cell_depth_mark, depth_mark_angle

_cone = Quantity(
    "cone_length", "l", "l", "mm", "distance from the exit pupil to the film", Range.positive()
)
_near_group = Quantity(
    "near_from_group", "u_n", "uₙ", "mm", "near limit from the group", Range.positive()
)
_near_moved = Quantity(
    "near_movement", "t_n", "tₙ", "mm", "movement for the near limit", Range.positive()
)
_N, _c, _eps = (q.symbol for q in (f_number, circle_of_confusion, depth_each_way))
_p, _f, _f1 = (q.symbol for q in (pupil_magnification, focal_length, group_focal_length))
_t, _dt, _K, _Dn = (q.symbol for q in (movement, cell_shift, cell_to_film, near_from_film))
_dA, _dE = exit_pupil.symbol, entrance_pupil.symbol  # noqa: N816 - d with index A and E
_l = _cone.symbol
_un, _tn = _near_group.symbol, _near_moved.symbol
_beta, _L = depth_mark_angle.symbol, lead.symbol
_never_changes = known(
    cell_depth_of_focus, "How far out of the film an image may lie, the same at every distance."
)

CELL_DEPTH_OF_FOCUS = Derivation(
    cell_depth_of_focus,
    "A cone that never changes",
    (
        drawn(
            Eq(_c / _eps, _dA / _l),
            "The light comes as a cone from the exit pupil to the sharp point. A film ε away from "
            "the point cuts it in a disc: similar triangles.",
        ),
        known(pupil_ratio, "From behind, the aperture looks p times as large as from the front."),
        drawn(Eq(_dE, _f / _N), "With the cell home the f-number says how wide the entrance is."),
        drawn(
            Eq(_l, _p * _f),
            "With the cell home the film is in the focal plane, p·f behind the exit pupil. Screw "
            "the cell out: stop, rear groups and film stand still, so the exit pupil stays as wide "
            "and as far away.",
        ),
        follows(
            Eq(_eps, _N * _c),
            "Solve the triangles for ε. Distance has no part in it: nothing behind the cell has "
            "moved.",
            (1, 2, 3, 4),
            depth_each_way,
            exit_pupil,
            entrance_pupil,
            _cone,
        ),
    ),
    (exit_pupil, entrance_pupil, _cone, focal_length, pupil_magnification),
)

CELL_DEPTH_NEAR = Derivation(
    cell_depth_near,
    "The room at the film, laid out before the cell",
    (
        known(
            group_movement,
            "To be sharp itself, the near limit would need the cell farther out, at tₙ.",
            Eq(_tn * (_un - _f1), _f1**2),
        ),
        drawn(
            Eq(_Dn, _K + _t + _un),
            "The cell stands at t, for the distance focused on. Film to cell is K + t, and the "
            "near limit lies uₙ before that.",
        ),
        known(
            film_effect,
            "So the near limit's image lies behind the film as it would if the cell were so much "
            "too far in.",
            Eq(_eps, (_tn - _t) * (_f / _f1) ** 2),
        ),
        _never_changes,
        follows(
            Eq(_Dn, _K + _t + _f1 + _f1**2 / (_t + _N * _c * (_f1 / _f) ** 2)),
            "Put all in. The far limit is the same with the sign of c turned round; where nothing "
            "is left under the line it is infinity.",
            (1, 2, 3, 4),
            _near_group,
            near_from_film,
            _near_moved,
            depth_each_way,
        ),
    ),
    (_near_group, _near_moved, depth_each_way),
)

CELL_DEPTH_MARK = Derivation(
    cell_depth_mark,
    "Depth marks that are right at every distance",
    (
        _never_changes,
        known(
            film_effect,
            "The cell's shift that makes so much at the film.",
            Eq(_eps, _dt * (_f / _f1) ** 2),
        ),
        known(
            ring_rotation,
            "On the cell's ring that shift is an angle.",
            Eq(_beta / (2 * pi), _dt / _L),
        ),
        follows(
            Eq(_beta, 2 * pi * _N * _c * _f1**2 / (_L * _f**2)),
            "Put in. The distance is not in it, so the marks hold close up as they do far away.",
            (1, 2, 3),
            depth_each_way,
            cell_shift,
            depth_mark_angle,
        ),
    ),
    (depth_each_way, cell_shift),
)
