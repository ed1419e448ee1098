"""What the jobs on one kind of camera have shown: mean, spread and how many jobs say so."""

import math
import sqlite3
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from optics.errors import ShimwrightError
from optics.readings.directions import Direction
from optics.records.intake import SHIMS_FOUND
from optics.records.job import JobDocument, TakenPart
from optics.records.solve import described
from optics.records.to_bench import camera_of, depth_marks_of
from optics.records.work import SHIMS_ADDED, SHIMS_REMOVED
from optics.scales.depth_marks import infer_confusion
from optics.typed import fields


@dataclass(frozen=True)
class ShopFigure:
    """One figure (mm) over the jobs that have it; `spread` is the sample standard deviation.

    A single job has no spread.
    """

    name: str
    jobs: int
    mean: float
    spread: float | None
    least: float
    most: float


def keep_figures(connection: sqlite3.Connection, number: int, job: JobDocument) -> None:
    """Put a job's figures in place of those it had."""
    connection.execute("DELETE FROM job_figure WHERE job = ?", (number,))
    connection.executemany(
        "INSERT INTO job_figure VALUES (?, ?, ?)",
        [(number, name, value) for name, value in figures(job).items()],
    )


def figures(job: JobDocument) -> dict[str, float]:
    """The figures of one job in mm, by name; those it does not have are left out."""
    values = {name: _value_or_none(work, job) for name, work in _FIGURES.items()}
    return {name: v for name, v in values.items() if v is not None and math.isfinite(v)}


def _value_or_none(work: Callable[[JobDocument], float | None], job: JobDocument) -> float | None:
    try:
        return work(job)
    except ShimwrightError:
        # A job may be kept long before its figures can be worked out.
        return None


def _error(job: JobDocument, taken: Sequence[TakenPart]) -> float | None:
    """The focus error of the first measured reading of these."""
    if not taken:
        return None
    camera = camera_of(described(job))
    readings = (part.reading.read(camera) for part in taken)
    measured = (r for r in readings if not isinstance(r, Direction))
    first = next(measured, None)
    return None if first is None else first.steps(camera)[-1].result.value


def _error_as_found(job: JobDocument) -> float | None:
    return _error(job, job.found)


def _error_as_left(job: JobDocument) -> float | None:
    return _error(job, job.left[::-1])


def _thickness(field: fields.Typed, texts: Sequence[str | None]) -> float | None:
    """The thickness of all the leaves; None where no leaf was ever entered."""
    entered = [field.read(text) for text in texts if text is not None]
    if not entered:
        return None
    return math.fsum(thickness * n for leaves in entered for thickness, n in leaves)


def _shims_found(job: JobDocument) -> float | None:
    shims = job.intake.condition.shims if job.intake else ()
    return _thickness(SHIMS_FOUND, [one.leaves for one in shims])


def _shims_added(job: JobDocument) -> float | None:
    done = job.work.done if job.work else ()
    added = _thickness(SHIMS_ADDED, [one.added for one in done])
    removed = _thickness(SHIMS_REMOVED, [one.removed for one in done])
    return None if added is None and removed is None else (added or 0.0) - (removed or 0.0)


def _confusion(job: JobDocument) -> float | None:
    if job.camera is None or job.camera.circle_of_confusion is None:
        return None
    return float(fields.CIRCLE_OF_CONFUSION.read(job.camera.circle_of_confusion).value)


def _confusion_measured(job: JobDocument) -> float | None:
    """What the engraved depth marks were made for."""
    if job.scale is None:
        return None
    camera = camera_of(described(job))
    marks = depth_marks_of(job.scale, camera)
    return infer_confusion(camera, marks).value.value if marks else None


_FIGURES: dict[str, Callable[[JobDocument], float | None]] = {
    "focus error as found": _error_as_found,
    "focus error as left": _error_as_left,
    "shims found": _shims_found,
    "shims added less removed": _shims_added,
    "circle of confusion": _confusion,
    "circle of confusion of the depth marks": _confusion_measured,
}
_ORDER = {name: place for place, name in enumerate(_FIGURES)}

# Two passes: the mean first, so that the spread does not drown in a difference of squares.
_QUERY = """
WITH seen AS (
    SELECT f.name, f.value FROM job_figure AS f JOIN job AS j ON j.id = f.job
    WHERE j.camera_kind = ? AND j.deleted IS NULL),
means AS (SELECT name, avg(value) AS mean FROM seen GROUP BY name)
SELECT s.name, count(*), m.mean, total((s.value - m.mean) * (s.value - m.mean)),
    min(s.value), max(s.value)
FROM seen AS s JOIN means AS m ON m.name = s.name GROUP BY s.name
"""


def learned(connection: sqlite3.Connection, camera_kind: str) -> list[ShopFigure]:
    """Every figure that jobs on this kind of camera have, in a settled order."""
    rows = [
        ShopFigure(
            name, jobs, mean, math.sqrt(squares / (jobs - 1)) if jobs > 1 else None, low, high
        )
        for name, jobs, mean, squares, low, high in connection.execute(_QUERY, (camera_kind,))
    ]
    return sorted(rows, key=lambda row: _ORDER.get(row.name, len(_ORDER)))
