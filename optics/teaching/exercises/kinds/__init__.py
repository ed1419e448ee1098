"""Every kind of exercise, by its name, in the order of the topics."""

from collections.abc import Callable
from dataclasses import dataclass

from optics.teaching.exercises.draw import Draw
from optics.teaching.exercises.exercise import Level, Task, Topic
from optics.teaching.exercises.kinds import body, depth, figures, finding, lens, rangefinder, ring


@dataclass(frozen=True)
class Kind:
    """A kind of exercise: how it is called, what it is about, and who makes its numbers."""

    name: str
    title: str
    topic: Topic
    make: Callable[[Draw, Level], Task]


_ALL = (
    Kind("tape", "Feet, inches and thou", Topic.TAPE, finding.tape),
    Kind("focus_error", "Focus error from a distance", Topic.LENS, lens.focus_error),
    Kind("shim_to_add", "The shim that puts it right", Topic.LENS, lens.shim_to_add),
    Kind("false_infinity", "A target too near for infinity", Topic.LENS, lens.false_infinity),
    Kind("ring_turn", "How far to turn the barrel", Topic.HELICOID, ring.ring_turn),
    Kind("ring_arc", "Degrees along the edge", Topic.HELICOID, ring.ring_arc),
    Kind("wrong_start", "A wrong thread start", Topic.HELICOID, ring.wrong_start),
    Kind("start_entry", "Where the next start lets go", Topic.HELICOID, ring.start_entry),
    Kind("front_cell_turn", "How far to turn a front cell", Topic.FRONT_CELL, ring.front_cell_turn),
    Kind("collimator", "The collimator's reticle", Topic.FINDING, finding.collimator),
    Kind("depth_gauge", "The depth gauge", Topic.FINDING, finding.depth_gauge),
    Kind("depth_near", "Where sharpness begins", Topic.DEPTH, depth.depth_near),
    Kind("depth_far", "Where sharpness ends", Topic.DEPTH, depth.depth_far),
    Kind("hyperfocal", "The hyperfocal distance", Topic.DEPTH, depth.hyperfocal),
    Kind("depth_of_focus", "Depth of focus", Topic.DEPTH, depth.depth_of_focus),
    Kind("depth_mark", "Where a depth mark stands", Topic.SCALE, depth.depth_mark),
    Kind("effective_base", "The base the eye sees", Topic.RANGEFINDER, rangefinder.effective_base),
    Kind("eye_at_film", "What the eye leaves", Topic.RANGEFINDER, rangefinder.eye_at_film),
    Kind("mirror_angle", "The mirror's turn", Topic.RANGEFINDER, rangefinder.mirror_angle),
    Kind("cam_lift", "The cam's lift", Topic.CAM, rangefinder.cam_lift),
    Kind("corner", "A leaning standard", Topic.STANDARD, body.corner),
    Kind("film_in_gate", "Where the film lies", Topic.GATE, body.film_in_gate),
    Kind("combined", "Uncertainties together", Topic.UNCERTAINTY, figures.combined),
    Kind("few_readings", "The factor for few readings", Topic.UNCERTAINTY, figures.few_readings),
)
KINDS = {kind.name: kind for kind in _ALL}
