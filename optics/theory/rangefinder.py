"""The rangefinder: triangle and compensator, what the eye can tell, and how it is coupled.

Angles of convergence are those between the two lines of sight; the base line lies `k` in
front of the film, so the rangefinder sees a subject `D − k` away.
"""

import math

from sympy import Eq, Max, asin, atan, sin, sqrt, tan

from optics.relation import Bound, Form, Quantity, Range, Relation
from optics.theory import lens
from optics.theory.depth import circle_of_confusion, f_number
from optics.theory.lens import (
    extension,
    film_distance,
    focal_length,
    focus_error,
    hiatus,
)

base = Quantity("base", "b", "b", "mm", "rangefinder base", Range.positive())
base_to_film = Quantity(
    "base_to_film", "k", "k", "mm", "distance of the base line in front of the film plane"
)
convergence = Quantity(
    "convergence",
    r"\gamma",
    "γ",
    "rad",
    "convergence of the two lines of sight (plus when they meet in front)",
    Range.above(-math.pi / 2, up_to=math.pi / 2),
)
range_distance = Quantity(
    "range_distance",
    "D_r",
    "D_r",
    "mm",
    "distance from the base line to the subject",
    Range.positive(),
    typed_in="m",
)
_b, _k, _gamma, _Dr = (q.symbol for q in (base, base_to_film, convergence, range_distance))
_D, _f, _h, _x = (q.symbol for q in (film_distance, focal_length, hiatus, extension))
_e, _N, _c = focus_error.symbol, f_number.symbol, circle_of_confusion.symbol

triangle = Relation(
    name="triangle",
    answers="At what angle do the two lines of sight meet on the subject?",
    equation=Eq(tan(_gamma), _b / (_D - _k)),
    quantities=(convergence, base, film_distance, base_to_film),
    forms=(
        Form(convergence, atan(_b / (_D - _k))),
        Form(film_distance, _k + _b / tan(_gamma)),
        Form(base, (_D - _k) * tan(_gamma)),
        Form(base_to_film, _D - _b / tan(_gamma)),
    ),
    bounds=(Bound(film_distance, _k, "a subject stands in front of the base line"),),
    source="Right triangle on the base; Scientific American Supplement 829 (1891)",
    limits="One window looks straight ahead, square to the base.",
)

isosceles_triangle = Relation(
    name="isosceles_triangle",
    answers="At what angle do the lines of sight meet when both windows turn in alike?",
    equation=Eq(tan(_gamma / 2), _b / (2 * (_D - _k))),
    quantities=(convergence, base, film_distance, base_to_film),
    forms=(
        Form(convergence, 2 * atan(_b / (2 * (_D - _k)))),
        Form(film_distance, _k + _b / (2 * tan(_gamma / 2))),
        Form(base, 2 * (_D - _k) * tan(_gamma / 2)),
        Form(base_to_film, _D - _b / (2 * tan(_gamma / 2))),
    ),
    bounds=(Bound(film_distance, _k + _b, "no rangefinder sees nearer than one base before it"),),
    source="Isosceles triangle on the base; Scientific American Supplement 829 (1891)",
    limits="Both windows turn in by the same angle.",
)

mirror_turn = Quantity(
    "mirror_turn", r"\mu", "μ", "rad", "turn of the mirror (plus as the convergence grows)"
)
_mu = mirror_turn.symbol

turning_mirror = Relation(
    name="turning_mirror",
    answers="How far does the mirror turn for a convergence?",
    equation=Eq(_mu, _gamma / 2),
    quantities=(mirror_turn, convergence),
    forms=(Form(mirror_turn, _gamma / 2), Form(convergence, 2 * _mu)),
    source="W. J. Smith, Modern Optical Engineering, 4e, p. 308: the mirror turns by half",
    limits="The mirror turns about an axis square to the plane of sight.",
)

compensator_focal_length = Quantity(
    "compensator_focal_length",
    "f_s",
    "f_s",
    "mm",
    "focal length of the swung lens",
    Range.positive(),
)
compensator_shift = Quantity(
    "compensator_shift", "y", "y", "mm", "sideways shift of the swung lens (plus as it converges)"
)
_fs, _y = compensator_focal_length.symbol, compensator_shift.symbol

