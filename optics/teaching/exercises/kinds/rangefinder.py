"""Exercises on the rangefinder and the cam: base, eye, mirror, and the lift a lens must tell."""

from optics.rangefinder.acuity import ARCSECOND
from optics.teaching.exercises.draw import Draw
from optics.teaching.exercises.exercise import ExerciseLevel, Task
from optics.teaching.exercises.kinds.making import (
    SetTo,
    angle_answer,
    length_answer,
    metres,
    step,
    task,
    worked,
)
from optics.teaching.exercises.slips import Slip
from optics.teaching.shelf import FINDERS
from optics.theory import cam, lens
from optics.theory import rangefinder as theory

_NO_BASE = "The magnification is left out: the eye sees the base times the finder's magnification."


def effective_base(draw: Draw, level: ExerciseLevel) -> Task:
    """How long is the base as the eye sees it, or as a lens needs it?"""
    if level is ExerciseLevel.APPRENTICE:
        base, magnification = draw.between(30, 70, 1), draw.between(0.4, 0.9, 0.05)
        found = step(
            theory.virtual_base.solve_for(theory.effective_base),
            base=base,
            finder_magnification=magnification,
        )
        question = (
            f"A rangefinder has a base of {base:g} mm and its finder magnifies "
            f"{magnification:.2f} times. How long is its effective base?"
        )
        slips = [
            (Slip.UPSIDE_DOWN, base / magnification, "The magnification multiplies the base."),
            (Slip.LEFT_OUT, base, _NO_BASE),
        ]
        return task(
            question, length_answer("effective base", found.result, 1), worked([found]), slips
        )
    return _needed(draw, 60 if level is ExerciseLevel.JOURNEYMAN else draw.one_of((12, 30, 45)))


def _needed(draw: Draw, seconds: float) -> Task:
    camera = draw.one_of(FINDERS).camera
    stop = SetTo.wide_open(draw.one_of((2.0, 2.8, 3.5)))
    focal, confusion = camera.lens.focal_length, camera.circle_of_confusion
    formula = theory.needed_base.solve_for(theory.effective_base)
    known = {
        "eye_acuity": seconds * ARCSECOND,
        "focal_length": focal,
        "circle_of_confusion": confusion,
    }
    found = step(formula, f_number=stop.used, **known)
    question = (
        f"How long an effective base does an f/{stop.engraved:g} lens of {focal:g} mm need, if the "
        f"eye tells {seconds:g}″ apart and the circle of confusion is {confusion:g} mm? {stop.said}"
    )
    needed = found.result.value
    slips = [
        (Slip.SIXTY, needed * 60, "That takes the seconds for minutes: 60″ make 1′."),
        (Slip.NOT_SQUARED, needed / focal, "The focal length goes in squared."),
        stop.slip(step(formula, f_number=stop.other, **known).result.value),
    ]
    return task(question, length_answer("effective base", found.result, 2), worked([found]), slips)


def eye_at_film(draw: Draw, level: ExerciseLevel) -> Task:
    """What focus error does the eye leave at the film?"""
    finder = draw.one_of(FINDERS)
    seconds = 60 if level is ExerciseLevel.APPRENTICE else draw.one_of((12, 20, 30, 45))
    base, magnification = finder.rangefinder.base, finder.rangefinder.magnification
    if level is ExerciseLevel.BENCH:
        magnification = draw.between(0.4, 0.9, 0.05)
    seen = step(
        theory.virtual_base.solve_for(theory.effective_base),
        base=base,
        finder_magnification=magnification,
    )
    focal = finder.camera.lens.focal_length
    found = step(
        theory.film_uncertainty.solve_for(lens.focus_error),
        focal_length=focal,
        eye_acuity=seconds * ARCSECOND,
        effective_base=seen.result,
    )
    question = (
        f"The {finder.camera.name} (f {focal:g} mm) has a rangefinder base of {base:g} mm and a "
        f"finder that magnifies {magnification:.3g} times. How much focus error, each way, does an "
        f"eye leave that tells {seconds}″ apart?"
    )
    error = found.result.value
    slips = [
        (Slip.LEFT_OUT, error * magnification, _NO_BASE),
        (Slip.UPSIDE_DOWN, error * magnification**2, "The magnification multiplies the base."),
        (Slip.NOT_SQUARED, error / focal, "The focal length goes in squared."),
        (Slip.SIXTY, error * 60, "That takes the seconds for minutes: 60″ make 1′."),
    ]
    return task(
        question,
        length_answer("focus error each way", found.result, 3),
        worked([seen, found]),
        slips,
    )


