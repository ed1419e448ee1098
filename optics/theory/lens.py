"""The lens: thin, thick and compound, and what unit focusing does to it."""

from sympy import Eq, Min, Rational, sqrt

from optics.relation import Bound, Called, Form, Quantity, Range, Relation, Root
from optics.theory.focusing import FocusingLaw

focal_length = Quantity("focal_length", "f", "f", "mm", "focal length", Range.positive())
object_distance = Quantity(
    "object_distance",
    "s",
    "s",
    "mm",
    "distance from the front principal plane to the subject",
    typed_in="m",
)
image_distance = Quantity(
    "image_distance", "v", "v", "mm", "distance from the rear principal plane to the image"
)
magnification = Quantity(
    "magnification",
    "m",
    "m",
    "",
    "magnification (image size over subject size)",
    Range.at_least(0),
)
film_distance = Quantity(
    "film_distance",
    "D",
    "D",
    "mm",
    "distance from the film plane to the subject",
    Range.positive(below="that is beyond infinity"),
    typed_in="m",
)
hiatus = Quantity(
    "hiatus",
    "h",
    "h",
    "mm",
    "hiatus (rear minus front principal plane, negative when they cross)",
    Range.at_most(1e6),
)
extension = Quantity(
    "extension",
    "x",
    "x",
    "mm",
    "extension of the lens from its infinity position",
    Range.at_least(0),
)
focus_error = Quantity(
    "focus_error",
    "e",
    "e",
    "mm",
    "focus error at the film (plus when the lens is too far from the film)",
)
sharp_distance = Quantity(
    "sharp_distance",
    "D_s",
    "Dₛ",
    "mm",
    "distance from the film plane that is really sharp",
    Range.positive(below="the lens stands inside its infinity position"),
    typed_in="m",
)
mark_distance = Quantity(
    "mark_distance",
    "D_m",
    "Dₘ",
    "mm",
    "distance engraved at the ring's mark",
    Range.positive(below="the mark would stand beyond infinity"),
    typed_in="m",
)
subject_from_focus = Quantity(
    "subject_from_focus",
    "x_o",
    "xₒ",
    "mm",
    "distance from the front focal point to the subject",
    Range.positive(),
    typed_in="m",
)
_f, _s, _v, _m = (q.symbol for q in (focal_length, object_distance, image_distance, magnification))
_D, _h, _x, _e = (q.symbol for q in (film_distance, hiatus, extension, focus_error))
_xo = subject_from_focus.symbol

thin_lens = Relation(
    name="thin_lens",
    answers="Where is the image of a subject at a given distance?",
    equation=Eq(1 / _f, 1 / _s + 1 / _v),
    quantities=(focal_length, object_distance, image_distance),
    forms=(
        Form(image_distance, 1 / (1 / _f - 1 / _s)),
        Form(object_distance, 1 / (1 / _f - 1 / _v)),
        Form(focal_length, 1 / (1 / _s + 1 / _v)),
    ),
    source="OpenStax, College Physics, ch. 25; University Physics 3, ch. 2",
    limits="Paraxial; distances from the principal planes, so a thick lens is included.",
)

magnification_from_distance = Relation(
    name="magnification_from_distance",
    answers="How large is the image of a subject at a given distance?",
    equation=Eq(_m, _f / (_s - _f)),
    quantities=(magnification, focal_length, object_distance),
    forms=(
        Form(magnification, _f / (_s - _f)),
        Form(object_distance, _f * (1 + 1 / _m)),
        Form(focal_length, _s / (1 + 1 / _m)),
    ),
    bounds=(Bound(object_distance, _f, "nearer than one focal length no real image forms"),),
    source="NAVEDTRA 14209, Photography (Basic), pp. 1-27 and 1-28",
    limits="Paraxial, real upright subject; the image is inverted, its size counted positive.",
)

image_distance_from_magnification = Relation(
    name="image_distance_from_magnification",
    answers="How far behind the rear principal plane is an image of a given size?",
    equation=Eq(_v, _f * (1 + _m)),
    quantities=(image_distance, focal_length, magnification),
    forms=(
        Form(image_distance, _f * (1 + _m)),
        Form(focal_length, _v / (1 + _m)),
        Form(magnification, _v / _f - 1),
    ),
    source="US Army Subcourse SS0511, p. 106; NAVEDTRA 14209, pp. 1-27 and 1-28",
    limits="Paraxial, real image.",
)