swung_lens = Relation(
    name="swung_lens",
    answers="How far does a swung compensator lens shift for a convergence?",
    equation=Eq(_y, _fs * tan(_gamma)),
    quantities=(compensator_shift, compensator_focal_length, convergence),
    forms=(
        Form(compensator_shift, _fs * tan(_gamma)),
        Form(convergence, atan(_y / _fs)),
        Form(compensator_focal_length, _y / tan(_gamma)),
    ),
    source="A lens decentred by y turns a parallel beam by atan(y/f)",
    limits="Paraxial lens, beam parallel before it.",
)

wedge_index = Quantity("wedge_index", "n", "n", "", "refractive index of the wedge", Range.above(1))
wedge_angle = Quantity(
    "wedge_angle", "A", "A", "rad", "angle of the glass wedge", Range.positive(up_to=0.6)
)
deviation = Quantity("deviation", r"\delta", "δ", "rad", "deviation of the beam by the wedge")
_n, _A, _delta = wedge_index.symbol, wedge_angle.symbol, deviation.symbol

thin_wedge = Relation(
    name="thin_wedge",
    answers="By how much does a thin wedge turn a beam?",
    equation=Eq(_delta, (_n - 1) * _A),
    quantities=(deviation, wedge_index, wedge_angle),
    forms=(
        Form(deviation, (_n - 1) * _A),
        Form(wedge_angle, _delta / (_n - 1)),
        Form(wedge_index, 1 + _delta / _A),
    ),
    source="W. J. Smith, Modern Optical Engineering, eq. 7.8a",
    limits="Wedges of a few degrees; 0.5 per cent short at 5°, 2 per cent at 10°.",
)

exact_wedge = Relation(
    name="exact_wedge",
    answers="By how much does a wedge turn a beam that enters it squarely?",
    equation=Eq(sin(_A + _delta), _n * sin(_A)),
    quantities=(deviation, wedge_index, wedge_angle),
    forms=(
        Form(deviation, asin(_n * sin(_A)) - _A),
        Form(wedge_index, sin(_A + _delta) / sin(_A)),
    ),
    bounds=(
        Bound(wedge_index, 1 / sin(_A), "beyond it the beam is totally reflected", is_upper=True),
    ),
    source="Snell's law at the second face; W. J. Smith, Modern Optical Engineering, eq. 7.6",
    limits="The beam enters square to the first face.",
)

wedge_turn = Quantity(
    "wedge_turn",
    r"\theta",
    "θ",
    "rad",
    "turn of each wedge from where they cancel (plus as the convergence grows)",
    Range.above(-math.pi / 2, up_to=math.pi / 2),
)
_theta = wedge_turn.symbol

counter_wedges = Relation(
    name="counter_wedges",
    answers="What convergence do two wedges turned against each other give?",
    equation=Eq(_gamma, 2 * (_n - 1) * _A * sin(_theta)),
    quantities=(convergence, wedge_index, wedge_angle, wedge_turn),
    forms=(
        Form(convergence, 2 * (_n - 1) * _A * sin(_theta)),
        Form(wedge_turn, asin(_gamma / (2 * (_n - 1) * _A))),
        Form(wedge_angle, _gamma / (2 * (_n - 1) * sin(_theta))),
        Form(wedge_index, 1 + _gamma / (2 * _A * sin(_theta))),
    ),
    source="Sum of two thin wedges' deviations; W. J. Smith, Modern Optical Engineering, ch. 7",
    limits="Thin wedges, equal, turned by equal and opposite angles.",
)

wedge_travel = Quantity(
    "wedge_travel", r"\ell", "ℓ", "mm", "travel of the wedge along the beam (plus from the image)"
)
_l = wedge_travel.symbol

sliding_wedge = Relation(
    name="sliding_wedge",
    answers="What convergence does a wedge sliding along a converging beam give?",
    equation=Eq(_gamma, _delta * _l / _fs),
    quantities=(convergence, deviation, wedge_travel, compensator_focal_length),
    forms=(
        Form(convergence, _delta * _l / _fs),
        Form(deviation, _gamma * _fs / _l),
        Form(wedge_travel, _gamma * _fs / _delta),
        Form(compensator_focal_length, _delta * _l / _gamma),
    ),
    source="A wedge at ℓ before the image shifts it by δ·ℓ, seen under f_s",
    limits="Small angles; the wedge stays between the lens of focal length f_s and its image.",
)

