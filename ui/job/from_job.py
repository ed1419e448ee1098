"""What a job holds, put into the calculators' fields as if it had been typed there."""

from collections.abc import Container, Mapping
from typing import Any

from optics.camera.confusion import format_named
from optics.rangefinder.cam_part import CamPart, StraightBodyPart
from optics.rangefinder.part import RangefinderPart
from optics.records.job import JobDocument, ScalePart
from optics.records.store import KeptJob
from optics.typed.part import Part
from ui.asking.part_form import texts_of
from ui.depth.scale_form import ACROSS, BEGIN
from ui.job.rows_of_job import ROWS, show_rows
from ui.kept import drafts
from ui.kept.open_job import job_name, set_open

Texts = dict[str, str]


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
    if job.scale is not None:
        texts |= _scale(job.scale)
    if job.rangefinder is not None:
        texts |= _rangefinder(job.rangefinder)
    for name in ("camera", "workshop", "standard", "gate", "witness", "budget"):
        part = getattr(job, name)
        # The fields of the camera stand at the root of its name.
        texts |= {} if part is None else texts_of(part, "" if name == "camera" else name)
    if job.standard is not None:
        # All places as one text, where the page takes any place.
        texts["depths.more"] = job.standard.depths
    if job.diagnosis is not None:
        texts |= _under("whole", _given(job.diagnosis))
    booked_in = job.intake.identity.camera if job.intake else ""
    named = texts.get("name") or booked_in
    return texts | ({"name": named} if named.strip() else {})


def _given(part: Part) -> Texts:
    """The texts of a part that has no parts in it; what was never given is left out."""
    found = part.model_dump(mode="json", exclude_none=True)
    return {name: text for name, text in found.items() if isinstance(text, str)}


def _under(prefix: str, texts: Mapping[Any, str]) -> Texts:
    return {f"{prefix}.{name}": text for name, text in texts.items()}


def _word(words: Mapping[str, Any], meaning: Any) -> str:
    """The word that stands on the page for what a job says."""
    return next(word for word, means in words.items() if means == meaning)


def _scale(scale: ScalePart) -> Texts:
    texts = _given(scale)
    along, reference = texts.pop("along"), texts.pop("reference")
    negative = texts.pop("negative", "")
    named = {"negative": format_named(negative).name} if negative else {}
    return (
        named
        | _under(f"scale.{along}", texts)
        | {
            "scale.along": along,
            "scale.from": _word(BEGIN, reference),
            "scale.across": _word(ACROSS, scale.across),
        }
    )


def _rangefinder(part: RangefinderPart) -> Texts:
    texts = _given(part)
    read = {name: texts.pop(name) for name in ("pairs", "tape") if name in texts}
    found = _under("rangefinder", texts) | _under("rangefinder.read", read)
    found |= _under("rangefinder.compensator", _given(part.compensator))
    for number, turned in enumerate(part.rounds, 1):
        found |= _under(f"rangefinder.round{number}", _given(turned))
    for number, apart in enumerate(part.apart, 1):
        found |= _under(f"rangefinder.apart{number}", _given(apart))
    return found | (_cam(part.cam) if part.cam is not None else {})


def _cam(part: CamPart) -> Texts:
    body = _given(part.body)
    law = body.pop("kind")
    prefix = "cam.straight" if isinstance(part.body, StraightBodyPart) else "cam.body"
    return _under("cam", _given(part)) | _under(prefix, body) | {"cam.law": law}
