"""How much focus error the picture forgives: depth of focus, depth of field, hyperfocal."""

from sympy import Eq, Float, Max, Rational, log, sqrt

from optics.relation import Bound, Form, Quantity, Range, Relation
from optics.theory.front_cell import cell_to_film, group_focal_length, movement
from optics.theory.lens import (
    extension,
    film_distance,
    focal_length,
    hiatus,
    magnification,
    object_distance,
    pupil_magnification,
)

f_number = Quantity("f_number", "N", "N", "", "f-number", Range.positive(), typed_in="f/")
circle_of_confusion = Quantity(
    "circle_of_confusion",
    "c",
    "c",
    "mm",
    "circle of confusion (blur disc still taken as sharp)",
    Range.at_least(0),
)
depth_each_way = Quantity(
    "depth_each_way",
    r"\epsilon",
    "ε",
    "mm",
    "depth of focus each way from the film",
    Range.at_least(0),
)
_N, _c, _eps = f_number.symbol, circle_of_confusion.symbol, depth_each_way.symbol
_m, _p = magnification.symbol, pupil_magnification.symbol
_f, _s, _x, _h = focal_length.symbol, object_distance.symbol, extension.symbol, hiatus.symbol

depth_of_focus = Relation(
    name="depth_of_focus",
    answers="How far may the film be from the image before a point becomes a visible disc, "
    "and how large is the disc?",
    equation=Eq(_eps, _N * _c * (1 + _m / _p)),
    quantities=(
        depth_each_way,
        f_number,
        circle_of_confusion,
        magnification,
        pupil_magnification,
    ),
    forms=(
        Form(depth_each_way, _N * _c * (1 + _m / _p)),
        Form(circle_of_confusion, _eps / (_N * (1 + _m / _p))),
        Form(f_number, _eps / (_c * (1 + _m / _p))),
        Form(magnification, _p * (_eps / (_N * _c) - 1)),
        Form(pupil_magnification, _m / (_eps / (_N * _c) - 1)),
    ),
    source="Similar triangles at the exit pupil; ±N·c for distant subjects in textbooks",
    limits="Geometric blur only: no diffraction, no aberration. The whole lens moves; for a front "
    "cell cell_depth_of_focus holds.",
)

_pupil_offset = Quantity(
    "pupil_offset",
    "z_E",
    "z_E",
    "mm",
    "entrance pupil behind the front principal plane (minus: before it)",
)
_zE = _pupil_offset.symbol  # noqa: N816 - the symbol is z with index E

entrance_pupil_offset = Relation(
    name="entrance_pupil_offset",
    answers="Where is the entrance pupil against the front principal plane?",
    equation=Eq(_zE, _f / _p - _f),
    quantities=(_pupil_offset, focal_length, pupil_magnification),
    forms=(
        Form(_pupil_offset, _f / _p - _f),
        Form(focal_length, _zE / (1 / _p - 1)),
        Form(pupil_magnification, _f / (_f + _zE)),
    ),
    source="Pupils as conjugates: pupil magnification p puts the entrance pupil at f(1/p − 1)",
    limits="Paraxial pupils.",
)

near_limit = Quantity(
    "near_limit",
    "s_n",
    "sₙ",
    "mm",
    "near limit of the depth of field from the front principal plane",
    typed_in="m",
)
far_limit = Quantity(
    "far_limit",
    "s_f",
    "s_f",
    "mm",
    "far limit of the depth of field from the front principal plane",
    typed_in="m",
)
_sn, _sf = near_limit.symbol, far_limit.symbol
_spread = Quantity(
    "spread", "k", "k", "1/mm", "depth of field as a vergence, N·c/f²", Range.at_least(0)
)
_from_pupil = Quantity(
    "from_pupil",
    "w",
    "w",
    "",
    "weight of the focused distance seen from the pupil",
    Range.positive(),
)
_k, _w = _spread.symbol, _from_pupil.symbol
# In 1/s, so that a lens focused on infinity is as exact as any other.
_limit_steps = (
    *entrance_pupil_offset.steps_to(_pupil_offset),
    (_spread, _N * _c / _f**2),
    (_from_pupil, 1 + _zE / _s),
)
_nearer_than_focus = Bound(object_distance, _f, "nearer than one focal length no image forms")
_field_quantities = (object_distance, focal_length, f_number, circle_of_confusion)