magnification_from_extension = Relation(
    name="magnification_from_extension",
    answers="How large is the image when the lens stands so far out?",
    equation=Eq(_m, _x / _f),
    quantities=(magnification, extension, focal_length),
    forms=(
        Form(magnification, _x / _f),
        Form(extension, _m * _f),
        Form(focal_length, _x / _m),
    ),
    source="Newton's conjugate equation; W. J. Smith, Modern Optical Engineering, ch. 2",
    limits="Paraxial; the whole lens moves.",
)

newton = Relation(
    name="newton",
    answers="How far must the lens move out for a subject measured from its front focal point?",
    equation=Eq(_x * _xo, _f**2),
    quantities=(extension, subject_from_focus, focal_length),
    forms=(
        Form(extension, _f**2 / _xo),
        Form(subject_from_focus, _f**2 / _x),
        Form(focal_length, sqrt(_x * _xo)),
    ),
    source="Newton's conjugate equation; W. J. Smith, Modern Optical Engineering, ch. 2",
    limits="Paraxial; exact for thick lenses because both distances start at focal points.",
)

infinity_target_distance = Quantity(
    "infinity_target_distance",
    "s",
    "s",
    "mm",
    "distance from the front principal plane to the target that stood for infinity",
    typed_in="m",
)
_far = infinity_target_distance.symbol

infinity_target = Relation(
    name="infinity_target",
    answers="How far out is a lens left when a target at a finite distance stood in for infinity?",
    equation=Eq(_e, _f**2 / (_far - _f)),
    quantities=(focus_error, focal_length, infinity_target_distance),
    forms=(
        Form(focus_error, _f**2 / (_far - _f)),
        Form(infinity_target_distance, _f + _f**2 / _e),
        Form(focal_length, 2 * _far / (1 + sqrt(1 + 4 * _far / _e))),
    ),
    bounds=(
        Bound(
            infinity_target_distance, 2 * _f, "an infinity target stands beyond two focal lengths"
        ),
    ),
    source="Newton's conjugate equation with the subject measured from the principal plane",
    limits="Paraxial; the subject's distance from the front principal plane, not from the film.",
)

_reach = Quantity(
    "reach", "a", "a", "mm", "film distance less the hiatus and two focal lengths", Range.positive()
)
_a = _reach.symbol
_reach_is = ((_reach, _D - _h - 2 * _f),)
_nearest = Bound(
    film_distance,
    4 * _f + _h,
    "four focal lengths plus the hiatus is as near as a lens can focus by moving whole",
)

unit_focusing = Relation(
    name="unit_focusing",
    answers="How far must the whole lens move out from infinity for a subject measured "
    "from the film?",
    equation=Eq(_D, 2 * _f + _h + _x + _f**2 / _x),
    quantities=(film_distance, focal_length, hiatus, extension),
    forms=(
        # Written with 1/a so that infinity gives 0 and finite slopes, not inf/inf.
        Form(
            extension,
            2 * _f**2 / (_a * (1 + Root(1 - 4 * _f**2 / _a**2))),
            steps=_reach_is,
            branch="lens nearer the film",
        ),
        Form(
            extension,
            (_a + Root(_a**2 - 4 * _f**2)) / 2,
            steps=_reach_is,
            branch="lens nearer the subject",
        ),
        Form(film_distance, 2 * _f + _h + _x + _f**2 / _x),
        Form(focal_length, sqrt(_x * (_D - _h)) - _x),
        Form(hiatus, _D - 2 * _f - _x - _f**2 / _x),
    ),
    bounds=(_nearest,),
    source="Newton's conjugate equation with the subject measured from the film plane",
    limits="Paraxial; the whole lens moves and the film stands still; nearest D is 4f + h.",
)

unit_law = FocusingLaw(
    unit_focusing, extension, film_distance, _reach, focal_length, (focal_length, hiatus)
)
"""Focusing by moving the whole lens."""

_Ds, _Dm = sharp_distance.symbol, mark_distance.symbol
_sharp_reach = Quantity(
    "sharp_reach",
    "a_s",
    "aₛ",
    "mm",
    "sharp distance less the hiatus and two focal lengths",
    Range.positive(),
)
_mark_reach = Quantity(
    "mark_reach",
    "a_m",
    "aₘ",
    "mm",
    "marked distance less the hiatus and two focal lengths",
    Range.positive(),
)
_mark_extension = Quantity(
    "mark_extension",
    "x_m",
    "xₘ",
    "mm",
    "extension the ring's mark calls for",
    Range.at_least(0),
)
_sharp_extension = Quantity(
    "sharp_extension",
    "x_s",
    "xₛ",
    "mm",
    "extension at which the lens really stands",
    Range.at_least(0),
)


