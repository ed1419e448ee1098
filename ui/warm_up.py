"""Has the usual formulas compiled before the first key is pressed."""

from optics.bench.camera import Turn
from optics.records.job import JobDocument, MarkPart, ReadingPart, RotationPart
from optics.records.lantern_street import CAMERAS, WORKSHOP
from optics.records.solve import solve


def warm_up() -> None:
    """Work one reading out on each kind of camera; the answers are thrown away."""
    mark = MarkPart(sharp_at="20 m", limit="1 m")
    turn = RotationPart(turned="5", sense=Turn.CLOCKWISE, limit="0.5")
    for camera in CAMERAS:
        has_thread = camera.focusing.kind != "bed"
        readings: tuple[ReadingPart, ...] = (mark, turn) if has_thread else (mark,)
        solve(JobDocument(camera=camera, workshop=WORKSHOP, readings=readings))
