"""Exercises on tape, collimator and depth gauge: from what the instrument says to the error."""

from optics.measure.uncertainty import Estimate, exact
from optics.teaching.exercises.answer import FOCUS, Answer, Reads
from optics.teaching.exercises.draw import Draw
from optics.teaching.exercises.exercise import ExerciseLevel, Task, WorkedStep
from optics.teaching.exercises.kinds.making import (
    FOOT,
    INCH,
    distance_answer,
    length_answer,
    mm,
    read_off,
    step,
    task,
    worked,
)
from optics.teaching.exercises.slips import Slip
from optics.teaching.shelf import CORVANE, OSTRIN, TARNBROOK
from optics.theory import collimation, lens

_TENTHS = "That takes the inches for tenths of a foot: twelve inches make a foot, not ten."
_METRES = "That takes the feet for metres: 1 ft is 0.3048 m."


def tape(draw: Draw, level: ExerciseLevel) -> Task:
    """What is a tape's reading in feet and inches in metric?"""
    if level is ExerciseLevel.BENCH:
        return _shim_in_thou(draw)
    feet, inches = round(draw.between(3, 12, 1)), round(draw.between(2, 11, 1))
    half = 0 if level is ExerciseLevel.APPRENTICE else draw.one_of((0.0, 0.5))
    said = f"{feet} ft {inches} in" if not half else f"{feet} ft {inches} 1/2 in"
    whole = inches + half
    metres = (feet + whole / 12) * 0.3048
    line = f"D = (feet + inches/12)·0.3048 = ({feet} + {whole:g}/12)·0.3048 = {metres:.4f} m"
    working = WorkedStep("One foot is 12 inches and 0.3048 m exactly.", (line,))
    slips = [
        (Slip.FEET_INCHES, (feet + whole / 10) * FOOT, _TENTHS),
        (Slip.FEET, (feet + whole / 12) * 1000, _METRES),
        (Slip.LEFT_OUT, feet * FOOT, "The inches are left out."),
    ]
    answer = distance_answer("distance", exact(metres * 1000), 3)
    question = f"The tape from the film plane to the target reads {said}. How many metres is that?"
    return task(question, answer, [working], slips)


def _shim_in_thou(draw: Draw) -> Task:
    thou = draw.between(2, 15, 1)
    value = thou * INCH / 1000
    line = f"t = thou·0.0254 = {thou:g}·0.0254 = {value:.4f} mm"
    working = WorkedStep("One thou is a thousandth of an inch, 0.0254 mm exactly.", (line,))
    answer = Answer("thickness", value, Reads.LENGTH, "mm", 3)
    slips = [
        (Slip.INCH, thou / 1000, "That is in inches: one inch is 25.4 mm."),
        (Slip.HABIT, thou / 100, "That takes a thou for 0.01 mm: it is 0.0254 mm."),
    ]
    question = (
        f"An old drawer of shims is stamped in thou, and {thou:g} thou is under the lens seat. "
        "How many mm is that?"
    )
    return task(question, answer, [working], slips)


def collimator(draw: Draw, level: ExerciseLevel) -> Task:
    """What error does a shifted reticle tell?"""
    camera = {
        ExerciseLevel.APPRENTICE: OSTRIN,
        ExerciseLevel.JOURNEYMAN: CORVANE,
        ExerciseLevel.BENCH: TARNBROOK,
    }[level]
    focal, long = camera.lens.focal_length, draw.one_of((200.0, 250.0, 300.0))
    shift = draw.either_way(1.0, 4.0, 0.05)
    way = "inside its focus, towards its lens" if shift > 0 else "outside its focus, away from it"
    found = step(
        collimation.collimator_error.solve_for(lens.focus_error),
        reticle_shift=read_off(shift, 0.025, "reticle"),
        focal_length=focal,
        collimator_focal_length=long,
    )
    question = (
        f"With the {camera.name} (f {focal:g} mm) at ∞ before a collimator of {long:g} mm, their "
        f"facing focal points together ({focal + long:g} mm from lens to lens), the "
        f"reticle is sharp at the film once it has been moved {mm(abs(shift), 2)} {way}. The "
        "reticle's slide is read to 0.05 mm. How far off is the lens?"
    )
    slips = [
        (Slip.NOT_SQUARED, shift * focal / long, "The ratio of focal lengths goes in squared."),
        (
            Slip.UPSIDE_DOWN,
            shift * (long / focal) ** 2,
            "The ratio of focal lengths is upside "
            "down: the longer collimator makes its shift look small at the film.",
        ),
        (Slip.LEFT_OUT, shift, "That is the reticle's own shift: bring it to the film."),
    ]
    return task(
        question, length_answer("focus error", found.result, 3, FOCUS), worked([found]), slips
    )


def depth_gauge(draw: Draw, level: ExerciseLevel) -> Task:
    """How far off is the lens by the depth gauge on its seat?"""
    nominal = draw.one_of((28.80, 31.95, 44.20))
    error = draw.either_way(0.03, 0.25, 0.01)
    bridge = 0.0 if level is ExerciseLevel.APPRENTICE else draw.one_of((5.0, 8.0, 10.0))
    reading = nominal + error + bridge
    read = read_off(reading, 0.005, "depth gauge")
    register = Estimate(0.0).plus(read).plus(exact(bridge), -1.0)
    readings, mean = mm(reading, 2), []
    if level is ExerciseLevel.BENCH:
        spread = draw.one_of(((-0.01, 0.0, 0.01), (0.01, 0.01, -0.02), (-0.02, 0.02, 0.0)))
        three = [f"{reading + off:.2f}" for off in spread]
        readings = f"{', '.join(three)} mm (take their mean)"
        line = f"mean = sum/3 = ({' + '.join(three)})/3 = {reading:.2f} mm"
        mean = [WorkedStep("Several readings count by their mean.", (line,))]
    found = step(
        collimation.register_error.solve_for(lens.focus_error),
        measured_register=register,
        nominal_register=nominal,
    )
    over = " from the lens seat"
    if bridge:
        over = f" from the top of a bridge {mm(bridge, 2)} thick laid over the lens seat"
    question = (
        f"The depth gauge reads {readings}{over} to the film rails. The camera's register is "
        f"{mm(nominal, 2)}. How far off does the lens sit?"
    )
    slips = []
    if bridge:
        line = f"R = gauge − bridge = {reading:.2f} − {bridge:.2f} = {reading - bridge:.2f} mm"
        mean.append(WorkedStep("The gauge reads the bridge as well.", (line,)))
        said = "The bridge is left in: take its thickness off the gauge's reading."
        slips = [(Slip.LEFT_OUT, reading - nominal, said)]
    return task(
        question,
        length_answer("focus error", found.result, 2, FOCUS),
        [*mean, WorkedStep.of(found)],
        slips,
    )
