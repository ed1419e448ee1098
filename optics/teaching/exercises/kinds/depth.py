"""Exercises on depth of field and of focus, the hyperfocal distance and engraved depth marks."""

import math

from optics.camera.camera import Camera
from optics.measure.uncertainty import Estimate
from optics.readings.readings import Step
from optics.relation import Formula
from optics.teaching.exercises.draw import Draw
from optics.teaching.exercises.exercise import ExerciseLevel, Task
from optics.teaching.exercises.kinds.making import (
    SetTo,
    Slipped,
    angle_answer,
    distance_answer,
    length_answer,
    metres,
    step,
    task,
    worked,
)
from optics.teaching.exercises.slips import Slip
from optics.teaching.shelf import CELL, CELL_LEAD, CORVANE, LEAD, OSTRIN, RING, TARNBROOK
from optics.theory import depth, helicoid, lens, scale

_FROM_LENS = (
    "That is counted from the lens: add what lies between its front principal plane and the film."
)
_BOTH = "That is the depth of both sides together: it is asked for one side."
_FACTOR = "The front cell's factor (f₁/f)² is left out."
_MARKED = (4.0, 5.6, 8.0, 11.0)


def _figures(camera: Camera) -> str:
    hiatus = f"{camera.lens.hiatus:g}".replace("-", "−")
    return (
        f"f {camera.lens.focal_length:g} mm, hiatus {hiatus} mm, pupil magnification 1, circle of "
        f"confusion {camera.circle_of_confusion:g} mm"
    )


def _limit(draw: Draw, level: ExerciseLevel, limit: Formula, words: str) -> Task:
    camera = OSTRIN if level is ExerciseLevel.APPRENTICE else draw.one_of((OSTRIN, TARNBROOK))
    stop = SetTo.at(draw.one_of(_MARKED[:3]))
    far = {
        ExerciseLevel.APPRENTICE: (2.0, 3.0),
        ExerciseLevel.JOURNEYMAN: (2.0, 2.5, 4.0),
        ExerciseLevel.BENCH: (1.6, 1.8),
    }
    distance = draw.one_of(far[level]) * 1000
    focal, hiatus = camera.lens.focal_length, camera.lens.hiatus
    moved = step(
        lens.unit_focusing.solve_for(lens.extension),
        film_distance=distance,
        focal_length=focal,
        hiatus=hiatus,
    )
    at: dict[str, float | Estimate] = {
        "focal_length": focal,
        "extension": moved.result,
        "hiatus": hiatus,
    }
    seen = step(
        depth.film_from_lens.solve_for(depth.limit_from_lens), limit_from_film=distance, **at
    )

    def ends(used: float) -> tuple[Step, Step]:
        edge = step(
            limit,
            object_distance=seen.result,
            focal_length=focal,
            f_number=used,
            circle_of_confusion=camera.circle_of_confusion,
            pupil_magnification=1.0,
        )
        back = depth.film_from_lens.solve_for(depth.limit_from_film)
        return edge, step(back, limit_from_lens=edge.result, **at)

    edge, found = ends(stop.used)
    question = (
        f"The {camera.name} ({_figures(camera)}) is focused at {metres(distance, 1)} and stopped "
        f"down to f/{stop.engraved:g}. {words}, counted from the film plane? {stop.said}"
    )
    slips = [
        (Slip.DATUM, edge.result.value, _FROM_LENS),
        stop.slip(ends(stop.other)[1].result.value),
    ]
    return task(
        question,
        distance_answer("limit of sharpness", found.result, 2),
        worked([moved, seen, edge, found]),
        slips,
    )


def depth_near(draw: Draw, level: ExerciseLevel) -> Task:
    """Where does sharpness begin?"""
    return _limit(
        draw, level, depth.depth_near.solve_for(depth.near_limit), "Where does sharpness begin"
    )


def depth_far(draw: Draw, level: ExerciseLevel) -> Task:
    """Where does sharpness end?"""
    return _limit(
        draw, level, depth.depth_far.solve_for(depth.far_limit), "Where does sharpness end"
    )


def hyperfocal(draw: Draw, level: ExerciseLevel) -> Task:
    """Where to focus so that infinity is just sharp?"""
    camera = {
        ExerciseLevel.APPRENTICE: OSTRIN,
        ExerciseLevel.JOURNEYMAN: CORVANE,
        ExerciseLevel.BENCH: TARNBROOK,
    }[level]
    stop = SetTo.at(draw.one_of(_MARKED[1:]))
    focal, confusion = camera.lens.focal_length, camera.circle_of_confusion
    formula = depth.hyperfocal_distance.solve_for(depth.hyperfocal)
    known = {"focal_length": focal, "circle_of_confusion": confusion}
    found = step(formula, f_number=stop.used, **known)
    question = (
        f"The {camera.name} (f {focal:g} mm, circle of confusion {confusion:g} mm) is stopped down "
        f"to f/{stop.engraved:g}. At what distance in front of the lens must it be focused so that "
        f"infinity is just sharp? {stop.said}"
    )
    whole = found.result.value
    slips = [
        (
            Slip.DATUM,
            whole - focal,
            "That is f²/(N·c) alone, counted from the front focal point: "
            "add one f to count from the lens.",
        ),
        (
            Slip.HALF,
            whole / 2,
            "That is the near limit: focused at the hyperfocal distance it is "
            "sharp from half of it on.",
        ),
        (Slip.NOT_SQUARED, focal / (stop.used * confusion), "The focal length goes in squared."),
        stop.slip(step(formula, f_number=stop.other, **known).result.value),
    ]
    return task(
        question, distance_answer("hyperfocal distance", found.result, 2), worked([found]), slips
    )


