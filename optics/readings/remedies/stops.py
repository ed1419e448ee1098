"""The infinity stops of a bed or strut camera."""

from optics.camera.camera import Camera
from optics.camera.cautions import SPRINGS
from optics.measure.uncertainty import Estimate, within
from optics.readings.remedies.offer import NotApplicable, Offer, Remedy
from optics.units import format_length

# How nearly a stop can be set against a feeler gauge (common practice, no source).
_SETTING_LIMIT = 0.05


def stops(camera: Camera, error: Estimate) -> Offer:
    """Move both infinity stops along the bed by the error."""
    amount = round(abs(error.value), 2)
    if not amount:
        return NotApplicable("stops", "Infinity stops", "The stops stand right: leave them alone.")
    is_towards = error.value > 0
    way = "towards the film" if is_towards else "away from the film"
    change = -amount if is_towards else amount
    return Remedy(
        kind="stops",
        title="Infinity stops",
        instruction=f"Move both infinity stops {format_length(amount)} {way}, "
        "the same on each side.",
        camera=camera,
        error=error,
        change=within(change, _SETTING_LIMIT, "setting of the stops"),
        amounts=(("Move", f"{format_length(amount)} {way}"),),
        figures={"moved": change},
        notes=("Check afterwards that the standard is still square to the film.",),
        cautions=(SPRINGS,),
    )
