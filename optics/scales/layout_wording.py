"""The layout of a scale in the words of the workshop."""

from optics.camera.camera import Camera, FrontCell
from optics.scales.scale_layout import DepthRow, ScaleOn, Towards, runs, runs_right
from optics.theory import front_cell, lens
from optics.units.printing import trimmed

SCALE_CONVENTIONS = (
    "Distances are from the film plane. Angles and turns are as seen from the front. Marks are for "
    "a paraxial lens on a thread of constant lead."
)


def strip_runs_line(camera: Camera, scale_on: ScaleOn, tops: Towards) -> str:
    """Which way a scale round a barrel runs, and how to tell."""
    side = "right" if runs_right(runs(camera, scale_on), tops) else "left"
    up = "front of the lens" if tops is Towards.FRONT else "film side"
    return (
        f"Looked at from outside with the {up} up, the figures stand upright and nearer marks lie "
        f"to the {side} of ∞."
    )


def face_runs_line(camera: Camera, scale_on: ScaleOn) -> str:
    """Which way a scale on the face of a ring runs."""
    return f"Seen from the front, nearer marks lie {runs(camera, scale_on)} of ∞."


def turning_line(camera: Camera, scale_on: ScaleOn) -> str:
    """What turns, which way, and what that brings about."""
    # `runs` refuses what has no thread.
    ring_scale = runs(camera, ScaleOn.RING)
    moving = "the ring" if scale_on is ScaleOn.RING else "the ring with its index"
    return (
        f"Turning {moving} {ring_scale.opposite}, seen from the front, moves the lens out, from "
        "∞ to nearer marks."
    )


def depth_marks_line(camera: Camera, row: DepthRow) -> str:
    """What the depth marks were reckoned with, and for which subjects they are right."""
    blur = trimmed(row.circle_of_confusion, 4)
    subjects = "at every distance" if _is_cell(camera) else "for distant subjects"
    return f"Depth marks for a circle of confusion of {blur} mm and {row.stops.words}, {subjects}."


def source_line(camera: Camera) -> str:
    """By whose equation the marks were placed."""
    relation = front_cell.group_movement if _is_cell(camera) else lens.unit_focusing
    return f"Source: {relation.source}."


def depth_source_line(camera: Camera) -> str:
    """By what the depth of field was worked out."""
    near, _ = camera.depth_of_field_formulas
    return f"Source: {near.relation.source}."


def _is_cell(camera: Camera) -> bool:
    return isinstance(camera.focusing, FrontCell)
