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
from optics.typed.ask import Ask, Texts
from optics.typed.fields import Typed, give_or_take
from optics.typed.part import Part
from optics.typed.part import give_or_take as estimate_of
from optics.units import format_length

CHANNEL = give_or_take("depth of the film channel", "0.20 mm ± 0.01 mm")
FILM_THICKNESS = give_or_take("film thickness", "0.15 mm ± 0.005 mm")
PAPER_UNDER_FILM = give_or_take("backing paper", "0.1 mm ± 0.05 mm")
BOW = give_or_take("bow of the film", "0.02 mm ± 0.01 mm")
GLASS_THICKNESS = give_or_take("thickness of the ground glass", "1.5 mm ± 0.02 mm")
GLASS_DEPTH = give_or_take("depth of the ground side in the back", "4.83 mm ± 0.02 mm")
HOLDER_DEPTH = give_or_take("depth of the holder", "5.00 mm ± 0.05 mm")
SLOT = give_or_take("slot of the holder", "0.25 mm ± 0.05 mm")

PLATES = {"sprung": Plate.SPRUNG, "on stops": Plate.STOPS, "none": Plate.NONE}


_GLASSES = {
    "on the rails": "laid on the rails",
    "against the plate": "laid against the plate",
    "in the back": "the camera's own back",
}


def _is_sheet(texts: Texts) -> bool:
    return texts["film"] == "sheet"


def _is_roll(texts: Texts) -> bool:
    return not _is_sheet(texts)


def _lays_on_plate(texts: Texts) -> bool:
    return _is_roll(texts) and texts["glass"] == "against the plate"


def _glasses(texts: Texts) -> tuple[str, ...]:
    """Where the ground glass can have lain: with sheet film in the camera's own back only."""
    return tuple(_GLASSES)[2:] if _is_sheet(texts) else tuple(_GLASSES)[:2]


def _usual_film(texts: Texts) -> str:
    film = FILMS[texts["film"]]
    return _usual(film.thickness, film.limit)


def _usual_paper(texts: Texts) -> str:
    film = FILMS[texts["film"]]
    return _usual(film.paper, film.paper_limit)


def _usual(thickness: float, limit: float) -> str:
    if not thickness:
        return "none if empty"
    bare = format_length(thickness, places=3).removesuffix(" mm")
    return f"{bare} ± {format_length(limit, places=3)} if empty"


_FILM = Ask(
    "kind of film",
    words={film.key: film.name for film in FILMS.values()},
    note="its usual figures stand below",
    width=12,
)
_PLATE = Ask(
    "behind the film",
    words=dict(PLATES),
    note="a sprung plate may rest on stops too",
    width=6,
    when=_is_roll,
)
_GLASS = Ask(
    "ground glass",
    words=_GLASSES,
    note=lambda texts: (
        "the holder then takes its place" if _is_sheet(texts) else "its ground side to the lens"
    ),
    among=_glasses,
    width=6,
)
_CHANNEL = Ask(
    "channel, deep",
    "rails to plate: 0.20 ± 0.01",
    width=6,
    when=lambda texts: _is_roll(texts) and (texts["plate"] == "on stops" or _lays_on_plate(texts)),
    needed=True,
)
_BOW = Ask(
    "film can bow back",
    "such as 0.1 ± 0.05",
    starts="0.1 ± 0.05",
    width=6,
    when=lambda texts: _is_roll(texts) and texts["plate"] == "none",
    needed=True,
)
_GLASS_THICKNESS = Ask(
    "glass, thick", "such as 0.15 ± 0.005", width=6, when=_lays_on_plate, needed=True
)
_GLASS_DEPTH = Ask(
    "face to ground side",
    "such as 4.83 ± 0.02",
    starts="4.83 ± 0.02",
    width=6,
    when=_is_sheet,
    needed=True,
)
_HOLDER = Ask(
    words={holder.key: holder.name for holder in HOLDERS.values()} | {"": "gauged"},
    starts=next(iter(HOLDERS)),
    width=6,
    when=_is_sheet,
)
_HOLDER_DEPTH = Ask(
    "face to back of slot",
    "such as 5.00 ± 0.05",
    width=6,
    when=lambda texts: _is_sheet(texts) and not texts["holder"],
    needed=True,
)


class GatePart(Part):
    """A film gate; figures are ``0.20 ± 0.01`` in mm, those left out are the film's usual ones.

    `film` is a key of the films known, `holder` that of a sheet-film holder. `glass` says
    where the ground glass lay on which the lens was set.
    """

    title: ClassVar[str] = "Film gate"
    film: Annotated[str, Field(max_length=40), _FILM] = "perforated"
    plate: Annotated[Literal["sprung", "on stops", "none"], _PLATE] = "on stops"
    channel: Annotated[str, CHANNEL, _CHANNEL] | None = None
    film_thickness: Annotated[str, FILM_THICKNESS, Ask(hint=_usual_film, width=6)] | None = None
    paper: Annotated[str, PAPER_UNDER_FILM, Ask(hint=_usual_paper, width=6)] | None = None
    bow: Annotated[str, BOW, _BOW] | None = None
    glass: Annotated[Literal["on the rails", "against the plate", "in the back"], _GLASS] = (
        "on the rails"
    )
    glass_thickness: Annotated[str, GLASS_THICKNESS, _GLASS_THICKNESS] | None = None
    glass_depth: Annotated[str, GLASS_DEPTH, _GLASS_DEPTH] | None = None
    holder: Annotated[str, Field(max_length=10), _HOLDER] | None = None
    holder_depth: Annotated[str, HOLDER_DEPTH, _HOLDER_DEPTH] | None = None
    slot: (
        Annotated[str, SLOT, Ask("slot, high", "0.305 if empty", width=6, when=_is_sheet)] | None
    ) = None


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
