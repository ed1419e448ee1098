"""From the shape of a thread to the ring's turn and to a wrong start."""

from sympy import Eq, pi

from optics.relation import Quantity, Range
from optics.theory.derivations.chain import Derivation, drawn, follows, known
from optics.theory.helicoid import (
    lead,
    pitch,
    ring_rotation,
    rotation,
    start_shift,
    starts,
    starts_moved,
    thread_lead,
    travel,
)

_slope = Quantity("steepness", r"\kappa", "κ", "mm/rad", "travel for each radian", Range.positive())
_phi, _z, _L, _P, _n, _k = (q.symbol for q in (rotation, travel, lead, pitch, starts, starts_moved))

RING_ROTATION = Derivation(
    ring_rotation,
    "A thread is a ramp rolled up",
    (
        drawn(
            Eq(_z, _slope.symbol * _phi),
            "Unroll the thread and it is a straight ramp: the travel grows in step with the turn.",
        ),
        drawn(Eq(_L, _slope.symbol * 2 * pi), "One whole turn, 2π, travels the lead."),
        follows(
            Eq(_z, _L * _phi / (2 * pi)),
            "Take the steepness from the second and put it into the first.",
            (1, 2),
            travel,
            _slope,
        ),
        follows(
            Eq(_phi / (2 * pi), _z / _L),
            "So many turns as there are leads in the travel: this is how a shop says it.",
            (3,),
            travel,
        ),
    ),
    (_slope,),
)

START_SHIFT = Derivation(
    start_shift,
    "What one start is worth",
    (
        known(thread_lead, "Following one thread for a turn, all the other starts are passed."),
        drawn(
            Eq(_z, _k * _P),
            "Enter k threads further on, with the ring at the same index: along the axis "
            "neighbouring threads are one pitch apart.",
        ),
        follows(
            Eq(_z, _k * _L / _n),
            "The pitch is the lead shared out among the starts. So a wrong start is millimetres, "
            "never hundredths.",
            (1, 2),
            travel,
            pitch,
        ),
    ),
    (pitch,),
)
