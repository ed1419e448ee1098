"""From the lens through the thread to the marks on the ring."""

from sympy import Eq, pi

from optics.relation import Quantity, Range
from optics.theory.depth import circle_of_confusion, depth_each_way, depth_of_focus, f_number
from optics.theory.derivations.chain import Derivation, drawn, follows, known
from optics.theory.helicoid import lead, ring_rotation, rotation, travel
from optics.theory.lens import extension, film_distance, unit_focusing
from optics.theory.scale import depth_mark, depth_mark_angle, mark_angle, scale_mark, zero_angle

_x = Quantity("mark_travel", "x", "x", "mm", "extension for the distance", Range.at_least(0))
_psi, _psi0, _phi, _z, _L = (q.symbol for q in (mark_angle, zero_angle, rotation, travel, lead))
_N, _c, _eps, _beta = (
    q.symbol for q in (f_number, circle_of_confusion, depth_each_way, depth_mark_angle)
)

SCALE_MARK = Derivation(
    scale_mark,
    "The lens, written round a ring",
    (
        known(
            unit_focusing,
            "Where the lens stands for a distance.",
            Eq(_x.symbol, unit_focusing.expression(extension)),
            tex="x = x(D)",
        ),
        known(ring_rotation, "How far the thread turns for a travel."),
        drawn(Eq(_z, _x.symbol), "The ring carries the lens from infinity to there."),
        drawn(Eq(_psi, _psi0 + _phi), "The mark stands where the ring's infinity stands, and on."),
        follows(
            Eq(_psi, _psi0 + 2 * pi * unit_focusing.expression(extension) / _L),
            "Put all in. Each distance has its angle; one lens, one thread, one scale.",
            (1, 2, 3, 4),
            _x,
            rotation,
            travel,
            mark_angle,
            tex=r"\psi = \psi_0 + 2\pi\,\frac{x(D)}{L}",
        ),
    ),
    (_x, rotation, travel, film_distance),
)

DEPTH_MARK = Derivation(
    depth_mark,
    "What the depth marks confess of their maker",
    (
        known(depth_of_focus, "How far out the film may be, for a far subject.", Eq(_eps, _N * _c)),
        known(
            ring_rotation,
            "On the ring that much travel is an angle.",
            Eq(_beta / (2 * pi), _eps / _L),
        ),
        follows(
            Eq(_beta, 2 * pi * _N * _c / _L),
            "Put in. Turned round, the marks tell which circle of confusion their maker used.",
            (1, 2),
            depth_each_way,
            depth_mark_angle,
        ),
    ),
    (depth_each_way,),
)
