"""The film gate in the words of the shop."""

from optics.body.gate.emulsion import GateResult, Plate
from optics.readings.readings import Sense
from optics.readings.wording import said_error
from optics.units import fine_mm

GROUND_SIDE = (
    "The ground side faces the lens and lies where the film would: turned about, the glass adds "
    "its own thickness. Matt tape across the rails serves for a check, not for a setting."
)
FLAT_FILM = (
    "All this is for flat film: curl, damp and a bend kept from the rollers add to it. A film "
    "test is the last word."
)


def said_play(result: GateResult) -> str:
    """How much room the film has."""
    gate = result.gate
    if gate.plate is Plate.SPRUNG:
        return "The sprung plate holds the film on the rails: no play."
    if gate.channel is None or gate.plate is Plate.NONE:
        return f"Without a plate the film can bow back by {fine_mm(result.play.value)}."
    paper = f", paper {fine_mm(gate.paper.value)}" if gate.paper.value else ""
    return (
        f"Channel {fine_mm(gate.channel.value)}, film {fine_mm(gate.film.value)}{paper}: "
        f"{fine_mm(result.play.value)} of play."
    )


def said_emulsion(result: GateResult) -> str:
    """Where the emulsion lies."""
    if not result.play.value:
        return "The emulsion lies on the rails."
    return (
        f"The emulsion lies anywhere from the rails to {fine_mm(result.play.value)} behind them: "
        f"{fine_mm(result.depth.value)} in the mean, ± {fine_mm(result.half_range)}."
    )


def said_gate_error(result: GateResult) -> str:
    """What that does to a lens that was set on the ground glass."""
    error = result.error
    known = f", ± {fine_mm(error.expanded)} at 95 %" if error.standard else ""
    said = f"A lens set on this ground glass is {said_mean_error(result)}{known}"
    if Sense.of(error.value) is Sense.RIGHT:
        return f"{said}."
    way = "behind" if error.value > 0 else "in front of"
    return f"{said}: the emulsion lies {way} the ground side."


def said_mean_error(result: GateResult) -> str:
    """How far out such a lens is in the mean, and which way."""
    if Sense.of(result.error.value) is Sense.RIGHT:
        return "right for the film"
    return f"{said_error(result.error)} for the film in the mean"


def said_judged(result: GateResult, allowed: float) -> str:
    """The verdict, and what the gate leaves of a tolerance."""
    left = said_left(result, allowed)
    return f"{result.verdict(allowed).words.capitalize()}: {left[0].lower()}{left[1:]}"


def said_share(result: GateResult, allowed: float) -> str:
    """How much of a tolerance can go to the gate."""
    return f"{100 * result.largest / allowed:.0f} % of the tolerance can go to the gate"


def said_tolerance(result: GateResult, allowed: float) -> str:
    """What the gate leaves of a tolerance, and what to do where that is nothing."""
    return " ".join((said_left(result, allowed), *order_lines(result, allowed)))


def order_lines(result: GateResult, allowed: float) -> tuple[str, ...]:
    """What to do next at the bench, if anything."""
    return ("Put the gate right first.",) if result.tolerance_left(allowed) <= 0 else ()


def said_left(result: GateResult, allowed: float) -> str:
    """What the gate leaves of a tolerance."""
    left = result.tolerance_left(allowed)
    whole = f"the tolerance of ± {fine_mm(allowed)}"
    if left <= 0:
        return f"The gate alone can use up {whole}."
    return (
        f"The gate can take {fine_mm(result.largest)} of {whole}; {fine_mm(left)} is left to "
        "everything else."
    )
