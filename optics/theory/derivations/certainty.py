"""Why repeats help, why a limit is shared out by √3, and how two readings are best joined."""

from sympy import Eq, Integral

from optics.relation import Quantity, Range
from optics.theory.certainty import (
    best_value,
    first_reading,
    first_uncertainty,
    half_width,
    mean_uncertainty,
    repeats,
    scatter,
    second_reading,
    second_uncertainty,
    standard_uncertainty,
    weighted_mean,
    weighted_uncertainty,
)
from optics.theory.derivations.chain import Derivation, DerivationLine, Rule, drawn, follows

_place = Quantity("z", "z", "z", "mm", "where within its limits the error may be")
_limit_part = Quantity("limit_part", "u_a", "u_a", "mm", "what the limit adds", Range.positive())
_repeat_part = Quantity("repeat_part", "u_s", "uₛ", "mm", "what the repeats add", Range.positive())
_share = Quantity("share", "w", "w", "", "share of the first reading")
_u, _s, _n, _a = (q.symbol for q in (standard_uncertainty, scatter, repeats, half_width))
_x1, _x2, _best = first_reading.symbol, second_reading.symbol, best_value.symbol
_u1, _u2 = first_uncertainty.symbol, second_uncertainty.symbol
_z, _ua, _us, _w = (q.symbol for q in (_place, _limit_part, _repeat_part, _share))

MEAN_UNCERTAINTY = Derivation(
    mean_uncertainty,
    "Repeats and limits",
    (
        drawn(
            Eq(_us**2, _n * _s**2 / _n**2),
            "The mean is the sum over n. Independent scatters add by their squares, so n of them "
            "over n: repeats help by the root of their number.",
        ),
        drawn(
            Eq(_ua**2, Integral(_z**2 / (2 * _a), (_z, -_a, _a))),
            "Within its limits the instrument's error is anywhere, each place as likely. Its mean "
            "square is that of a rectangle.",
        ),
        follows(
            Eq(_ua**2, _a**2 / 3),
            "Work the integral: this is where the √3 comes from.",
            (2,),
            _limit_part,
        ),
        drawn(
            Eq(_u**2, _us**2 + _ua**2),
            "Both are independent of each other: squares again. Repeats do not help against the "
            "limit, for it is the same each time.",
        ),
        follows(
            Eq(_u**2, _s**2 / _n + _a**2 / 3),
            "Put both in.",
            (1, 3, 4),
            _repeat_part,
            _limit_part,
            standard_uncertainty,
        ),
    ),
    (_repeat_part, _limit_part, _place),
)

WEIGHTED_MEAN = Derivation(
    weighted_mean,
    "The better reading counts more, and by how much",
    (
        drawn(
            Eq(_best, _w * _x1 + (1 - _w) * _x2),
            "Give the first a share w, the second the rest.",
        ),
        drawn(
            Eq(_u**2, _w**2 * _u1**2 + (1 - _w) ** 2 * _u2**2),
            "The uncertainty of that sum, by squares.",
        ),
        DerivationLine(
            Eq(0, 2 * _w * _u1**2 - 2 * (1 - _w) * _u2**2),
            "Choose the share that makes it least: there it stands still as w changes.",
            Rule.SLOPE,
            (2,),
            small=(_share,),
        ),
        follows(
            Eq(_w, _u2**2 / (_u1**2 + _u2**2)),
            "Solve for the share. Half as uncertain, four times the weight.",
            (3,),
            _share,
        ),
        follows(
            Eq(_best, (_x1 / _u1**2 + _x2 / _u2**2) / (1 / _u1**2 + 1 / _u2**2)),
            "Put the share in.",
            (1, 4),
            best_value,
            _share,
        ),
    ),
    (_share, standard_uncertainty),
)

WEIGHTED_UNCERTAINTY = Derivation(
    weighted_uncertainty,
    "Together they are better than the better one",
    (
        drawn(
            Eq(_u**2, _w**2 * _u1**2 + (1 - _w) ** 2 * _u2**2),
            "The uncertainty of a sum by shares.",
        ),
        drawn(Eq(_w, _u2**2 / (_u1**2 + _u2**2)), "The best share, from the weighted mean."),
        follows(
            Eq(1 / _u**2, 1 / _u1**2 + 1 / _u2**2),
            "Put in: certainties, one over the squares, simply add. Even a poor reading never "
            "makes it worse.",
            (1, 2),
            standard_uncertainty,
            _share,
        ),
    ),
    (_share,),
)
