"""How a collimator's reticle shows the error of another lens."""

from sympy import Eq

from optics.relation import Quantity
from optics.theory.collimation import (
    collimator_conjugates,
    collimator_error,
    collimator_focal_length,
    collimator_to_lens,
    equivalent_distance,
    equivalent_target,
    reticle_shift,
)
from optics.theory.derivations.chain import Derivation, drawn, follows, known
from optics.theory.lens import (
    extension,
    focal_length,
    focus_error,
    newton,
    subject_from_focus,
    thin_lens,
)

_fc, _delta, _Dq = collimator_focal_length.symbol, reticle_shift.symbol, equivalent_distance.symbol
_f, _e, _x = focal_length.symbol, focus_error.symbol, extension.symbol
_image = Quantity(
    "reticle_image", "q", "q", "mm", "distance of the reticle's image behind the collimator's lens"
)
_q, _g = _image.symbol, collimator_to_lens.symbol

COLLIMATOR_CONJUGATES = Derivation(
    collimator_conjugates,
    "Two lenses, a distance apart",
    (
        known(
            thin_lens,
            "The reticle stands f_c − δ behind the collimator's lens. Seen from the camera its "
            "image stands upright at q behind that lens: an image on the subject's side, so it "
            "counts minus.",
            Eq(1 / _fc, 1 / (_fc - _delta) - 1 / _q),
        ),
        follows(
            Eq(_q, _fc**2 / _delta - _fc),
            "Moved inside the focus by δ, the reticle seems to stand at a finite distance: farther "
            "by far than its slide is long.",
            (1,),
            _image,
        ),
        known(newton, "The camera lens needs an extension for a subject so far away."),
        drawn(
            Eq(subject_from_focus.symbol, _q + _g - _f),
            "From that image to the collimator's lens it is q, on to the camera's lens g, and the "
            "camera's front focal point lies f before its lens.",
        ),
        drawn(
            Eq(_e, _x),
            "The lens was found sharp on a near target while its ring said infinity: it stands "
            "out by just that extension.",
        ),
        follows(
            Eq(_e * (_fc**2 / _delta - _fc + _g - _f), _f**2),
            "Put all in: the nearer the two lenses, the nearer the image to the camera, and the "
            "more each mm of the reticle counts when it goes inwards.",
            (2, 3, 4, 5),
            _image,
            extension,
            subject_from_focus,
            focus_error,
        ),
        follows(
            Eq(_e * (_fc**2 / _delta - (_fc + _f - _g)), _f**2),
            "With the lenses f + f_c apart the bracket keeps its first term alone, and the plain "
            "rule δ(f/f_c)² is exact.",
            (6,),
            focus_error,
        ),
    ),
    (_image, extension, subject_from_focus),
)

COLLIMATOR_ERROR = Derivation(
    collimator_error,
    "Newton's equation, twice",
    (
        known(
            equivalent_target,
            "Moved inside the focus by δ, the reticle seems to stand at a finite distance before "
            "the collimator's focal point.",
        ),
        known(newton, "The camera lens needs an extension for a subject so far away."),
        drawn(
            Eq(subject_from_focus.symbol, _Dq),
            "The two lenses stand face to face with their facing focal points together, so both "
            "distances are the same. Anywhere else their distance counts too.",
        ),
        follows(
            Eq(_x, _delta * (_f / _fc) ** 2),
            "Put one into the other: the reticle's shift appears at the film, scaled by the "
            "square of the focal lengths' ratio.",
            (1, 2, 3),
            equivalent_distance,
            extension,
            subject_from_focus,
        ),
        drawn(
            Eq(_e, _x),
            "The lens was found sharp on a near target while its ring said infinity: it stands "
            "out by just that extension.",
        ),
        follows(
            Eq(_e, _delta * (_f / _fc) ** 2),
            "A long collimator is a lever: with $f_c$ four times f, the reticle moves sixteen "
            "times the error.",
            (4, 5),
            extension,
            focus_error,
        ),
    ),
    (equivalent_distance, extension, subject_from_focus),
)
