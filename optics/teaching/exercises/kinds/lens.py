"""Exercises on lens and film: the focus error from a distance, what to shim, false infinity."""

import math
from dataclasses import dataclass

from optics.camera.camera import Camera
from optics.measure.uncertainty import Estimate
from optics.readings.readings import Step
from optics.teaching.exercises.answer import FOCUS, SHIM
from optics.teaching.exercises.draw import Draw
from optics.teaching.exercises.exercise import ExerciseLevel, Task, WorkedStep
from optics.teaching.exercises.kinds.making import (
    FOOT,
    INCH,
    length_answer,
    metres,
    minus,
    read_off,
    step,
    task,
    worked,
)
from optics.teaching.exercises.slips import Slip
from optics.teaching.shelf import CORVANE, OSTRIN, TARNBROOK
from optics.theory import lens
from optics.units import format_distance

_DATUM = (
    "That is what comes out with the distance counted from the lens: on this bench every "
    "distance begins at the film plane."
)
_METRES = "That takes the feet for metres: 1 ft is 0.3048 m."
_TENTHS = "That takes the inches for tenths of a foot: twelve inches make a foot, not ten."


@dataclass(frozen=True)
class _Sighting:
    """A ring mark, and the distance that is really sharp as tape and paper have it."""

    camera: Camera
    mark: float
    sharp: float
    half_digit: float
    printed: str
    feet: int = 0
    inches: float = 0.0

    def step(self, sharp: float | None = None) -> Step:
        """The focus error at the film."""
        formula, constants = self.camera.mark_error_formula(lens.focus_error)
        read: float | Estimate = read_off(self.sharp, self.half_digit, "tape")
        read = read if sharp is None else sharp
        return step(formula, sharp_distance=read, mark_distance=self.mark, **constants)

    @property
    def story(self) -> str:
        """What was seen."""
        engraved = "∞" if math.isinf(self.mark) else format_distance(self.mark)
        if self.feet:
            engraved = f"{round(self.mark / FOOT)} ft"
        figures = ", ".join(_figures(self.camera))
        return (
            f"The ring of the {self.camera.name} ({figures}) stands at {engraved}. On the ground "
            f"glass a target {self.printed} from the film plane is sharp."
        )

    @property
    def slips(self) -> list[tuple[Slip, float, str]]:
        """What comes of a wrong datum, and of feet and inches misread."""
        found = []
        if self.feet:
            for slip, wrong, sentence in (
                (Slip.FEET, 1000 * (self.feet + self.inches / 12), _METRES),
                (Slip.FEET_INCHES, FOOT * (self.feet + self.inches / 10), _TENTHS),
            ):
                found.append((slip, self.step(wrong).result.value, sentence))
        return [*found, (Slip.DATUM, self._from_lens, _DATUM)]

    @property
    def _from_lens(self) -> float:
        formula = lens.infinity_target.solve_for(lens.focus_error)
        focal = self.camera.lens.focal_length
        sharp, marked = (
            formula.value(focal_length=focal, infinity_target_distance=d)
            for d in (self.sharp, self.mark)
        )
        return sharp - marked


def _figures(camera: Camera) -> list[str]:
    words = {
        "focal_length": "f {} mm",
        "hiatus": "hiatus {} mm",
        "group_focal_length": "front group {} mm",
        "cell_to_film": "front group {} mm from the film at ∞",
    }
    _, constants = camera.mark_error_formula(lens.focus_error)
    said = [words[name].format(f"{value:g}".replace("-", "−")) for name, value in constants.items()]
    return sorted(said, key=lambda text: not text.startswith("f "))


def _sighting(draw: Draw, level: ExerciseLevel) -> _Sighting:
    if level is ExerciseLevel.APPRENTICE:
        sharp = draw.between(9000, 30_000, 100)
        return _Sighting(OSTRIN, math.inf, sharp, 50, metres(sharp, 1))
    if level is ExerciseLevel.JOURNEYMAN:
        camera, mark = draw.one_of(((OSTRIN, 1500.0), (TARNBROOK, 2000.0), (CORVANE, 2000.0)))
        sharp = mark + 10 * draw.either_way(9, 20, 1)
        return _Sighting(camera, mark, sharp, 5, metres(sharp, 2))
    feet, whole = round(draw.between(4, 8, 1)), round(draw.between(3, 8, 1))
    quarter, printed = draw.one_of(((0.25, "1/4"), (0.5, "1/2"), (0.75, "3/4")))
    inches = whole + quarter
    sharp = feet * FOOT + inches * INCH
    mark = (feet + draw.one_of((0, 1))) * FOOT
    camera = draw.one_of((OSTRIN, TARNBROOK))
    said = f"{feet} ft {whole} {printed} in"
    return _Sighting(camera, mark, sharp, INCH / 8, said, feet, inches)


def focus_error(draw: Draw, level: ExerciseLevel) -> Task:
    """How far off is the lens, from a distance that is sharp at a mark?"""
    seen = _sighting(draw, level)
    found = seen.step()
    return task(
        f"{seen.story} How far off is the lens?",
        length_answer("focus error", found.result, 3, FOCUS),
        worked([found]),
        seen.slips,
    )


def shim_to_add(draw: Draw, level: ExerciseLevel) -> Task:
    """What shim puts the same right?"""
    seen = _sighting(draw, level)
    found = seen.step()
    answer = length_answer("shim", found.result, 3, SHIM, sign=-1)
    rule = WorkedStep(
        "A shim added moves the lens away from the film: it is minus the error.",
        (minus("Δz", "e", found.result.value, 4),),
        ("Δz: shim change (plus to add)",),
    )
    question = f"{seen.story} What shim under the lens seat puts it right?"
    return task(question, answer, worked([found], [rule]), seen.slips)


def false_infinity(draw: Draw, level: ExerciseLevel) -> Task:
    """What does a target at a finite distance leave when it stands in for infinity?"""
    camera, low, high, grid = {  # the last one in yards
        ExerciseLevel.APPRENTICE: (OSTRIN, 20_000.0, 60_000.0, 1000.0),
        ExerciseLevel.JOURNEYMAN: (CORVANE, 40_000.0, 120_000.0, 1000.0),
        ExerciseLevel.BENCH: (TARNBROOK, 60.0, 200.0, 1.0),
    }[level]
    far = draw.between(low, high, grid)
    yards = level is ExerciseLevel.BENCH
    away = far * 3 * FOOT if yards else far
    printed = f"{far:.0f} yd" if yards else metres(far, 0)
    formula = lens.infinity_target.solve_for(lens.focus_error)
    read = read_off(away, 1.5 * FOOT if yards else grid / 2, "distance")
    found = step(formula, focal_length=camera.lens.focal_length, infinity_target_distance=read)
    question = (
        f"A chimney {printed} in front of the lens stood in for infinity when the "
        f"{camera.name} (f {camera.lens.focal_length:g} mm) was focused against its stop. How far "
        "off is its lens at the ∞ mark?"
    )
    focal = camera.lens.focal_length
    slips = [
        (Slip.NOT_SQUARED, focal / away, "That is f over the distance: it takes f squared."),
        (Slip.FEET, focal**2 / (far * 1000), "That takes the yards for metres: 1 yd is 0.9144 m."),
    ]
    return task(
        question,
        length_answer("focus error", found.result, 3, FOCUS),
        worked([found]),
        slips if yards else slips[:1],
    )
