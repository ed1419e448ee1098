"""Depth of field, stops and blur in the words of the workshop."""

import math

from optics.camera.blur import Blur
from optics.camera.camera import FrontCell
from optics.camera.stops import Meaning
from optics.scales.depth_table import DepthTable, MeasuredFrom
from optics.units import format_distance, format_length

_BEGIN = {
    MeasuredFrom.FILM: "from the film",
    MeasuredFrom.LENS: "from the lens's front principal plane",
}


def limits_line(table: DepthTable, row: int, column: int) -> str:
    """What is sharp at one aperture, focused at one distance."""
    near, far = float(table.near[row, column]), float(table.far[row, column])
    focused = format_distance(float(table.distances[column]))
    return (
        f"f/{table.f_numbers[row]:.3g}, focused at {focused}: "
        f"sharp from {format_distance(near)} to {format_distance(far)}."
    )


def hyperfocal_line(table: DepthTable, row: int) -> str:
    """Where to focus so that infinity is just sharp, and what else is then."""
    if math.isinf(table.hyperfocal[row]):
        return "No blur is allowed, so nothing but the distance focused on is sharp."
    return (
        f"f/{table.f_numbers[row]:.3g}: focused at {format_distance(float(table.hyperfocal[row]))} "
        f"it is sharp from {format_distance(float(table.near_at_hyperfocal[row]))} to ∞."
    )


def conventions_line(table: DepthTable) -> str:
    """What the table takes for granted."""
    pupils = f"pupil magnification {table.camera.lens.pupil_magnification:g}"
    if isinstance(table.camera.focusing, FrontCell):
        pupils = "the front cell alone moves, so that the pupils have no part"
    return (
        f"Distances {_BEGIN[table.measured_from]}; circle of confusion "
        f"{round(table.circle_of_confusion, 4):g} mm; {pupils}; blur of geometry alone."
    )


def blur_line(blur: Blur, row: int) -> str:
    """The blur at one aperture and its causes."""
    looks = "looks sharp" if blur.looks_sharp[row] else "looks soft"
    return (
        f"f/{blur.f_numbers[row]:.3g}: a disc of {format_length(float(blur.total[row]), places=3)} "
        f"(defocus {format_length(float(blur.defocus[row]), places=3)}, diffraction "
        f"{format_length(float(blur.airy[row]), places=3)}, film and eye "
        f"{format_length(blur.receiver, places=3)}); {looks}."
    )


def stop_line(meaning: Meaning) -> str:
    """What an engraved stop is, and which table says so."""
    if meaning.table is None:
        return f"{meaning.marked:g}: in no series, taken as f/{meaning.f_number:.4g} as engraved."
    others = "".join(f"; f/{exact:.4g} in {table.name}" for table, exact in meaning.others)
    return f"{meaning.marked:g}: exactly f/{meaning.f_number:.4g} in {meaning.table.name}{others}."
