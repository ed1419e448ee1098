"""The shelf's cameras as the page's panels meet them."""

from optics.camera.camera import Camera
from optics.records.job import JobDocument, ScalePart
from optics.records.lantern_street import OSTRIN, WORKSHOP
from optics.records.solve import Solution, solve
from optics.records.to_bench import camera_of
from optics.scales.depth_table import DepthTable, depth_table

SLIPPED = "∞ = 1.5; 5 m = 10.5; 3 m = 16.7; 2 m = 24.7; 1.5 m = 33; 1 m = 50.4"


def ostrin() -> Camera:
    """Give the Ostrin 35: 47 mm, f/2.8, circle of confusion 0.03 mm."""
    return camera_of(OSTRIN)


def table(stops: tuple[float, ...], distances: tuple[float, ...], **how: str) -> DepthTable:
    """Give a table of the Ostrin's."""
    return depth_table(ostrin(), stops, distances, **how)


def checked(marks: str = SLIPPED, name: str = OSTRIN.name, **scale: str) -> Solution:
    """Give the answer to a measured scale of the Ostrin's."""
    part = ScalePart.model_validate({"marks": marks, "limit": "0.2", "negative": "24x36", **scale})
    camera = OSTRIN.model_copy(update={"name": name})
    return solve(JobDocument(camera=camera, workshop=WORKSHOP, scale=part))
