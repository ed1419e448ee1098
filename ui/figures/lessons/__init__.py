"""The classroom's drawings: one for each section's lead relation, and a curve for any other.

No physics is done here: each drawing is given the lead relation's figures, and asks the
catalogue for whatever else it shows.
"""

from collections.abc import Callable, Mapping

import plotly.graph_objects as go

from optics.teaching.classroom.section import Section
from ui.figures.frame import HEIGHT
from ui.figures.lessons import barrel, bodies, lenses, sights
from ui.figures.lessons.curve import curve
from ui.theme import Palette

__all__ = ["DRAWINGS", "HEIGHT", "curve", "lesson"]

DRAWINGS: dict[str, Callable[[Mapping[str, float], Palette], go.Figure]] = {
    "lens": lenses.thick_lens,
    "helicoid": barrel.unrolled_thread,
    "front_cell": lenses.moving_cell,
    "collimation": lenses.collimator,
    "depth": lenses.depth,
    "rangefinder": sights.triangle,
    "coupling": sights.coupling,
    "cam": sights.cam,
    "standard": bodies.leaning_lens,
    "gate": bodies.gate,
    "scale": barrel.unrolled_scale,
    "certainty": bodies.readings,
}


def lesson(section: Section, values: Mapping[str, float], colours: Palette) -> go.Figure:
    """The drawing of a section from its lead relation's figures, in core units."""
    return DRAWINGS[section.key](values, colours)
