"""The barrel: multi-start threads, ring rotation, wrong starts, and metal that grows warm."""

from sympy import Eq, atan, pi, tan

from optics.relation import Form, Quantity, Range, Relation

pitch = Quantity(
    "pitch", "P", "P", "mm", "pitch (distance between neighbouring threads)", Range.positive()
)
starts = Quantity("starts", "n", "n", "", "number of thread starts", Range.at_least(1))
lead = Quantity("lead", "L", "L", "mm", "lead (travel in one whole turn)", Range.positive())
rotation = Quantity(
    "rotation",
    r"\varphi",
    "φ",
    "rad",
    "rotation of the ring (plus in the direction that extends the lens)",
)
travel = Quantity(
    "travel", "z", "z", "mm", "travel along the axis (plus when the lens moves away from the film)"
)
ring_diameter = Quantity(
    "ring_diameter", r"\varnothing", "⌀", "mm", "ring diameter", Range.positive()
)
arc = Quantity("arc", "b", "b", "mm", "arc along the ring's edge (plus as for its rotation)")
starts_moved = Quantity(
    "starts_moved", "k", "k", "", "thread starts moved (plus when the lens ends farther out)"
)
_outside = Quantity(
    "outside_diameter", "d", "d", "mm", "outside diameter of the thread", Range.positive()
)
_mean = Quantity(
    "mean_diameter", "d_m", "dₘ", "mm", "mean diameter of the thread", Range.positive()
)
_lead_angle = Quantity(
    "lead_angle", r"\lambda", "λ", "rad", "lead angle of the thread", Range.positive(up_to=1.5707)
)
_P, _n, _L, _phi, _z = (q.symbol for q in (pitch, starts, lead, rotation, travel))
_dia, _b, _k = ring_diameter.symbol, arc.symbol, starts_moved.symbol

thread_lead = Relation(
    name="thread_lead",
    answers="How far does a multi-start thread travel in one turn?",
    equation=Eq(_L, _n * _P),
    quantities=(lead, starts, pitch),
    forms=(Form(lead, _n * _P), Form(starts, _L / _P), Form(pitch, _L / _n)),
    source="ISO 2901 designation of multi-start trapezoidal threads, as in Tr 8×8(P2)",
    limits="Threads of constant lead.",
)

ring_rotation = Relation(
    name="ring_rotation",
    answers="How far does the lens travel when the ring turns, and the other way about?",
    equation=Eq(_phi / (2 * pi), _z / _L),
    quantities=(rotation, travel, lead),
    forms=(
        Form(rotation, 2 * pi * _z / _L),
        Form(travel, _L * _phi / (2 * pi)),
        Form(lead, 2 * pi * _z / _phi),
    ),
    source="Definition of lead; Shigley's Mechanical Engineering Design, ch. 8",
    limits="No play in the thread: approach every setting from the same side.",
)

ring_arc = Relation(
    name="ring_arc",
    answers="How long is a ring's rotation measured along its edge?",
    equation=Eq(_b, _phi * _dia / 2),
    quantities=(arc, rotation, ring_diameter),
    forms=(
        Form(arc, _phi * _dia / 2),
        Form(rotation, 2 * _b / _dia),
        Form(ring_diameter, 2 * _b / _phi),
    ),
    source="Definition of the radian",
    limits="The edge on which the arc is measured has the diameter given.",
)

start_shift = Relation(
    name="start_shift",
    answers="How far does the lens shift when a helicoid is put together on another start?",
    equation=Eq(_z, _k * _L / _n),
    quantities=(travel, starts_moved, lead, starts),
    forms=(
        Form(travel, _k * _L / _n),
        Form(starts_moved, _z * _n / _L),
        Form(lead, _z * _n / _k),
        Form(starts, _k * _L / _z),
    ),
    source="Definition of a start: neighbouring threads are one pitch apart along the axis",
    limits="Evenly spaced starts, and the ring read at the same index both times.",
)

start_angle = Relation(
    name="start_angle",
    answers="How far round is the next place where the thread can be entered?",
    equation=Eq(_phi, 2 * pi * _k / _n),
    quantities=(rotation, starts_moved, starts),
    forms=(
        Form(rotation, 2 * pi * _k / _n),
        Form(starts_moved, _phi * _n / (2 * pi)),
        Form(starts, 2 * pi * _k / _phi),
    ),
    source="Definition of a start: evenly spaced round the thread",
    limits="Evenly spaced starts.",
)

mean_diameter = Relation(
    name="mean_diameter",
    answers="What is the mean diameter of a square thread?",
    equation=Eq(_mean.symbol, _outside.symbol - _P / 2),
    quantities=(_mean, _outside, pitch),
    forms=(
        Form(_mean, _outside.symbol - _P / 2),
        Form(_outside, _mean.symbol + _P / 2),
        Form(pitch, 2 * (_outside.symbol - _mean.symbol)),
    ),
    source="Shigley's Mechanical Engineering Design, power-screw example, ch. 8",
    limits="Square thread, depth half the pitch.",
)

lead_angle = Relation(
    name="lead_angle",
    answers="How steep is the thread?",
    equation=Eq(tan(_lead_angle.symbol), _L / (pi * _mean.symbol)),
    quantities=(_lead_angle, lead, _mean),
    forms=(
        Form(_lead_angle, atan(_L / (pi * _mean.symbol))),
        Form(lead, pi * _mean.symbol * tan(_lead_angle.symbol)),
        Form(_mean, _L / (pi * tan(_lead_angle.symbol))),
    ),
    source="Shigley's Mechanical Engineering Design, ch. 8",
    limits="Measured at the mean diameter.",
)

_expansion = Quantity("expansion", r"\Delta\ell", "Δℓ", "mm", "change of length (plus when longer)")
_length = Quantity("length", r"\ell", "ℓ", "mm", "length of the part", Range.positive())
_coefficient = Quantity(
    "expansion_coefficient",
    r"\alpha",
    "α",
    "1/K",
    "coefficient of thermal expansion",
    Range.positive(),
)
_warming = Quantity("warming", r"\Delta T", "ΔT", "K", "change of temperature (plus when warmer)")

thermal_expansion = Relation(
    name="thermal_expansion",
    answers="How much does a metal part grow when it warms?",
    equation=Eq(_expansion.symbol, _coefficient.symbol * _length.symbol * _warming.symbol),
    quantities=(_expansion, _coefficient, _length, _warming),
    forms=(
        Form(_expansion, _coefficient.symbol * _length.symbol * _warming.symbol),
        Form(_warming, _expansion.symbol / (_coefficient.symbol * _length.symbol)),
        Form(_length, _expansion.symbol / (_coefficient.symbol * _warming.symbol)),
        Form(_coefficient, _expansion.symbol / (_length.symbol * _warming.symbol)),
    ),
    source="Definition of the linear coefficient; aluminium about 23e-6 per kelvin (handbooks)",
    limits="Small changes of temperature, one metal, free to grow.",
)