finder_magnification = Quantity(
    "finder_magnification", "M", "M", "", "magnification of the rangefinder", Range.positive()
)
eye_acuity = Quantity(
    "eye_acuity",
    r"\varepsilon",
    "ε",
    "rad",
    "smallest misalignment the eye can see",
    Range.between(0, 0.1),
)
effective_base = Quantity("effective_base", "b_M", "b_M", "mm", "effective base", Range.positive())
_M, _eps, _bM = finder_magnification.symbol, eye_acuity.symbol, effective_base.symbol  # noqa: N816

virtual_base = Relation(
    name="virtual_base",
    answers="How long is the base as the eye sees it?",
    equation=Eq(_bM, _b * _M),
    quantities=(effective_base, base, finder_magnification),
    forms=(
        Form(effective_base, _b * _M),
        Form(base, _bM / _M),
        Form(finder_magnification, _bM / _b),
    ),
    source="US Army TM 9-258 (1977), glossary: virtual base = base times magnification",
    limits="None.",
)

range_error = Quantity(
    "range_error",
    r"\Delta D",
    "ΔD",
    "mm",
    "error of range that the eye cannot see",
    Range.at_least(0),
)
_dD = range_error.symbol  # noqa: N816

range_uncertainty = Relation(
    name="range_uncertainty",
    answers="How far out may the distance be before the eye sees it in the rangefinder?",
    equation=Eq(_dD, _Dr**2 * _eps / _bM),
    quantities=(range_error, range_distance, eye_acuity, effective_base),
    forms=(
        Form(range_error, _Dr**2 * _eps / _bM),
        Form(range_distance, sqrt(_dD * _bM / _eps)),
        Form(eye_acuity, _dD * _bM / _Dr**2),
        Form(effective_base, _Dr**2 * _eps / _dD),
    ),
    source="W. J. Smith, Modern Optical Engineering, 4e, p. 308: dD = D²·dθ/B",
    limits="Errors small against the distance.",
)

range_near = Quantity(
    "range_near",
    "D_n",
    "Dₙ",
    "mm",
    "nearest distance not told from the true one",
    Range.positive(),
    typed_in="m",
)
range_far = Quantity(
    "range_far",
    "D_f",
    "D_f",
    "mm",
    "farthest distance not told from the true one",
    Range.positive(),
    typed_in="m",
)

range_near_limit = Relation(
    name="range_near_limit",
    answers="What is the nearest distance that the eye takes for the true one?",
    equation=Eq(1 / range_near.symbol, 1 / _Dr + _eps / _bM),
    quantities=(range_near, range_distance, eye_acuity, effective_base),
    forms=(
        Form(range_near, 1 / (1 / _Dr + _eps / _bM)),
        Form(range_distance, 1 / (1 / range_near.symbol - _eps / _bM)),
        Form(eye_acuity, _bM * (1 / range_near.symbol - 1 / _Dr)),
        Form(effective_base, _eps / (1 / range_near.symbol - 1 / _Dr)),
    ),
    source="Convergence taken as b/D, changed by the eye's acuity",
    limits="Small angles; any size of error.",
)

range_far_limit = Relation(
    name="range_far_limit",
    answers="What is the farthest distance that the eye takes for the true one?",
    equation=Eq(range_far.symbol, 1 / Max(0, 1 / _Dr - _eps / _bM)),
    quantities=(range_far, range_distance, eye_acuity, effective_base),
    forms=(
        # Where the eye could not see the whole convergence, infinity looks the same.
        Form(range_far, 1 / Max(0, 1 / _Dr - _eps / _bM)),
        Form(range_distance, 1 / (1 / range_far.symbol + _eps / _bM)),
        Form(eye_acuity, _bM * (1 / _Dr - 1 / range_far.symbol)),
        Form(effective_base, _eps / (1 / _Dr - 1 / range_far.symbol)),
    ),
    source="Convergence taken as b/D, changed by the eye's acuity",
    limits="Small angles; any size of error.",
)

film_uncertainty = Relation(
    name="film_uncertainty",
    answers="How much focus error at the film does the eye's acuity leave?",
    equation=Eq(_e, _f**2 * _eps / _bM),
    quantities=(focus_error, focal_length, eye_acuity, effective_base),
    forms=(
        Form(focus_error, _f**2 * _eps / _bM),
        Form(focal_length, sqrt(_e * _bM / _eps)),
        Form(eye_acuity, _e * _bM / _f**2),
        Form(effective_base, _f**2 * _eps / _e),
    ),
    source="range_uncertainty times f²/D²: the same at every distance",
    limits="Subjects many focal lengths away.",
)