def error_between(
    law: FocusingLaw,
    sharp: Called,
    mark: Called,
    *,
    near: str,
    more: tuple[Form, ...] = (),
    **words: str,
) -> Relation:
    """The focus error between a ring's mark and what is sharp, for one way of focusing.

    `sharp` and `mark` are what the law's distance, reach and movement are called at the two
    distances, `near` is why no distance may be nearer, and `more` are forms beyond the common.
    """
    needed, at_sharp, at_mark = law.movement, sharp[law.moved], mark[law.moved]
    sharp_steps, mark_steps = (law.relation.steps_to(law.moved, end) for end in (sharp, mark))
    apart = needed.subs(law.distance.symbol, _Ds) - needed.subs(law.distance.symbol, _Dm)
    return Relation(
        equation=Eq(_e, apart * law.at_film),
        quantities=(focus_error, sharp_distance, mark_distance, *law.lengths),
        forms=(
            Form(
                focus_error,
                (at_sharp.symbol - at_mark.symbol) * law.at_film,
                steps=(*sharp_steps, *mark_steps),
            ),
            Form(
                sharp_distance,
                law.relation.last_step(law.distance, sharp),
                steps=(*mark_steps, (at_sharp, at_mark.symbol + _e / law.at_film)),
            ),
            Form(
                mark_distance,
                law.relation.last_step(law.distance, mark),
                steps=(*sharp_steps, (at_mark, at_sharp.symbol - _e / law.at_film)),
            ),
            *more,
        ),
        bounds=tuple(
            Bound(end[law.distance], bound.limit, near)
            for end in (sharp, mark)
            for bound in law.relation.bounds
        ),
        **words,
    )


mark_error = error_between(
    unit_law,
    unit_law.at(sharp_distance, _sharp_reach, _sharp_extension),
    unit_law.at(mark_distance, _mark_reach, _mark_extension),
    name="mark_error",
    answers="The ring stands at one distance and another is sharp: how far off is the lens?",
    near="nearer than four focal lengths plus the hiatus a lens cannot focus by moving whole",
    # The error grows steadily with focal length, so the bracket holds one root.
    more=(Form(focal_length, bracket=(Rational(1, 1000), (Min(_Ds, _Dm) - _h) / 4)),),
    source="Difference of two unit-focusing extensions",
    limits="Paraxial; the ring's marks are right for the focal length given.",
)

entrance_pupil = Quantity(
    "entrance_pupil", "d_E", "d_E", "mm", "entrance pupil diameter", Range.positive()
)
exit_pupil = Quantity("exit_pupil", "d_A", "d_A", "mm", "exit pupil diameter", Range.positive())
pupil_magnification = Quantity(
    "pupil_magnification",
    "p",
    "p",
    "",
    "pupil magnification (exit pupil over entrance pupil)",
    Range.positive(),
)
_front, _rear, _p = entrance_pupil.symbol, exit_pupil.symbol, pupil_magnification.symbol

pupil_ratio = Relation(
    name="pupil_ratio",
    answers="How much larger is the pupil seen from behind than from the front?",
    equation=Eq(_p, _rear / _front),
    quantities=(pupil_magnification, exit_pupil, entrance_pupil),
    forms=(
        Form(pupil_magnification, _rear / _front),
        Form(exit_pupil, _p * _front),
        Form(entrance_pupil, _rear / _p),
    ),
    source="Definition; pupil radii of US patents 4,732,459 and 4,099,850",
    limits="Paraxial pupils, both seen through the glass from far away.",
)

_first = Quantity(
    "first_focal_length",
    "f_a",
    "fₐ",
    "mm",
    "focal length of the first lens (minus: diverging)",
    Range.nonzero(),
)
_second = Quantity(
    "second_focal_length",
    "f_b",
    "f_b",
    "mm",
    "focal length of the second lens (minus: diverging)",
    Range.nonzero(),
)
combined_focal_length = Quantity(
    "combined_focal_length",
    "F",
    "F",
    "mm",
    "focal length of the two together (minus: diverging)",
    Range.nonzero(),
)
_separation = Quantity(
    "separation",
    "d",
    "d",
    "mm",
    "separation of the two lenses, from the first one's rear principal plane to the second one's "
    "front principal plane (minus when they cross)",
)
_back_focus = Quantity(
    "back_focus", "B", "B", "mm", "back focus (from the second lens to the image of infinity)"
)
_fa, _fb, _F = _first.symbol, _second.symbol, combined_focal_length.symbol
_d, _B = _separation.symbol, _back_focus.symbol

