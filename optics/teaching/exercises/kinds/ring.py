"""Exercises on the ring: turns, arcs, thread starts, and the front cell's own turn."""

import math

from optics.measure.uncertainty import Estimate
from optics.readings.readings import Step
from optics.teaching.exercises.answer import TURN
from optics.teaching.exercises.draw import Draw
from optics.teaching.exercises.exercise import ExerciseLevel, Task, WorkedStep
from optics.teaching.exercises.kinds.making import (
    angle_answer,
    length_answer,
    minus,
    mm,
    read_off,
    step,
    task,
    worked,
)
from optics.teaching.exercises.slips import Slip
from optics.teaching.shelf import CELL, CELL_LEAD, CELL_RING, CORVANE, LEAD, OSTRIN, RING, STARTS
from optics.theory import front_cell, helicoid

_LEAD = "That takes the pitch for the lead: in one turn the lens travels the lead, n·P."
_PITCH = "That takes the lead for the pitch: from one start to the next it is one pitch, L/n."
_DIAMETER = "That takes the diameter for the radius: an arc is the angle in rad times the radius."
_FACTOR = "The factor from cell to film is left out: 1 mm of the cell is (f/f₁)² mm at the film."
_SQUARE = "The factor from cell to film is (f/f₁) squared."
_TURNED_OVER = "The factor from cell to film is upside down: the cell moves less than the film."


def _off(draw: Draw, low: float, high: float) -> tuple[Estimate, str]:
    """A focus error read to 0.01 mm, and how it is said."""
    error = draw.either_way(low, high, 0.01)
    way = "too far out" if error > 0 else "too far in"
    return read_off(error, 0.005, "focus error"), f"{mm(abs(error), 2)} {way}"


def _back_line(name: str, error: Estimate) -> WorkedStep:
    return WorkedStep(
        "To put it right the focus goes back by the error.",
        (minus(name, "error", error.value, 2),),
    )


def _back(error: Estimate) -> Estimate:
    return Estimate(0.0).plus(error, -1.0)


def _turn(travel: Estimate, lead: float) -> Step:
    return step(helicoid.ring_rotation.solve_for(helicoid.rotation), travel=travel, lead=lead)


def ring_turn(draw: Draw, level: ExerciseLevel) -> Task:
    """How far, and which way, is the ring to be turned?"""
    error, said = _off(draw, 0.12, 0.6)
    found = _turn(_back(error), LEAD)
    pitch = LEAD / STARTS
    if level is ExerciseLevel.APPRENTICE:
        thread, before = f"lead {LEAD:g} mm", []
    else:
        thread = f"pitch {pitch:g} mm, {STARTS} starts"
        lead = step(helicoid.thread_lead.solve_for(helicoid.lead), starts=STARTS, pitch=pitch)
        before = [lead]
    question = (
        f"The lens of the {OSTRIN.name} is {said}. Its helicoid ({thread}) extends "
        "counter-clockwise, seen from the front. How far must the barrel be turned to put it right?"
    )
    # Plus in the catalogue extends, which is counter-clockwise here.
    answer = angle_answer("turn", found.result, 1, TURN, sign=-1)
    slips = [(Slip.LEAD, found.result.value * LEAD / pitch, _LEAD)] if before else []
    steps = [WorkedStep.of(one) for one in before]
    return task(question, answer, [*steps, _back_line("z", error), WorkedStep.of(found)], slips)


def ring_arc(draw: Draw, level: ExerciseLevel) -> Task:
    """How long is a turn, measured along the ring's edge?"""
    if level is ExerciseLevel.APPRENTICE:
        degrees = draw.between(4, 40, 0.5)
        turned = read_off(math.radians(degrees), math.radians(0.25), "degrees")
        said, before = f"ring of the {OSTRIN.name} is to be turned {degrees:.1f}°", []
    else:
        error, words = _off(draw, 0.15, 0.8)
        turn = _turn(_back(error), LEAD)
        turned, before = turn.result, [turn]
        said = f"{OSTRIN.name} is {words}; its ring (lead {LEAD:g} mm) is to take that up"
    found = step(helicoid.ring_arc.solve_for(helicoid.arc), rotation=turned, ring_diameter=RING)
    question = f"The {said}. How many mm is that along its knurled edge, ⌀ {RING:g} mm?"
    answer = length_answer("arc along the edge", _unsigned(found.result), 2)
    size = answer.size
    slips = [
        (Slip.DIAMETER, size * 2, _DIAMETER),
        (Slip.RADIANS, math.degrees(size), "That takes degrees for radians: 180° is π radians."),
    ]
    return task(question, answer, worked([*before, found]), slips)