depth_near = Relation(
    name="depth_near",
    answers="From what distance on does the picture look sharp?",
    equation=Eq(
        _sn,
        (_s + _f / _p - _f) * (_f / _N) / (_f / _N + _c * (_s - _f) / _f) - (_f / _p - _f),
    ),
    quantities=(near_limit, *_field_quantities, pupil_magnification),
    forms=(
        Form(near_limit, _w / (1 / _s + _k * (1 - _f / _s)) - _zE, steps=_limit_steps),
        Form(
            circle_of_confusion,
            _f**2 / _N * ((1 + _zE / _s) / (_sn + _zE) - 1 / _s) / (1 - _f / _s),
            steps=_limit_steps[:1],
        ),
        Form(
            f_number,
            _f**2 / _c * ((1 + _zE / _s) / (_sn + _zE) - 1 / _s) / (1 - _f / _s),
            steps=_limit_steps[:1],
        ),
        Form(
            object_distance,
            (1 - _zE / (_sn + _zE) - _k * _f) / (1 / (_sn + _zE) - _k),
            steps=_limit_steps[:2],
        ),
    ),
    bounds=(_nearer_than_focus,),
    source="Two rays from the entrance pupil's rim; general pupil form verified by exact trace",
    limits="Geometric blur only; distances from the front principal plane. The whole lens moves; "
    "for a front cell cell_depth_near holds.",
)

depth_far = Relation(
    name="depth_far",
    answers="Up to what distance does the picture look sharp?",
    equation=Eq(
        _sf,
        (_s + _f / _p - _f) * (_f / _N) / Max(0, _f / _N - _c * (_s - _f) / _f) - (_f / _p - _f),
    ),
    quantities=(far_limit, *_field_quantities, pupil_magnification),
    forms=(
        # Beyond the hyperfocal distance the vergence would be negative: infinity it is.
        Form(far_limit, _w / Max(0, 1 / _s - _k * (1 - _f / _s)) - _zE, steps=_limit_steps),
        Form(
            circle_of_confusion,
            _f**2 / _N * (1 / _s - (1 + _zE / _s) / (_sf + _zE)) / (1 - _f / _s),
            steps=_limit_steps[:1],
        ),
        Form(
            f_number,
            _f**2 / _c * (1 / _s - (1 + _zE / _s) / (_sf + _zE)) / (1 - _f / _s),
            steps=_limit_steps[:1],
        ),
        Form(
            object_distance,
            (1 - _zE / (_sf + _zE) + _k * _f) / (1 / (_sf + _zE) + _k),
            steps=_limit_steps[:2],
        ),
    ),
    bounds=(_nearer_than_focus,),
    source="Two rays from the entrance pupil's rim; general pupil form verified by exact trace",
    limits="Geometric blur only; distances from the front principal plane. The whole lens moves; "
    "for a front cell cell_depth_far holds.",
)

limit_from_film = Quantity(
    "limit_from_film",
    "D_l",
    "D_l",
    "mm",
    "limit of the depth of field from the film plane",
    Range.positive(),
    typed_in="m",
)
limit_from_lens = Quantity(
    "limit_from_lens",
    "s_l",
    "s_l",
    "mm",
    "limit of the depth of field from the front principal plane",
    typed_in="m",
)
_Dl, _sl, _D = limit_from_film.symbol, limit_from_lens.symbol, film_distance.symbol

