"""From a job document to its answers, one for each reading."""

from dataclasses import dataclass
from typing import TypeAlias

from optics.bench.camera import Camera
from optics.bench.correction import Correction, correct
from optics.bench.readings import ParallaxReading
from optics.errors import Unreadable
from optics.records.job import CameraPart, JobDocument
from optics.records.to_bench import camera_of, marks_of, reading_of, workshop_of

Answer: TypeAlias = Correction | ParallaxReading


@dataclass(frozen=True)
class Solution:
    """A job, its camera, and the answer to each of its readings in their order."""

    job: JobDocument
    camera: Camera
    answers: tuple[Answer, ...]


def solve(job: JobDocument) -> Solution:
    """Work every reading of a job out.

    Errors: Unreadable for a job without a reading; OutOfRange or NoAnswer, naming the
    quantity, for figures that cannot be.
    """
    if not job.readings:
        raise Unreadable("The job has no reading: add at least one.", quantity="readings")
    camera = camera_of(described(job))
    workshop, marks = workshop_of(job.workshop), marks_of(job)
    readings = (reading_of(part, camera) for part in job.readings)
    answers = tuple(
        r if isinstance(r, ParallaxReading) else correct(camera, r, workshop, marks)
        for r in readings
    )
    return Solution(job, camera, answers)


def described(job: JobDocument) -> CameraPart:
    """The job's camera; Unreadable where it was booked in and not yet described."""
    if job.camera is None:
        raise Unreadable(
            "The job has no camera: describe its lens and how it focuses first.",
            quantity="camera",
        )
    return job.camera
