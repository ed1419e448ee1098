"""From a job document to its answers, one for each reading."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from optics.body.budget import Budget
from optics.body.budget_part import solve_budget
from optics.body.gate import GateResult
from optics.body.gate.part import solve_gate
from optics.body.standard.part import StandardAnswer, solve_standard
from optics.body.witness import Ranking
from optics.body.witness.part import solve_witness
from optics.camera.camera import Camera
from optics.camera.confusion import Convention, conventions, format_named
from optics.errors import ShimwrightError, Unreadable
from optics.finding.disagreement import Disagreement, disagreements
from optics.finding.part import SEEN_BLUR, DiagnosisPart
from optics.finding.whole import WholeCamera
from optics.measure.uncertainty import Estimate
from optics.rangefinder.cam_part import CamAnswer, solve_cam
from optics.rangefinder.from_part import bench_of, set_up_of
from optics.rangefinder.set_up import CoupledCamera, SetUp
from optics.readings.correction import Correction, correct
from optics.readings.directions import Direction
from optics.readings.reading_part import ReadingPart
from optics.readings.readings import Reading
from optics.records.diagnosis_readings import solve_diagnosis, taken_of
from optics.records.job import CameraPart, JobDocument
from optics.records.to_bench import camera_of, depth_marks_of, marks_of, scale_marks_of, workshop_of
from optics.scales.depth_marks import ConfusionFound, infer_confusion
from optics.scales.scale_check import ScaleCheck, check_scale
from optics.typed.part import optional_value

Answer: TypeAlias = Correction | Direction


@dataclass(frozen=True)
class Solution:
    """A job, its camera, and the answer to each of its readings in their order.

    `scale` and `confusion` are there if the job measured the ring's marks and depth marks,
    `rangefinder` if it describes one, `set_up` if that was read and `cam` if it has one;
    `standard`, `gate`, `witness` and `budget` if the job has those parts; `whole` if it asks for
    a diagnosis, and `disagreements` are the answers that cannot both be true if it does not.
    """

    job: JobDocument
    camera: Camera
    answers: tuple[Answer, ...]
    scale: ScaleCheck | None = None
    confusion: ConfusionFound | None = None
    rangefinder: CoupledCamera | None = None
    set_up: SetUp | None = None
    cam: CamAnswer | None = None
    standard: StandardAnswer | None = None
    gate: GateResult | None = None
    witness: Ranking | None = None
    budget: Budget | None = None
    whole: WholeCamera | None = None
    disagreements: tuple[Disagreement, ...] = ()

    @property
    def conventions(self) -> tuple[Convention, ...]:
        """The circles of confusion to compare the maker's with; none without the negative."""
        scale = self.job.scale
        if scale is None or scale.negative is None:
            return ()
        return conventions(format_named(scale.negative), self.camera.lens.focal_length)

    @property
    def lens_out(self) -> Estimate | None:
        """The largest focus error read at infinity that calls for work on the lens."""
        errors = [
            answer.error
            for answer in self.answers
            if isinstance(answer, Correction)
            and answer.calls_for_work
            and _at_infinity(answer.reading)
        ]
        return max(errors, key=lambda error: abs(error.value), default=None)


def _at_infinity(reading: Reading) -> bool:
    """Whether the ring stood at infinity; a reading that asks for no mark is taken there."""
    mark = getattr(reading, "mark", None)
    return mark is None or math.isinf(mark.value)


def solve(job: JobDocument) -> Solution:
    """Work every reading of a job out, and each of its parts.

    All readings are weighed together only where the job asks for it, with a `diagnosis`: each
    then needs an uncertainty, which the answer to one reading can do without.
    Errors: Unreadable for a job with none of them; OutOfRange or NoAnswer, naming the
    quantity, for figures that cannot be.
    """
    parts = (job.scale, job.rangefinder, job.standard, job.gate, job.witness, job.budget)
    if not job.readings and not any(parts):
        raise Unreadable("The job has no reading: add at least one.", quantity="readings")
    camera = camera_on_bench(job)
    workshop, marks = workshop_of(job.workshop), marks_of(job)
    readings = (part.read(camera) for part in job.readings)
    answers = tuple(
        r if isinstance(r, Direction) else correct(camera, r, workshop, marks) for r in readings
    )
    standard = solve_standard(job.standard, camera, workshop.drawer) if job.standard else None
    gate = solve_gate(job.gate) if job.gate else None
    bench = bench_of(job.rangefinder, camera) if job.rangefinder else None
    set_up = set_up_of(job.rangefinder, camera) if job.rangefinder else None
    return Solution(
        job,
        camera,
        answers,
        *_scale(job, camera),
        rangefinder=bench,
        set_up=set_up,
        cam=_cam(job, bench),
        standard=standard,
        gate=gate,
        witness=solve_witness(job.witness, camera) if job.witness else None,
        budget=solve_budget(job.budget, camera, gate, standard) if job.budget else None,
        whole=solve_diagnosis(job, camera, set_up) if job.diagnosis else None,
        disagreements=() if job.diagnosis else disagreements(placed(job, answers)),
    )


def placed(job: JobDocument, answers: Sequence[Answer]) -> list[Correction | None]:
    """The measured answers, each reading with where it was taken; None where that is not told."""
    return [_placed(job, *pair) for pair in zip(job.readings, answers, strict=True)]


def _placed(job: JobDocument, part: ReadingPart, answer: Answer) -> Correction | None:
    if isinstance(answer, Direction):
        return None
    reading = in_its_place(job, part, answer.reading)
    return None if reading is None else replace(answer, reading=reading)


def in_its_place(job: JobDocument, part: ReadingPart, reading: Reading) -> Reading | None:
    """A reading with where it was taken; None where that is not told in full."""
    try:
        return reading.taken_so(taken_of(part, reading.taken, job))
    except ShimwrightError:
        # A place that only a diagnosis asks for may be told by half: nothing is compared with it.
        return None


def _scale(job: JobDocument, camera: Camera) -> tuple[ScaleCheck | None, ConfusionFound | None]:
    if job.scale is None:
        return None, None
    check = check_scale(camera, scale_marks_of(job.scale, camera), job.scale.reference)
    depth_marks = depth_marks_of(job.scale, camera)
    return check, infer_confusion(camera, depth_marks) if depth_marks else None


def _cam(job: JobDocument, bench: CoupledCamera | None) -> CamAnswer | None:
    if job.rangefinder is None or job.rangefinder.cam is None or bench is None:
        return None
    return solve_cam(job.rangefinder.cam, bench)


def described(job: JobDocument) -> CameraPart:
    """The job's camera; Unreadable where it was booked in and not yet described."""
    if job.camera is None:
        raise Unreadable(
            "The job has no camera: describe its lens and how it focuses first.",
            quantity="camera",
        )
    return job.camera


def camera_on_bench(job: JobDocument) -> Camera:
    """The job's camera, with the blur that whoever reads it says to see.

    Errors: Unreadable where no camera is described; OutOfRange for figures that cannot be.
    """
    part = job.diagnosis or DiagnosisPart()
    blur = optional_value(SEEN_BLUR, part.seen_blur)
    return replace(camera_of(described(job)), seen_blur=blur)
