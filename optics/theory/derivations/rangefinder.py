"""The triangle, what the eye cannot see in it, and why a straight coupling is wrong between."""

from sympy import Eq, Rational, atan, tan

from optics.relation import Quantity, Range
from optics.theory.derivations.chain import Derivation, drawn, follows, known, nearly
from optics.theory.lens import (
    extension,
    film_distance,
    focal_length,
    focus_error,
    hiatus,
    newton,
    unit_focusing,
)
from optics.theory.rangefinder import (
    base,
    base_to_film,
    convergence,
    coupled_extension,
    coupling_error,
    effective_base,
    eye_acuity,
    film_uncertainty,
    finder_magnification,
    gain,
    range_distance,
    range_error,
    range_uncertainty,
    straight_coupling,
    triangle,
    virtual_base,
    zero_error,
)

_far = Quantity("false_convergence_angle", r"\gamma'", "γ′", "rad", "convergence not told from it")
_near = Quantity(
    "vergence", r"\nu", "ν", "1/mm", "one over the subject's distance", Range.positive()
)
_set = Quantity(
    "set_vergence", r"\nu_1", "ν₁", "1/mm", "one over the near distance set", Range.positive()
)
_true = Quantity("true_extension", "x", "x", "mm", "extension the subject calls for")
_other = Quantity("other_extension", "x'", "x′", "mm", "extension for the distance found")
_span = Quantity("span_from_base", "w", "w", "mm", "two focal lengths and hiatus, less k")
_b, _k, _gamma, _Dr = (q.symbol for q in (base, base_to_film, convergence, range_distance))
_D, _f, _h, _x = (q.symbol for q in (film_distance, focal_length, hiatus, extension))
_e, _g0, _G, _xc = (q.symbol for q in (focus_error, zero_error, gain, coupled_extension))
_eps, _bM, _M, _dD = (  # noqa: N816 - the symbol is b with index M
    q.symbol for q in (eye_acuity, effective_base, finder_magnification, range_error)
)
_WHOLE = r"e = \frac{\arctan\frac{b}{D - k} - \gamma_0}{G} - x(D)"
_g, _v, _v1 = _far.symbol, _near.symbol, _set.symbol

TRIANGLE = Derivation(
    triangle,
    "One right angle and one base",
    (
        drawn(
            Eq(tan(_gamma), _b / _Dr),
            "One window looks straight ahead, the other turns in until both meet: a triangle with "
            "a right angle, its base known.",
        ),
        drawn(Eq(_Dr, _D - _k), "The base line lies k before the film, from where one measures."),
        follows(
            Eq(tan(_gamma), _b / (_D - _k)),
            "Put in: the angle for a distance from the film.",
            (1, 2),
            convergence,
            range_distance,
        ),
        nearly(
            Eq(_gamma, _b / (_D - _k)),
            "Beyond a metre the angle is so small that it is its own tangent: one over the "
            "distance again, as for the lens. That is why the two can be coupled at all.",
            (3,),
            convergence,
            small=(base,),
            order=2,
        ),
    ),
    (range_distance,),
)

RANGE_UNCERTAINTY = Derivation(
    range_uncertainty,
    "What the eye cannot see, in metres",
    (
        drawn(Eq(_gamma, _b / _Dr), "The convergence for the true distance, small as it is."),
        drawn(Eq(_g, _b / (_Dr + _dD)), "The convergence for a distance a little farther."),
        drawn(
            Eq(_eps, _M * (_gamma - _g)),
            "The finder shows the difference M times as large; below ε the eye sees none.",
        ),
        known(virtual_base, "Base and magnification count together."),
        follows(
            Eq(_eps, _bM * _dD / (_Dr * (_Dr + _dD))),
            "Put the two angles in and join the fractions.",
            (1, 2, 3, 4),
            convergence,
            _far,
            eye_acuity,
            effective_base,
        ),
        nearly(
            Eq(_eps, _bM * _dD / _Dr**2),
            "The error is small against the distance.",
            (5,),
            eye_acuity,
            small=(range_error,),
        ),
        follows(
            Eq(_dD, _Dr**2 * _eps / _bM),
            "Twice as far, four times as uncertain.",
            (6,),
            eye_acuity,
        ),
    ),
    (convergence, _far, base, finder_magnification),
)