film_from_lens = Relation(
    name="film_from_lens",
    answers="How far from the film is what is so far from the front principal plane?",
    equation=Eq(_Dl, _sl + _f + _x + _h),
    quantities=(limit_from_film, limit_from_lens, focal_length, extension, hiatus),
    forms=(
        Form(limit_from_film, _sl + _f + _x + _h),
        Form(limit_from_lens, _Dl - _f - _x - _h),
        Form(extension, _Dl - _sl - _f - _h),
        Form(hiatus, _Dl - _sl - _f - _x),
        Form(focal_length, _Dl - _sl - _x - _h),
    ),
    source="Definition of extension and hiatus",
    limits="The lens stands at the extension given.",
)

_K, _t, _f1 = cell_to_film.symbol, movement.symbol, group_focal_length.symbol

film_from_cell_lens = Relation(
    name="film_from_cell_lens",
    answers="How far from the film is what is so far from the front principal plane, when only "
    "the front cell moves?",
    equation=Eq(_Dl, _sl + _K + _t + _f1 - _f),
    quantities=(
        limit_from_film,
        limit_from_lens,
        cell_to_film,
        movement,
        group_focal_length,
        focal_length,
    ),
    forms=(
        Form(limit_from_film, _sl + _K + _t + _f1 - _f),
        Form(limit_from_lens, _Dl - _K - _t - _f1 + _f),
        Form(cell_to_film, _Dl - _sl - _t - _f1 + _f),
        Form(movement, _Dl - _sl - _K - _f1 + _f),
        Form(group_focal_length, _Dl - _sl - _K - _t + _f),
        Form(focal_length, _sl + _K + _t + _f1 - _Dl),
    ),
    source="front_cell_focusing less the lens-to-subject distance f(1 + 1/m) of cell_magnification",
    limits="The focal length is taken as constant; it changes slightly as the cell moves.",
)

hyperfocal = Quantity(
    "hyperfocal",
    "H",
    "H",
    "mm",
    "hyperfocal distance from the front principal plane",
    Range.positive(),
    typed_in="m",
)
_H = hyperfocal.symbol

hyperfocal_distance = Relation(
    name="hyperfocal_distance",
    answers="Focused where does the depth of field just reach infinity?",
    equation=Eq(_H, _f**2 / (_N * _c) + _f),
    quantities=(hyperfocal, focal_length, f_number, circle_of_confusion),
    forms=(
        Form(hyperfocal, _f**2 / (_N * _c) + _f),
        Form(f_number, _f**2 / (_c * (_H - _f))),
        Form(circle_of_confusion, _f**2 / (_N * (_H - _f))),
        Form(focal_length, 2 * _H / (1 + sqrt(1 + 4 * _H / (_N * _c)))),
    ),
    bounds=(Bound(hyperfocal, _f, "the hyperfocal distance is beyond one focal length"),),
    source="depth_far at infinity; the same for every pupil magnification",
    limits="From the front principal plane; some sources leave out the last f.",
)

_near_edge = Quantity(
    "near_edge", "d_n", "dₙ", "mm", "distance of the nearer subject", Range.positive(), typed_in="m"
)
_far_edge = Quantity(
    "far_edge",
    "d_f",
    "d_f",
    "mm",
    "distance of the farther subject",
    Range.positive(),
    typed_in="m",
)
_between = Quantity(
    "focus_between", "P", "P", "mm", "distance to focus on", Range.positive(), typed_in="m"
)
_dn, _df, _P = _near_edge.symbol, _far_edge.symbol, _between.symbol

focus_between = Relation(
    name="focus_between",
    answers="Where is the ring to be set so that two distances are equally sharp?",
    equation=Eq(2 / _P, 1 / _dn + 1 / _df),
    quantities=(_between, _near_edge, _far_edge),
    forms=(
        Form(_between, 2 / (1 / _dn + 1 / _df)),
        Form(_near_edge, 1 / (2 / _P - 1 / _df)),
        Form(_far_edge, 1 / (2 / _P - 1 / _dn)),
    ),
    source="NAVEDTRA 14209, Photography (Basic), p. 1-26: P = 2Dd/(D + d)",
    limits="Subjects many focal lengths away.",
)

