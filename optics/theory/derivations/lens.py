"""From the lens equation to the extension of a lens that is measured from the film."""

from sympy import Eq, Expr, sqrt

from optics.relation import Quantity, Range
from optics.theory.derivations.chain import Derivation, drawn, follows, known, nearly
from optics.theory.lens import (
    extension,
    film_distance,
    focal_length,
    focus_error,
    hiatus,
    image_distance,
    mark_distance,
    mark_error,
    newton,
    object_distance,
    sharp_distance,
    subject_from_focus,
    thin_lens,
    unit_focusing,
)

_reach = Quantity(
    "reach", "a", "a", "mm", "film distance less the hiatus and two focal lengths", Range.positive()
)
_xs = Quantity(
    "sharp_extension", "x_s", "xₛ", "mm", "extension for what is sharp", Range.positive()
)
_xm = Quantity("mark_extension", "x_m", "xₘ", "mm", "extension for the mark", Range.positive())
_f, _s, _v, _x = (q.symbol for q in (focal_length, object_distance, image_distance, extension))
_D, _h, _a, _e = (q.symbol for q in (film_distance, hiatus, _reach, focus_error))
_Ds, _Dm = sharp_distance.symbol, mark_distance.symbol

NEWTON = Derivation(
    newton,
    "From the lens equation to Newton's",
    (
        known(thin_lens, "The lens equation: subject and image from the principal planes."),
        drawn(
            Eq(_v, _f + _x),
            "Infinity is sharp one focal length behind the lens. Move the lens out by x, and the "
            "film stands that much farther behind it.",
        ),
        follows(
            Eq(_x, _f**2 / (_s - _f)),
            "Put the second into the first and solve for x: the extension of a lens whose subject "
            "is measured from the lens.",
            (1, 2),
            object_distance,
            image_distance,
        ),
        drawn(
            Eq(subject_from_focus.symbol, _s - _f),
            "Measure the subject from the front focal point instead, one focal length before the "
            "front principal plane.",
        ),
        follows(
            Eq(_x * subject_from_focus.symbol, _f**2),
            "Both distances now begin at a focal point, and the equation has become a product. It "
            "holds for thick lenses too, since it never asks where the glass is.",
            (3, 4),
            extension,
            subject_from_focus,
        ),
    ),
    (object_distance, image_distance),
)

UNIT_FOCUSING = Derivation(
    unit_focusing,
    "From Newton's equation to a tape laid at the film",
    (
        known(newton, "Newton's equation; both distances begin at a focal point."),
        drawn(
            Eq(_D, subject_from_focus.symbol + _f + _h + _f + _x),
            "Walk from the subject to the film: to the front focal point, one f to the front "
            "principal plane, across the hiatus, then f + x to the film.",
        ),
        follows(
            Eq(_D, 2 * _f + _h + _x + _f**2 / _x),
            "Put Newton's equation in. This is the relation: it gives the distance for an "
            "extension.",
            (1, 2),
            subject_from_focus,
            film_distance,
        ),
        drawn(
            Eq(_a, _D - _h - 2 * _f),
            "A short name for what the tape reads, less hiatus and two focal lengths.",
        ),
        follows(
            Eq(_x**2 - _a * _x + _f**2, 0),
            "Times x: a square equation. Its two roots are the two places where a lens throws a "
            "sharp image, one near the film and one near the subject.",
            (3, 4),
            film_distance,
            _reach,
        ),
        follows(
            Eq(_x, (_a - sqrt(_a**2 - 4 * _f**2)) / 2),
            "The smaller root is the one for cameras. It has no value when a is less than 2f: "
            "nearer than 4f + h nothing can be made sharp.",
            (5,),
            extension,
        ),
        follows(
            Eq(_x, 2 * _f**2 / (_a + sqrt(_a**2 - 4 * _f**2))),
            "Multiply top and bottom by a + √(a² − 4f²). For a far subject the line above takes "
            "one large number from another nearly the same; here nothing is lost.",
            (6,),
            extension,
        ),
        nearly(
            Eq(_x, _f**2 / _a),
            "Far away the extension is f² over the distance. That is the rule of thumb, and with "
            "a instead of the tape's reading it errs by (f/a)² only.",
            (7,),
            extension,
            small=(focal_length,),
            order=2,
        ),
    ),
    (subject_from_focus, _reach),
)


def _extension_for(distance: Quantity) -> Expr:
    return unit_focusing.expression(extension).subs(_D, distance.symbol)


MARK_ERROR = Derivation(
    mark_error,
    "Why one wrong mark tells the error",
    (
        known(
            unit_focusing,
            "The lens really stands where its sharp distance says.",
            Eq(_xs.symbol, _extension_for(sharp_distance)),
            tex="x_s = x(D_s)",
        ),
        known(
            unit_focusing,
            "The ring says that it stands where the mark calls for.",
            Eq(_xm.symbol, _extension_for(mark_distance)),
            tex="x_m = x(D_m)",
        ),
        drawn(
            Eq(_e, _xs.symbol - _xm.symbol),
            "What it stands too far out is the difference. Sharp nearer than the mark: too far "
            "out.",
        ),
        follows(
            Eq(_e, _extension_for(sharp_distance) - _extension_for(mark_distance)),
            "Put both in. Nothing was assumed of rings or threads, so it holds for any mark.",
            (1, 2, 3),
            _xs,
            _xm,
            focus_error,
            tex="e = x(D_s) - x(D_m)",
        ),
        nearly(
            Eq(_e, _f**2 * (1 / _Ds - 1 / _Dm)),
            "For far subjects only one over the distances counts. That is why 10 m instead of "
            "infinity is as bad as 1 m instead of 1.1 m.",
            (4,),
            focus_error,
            small=(focal_length, hiatus),
            order=2,
        ),
    ),
    (_xs, _xm),
)
