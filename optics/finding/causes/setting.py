"""What several causes share when they are put right: how finely a hand sets, and offers."""

import math
from typing import Final

from optics.camera.camera import Bed, Camera
from optics.camera.true_lens import film_factor
from optics.finding.causes.at_hand import AtHand, Screw
from optics.finding.causes.record import Added, Adjustment, Blocked, Cause, Outcome
from optics.measure.uncertainty import within
from optics.readings.readings import Reading
from optics.readings.remedies.offer import NotApplicable, Offer
from optics.readings.remedies.turning import settable_step
from optics.theory import helicoid
from optics.units import format_turns

FEELER: Final = 0.01
"""What a feeler or a leaf can be set to (mm); common practice, no source."""
EIGHTH: Final = 2 * math.pi / 8
"""What a screw can be set to (rad); common practice, no source."""
travel = helicoid.ring_rotation.solve_for(helicoid.travel)
rotation = helicoid.ring_rotation.solve_for(helicoid.rotation)


def holds_nothing(camera: Camera, reading: Reading) -> Added:
    """What a cause adds that holds neither lens nor film out: it shows in another way."""
    del camera, reading
    return {}


def feeler(camera: Camera, at_hand: AtHand) -> float:
    """The smallest change that is set with a feeler."""
    del camera, at_hand
    return FEELER


def least_turn(camera: Camera, at_hand: AtHand) -> float:
    """The smallest change (mm at the film) by a turn of ring or cell; a feeler's on a bed."""
    focusing = camera.focusing
    if isinstance(focusing, Bed):
        return feeler(camera, at_hand)
    factor = film_factor(camera)
    turn = settable_step(camera, focusing.lead, factor)
    return factor * travel.value(rotation=turn, lead=focusing.lead)


def from_offer(cause: Cause, offer: Offer) -> Outcome:
    """A remedy of a single reading as a step that puts a cause right."""
    if isinstance(offer, NotApplicable):
        return Blocked(cause, offer.reason)
    return Adjustment(
        cause=cause,
        title=offer.title,
        instruction=offer.instruction,
        changes={cause.name: offer.change},
        amounts=offer.amounts,
        notes=offer.notes,
        cautions=offer.cautions,
        figures=dict(offer.figures),
    )


def screwed(cause: Cause, name: str, screw: Screw | None, wanted: float) -> Outcome:
    """A turn of one of the rangefinder's screws, in eighths."""
    if screw is None:
        return Blocked(
            cause,
            f"How much a turn of the rangefinder's {name} screw does is not known: give it a "
            "quarter turn, read the rangefinder again, and the amount follows.",
        )
    eighths = round(8 * wanted / screw.per_turn)
    if not eighths:
        return Blocked(cause, f"The {name} screw is within half of an eighth of a turn: leave it.")
    sense = "clockwise" if eighths > 0 else "counter-clockwise"
    turns = format_turns(abs(eighths) * EIGHTH)
    return Adjustment(
        cause,
        f"Rangefinder, {name} screw",
        f"Turn the rangefinder's {name} screw {turns} {sense}.",
        {
            cause.name: within(
                eighths * screw.per_turn / 8, abs(screw.per_turn) / 32, f"setting of {name} screw"
            )
        },
        (("Turn", f"{turns} {sense}"),),
    )


def least_of(screw: Screw | None) -> float:
    """The smallest change by a screw; a feeler's where it is not known what it does."""
    return FEELER if screw is None else abs(screw.per_turn) / 8