needed_base = Relation(
    name="needed_base",
    answers="What effective base does a lens need at its full aperture?",
    equation=Eq(_bM, _eps * _f**2 / (_N * _c)),
    quantities=(effective_base, eye_acuity, focal_length, f_number, circle_of_confusion),
    forms=(
        Form(effective_base, _eps * _f**2 / (_N * _c)),
        Form(eye_acuity, _bM * _N * _c / _f**2),
        Form(focal_length, sqrt(_bM * _N * _c / _eps)),
        Form(f_number, _eps * _f**2 / (_bM * _c)),
        Form(circle_of_confusion, _eps * _f**2 / (_bM * _N)),
    ),
    source="film_uncertainty held to the depth of focus N·c",
    limits="Subjects many focal lengths away; the acuity is stated beside each use.",
)

zero_error = Quantity(
    "zero_error",
    r"\gamma_0",
    "γ₀",
    "rad",
    "zero of the rangefinder (plus when infinity needs convergence)",
)
gain = Quantity(
    "gain", "G", "G", "rad/mm", "convergence for each mm of extension", Range.positive()
)
_g0, _G = zero_error.symbol, gain.symbol
coupled_extension = Quantity(
    "coupled_extension", "x_c", "x_c", "mm", "extension at which the two images meet"
)
_xc = coupled_extension.symbol

straight_coupling = Relation(
    name="straight_coupling",
    answers="What convergence does a straight-line coupling give at an extension?",
    equation=Eq(_gamma, _g0 + _G * _x),
    quantities=(convergence, zero_error, gain, extension),
    forms=(
        Form(convergence, _g0 + _G * _x),
        Form(zero_error, _gamma - _G * _x),
        Form(gain, (_gamma - _g0) / _x),
        Form(extension, (_gamma - _g0) / _G),
    ),
    source="Definition of zero and gain",
    limits="A linkage without curvature.",
)

coupling_curvature = Quantity(
    "coupling_curvature", "C", "C", "rad/mm²", "curvature of the coupling (plus as the gain grows)"
)
_C = coupling_curvature.symbol

curved_coupling = Relation(
    name="curved_coupling",
    answers="Where does the lens stand when a linkage with some curvature brings the images "
    "together?",
    equation=Eq(_gamma, _g0 + _G * _xc + _C * _xc**2),
    quantities=(coupled_extension, convergence, zero_error, gain, coupling_curvature),
    forms=(
        # Divided through by the root, so that a straight coupling is the limit and not 0/0.
        Form(coupled_extension, 2 * (_gamma - _g0) / (_G + sqrt(_G**2 + 4 * _C * (_gamma - _g0)))),
        Form(convergence, _g0 + _G * _xc + _C * _xc**2),
        Form(zero_error, _gamma - _G * _xc - _C * _xc**2),
        Form(gain, (_gamma - _g0) / _xc - _C * _xc),
        Form(coupling_curvature, (_gamma - _g0 - _G * _xc) / _xc**2),
    ),
    source="straight_coupling with the next term of its series",
    limits="Small curvature: the gain keeps its sign over the range in use.",
)

_seen = triangle.steps_to(convergence)
_called_for = lens.unit_focusing.steps_to(extension)

coupling_error = Relation(
    name="coupling_error",
    answers="The two images are brought together on a subject: how far off is the lens?",
    equation=Eq(_e, (atan(_b / (_D - _k)) - _g0) / _G - lens.unit_focusing.expression(extension)),
    quantities=(
        focus_error,
        film_distance,
        base,
        base_to_film,
        zero_error,
        gain,
        focal_length,
        hiatus,
    ),
    forms=(
        Form(
            focus_error,
            _xc - _x,
            steps=(
                *_seen,
                *straight_coupling.steps_to(extension, {extension: coupled_extension}),
                *_called_for,
            ),
        ),
        Form(zero_error, _gamma - _G * (_x + _e), steps=(*_seen, *_called_for)),
        Form(gain, (_gamma - _g0) / (_x + _e), steps=(*_seen, *_called_for)),
    ),
    bounds=lens.unit_focusing.bounds,
    source="triangle, straight_coupling and unit_focusing together",
    limits="A coupling without curvature; set exact at two distances it is wrong between.",
)