wavelength = Quantity(
    "wavelength", r"\lambda", "λ", "mm", "wavelength of the light", Range.positive()
)
_lambda = wavelength.symbol

quarter_wave = Relation(
    name="quarter_wave",
    answers="How far may the film be out before a perfect lens shows it?",
    equation=Eq(_eps, 2 * _lambda * _N**2),
    quantities=(depth_each_way, wavelength, f_number),
    forms=(
        Form(depth_each_way, 2 * _lambda * _N**2),
        Form(wavelength, _eps / (2 * _N**2)),
        Form(f_number, sqrt(_eps / (2 * _lambda))),
    ),
    source="Rayleigh's quarter wave; W. J. Smith, Modern Optical Engineering, ch. 11",
    limits="A lens without aberrations; distant subject.",
)

airy_diameter = Quantity(
    "airy_diameter",
    "b_A",
    "b_A",
    "mm",
    "diameter of the Airy disc to its first dark ring",
    Range.positive(),
)
_bA = airy_diameter.symbol  # noqa: N816 - the symbol is b with index A
# As a float it prints as 2.44 and not as 61/25; with so many digits it is exact enough to prove.
_FIRST_RING = Float("2.44", 50)

airy_disc = Relation(
    name="airy_disc",
    answers="How large is the smallest disc a perfect lens can make?",
    equation=Eq(_bA, _FIRST_RING * _lambda * _N),
    quantities=(airy_diameter, wavelength, f_number),
    forms=(
        Form(airy_diameter, _FIRST_RING * _lambda * _N),
        Form(wavelength, _bA / (Rational("2.44") * _N)),
        Form(f_number, _bA / (Rational("2.44") * _lambda)),
    ),
    source="Airy; W. J. Smith, Modern Optical Engineering, ch. 6",
    limits="A lens without aberrations; distant subject; round aperture.",
)

_defocus = Quantity("defocus_blur", "b_d", "b_d", "mm", "blur disc of defocus", Range.at_least(0))
_grain = Quantity("receiver_blur", "b_r", "b_r", "mm", "blur of film and eye", Range.at_least(0))
total_blur = Quantity("total_blur", "b", "b", "mm", "blur of all causes together", Range.positive())
_bd, _br, _b = _defocus.symbol, _grain.symbol, total_blur.symbol

blur_budget = Relation(
    name="blur_budget",
    answers="How large is the blur of defocus, diffraction, film and eye together?",
    equation=Eq(_b**2, _bd**2 + _bA**2 + _br**2),
    quantities=(total_blur, _defocus, airy_diameter, _grain),
    forms=(
        Form(total_blur, sqrt(_bd**2 + _bA**2 + _br**2)),
        Form(_defocus, sqrt(_b**2 - _bA**2 - _br**2)),
        Form(airy_diameter, sqrt(_b**2 - _bd**2 - _br**2)),
        Form(_grain, sqrt(_b**2 - _bd**2 - _bA**2)),
    ),
    source="Independent blurs added as squares (common practice, no source)",
    limits="A rule of thumb: blurs of different shape do not add exactly so.",
)

diagonal = Quantity("diagonal", r"\ell", "ℓ", "mm", "diagonal of the picture", Range.positive())
_divisor = Quantity("divisor", "q", "q", "", "parts the length is divided into", Range.above(1))
viewing_distance = Quantity(
    "viewing_distance",
    "V",
    "V",
    "mm",
    "distance from which the print is looked at",
    Range.positive(),
    typed_in="m",
)
_acuity = Quantity(
    "acuity", r"\alpha", "α", "rad", "smallest angle the eye tells apart", Range.positive(up_to=0.1)
)
enlargement = Quantity(
    "enlargement", "E", "E", "", "enlargement from negative to print", Range.positive()
)
_l, _q, _V, _al, _E = (
    q.symbol for q in (diagonal, _divisor, viewing_distance, _acuity, enlargement)
)