two_lenses = Relation(
    name="two_lenses",
    answers="What is the focal length of two lenses some way apart?",
    equation=Eq(1 / _F, 1 / _fa + 1 / _fb - _d / (_fa * _fb)),
    quantities=(combined_focal_length, _first, _second, _separation),
    forms=(
        Form(combined_focal_length, 1 / (1 / _fa + 1 / _fb - _d / (_fa * _fb))),
        Form(_separation, _fa + _fb - _fa * _fb / _F),
        Form(_first, (_fb - _d) / (_fb / _F - 1)),
        Form(_second, (_fa - _d) / (_fa / _F - 1)),
    ),
    source="W. J. Smith, Modern Optical Engineering, ch. 2",
    limits="Paraxial; thick groups too, whose facing principal planes may cross: a triplet's front "
    "glass and rear groups have a separation far below zero.",
)

back_focus_of_two = Relation(
    name="back_focus_of_two",
    answers="How far behind the second of two lenses is the image of infinity?",
    equation=Eq(_B, _F * (1 - _d / _fa)),
    quantities=(_back_focus, combined_focal_length, _separation, _first),
    forms=(
        Form(_back_focus, _F * (1 - _d / _fa)),
        Form(combined_focal_length, _B / (1 - _d / _fa)),
        Form(_separation, _fa * (1 - _B / _F)),
        Form(_first, _d / (1 - _B / _F)),
    ),
    source="W. J. Smith, Modern Optical Engineering, ch. 2",
    limits="Paraxial; from the second lens's rear principal plane.",
)

glass_focal_length = Quantity(
    "glass_focal_length",
    "F",
    "F",
    "mm",
    "focal length of the one glass (minus: diverging)",
    Range.nonzero(),
)
_Fg = glass_focal_length.symbol
_index = Quantity("glass_index", "n", "n", "", "refractive index of the glass", Range.above(1))
_R1 = Quantity(
    "front_radius",
    "R_1",
    "R₁",
    "mm",
    "radius of the front face (plus: centre behind it)",
    Range.nonzero(),
)
_R2 = Quantity(
    "rear_radius",
    "R_2",
    "R₂",
    "mm",
    "radius of the rear face (plus: centre behind it)",
    Range.nonzero(),
)
_thickness = Quantity(
    "thickness", "t", "t", "mm", "thickness of the glass on the axis", Range.positive()
)
_front_plane = Quantity(
    "front_plane", "H", "H", "mm", "front principal plane behind the front face (minus: before it)"
)
_rear_plane = Quantity(
    "rear_plane", "H'", "H′", "mm", "rear principal plane behind the rear face (minus: before it)"
)
_n, _r1, _r2, _t = (q.symbol for q in (_index, _R1, _R2, _thickness))
_power = (_n - 1) * (1 / _r1 - 1 / _r2 + (_n - 1) * _t / (_n * _r1 * _r2))

thick_lens = Relation(
    name="thick_lens",
    answers="What is the focal length of one thick piece of glass?",
    equation=Eq(1 / _Fg, _power),
    quantities=(glass_focal_length, _index, _R1, _R2, _thickness),
    forms=(
        Form(glass_focal_length, 1 / _power),
        Form(_thickness, (1 / (_Fg * (_n - 1)) - 1 / _r1 + 1 / _r2) * _n * _r1 * _r2 / (_n - 1)),
        Form(
            _R1,
            (1 + (_n - 1) * _t / (_n * _r2)) / (1 / (_Fg * (_n - 1)) + 1 / _r2),
        ),
        Form(
            _R2,
            ((_n - 1) * _t / (_n * _r1) - 1) / (1 / (_Fg * (_n - 1)) - 1 / _r1),
        ),
    ),
    source="University of Tennessee, Optics 507 notes (lensmaker's equation, thick lens)",
    limits="Paraxial, one glass in air.",
)

front_principal_plane = Relation(
    name="front_principal_plane",
    answers="Where is the front principal plane of one thick piece of glass?",
    equation=Eq(_front_plane.symbol, -_Fg * (_n - 1) * _t / (_n * _r2)),
    quantities=(_front_plane, glass_focal_length, _index, _thickness, _R2),
    forms=(Form(_front_plane, -_Fg * (_n - 1) * _t / (_n * _r2)),),
    source="University of Tennessee, Optics 507 notes",
    limits="Paraxial, one glass in air.",
)

rear_principal_plane = Relation(
    name="rear_principal_plane",
    answers="Where is the rear principal plane of one thick piece of glass?",
    equation=Eq(_rear_plane.symbol, -_Fg * (_n - 1) * _t / (_n * _r1)),
    quantities=(_rear_plane, glass_focal_length, _index, _thickness, _R1),
    forms=(Form(_rear_plane, -_Fg * (_n - 1) * _t / (_n * _r1)),),
    source="University of Tennessee, Optics 507 notes",
    limits="Paraxial, one glass in air.",
)