indicated_distance = Quantity(
    "indicated_distance",
    "D'",
    "D′",
    "mm",
    "distance the coupled lens is set to when the two images meet",
    Range.positive(),
    typed_in="m",
)
_gain_ratio = Quantity(
    "gain_ratio",
    "g",
    "g",
    "",
    "gain as a part of the right one (more: converges too much)",
    Range.positive(),
)
_Di, _g = indicated_distance.symbol, _gain_ratio.symbol

gain_error = Relation(
    name="gain_error",
    answers="To what distance does a coupling of wrong gain set the lens?",
    equation=Eq(_Di, _g * _Dr),
    quantities=(indicated_distance, range_distance, _gain_ratio),
    forms=(
        Form(indicated_distance, _g * _Dr),
        Form(range_distance, _Di / _g),
        Form(_gain_ratio, _Di / _Dr),
    ),
    source="coupling_error for far subjects, zero right at infinity: the convergence b/D_r is "
    "reached at the extension f²/(g·D_r)",
    limits="Small angles; subjects many focal lengths away.",
)

height_error = Quantity(
    "height_error", "v", "v", "rad", "height error between the two images (plus: moving one high)"
)
lean = Quantity(
    "lean", r"\lambda", "λ", "rad", "lean of the edge looked at", Range.above(-1.5, up_to=1.5)
)
false_convergence = Quantity("false_convergence", r"\Delta\gamma", "Δγ", "rad", "false convergence")
_v, _lambda, _dg = height_error.symbol, lean.symbol, false_convergence.symbol

height_effect = Relation(
    name="height_effect",
    answers="What false convergence does a height error make on a leaning edge?",
    equation=Eq(_dg, _v * tan(lean.symbol)),
    quantities=(false_convergence, height_error, lean),
    forms=(
        Form(false_convergence, _v * tan(_lambda)),
        Form(height_error, _dg / tan(_lambda)),
        Form(lean, atan(_dg / _v)),
    ),
    source="Plane geometry: upright edges show no height error",
    limits="A straight edge, its lean measured from the upright.",
)

lath_distance = Quantity(
    "lath_distance", r"\Lambda", "Λ", "mm", "distance of the lath", Range.positive(), typed_in="m"
)
spacing_error = Quantity(
    "spacing_error", r"\Delta b", "Δb", "mm", "error of the lath's spacing (plus when too wide)"
)
false_infinity = Quantity(
    "false_infinity",
    "D_i",
    "D_i",
    "mm",
    "distance at which the rangefinder is set instead of infinity (minus: beyond it)",
    Range.closed(),
    typed_in="m",
)
_Lam, _db, _Dinf = lath_distance.symbol, spacing_error.symbol, false_infinity.symbol

infinity_lath = Relation(
    name="infinity_lath",
    answers="Two marks a base apart stand for infinity: what does a wrong spacing leave?",
    equation=Eq(_Dinf * -_db, _b * _Lam),
    quantities=(false_infinity, base, lath_distance, spacing_error),
    forms=(
        Form(false_infinity, -_b * _Lam / _db),
        Form(spacing_error, -_b * _Lam / _Dinf),
        Form(lath_distance, -_Dinf * _db / _b),
        Form(base, -_Dinf * _db / _Lam),
    ),
    source="Two parallel lines of sight a base apart; plane geometry",
    limits="Marks narrower than the base make the lines of sight converge in front.",
)

_prism = Quantity("prism", r"\Pi", "Π", "", "prism in prism dioptres (cm at 1 m)")
_lens_power = Quantity("lens_power", "F", "F", "1/m", "power of the lens in dioptres")
_decentration = Quantity("decentration", "y", "y", "mm", "decentration of the lens")

prentice = Relation(
    name="prentice",
    answers="What prism does a decentred lens make?",
    equation=Eq(_prism.symbol, _lens_power.symbol * _decentration.symbol / 10),
    quantities=(_prism, _lens_power, _decentration),
    forms=(
        Form(_prism, _lens_power.symbol * _decentration.symbol / 10),
        Form(_decentration, 10 * _prism.symbol / _lens_power.symbol),
        Form(_lens_power, 10 * _prism.symbol / _decentration.symbol),
    ),
    source="Prentice's rule, ophthalmic optics",
    limits="Small decentration.",
)