confusion_from_diagonal = Relation(
    name="confusion_from_diagonal",
    answers="What circle of confusion does a part of the diagonal give?",
    equation=Eq(_c, _l / _q),
    quantities=(circle_of_confusion, diagonal, _divisor),
    forms=(
        Form(circle_of_confusion, _l / _q),
        Form(diagonal, _c * _q),
        Form(_divisor, _l / _c),
    ),
    source="Common practice: diagonal/1500 or diagonal/1730",
    limits="A convention for prints seen whole from about their diagonal.",
)

confusion_from_focal_length = Relation(
    name="confusion_from_focal_length",
    answers="What circle of confusion does a part of the focal length give?",
    equation=Eq(_c, _f / _q),
    quantities=(circle_of_confusion, focal_length, _divisor),
    forms=(
        Form(circle_of_confusion, _f / _q),
        Form(focal_length, _c * _q),
        Form(_divisor, _f / _c),
    ),
    source="Common practice of older tables, no source: focal length/1000 to /2000",
    limits="A convention for prints seen from where their perspective is right.",
)

confusion_from_print = Relation(
    name="confusion_from_print",
    answers="What circle of confusion does a print of a given size and viewing distance need?",
    equation=Eq(_c, _al * _V / _E),
    quantities=(circle_of_confusion, _acuity, viewing_distance, enlargement),
    forms=(
        Form(circle_of_confusion, _al * _V / _E),
        Form(_acuity, _c * _E / _V),
        Form(viewing_distance, _c * _E / _al),
        Form(enlargement, _al * _V / _c),
    ),
    source="Geometry of viewing; the eye's acuity is stated beside each use",
    limits="Small angles.",
)

_stop_steps = Quantity("stops", "k", "k", "", "whole stops from f/1")
_us = Quantity("uniform_system", "U", "U", "", "stop in the Uniform System", Range.positive())
_k_stop, _U = _stop_steps.symbol, _us.symbol

exact_f_number = Relation(
    name="exact_f_number",
    answers="What is the exact f-number behind a marked one?",
    equation=Eq(_N, sqrt(2) ** _k_stop),
    quantities=(f_number, _stop_steps),
    forms=(Form(f_number, sqrt(2) ** _k_stop), Form(_stop_steps, 2 * log(_N) / log(2))),
    source="Dictionary of Optometry, table F1: exact f-numbers 2^(k/2)",
    limits="Marked numbers are rounded: f/11 is 11.31, f/22 is 22.63.",
)

uniform_system = Relation(
    name="uniform_system",
    answers="What f-number is an old Uniform System stop?",
    equation=Eq(_U, _N**2 / 16),
    quantities=(_us, f_number),
    forms=(Form(_us, _N**2 / 16), Form(f_number, 4 * sqrt(_U))),
    source="Uniform System of the Photographic Society of Great Britain: U.S. = N²/16",
    limits="Stops marked U.S. on lenses of about 1880 to 1920.",
)

_group = Quantity("target_group", "G", "G", "", "group of the 1951 target")
_element = Quantity("target_element", "j", "j", "", "element of the group", Range.between(1, 6))
_lines = Quantity("line_pairs", r"\nu", "ν", "1/mm", "line pairs per millimetre", Range.positive())
_G, _j, _nu = _group.symbol, _element.symbol, _lines.symbol

resolution_target = Relation(
    name="resolution_target",
    answers="How fine is an element of the 1951 three-bar target?",
    equation=Eq(_nu, 2 ** (_G + (_j - 1) / 6)),
    quantities=(_lines, _group, _element),
    forms=(Form(_lines, 2 ** (_G + (_j - 1) / 6)),),
    source="MIL-STD-150A, the 1951 target",
    limits="At the target; multiply by the reduction at the film.",
)
