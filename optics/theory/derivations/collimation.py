"""How a collimator's reticle shows the error of another lens."""

from sympy import Eq

from optics.theory.collimation import (
    collimator_error,
    collimator_focal_length,
    equivalent_distance,
    equivalent_target,
    reticle_shift,
)
from optics.theory.derivations.chain import Derivation, drawn, follows, known
from optics.theory.lens import extension, focal_length, focus_error, newton, subject_from_focus

_fc, _delta, _Dq = collimator_focal_length.symbol, reticle_shift.symbol, equivalent_distance.symbol
_f, _e, _x = focal_length.symbol, focus_error.symbol, extension.symbol

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
            "distances are the same. Near enough is good enough: metres against millimetres.",
        ),
        follows(
            Eq(_x, _delta * (_f / _fc) ** 2),
            "Put one into the other: the reticle's shift appears at the film, scaled by the "
            "square of the focal lengths.",
            (1, 2, 3), equivalent_distance, extension, subject_from_focus,
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
            (4, 5), extension, focus_error,
        ),
    ),
    (equivalent_distance, extension, subject_from_focus),
)  # fmt: skip