def mirror_angle(draw: Draw, level: ExerciseLevel) -> Task:
    """How far does the mirror turn from infinity to a subject?"""
    finder = draw.one_of(FINDERS)
    base, before = finder.rangefinder.base, finder.rangefinder.base_to_film
    near = {ExerciseLevel.APPRENTICE: (3.0, 4.0, 5.0), ExerciseLevel.JOURNEYMAN: (1.5, 2.0, 2.5)}
    distance = 1000 * draw.one_of(near.get(level, (0.9, 1.0, 1.2)))
    formula = theory.triangle.solve_for(theory.convergence)
    seen = step(formula, base=base, film_distance=distance, base_to_film=before)
    found = step(theory.turning_mirror.solve_for(theory.mirror_turn), convergence=seen.result)
    unit, said = (
        ("arcmin", " minutes of arc") if level is ExerciseLevel.JOURNEYMAN else ("deg", " degrees")
    )
    question = (
        f"The rangefinder of the {finder.camera.name} has a base of {base:g} mm, {before:g} mm in "
        f"front of the film. How many{said} must its mirror turn from ∞ to a subject "
        f"{metres(distance, 1)} from the film?"
    )
    from_film = formula.value(base=base, film_distance=distance, base_to_film=0.0) / 2
    slips = [
        (
            Slip.DOUBLE,
            seen.result.value,
            "That is the convergence: a mirror turns the beam by "
            "twice its own turn, so it is half of that.",
        ),
        (
            Slip.DATUM,
            from_film,
            "That counts the distance from the film: the triangle stands on "
            "the base line, which lies before it.",
        ),
    ]
    return task(
        question,
        angle_answer("mirror turn", found.result, 1 if unit == "arcmin" else 3, unit=unit),
        worked([seen, found]),
        slips,
    )


def cam_lift(draw: Draw, level: ExerciseLevel) -> Task:
    """How far must a cam push the follower for a lens of another focal length?"""
    focal = draw.one_of((85.0, 90.0, 105.0, 135.0))
    body = 50.0 if level is ExerciseLevel.APPRENTICE else draw.one_of((47.0, 51.6))
    hiatus = 0.0 if level is not ExerciseLevel.BENCH else draw.one_of((-3.0, 4.0))
    distance = 1000 * draw.one_of((2.0, 2.5, 3.0))
    moved = step(
        lens.unit_focusing.solve_for(lens.extension),
        film_distance=distance,
        focal_length=focal,
        hiatus=hiatus,
    )
    found = step(
        cam.cam_lift.solve_for(cam.lift),
        extension=moved.result,
        focal_length=focal,
        hiatus=hiatus,
        body_focal_length=body,
        body_hiatus=0.0,
    )
    own = f" and hiatus {hiatus:g} mm".replace("-", "−") if hiatus else ""
    question = (
        f"A body's follower is cut for a lens of {body:g} mm without hiatus. A lens of "
        f"{focal:g} mm{own} is focused at {metres(distance, 1)}. How far must its cam push the "
        "follower from ∞?"
    )
    far = moved.result.value
    slips = [
        (
            Slip.WRONG_LENS,
            far,
            "That is the lens's own extension: the follower must move as the "
            "body's own lens would.",
        ),
        (
            Slip.NOT_SQUARED,
            far * body / focal,
            "Extensions go as the square of the focal lengths' ratio.",
        ),
    ]
    return task(
        question,
        length_answer("lift of the follower", found.result, 3),
        worked([moved, found]),
        slips,
    )
