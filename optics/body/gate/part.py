"""The film gate as part of a job: channel, film and plate, and where the ground glass lay."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from optics.body.gate import (
    FILMS,
    HOLDER_SLOT,
    HOLDERS,
    Film,
    Gate,
    GateResult,
    Plate,
    against_plate,
    in_back,
    measure_gate,
)
from optics.errors import NoAnswer, Unreadable
from optics.measure.uncertainty import Estimate, exact, within
from optics.typed.fields import Typed, give_or_take
from optics.typed.part import Part
from optics.typed.part import give_or_take as estimate_of

CHANNEL = give_or_take("depth of the film channel", "0.20 mm ± 0.01 mm")
FILM_THICKNESS = give_or_take("film thickness", "0.15 mm ± 0.005 mm")
PAPER_UNDER_FILM = give_or_take("backing paper", "0.1 mm ± 0.05 mm")
BOW = give_or_take("bow of the film", "0.02 mm ± 0.01 mm")
GLASS_THICKNESS = give_or_take("thickness of the ground glass", "1.5 mm ± 0.02 mm")
GLASS_DEPTH = give_or_take("depth of the ground side in the back", "4.83 mm ± 0.02 mm")
HOLDER_DEPTH = give_or_take("depth of the holder", "5.00 mm ± 0.05 mm")
SLOT = give_or_take("slot of the holder", "0.25 mm ± 0.05 mm")

PLATES = {"sprung": Plate.SPRUNG, "on stops": Plate.STOPS, "none": Plate.NONE}


class GatePart(Part):
    """A film gate; figures are ``0.20 ± 0.01`` in mm, those left out are the film's usual ones.

    `film` is a key of the films known, `holder` that of a sheet-film holder. `glass` says
    where the ground glass lay on which the lens was set.
    """

    title: ClassVar[str] = "Film gate"
    film: Annotated[str, Field(max_length=40)] = "perforated"
    plate: Literal["sprung", "on stops", "none"] = "on stops"
    channel: Annotated[str, CHANNEL] | None = None
    film_thickness: Annotated[str, FILM_THICKNESS] | None = None
    paper: Annotated[str, PAPER_UNDER_FILM] | None = None
    bow: Annotated[str, BOW] | None = None
    glass: Literal["on the rails", "against the plate", "in the back"] = "on the rails"
    glass_thickness: Annotated[str, GLASS_THICKNESS] | None = None
    glass_depth: Annotated[str, GLASS_DEPTH] | None = None
    holder: Annotated[str, Field(max_length=10)] | None = None
    holder_depth: Annotated[str, HOLDER_DEPTH] | None = None
    slot: Annotated[str, SLOT] | None = None


def film_of(part: GatePart) -> Film:
    """The kind of film; Unreadable with those there are for another."""
    if part.film in FILMS:
        return FILMS[part.film]
    raise Unreadable(
        f"The film “{part.film}” is not known: choose one of {', '.join(FILMS)}.",
        quantity="film",
        value=part.film,
    )


def solve_gate(part: GatePart) -> GateResult:
    """Where the emulsion lies, and what that does to a lens set on the ground glass.

    Errors: NoAnswer for a figure that is needed and missing; OutOfRange where film and paper
    are thicker than the channel.
    """
    film = film_of(part)
    is_sheet = part.glass == "in the back"
    slot = _given(SLOT, part.slot) or within(HOLDER_SLOT, 0.0, SLOT.words)
    channel = slot if is_sheet else _given(CHANNEL, part.channel)
    gate = Gate(
        film=_given(FILM_THICKNESS, part.film_thickness) or film.film_estimate,
        plate=PLATES[part.plate],
        channel=channel,
        paper=_given(PAPER_UNDER_FILM, part.paper) or film.paper_estimate,
        bow=_given(BOW, part.bow),
    )
    return measure_gate(gate, _reference(part, channel, slot))


def _given(field: Typed, text: str | None) -> Estimate | None:
    return None if text is None else estimate_of(field, text, field.words)


def _reference(part: GatePart, channel: Estimate | None, slot: Estimate) -> Estimate:
    """How far behind the rails, or the holder's lips, the ground side lay."""
    if part.glass == "on the rails":
        return exact(0.0)
    if part.glass == "in the back":
        return in_back(_needed(GLASS_DEPTH, part.glass_depth), _holder_depth(part), slot)
    if channel is None:
        raise _missing(CHANNEL)
    return against_plate(channel, _needed(GLASS_THICKNESS, part.glass_thickness))


def _holder_depth(part: GatePart) -> Estimate:
    if part.holder_depth is None and part.holder in HOLDERS:
        holder = HOLDERS[part.holder]
        return within(holder.depth, holder.limit, HOLDER_DEPTH.words)
    return _needed(HOLDER_DEPTH, part.holder_depth)


def _needed(field: Typed, text: str | None) -> Estimate:
    found = _given(field, text)
    if found is None:
        raise _missing(field)
    return found


def _missing(field: Typed) -> NoAnswer:
    return NoAnswer(
        f"Where the ground glass lay cannot be told without the {field.words}: got none; "
        "enter it in mm, such as 0.20 ± 0.01.",
        quantity=field.words,
    )
