"""Depth of field in the words of the workshop."""

from optics.camera.camera import FrontCell
from optics.scales.depth_table import DepthTable, MeasuredFrom

_BEGIN = {
    MeasuredFrom.FILM: "from the film",
    MeasuredFrom.LENS: "from the lens's front principal plane",
}


def conventions_line(table: DepthTable) -> str:
    """What the table takes for granted."""
    pupils = f"pupil magnification {table.camera.lens.pupil_magnification:g}"
    if isinstance(table.camera.focusing, FrontCell):
        pupils = "the front cell alone moves, so that the pupils have no part"
    return (
        f"Distances {_BEGIN[table.measured_from]}; circle of confusion "
        f"{round(table.circle_of_confusion, 4):g} mm; {pupils}; blur of geometry alone."
    )
