"""Where the emulsion lies that the picture is taken on."""

from sympy import Eq

from optics.relation import Quantity
from optics.theory.derivations.chain import Derivation, drawn, follows, known
from optics.theory.gate import (
    channel,
    emulsion_error,
    film_play,
    film_thickness,
    play,
    reference_depth,
    rest,
)
from optics.theory.lens import focus_error

_depth = Quantity("emulsion_depth", "d_e", "dₑ", "mm", "depth of the emulsion behind the rails")
_g, _t, _w, _r, _dg, _e = (
    q.symbol for q in (channel, film_thickness, play, rest, reference_depth, focus_error)
)
_de = _depth.symbol

EMULSION_ERROR = Derivation(
    emulsion_error,
    "The ground glass is not the film",
    (
        drawn(
            Eq(_de, _r * _w),
            "The emulsion faces the lens: on the rails it lies at 0, against the plate at the "
            "whole play w, else somewhere between.",
        ),
        drawn(
            Eq(_e, _de - _dg),
            "The lens was set to the ground glass at d_g. An emulsion farther back is too far "
            "from the image: as if the lens stood too far out.",
        ),
        follows(Eq(_e, _r * _w - _dg), "Put in.", (1, 2), _depth, focus_error),
        known(film_play, "The play is what the channel has over the film's thickness."),
        follows(
            Eq(_e, _r * (_g - _t) - _dg),
            "In what can be gauged. A thinner film, and the picture moves.",
            (3, 4),
            focus_error,
            play,
        ),
    ),
    (_depth, channel, film_thickness),
)
