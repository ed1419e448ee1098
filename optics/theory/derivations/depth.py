"""From two rays at the rim of the pupil to depth of focus, depth of field and hyperfocal."""

from sympy import Eq

from optics.relation import Quantity, Range
from optics.theory.depth import (
    circle_of_confusion,
    depth_each_way,
    depth_near,
    depth_of_focus,
    f_number,
    hyperfocal,
    hyperfocal_distance,
    near_limit,
)
from optics.theory.derivations.chain import Derivation, drawn, follows, known, nearly
from optics.theory.lens import (
    entrance_pupil,
    exit_pupil,
    focal_length,
    magnification,
    magnification_from_distance,
    object_distance,
    pupil_magnification,
    pupil_ratio,
)

_cone = Quantity(
    "cone_length", "l", "l", "mm", "distance from the exit pupil to the image", Range.positive()
)
_offset = Quantity("pupil_offset", "z_E", "z_E", "mm", "entrance pupil behind the principal plane")
_from_pupil = Quantity(
    "focus_from_pupil", "w", "w", "mm", "focus from the entrance pupil", Range.positive()
)
_near_pupil = Quantity(
    "near_from_pupil", "w_n", "wₙ", "mm", "near limit from the pupil", Range.positive()
)
_N, _c, _eps, _H = (q.symbol for q in (f_number, circle_of_confusion, depth_each_way, hyperfocal))
_m, _p, _f, _s = (
    q.symbol for q in (magnification, pupil_magnification, focal_length, object_distance)
)
_dA, _dE, _l, _z, _w, _wn, _sn = (  # noqa: N816 - the symbols are d with index A and E
    q.symbol
    for q in (exit_pupil, entrance_pupil, _cone, _offset, _from_pupil, _near_pupil, near_limit)
)
_aperture = drawn(Eq(_dE, _f / _N), "The f-number says how wide the entrance pupil is.")

DEPTH_OF_FOCUS = Derivation(
    depth_of_focus,
    "A cone of light, cut too early or too late",
    (
        drawn(
            Eq(_c / _eps, _dA / _l),
            "The light comes as a cone from the exit pupil to the sharp point. A film ε away from "
            "the point cuts it in a disc: similar triangles.",
        ),
        known(pupil_ratio, "From behind, the aperture looks p times as large as from the front."),
        _aperture,
        drawn(
            Eq(_l, _f * (_p + _m)),
            "The exit pupil lies p·f before the focal point, and the image of a near subject m·f "
            "behind it.",
        ),
        follows(
            Eq(_eps, _N * _c * (1 + _m / _p)),
            "Solve the triangles for ε and put the rest in: the focal length has dropped out.",
            (1, 2, 3, 4),
            depth_each_way,
            exit_pupil,
            entrance_pupil,
            _cone,
        ),
        nearly(
            Eq(_eps, _N * _c),
            "For distant subjects N·c is left. A wide aperture is a blunt cone, and forgives "
            "little.",
            (5,),
            depth_each_way,
            small=(magnification,),
            order=0,
        ),
    ),
    (exit_pupil, entrance_pupil, _cone, focal_length),
)

DEPTH_NEAR = Derivation(
    depth_near,
    "The blur disc, laid out at the subject",
    (
        drawn(
            Eq((_w - _wn) / _wn, _c / _m / _dE),
            "The blur disc c on the film is a disc c/m at the distance focused on. A cone from a "
            "nearer point through the whole aperture fills it: similar triangles, from the pupil.",
        ),
        _aperture,
        known(magnification_from_distance, "How large the subject is on the film."),
        drawn(Eq(_w, _s + _z), "From the entrance pupil, not from the principal plane."),
        drawn(Eq(_wn, _sn + _z), "The near limit likewise."),
        drawn(Eq(_z, _f / _p - _f), "Where the entrance pupil lies, by the pupils' own size."),
        follows(
            Eq(
                _sn,
                (_s + _f / _p - _f) * (_f / _N) / (_f / _N + _c * (_s - _f) / _f) - (_f / _p - _f),
            ),
            "Solve for the near limit. The far limit has the same triangles with the sign of c "
            "turned round.",
            (1, 2, 3, 4, 5, 6),
            near_limit,
            entrance_pupil,
            magnification,
            _from_pupil,
            _near_pupil,
            _offset,
        ),
    ),
    (_from_pupil, _near_pupil, entrance_pupil, _offset, magnification),
)

HYPERFOCAL = Derivation(
    hyperfocal_distance,
    "When the far cone becomes a beam",
    (
        drawn(
            Eq(_c / _m, _dE),
            "Light from infinity comes as a parallel beam as wide as the aperture. Where its disc "
            "is as large as the blur allowed, infinity is just sharp.",
        ),
        _aperture,
        known(
            magnification_from_distance,
            "The lens is focused on the distance looked for.",
            Eq(_m, _f / (_H - _f)),
        ),
        follows(
            Eq(_H, _f**2 / (_N * _c) + _f),
            "Put aperture and size in. Pupils have no part in it: a beam is as wide everywhere.",
            (1, 2, 3),
            hyperfocal,
            entrance_pupil,
            magnification,
        ),
    ),
    (entrance_pupil, magnification),
)
