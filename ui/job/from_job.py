"""What a job holds, put into the calculators' fields as if it had been typed there."""

from collections.abc import Container

from optics.records.job import JobDocument
from optics.records.store import KeptJob
from ui.asking.part_form import texts_of
from ui.job.rows_of_job import ROWS, show_rows
from ui.kept import drafts
from ui.kept.open_job import job_name, set_open

Texts = dict[str, str]
_PARTS = (
    "camera",
    "workshop",
    "scale",
    "standard",
    "gate",
    "witness",
    "budget",
    "rangefinder",
    "diagnosis",
)


def open_here(number: int) -> None:
    """Open a job and have its camera chosen on every page; for a callback.

    Fields that were typed in for this job before keep what was typed.
    """
    kept = set_open(number)
    if kept is not None:
        fill_untouched(kept)
        drafts.put("camera", job_name(number))


def fill_untouched(kept: KeptJob) -> None:
    """Fill in what the job holds wherever nothing was typed for it; for a callback.

    The rows of the Whole camera go together: with one of them typed in, all are left alone.
    """
    typed = drafts.draft().under(f"{job_name(kept.line.number)}.")
    _fill(kept, but=typed)
    if not any(key.startswith(ROWS) for key in typed):
        show_rows(kept)


def fill(kept: KeptJob) -> None:
    """Fill the calculators' fields in with what the job holds; for a callback."""
    _fill(kept)
    show_rows(kept)


def _fill(kept: KeptJob, but: Container[str] = ()) -> None:
    """Fill in all fields but those named; the rows have numbers of their own."""
    name = job_name(kept.line.number)
    for key, text in job_texts(kept.job).items():
        if key not in but:
            drafts.put(f"{name}.{key}", text)


def job_texts(job: JobDocument) -> Texts:
    """The text of every calculator's field that the job has something for, but for the rows."""
    texts: Texts = {}
    # Of several of a kind the last: the fields hold one of each.
    for reading in {reading.kind: reading for reading in job.readings}.values():
        texts |= texts_of(reading, reading.kind) | {"reading": reading.title}
    for name in _PARTS:
        part = getattr(job, name)
        # The fields of the camera stand at the root of its name.
        texts |= {} if part is None else texts_of(part, "" if name == "camera" else name)
    if job.standard is not None:
        # All places as one text, where the page takes any place.
        texts["depths.more"] = job.standard.depths
    booked_in = job.intake.identity.camera if job.intake else ""
    named = texts.get("name") or booked_in
    return texts | ({"name": named} if named.strip() else {})