def depth_of_focus(draw: Draw, level: ExerciseLevel) -> Task:
    """How much may the film be out each way?"""
    camera = draw.one_of((OSTRIN, CORVANE, TARNBROOK))
    if level is ExerciseLevel.APPRENTICE:
        stop = SetTo.at(draw.one_of(_MARKED))
    else:
        stop = SetTo.wide_open(camera.lens.full_aperture)
    steps: list[Step] = []
    size: float | Estimate = 0.0
    where = "a distant subject"
    if level is ExerciseLevel.BENCH:
        camera = TARNBROOK
        size, where, steps = _close(draw, camera)
    formula = depth.depth_of_focus.solve_for(depth.depth_each_way)
    confusion = camera.circle_of_confusion
    known = {"magnification": size, "pupil_magnification": 1.0, "circle_of_confusion": confusion}
    found = step(formula, f_number=stop.used, **known)
    question = (
        f"The {camera.name} is set to f/{stop.engraved:g}; its circle of confusion is "
        f"{confusion:g} mm and its pupils are alike. How far may the film lie from the sharp image "
        f"of {where}, each way, before points become visible discs? {stop.said}"
    )
    each = found.result.value
    plain = stop.used * confusion
    near = "So near, the factor (1 + m) counts: it is left out."
    slips = [
        (Slip.DOUBLE, 2 * each, _BOTH),
        (Slip.LEFT_OUT, plain, near),
        stop.slip(step(formula, f_number=stop.other, **known).result.value),
    ]
    return task(
        question,
        length_answer("depth of focus each way", found.result, 3),
        worked([*steps, found]),
        slips,
    )


def _close(draw: Draw, camera: Camera) -> tuple[Estimate, str, list[Step]]:
    distance = draw.between(900, 1500, 100)
    focal, hiatus = camera.lens.focal_length, camera.lens.hiatus
    moved = step(
        lens.unit_focusing.solve_for(lens.extension),
        film_distance=distance,
        focal_length=focal,
        hiatus=hiatus,
    )
    size = step(
        lens.magnification_from_extension.solve_for(lens.magnification),
        extension=moved.result,
        focal_length=focal,
    )
    said = f"a subject {metres(distance, 1)} from the film (f {focal:g} mm, hiatus {hiatus:g} mm)"
    return size.result, said, [moved, size]


def depth_mark(draw: Draw, level: ExerciseLevel) -> Task:
    """How far from the index does a depth mark stand?"""
    stop = SetTo.at(draw.one_of((5.6, 8.0, 11.0, 16.0)))
    if level is ExerciseLevel.BENCH:
        camera, lead = CORVANE, CELL_LEAD
        more = {"focal_length": camera.lens.focal_length, "group_focal_length": CELL}
        formula = scale.cell_depth_mark.solve_for(scale.depth_mark_angle)
        thread = f"front cell: f {camera.lens.focal_length:g} mm, front group {CELL:g} mm, lead "
    else:
        camera, lead, more = OSTRIN, LEAD, {}
        formula = scale.depth_mark.solve_for(scale.depth_mark_angle)
        thread = "helicoid of lead "
    confusion = camera.circle_of_confusion
    known = {"circle_of_confusion": confusion, "lead": lead, **more}
    found, other = (step(formula, f_number=n, **known) for n in (stop.used, stop.other))
    question = (
        f"A new depth scale is drawn for the {camera.name} ({thread}{lead:g} mm; circle of "
        f"confusion {confusion:g} mm). How many degrees from the index does each mark for "
        f"f/{stop.engraved:g} stand? {stop.said}"
    )
    if level is ExerciseLevel.JOURNEYMAN:
        return _along_the_edge(question, found, stop.slip(other.result.value))
    slips = [
        (Slip.DOUBLE, 2 * found.result.value, "That is from mark to mark: halve it, to the index."),
        stop.slip(other.result.value),
    ]
    if more:
        slips.append((Slip.LEFT_OUT, math.tau * stop.used * confusion / lead, _FACTOR))
    return task(
        question, angle_answer("angle of the depth mark", found.result, 2), worked([found]), slips
    )


def _along_the_edge(question: str, angle: Step, other_stop: Slipped) -> Task:
    formula = helicoid.ring_arc.solve_for(helicoid.arc)
    found = step(formula, rotation=angle.result, ring_diameter=RING)
    slip, turned, why = other_stop
    answer = length_answer("arc to the depth mark", found.result, 2)
    asked = question.replace("How many degrees", f"How many mm along its edge, ⌀ {RING:g} mm,")
    slips = [
        (
            Slip.DOUBLE,
            2 * answer.size,
            "That is from mark to mark, or the diameter for the radius: halve it.",
        ),
        (
            Slip.RADIANS,
            math.degrees(answer.size),
            "That takes degrees for radians: 180° is π radians.",
        ),
        (slip, answer.size * turned / angle.result.value, why),
    ]
    return task(asked, answer, worked([angle, found]), slips)
