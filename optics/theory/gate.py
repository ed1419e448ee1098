"""The film gate: where the emulsion really lies behind the rails."""

from sympy import Eq

from optics.relation import Bound, Form, Quantity, Range, Relation
from optics.theory.lens import focus_error

channel = Quantity(
    "channel",
    "g",
    "g",
    "mm",
    "depth of the film channel from rails to pressure plate",
    Range.positive(),
)
film_thickness = Quantity(
    "film_thickness", "t", "t", "mm", "thickness of the film", Range.positive()
)
play = Quantity("play", "w", "w", "mm", "play of the film in its channel", Range.at_least(0))
rest = Quantity(
    "rest",
    "r",
    "r",
    "",
    "where in its play the film lies (0 on the rails, 1 on the plate)",
    Range.between(0, 1),
)
reference_depth = Quantity(
    "reference_depth",
    "d_g",
    "d_g",
    "mm",
    "depth behind the rails at which the ground glass was focused (0: on the rails)",
)
_g, _t, _w, _r, _dg, _e = (
    q.symbol for q in (channel, film_thickness, play, rest, reference_depth, focus_error)
)

film_play = Relation(
    name="film_play",
    answers="How much room has the film between rails and pressure plate?",
    equation=Eq(_w, _g - _t),
    quantities=(play, channel, film_thickness),
    forms=(Form(play, _g - _t), Form(channel, _w + _t), Form(film_thickness, _g - _w)),
    bounds=(Bound(channel, _t, "the film would be pinched"),),
    source="From memory of a magazine article of 1997, its title not noted: channel 0.200, film "
    "0.15, play 0.05 mm",
    limits="A plate that touches its stops; a sprung plate on the film leaves no play.",
)

emulsion_error = Relation(
    name="emulsion_error",
    answers="Focused on a ground glass, how far off is the lens for the film itself?",
    equation=Eq(_e, _r * _w - _dg),
    quantities=(focus_error, rest, play, reference_depth),
    forms=(
        Form(focus_error, _r * _w - _dg),
        Form(reference_depth, _r * _w - _e),
        Form(play, (_e + _dg) / _r),
    ),
    source="The emulsion lies on the rails or up to the play behind them",
    limits="Flat film: curl and damp add to this.",
)