def _unsigned(estimate: Estimate) -> Estimate:
    return estimate if estimate.value >= 0 else _back(estimate)


def wrong_start(draw: Draw, level: ExerciseLevel) -> Task:
    """What does a wrong thread start make at the film?"""
    starts, lead = STARTS, LEAD
    if level is not ExerciseLevel.APPRENTICE:
        starts = round(draw.between(4, 8, 1))
        lead = draw.between(8, 24, 1)
    moved = round(draw.between(1, 2 if level is not ExerciseLevel.BENCH else 3, 1))
    found = step(
        helicoid.start_shift.solve_for(helicoid.travel),
        starts_moved=moved,
        lead=lead,
        starts=starts,
    )
    count = {1: "one start", 2: "two starts", 3: "three starts"}[moved]
    question = (
        f"A helicoid of lead {lead:g} mm with {starts} starts is put together {count} away from "
        "where it was, the ring at the same mark. By how much does the lens stand wrong?"
    )
    answer = length_answer("shift of the lens", found.result, 2)
    slips = [
        (Slip.PITCH, moved * lead, _PITCH),
        (Slip.LEFT_OUT, lead / starts, f"That is one start: it is {count}."),
    ]
    return task(question, answer, worked([found]), slips)


def start_entry(draw: Draw, level: ExerciseLevel) -> Task:
    """How far round is another start?"""
    starts = STARTS if level is ExerciseLevel.APPRENTICE else round(draw.between(3, 8, 1))
    moved = 1 if level is ExerciseLevel.APPRENTICE else 2
    found = step(
        helicoid.start_angle.solve_for(helicoid.rotation), starts_moved=moved, starts=starts
    )
    count = "the next start" if moved == 1 else "the start after the next"
    question = (
        f"Parting a helicoid of {starts} starts, you scribe where the thread lets go. How far "
        f"round from there does {count} let go?"
    )
    answer = angle_answer("angle between the entries", found.result, 1)
    one = (Slip.LEFT_OUT, found.result.value / moved, "That is the next start, one too few.")
    return task(question, answer, worked([found]), [one])


def front_cell_turn(draw: Draw, level: ExerciseLevel) -> Task:
    """How far, and which way, is a front cell to be turned?"""
    error, said = _off(draw, 0.08, 0.4)
    back = _back(error)
    focal = CORVANE.lens.focal_length
    given = {"focal_length": focal, "group_focal_length": CELL}
    shift = step(front_cell.film_effect.solve_for(front_cell.cell_shift), focus_error=back, **given)
    turn = _turn(shift.result, CELL_LEAD)
    question = (
        f"The {CORVANE.name} (f {focal:g} mm, front group {CELL:g} mm) is {said} at the film. Its "
        f"front cell has a thread of lead {CELL_LEAD:g} mm and moves out counter-clockwise, seen "
        "from the front. "
    )
    ratio = (CELL / focal) ** 2
    arc = level is ExerciseLevel.BENCH
    if arc:
        end = step(
            helicoid.ring_arc.solve_for(helicoid.arc), rotation=turn.result, ring_diameter=CELL_RING
        )
        question += f"How far must its edge, ⌀ {CELL_RING:g} mm, be turned along the arc?"
        answer = length_answer("arc along the edge", end.result, 2, TURN, sign=-1)
        steps = [shift, turn, end]
    else:
        question += "How far must the cell be turned to put it right?"
        answer = angle_answer("turn", turn.result, 1, TURN, sign=-1)
        steps = [shift, turn]
    slips = [
        (Slip.LEFT_OUT, answer.size / ratio, _FACTOR),
        (Slip.UPSIDE_DOWN, answer.size / ratio**2, _TURNED_OVER),
        (Slip.NOT_SQUARED, answer.size / math.sqrt(ratio), _SQUARE),
    ]
    slips += [(Slip.DIAMETER, 2 * answer.size, _DIAMETER)] if arc else []
    return task(question, answer, [_back_line("e", error), *map(WorkedStep.of, steps)], slips)