FILM_UNCERTAINTY = Derivation(
    film_uncertainty,
    "Why the film does not care how far away the subject is",
    (
        known(range_uncertainty, "How far out the distance may be before the eye sees it."),
        known(newton, "A far subject calls for f² over its distance.", Eq(_x, _f**2 / _Dr)),
        known(
            newton,
            "And the distance taken for it, for a little less.",
            Eq(_other.symbol, _f**2 / (_Dr + _dD)),
        ),
        drawn(Eq(_e, _x - _other.symbol), "The lens is set to one instead of the other."),
        follows(
            Eq(_e, _f**2 * _dD / (_Dr * (_Dr + _dD))),
            "Join the fractions.",
            (2, 3, 4),
            extension,
            _other,
            focus_error,
        ),
        nearly(
            Eq(_e, _f**2 * _dD / _Dr**2),
            "The error is small against the distance.",
            (5,),
            focus_error,
            small=(range_error,),
        ),
        follows(
            Eq(_e, _f**2 * _eps / _bM),
            "The distance drops out: what grows with its square in the world shrinks with its "
            "square at the film. One test tells for all distances.",
            (1, 6),
            range_error,
            focus_error,
        ),
    ),
    (extension, _other, range_distance, range_error),
)

COUPLING_ERROR = Derivation(
    coupling_error,
    "Exact at infinity and near, wrong between",
    (
        known(triangle, "What the subject calls for at the sights."),
        known(
            straight_coupling,
            "What a straight coupling gives them when the lens stands at $x_c$.",
            Eq(_gamma, _g0 + _G * _xc),
        ),
        drawn(Eq(_e, _xc - _x), "The images meet at $x_c$, but the lens should stand at x."),
        follows(
            Eq(_e, (atan(_b / (_D - _k)) - _g0) / _G - _x),
            "Solve the first two for $x_c$.",
            (1, 2, 3),
            convergence,
            coupled_extension,
            focus_error,
        ),
        known(
            unit_focusing,
            "Where the lens should stand for a subject measured from the film.",
            Eq(_x, unit_focusing.expression(extension)),
            tex="x = x(D)",
        ),
        follows(
            Eq(_e, (atan(_b / (_D - _k)) - _g0) / _G - unit_focusing.expression(extension)),
            "Together: the error of the lens when the finder says sharp.",
            (4, 5),
            focus_error,
            extension,
            tex=_WHOLE,
        ),
    ),
    (coupled_extension, extension, convergence),
)

BETWEEN = Derivation(
    coupling_error,
    "How large the error between two exact settings grows",
    (
        known(coupling_error, "The error of the lens when the finder says sharp.", tex=_WHOLE),
        drawn(Eq(_v, 1 / _D), "Count in one over the distance: infinity is 0."),
        drawn(Eq(_g0, 0), "Set exact at infinity."),
        nearly(
            Eq(_e, _b * (_v + _k * _v**2) / _G - _f**2 * (_v + (2 * _f + _h) * _v**2)),
            "For subjects some way off, sights and lens both run as 1/D with a little curvature: "
            "k bends the one, 2f + h the other.",
            (1, 2, 3),
            focus_error,
            film_distance,
            zero_error,
            small=(_near,),
            order=2,
        ),
        drawn(
            Eq(0, _b * (1 + _k * _v1) / _G - _f**2 * (1 + (2 * _f + _h) * _v1)),
            "The gain is set so that a near distance is exact too.",
        ),
        drawn(Eq(_span.symbol, 2 * _f + _h - _k), "The two curvatures differ by so much."),
        nearly(
            Eq(_e, -(_f**2) * _span.symbol * _v * (_v - _v1)),
            "Take the gain from there and put it in. What is left is a bow: nothing at infinity "
            "and at the near setting, plus between them.",
            (4, 5, 6),
            focus_error,
            gain,
            hiatus,
            small=(_near, _set),
            order=2,
        ),
        drawn(Eq(_v, _v1 / 2), "Half way in one over the distance: twice the near distance."),
        follows(
            Eq(_e, Rational(1, 4) * _f**2 * _span.symbol * _v1**2),
            "There the bow is highest. Twice as near a setting, four times the error.",
            (7, 8),
            focus_error,
            _near,
        ),
    ),
    (_near, _set, _span),
)
