"""Exercises on standard and film gate: what leans, and where the film really lies."""

from optics.measure.places import place_name
from optics.measure.uncertainty import Estimate, exact
from optics.teaching.exercises.answer import FOCUS
from optics.teaching.exercises.draw import Draw
from optics.teaching.exercises.exercise import ExerciseLevel, Task, WorkedStep
from optics.teaching.exercises.kinds.making import length_answer, mm, read_off, step, task, worked
from optics.teaching.exercises.slips import Slip
from optics.theory import gate, lens, standard

# A corner whose two leans all but cancel would ask for luck, not for work.
_TELLING = 0.04


def corner(draw: Draw, level: ExerciseLevel) -> Task:
    """How far out of focus does a leaning standard leave a corner?"""
    across, half_x, half_y = draw.one_of(((36.0, 18.0, 12.0), (56.0, 28.0, 28.0)))
    high = draw.either_way(0.08, 0.4, 0.01)
    side = "right" if high > 0 else "left"
    read = read_off(abs(high) / across, 0.005 / across, "feeler across")
    slope = read if high > 0 else Estimate(0.0).plus(read, -1.0)
    up = 0.0 if level is ExerciseLevel.APPRENTICE else draw.between(0.05, 0.2, 0.01)
    rise = read_off(up / across, 0.005 / across, "feeler up") if up else exact(0.0)
    place = draw.one_of((half_x, -half_x))
    if abs(high * place / across + up * half_y / across) < _TELLING:
        place = -place
    formula = standard.tilted_defocus.solve_for(lens.focus_error)
    given: dict[str, float | Estimate] = {
        "mean_error": 0.0,
        "tilt_factor": 1.0,
        "slope_across": slope,
        "slope_up": rise,
    }
    found = step(formula, place_across=place, place_up=half_y, **given)
    also = f" and {mm(up, 2)} farther out at the top over the same" if up else ""
    question = (
        f"Gauged over {across:g} mm, a standard stands {mm(abs(high), 2)} farther from the film on "
        f"the {side} (seen from the front){also}; in the middle it is right. How far is a distant "
        f"subject out of focus in the {place_name(place, half_y)} corner, {half_x:g} mm across and "
        f"{half_y:g} mm up from the middle?"
    )
    slopes = [
        WorkedStep(
            "A slope is the difference gauged over the length it was gauged over.",
            tuple(
                f"{name} = Δz/ℓ = {lean:g}/{across:g} = {lean / across:.6f}".replace("-", "−")
                for name, lean in (("sₓ", high), ("s_y", up))
                if lean
            ),
        )
    ]
    whole = high * place / half_x
    slips = [
        (
            Slip.DOUBLE,
            2 * found.result.value,
            "That is from one side to the other: the middle is right, so a corner has half of it.",
        )
    ]
    if up:
        alone = step(formula, place_across=place, place_up=0.0, **given).result.value
        slips.append((Slip.LEFT_OUT, alone, "The lean up and down is left out: both add up."))
    slips.append((Slip.DATUM, whole, "That is the whole difference gauged: count from the middle."))
    return task(
        question,
        length_answer("focus error in the corner", found.result, 3, FOCUS),
        [*slopes, WorkedStep.of(found)],
        slips,
    )


def film_in_gate(draw: Draw, level: ExerciseLevel) -> Task:
    """What does the film's play make, focused on a glass on the rails?"""
    channel, film = draw.between(0.20, 0.32, 0.01), draw.one_of((0.12, 0.13, 0.14, 0.15))
    rest = 1.0 if level is ExerciseLevel.APPRENTICE else 0.5
    behind = draw.one_of((0.02, 0.03)) if level is ExerciseLevel.BENCH else 0.0
    play = step(
        gate.film_play.solve_for(gate.play),
        channel=read_off(channel, 0.005, "channel"),
        film_thickness=film,
    )
    found = step(
        gate.emulsion_error.solve_for(lens.focus_error),
        rest=rest,
        play=play.result,
        reference_depth=-behind,
    )
    where = "on the pressure plate" if rest == 1 else "in the middle of its play"
    glass = (
        f"on a ground glass that stood {mm(behind, 2)} proud of the film rails, towards the lens"
        if behind
        else "on a ground glass laid on the film rails"
    )
    question = (
        f"The film channel is {mm(channel, 2)} deep from rails to pressure plate, the film "
        f"{mm(film, 2)} thick. The camera was focused {glass}, and the film lies {where}. How far "
        "off is the lens for the film?"
    )
    slips = [
        (Slip.LEFT_OUT, channel * rest + behind, "The film's own thickness is left out."),
        (Slip.DATUM, play.result.value * rest, "The glass did not lie on the rails: count it in."),
    ]
    answer = length_answer("focus error for the film", found.result, 3, FOCUS)
    if level is not ExerciseLevel.APPRENTICE:
        said = "That is all the play: in its middle the film lies half of it behind the rails."
        slips.insert(0, (Slip.DOUBLE, 2 * rest * play.result.value + behind, said))
    return task(question, answer, worked([play, found]), slips)
