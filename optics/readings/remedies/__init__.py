"""What can be done about a focus error, each remedy in the shop's own units.

A remedy says what to do, which way round or which leaves, what error it leaves and how well
that is known. Every amount is rounded to what a hand can set, and the residual is that of
the rounded amount. Remedies that do not apply say why.
"""

from optics.camera.camera import Camera, FrontCell, Helicoid
from optics.measure.uncertainty import Estimate
from optics.readings.remedies.offer import NotApplicable, Offer, Remedy
from optics.readings.remedies.shim import Workshop, shim
from optics.readings.remedies.stops import stops
from optics.readings.remedies.turning import front_cell_turn, ring, thread_start

__all__ = ["NotApplicable", "Offer", "Remedy", "Workshop", "offers"]


def offers(camera: Camera, error: Estimate, workshop: Workshop) -> tuple[Offer, ...]:
    """All remedies for this camera side by side, the most usual first."""
    focusing = camera.focusing
    by_shim = shim(camera, error, workshop)
    if isinstance(focusing, Helicoid):
        return by_shim, ring(camera, focusing, error), thread_start(camera, focusing, error)
    if isinstance(focusing, FrontCell):
        return front_cell_turn(camera, focusing, error), by_shim
    return by_shim, stops(camera, error)
