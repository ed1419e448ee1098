"""What an account refers to, drawn for the page: one drawing for each kind of data."""

from collections.abc import Callable
from typing import Any

from optics.body.gate import GateResult
from optics.body.standard import DefocusMap
from optics.body.witness.account import Barrel
from optics.camera.mount import MountPlan
from optics.finding.diagnosis import Diagnosis
from optics.rangefinder.account import ScrewTurn, TrueTriangle, WrongTriangle
from optics.readings.correction import Correction
from optics.readings.remedies import Remedy
from optics.scales.account import RingTurn
from ui.figures.barrel_view import barrel_view
from ui.figures.expected_plot import expected_plot
from ui.figures.focus_drawing import side_view, turn_drawing, turn_view
from ui.figures.frame_map import frame_map
from ui.figures.gate_view import gate_view
from ui.figures.mount_view import mount_view
from ui.figures.screw_drawing import screw_view
from ui.figures.triangle_drawing import true_view, wrong_view

_VIEWS: dict[type, Callable[[Any], str]] = {
    DefocusMap: frame_map,
    MountPlan: mount_view,
    GateResult: gate_view,
    Diagnosis: expected_plot,
    Correction: side_view,
    Remedy: turn_view,
    RingTurn: lambda turn: turn_drawing(turn.angle, turn.sense, turn.arc),
    WrongTriangle: lambda seen: wrong_view(seen.found, seen.film_distance),
    TrueTriangle: lambda seen: true_view(seen.bench, seen.film_distance),
    ScrewTurn: lambda screw: screw_view(screw.name, screw.turns),
    Barrel: lambda barrel: barrel_view(barrel.drawing, barrel.is_told, barrel.is_noted),
}
# How drawings of a kind lie beside others and beside words.
_LAYOUT: dict[type, str] = {
    DefocusMap: "level",
    Barrel: "level",
    WrongTriangle: "even",
    Diagnosis: "expected",
    RingTurn: "turn ring",
    ScrewTurn: "turn",
}


def drawn(data: object) -> str:
    """The drawing of some data; empty where the page draws none, or draws it by itself."""
    view = _VIEWS.get(type(data))
    return view(data) if view else ""


def layout_of(data: object) -> str:
    """The style of the row of drawings that begins with these data."""
    return _LAYOUT.get(type(data), "")
