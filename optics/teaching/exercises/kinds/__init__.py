"""Every kind of exercise, by its name, in the order of the topics."""

from collections.abc import Callable
from dataclasses import dataclass

from optics.teaching.exercises.draw import Draw
from optics.teaching.exercises.exercise import ExerciseLevel, Task, Topic
from optics.teaching.exercises.kinds import body, depth, figures, finding, lens, rangefinder, ring


@dataclass(frozen=True)
class ExerciseKind:
    """A kind of exercise: how it is called, what it is about, and who makes its numbers."""

    name: str
    title: str
    topic: Topic
    make: Callable[[Draw, ExerciseLevel], Task]


_ALL = (
    ExerciseKind("tape", "Feet, inches and thou", Topic.TAPE, finding.tape),
    ExerciseKind("focus_error", "Focus error from a distance", Topic.LENS, lens.focus_error),
    ExerciseKind("shim_to_add", "The shim that puts it right", Topic.LENS, lens.shim_to_add),
    ExerciseKind(
        "false_infinity", "A target too near for infinity", Topic.LENS, lens.false_infinity
    ),
    ExerciseKind("ring_turn", "How far to turn the barrel", Topic.HELICOID, ring.ring_turn),
    ExerciseKind("ring_arc", "Degrees along the edge", Topic.HELICOID, ring.ring_arc),
    ExerciseKind("wrong_start", "A wrong thread start", Topic.HELICOID, ring.wrong_start),
    ExerciseKind("start_entry", "Where the next start lets go", Topic.HELICOID, ring.start_entry),
    ExerciseKind(
        "front_cell_turn", "How far to turn a front cell", Topic.FRONT_CELL, ring.front_cell_turn
    ),
    ExerciseKind("collimator", "The collimator's reticle", Topic.FINDING, finding.collimator),
    ExerciseKind("depth_gauge", "The depth gauge", Topic.FINDING, finding.depth_gauge),
    ExerciseKind("depth_near", "Where sharpness begins", Topic.DEPTH, depth.depth_near),
    ExerciseKind("depth_far", "Where sharpness ends", Topic.DEPTH, depth.depth_far),
    ExerciseKind("hyperfocal", "The hyperfocal distance", Topic.DEPTH, depth.hyperfocal),
    ExerciseKind("depth_of_focus", "Depth of focus", Topic.DEPTH, depth.depth_of_focus),
    ExerciseKind("depth_mark", "Where a depth mark stands", Topic.SCALE, depth.depth_mark),
    ExerciseKind(
        "effective_base", "The base the eye sees", Topic.RANGEFINDER, rangefinder.effective_base
    ),
    ExerciseKind("eye_at_film", "What the eye leaves", Topic.RANGEFINDER, rangefinder.eye_at_film),
    ExerciseKind("mirror_angle", "The mirror's turn", Topic.RANGEFINDER, rangefinder.mirror_angle),
    ExerciseKind("cam_lift", "The cam's lift", Topic.CAM, rangefinder.cam_lift),
    ExerciseKind("corner", "A leaning standard", Topic.STANDARD, body.corner),
    ExerciseKind("film_in_gate", "Where the film lies", Topic.GATE, body.film_in_gate),
    ExerciseKind("combined", "Uncertainties together", Topic.UNCERTAINTY, figures.combined),
    ExerciseKind(
        "few_readings", "The factor for few readings", Topic.UNCERTAINTY, figures.few_readings
    ),
)
KINDS = {kind.name: kind for kind in _ALL}
