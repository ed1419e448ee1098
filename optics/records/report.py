"""From a job document to its report: every reading worked out, everything written in rows."""

from collections.abc import Iterable, Sequence

from optics.camera.camera import Camera
from optics.errors import ShimwrightError
from optics.finding.disagreement import disagreement_line
from optics.measure.decision import decide
from optics.measure.verdict import Guard
from optics.readings.correction import correct
from optics.readings.directions import Direction
from optics.records.accounts import checks_of
from optics.records.first import answered
from optics.records.intake import SHIMS_FOUND, ConditionPart, IntakePart
from optics.records.job import JobDocument, TakenPart
from optics.records.solve import camera_on_bench
from optics.records.to_bench import marks_of, told_of, workshop_of
from optics.records.work import INSTRUMENT_LIMIT, DonePart, InstrumentPart, WorkPart
from optics.report.job_report import InstrumentUsed, JobReport, Row, TakenReading, TrayRow, WorkRow
from optics.typed import fields
from optics.typed.day import said_day
from optics.typed.part import typed_of
from optics.units import format_length

# What a job has besides its readings, each worked out where it is shown.
_BESIDE_READINGS = ("scale", "rangefinder", "standard", "gate", "witness", "budget")
_NOT_STATED = "not stated"
_GUARDS = {"expanded uncertainty": Guard.EXPANDED, "none": Guard.NONE}


def report_of(job: JobDocument) -> JobReport:
    """The whole job, its readings as found and as left worked out.

    Errors: Unreadable for readings without a camera; OutOfRange or NoAnswer, naming the
    quantity, for figures that cannot be.
    """
    intake, work = job.intake or IntakePart(), job.work or WorkPart()
    needs_camera = bool(job.found or job.left)
    is_told = job.camera is not None and not told_of(job.camera).missing
    camera = camera_on_bench(job) if is_told or needs_camera else None
    decision, next_service = work.decision, work.next_service
    return JobReport(
        title=job.title,
        camera_name=(job.camera.name if job.camera else "") or intake.identity.camera,
        camera=camera,
        customer=intake.customer.name,
        reference=intake.customer.reference,
        state=work.state,
        identity=_identity(intake),
        dates=_dates(intake),
        wanted=intake.wanted,
        condition=tuple(_condition(intake.condition)),
        photos=tuple((p.file, _joined(said_day(p.day), p.note)) for p in intake.photos),
        trays=tuple(
            TrayRow(t.part, t.place, t.screw, t.quantity, t.tray, t.note) for t in job.trays
        ),
        found=_taken(job, camera, job.found),
        left=_taken(job, camera, job.left),
        work=tuple(WorkRow(one.done, _quantity(one), said_day(one.day)) for one in work.done),
        work_note=work.note,
        instruments=_instruments(job, work.instruments),
        guard=_GUARDS[decision.guard_band],
        decided_by=decision.by,
        decided_on=said_day(decision.day),
        decision_note=decision.note,
        next_service=_joined(said_day(next_service.due), next_service.note) if next_service else "",
        checked=checks_of(job),
        worked_with=tuple(_worked_with(job)),
        disagreeing=_disagreeing(job),
        shims_fitted=_fitted(job),
    )


def _worked_with(job: JobDocument) -> Iterable[str]:
    kept = [taken.reading for taken in (*job.found, *job.left)]
    return (reading.said_in_full for reading in job.readings if reading not in kept)


def _disagreeing(job: JobDocument) -> tuple[str, ...]:
    """The readings in hand that cannot both be true, where they can be worked out at all."""
    if len(job.readings) < 2 or job.camera is None:
        return ()
    try:
        found = answered(job.model_copy(update=dict.fromkeys(_BESIDE_READINGS)))
    except ShimwrightError:
        return ()
    return tuple(map(disagreement_line, found.disagreements))


def _fitted(job: JobDocument) -> str:
    """The shims fitted now, as they were understood."""
    fitted = job.workshop.fitted
    return "" if fitted is None else fields.FITTED.echo(fields.FITTED.read(fitted))


def _joined(*texts: str | None) -> str:
    """What there is of several texts, with a dot between."""
    return " · ".join(text.strip() for text in texts if text and text.strip())


def _rows(*rows: tuple[str, str | None]) -> tuple[Row, ...]:
    """The rows that have something in them."""
    return tuple((label, text) for label, text in rows if text and text.strip())


def _identity(intake: IntakePart) -> tuple[Row, ...]:
    it = intake.identity
    return _rows(
        ("Serial number", it.serial), ("Lens number", it.lens_serial), ("Other marks", it.marks)
    )


def _dates(intake: IntakePart) -> tuple[Row, ...]:
    days = intake.dates
    return _rows(
        ("Received", said_day(days.received)),
        ("Promised", said_day(days.promised)),
        ("Finished", said_day(days.finished)),
        ("Returned", said_day(days.returned)),
    )


def _condition(condition: ConditionPart) -> Iterable[Row]:
    for one in condition.findings:
        fault = "At fault" if one.fault == "other" else one.fault.capitalize()
        count = f"{one.quantity.strip()} of them" if one.quantity.strip() else ""
        yield f"{fault}: {one.what}", _joined(one.name, one.place, count, one.note)
    for mark in condition.old_marks:
        yield "Old mark", _joined(mark.place, mark.note)
    for shims in condition.shims:
        yield "Shims found", _joined(_leaves(shims.leaves), shims.material, shims.place, shims.note)
    yield from _rows(("Earlier repairs", condition.earlier_repairs), ("Also", condition.note))


def _leaves(text: str) -> str:
    """Leaves as they were understood."""
    return SHIMS_FOUND.echo(SHIMS_FOUND.read(text))


def _quantity(done: DonePart) -> str:
    added = f"added {_leaves(done.added)}" if done.added is not None else ""
    removed = f"removed {_leaves(done.removed)}" if done.removed is not None else ""
    return _joined(done.quantity, added, removed)


def _taken(
    job: JobDocument, camera: Camera | None, parts: Sequence[TakenPart]
) -> tuple[TakenReading, ...]:
    if camera is None:
        return ()
    return tuple(_worked_out(job, camera, part) for part in parts)


def _worked_out(job: JobDocument, camera: Camera, part: TakenPart) -> TakenReading:
    reading = part.reading.read(camera)
    words = (
        part.reading.said_thing,
        part.reading.said_figures,
        said_day(part.day),
        _instrument_name(part),
        part.note,
    )
    if isinstance(reading, Direction):
        return TakenReading(*words, reading)
    guard = _GUARDS[(job.work or WorkPart()).decision.guard_band]
    answer = correct(camera, reading, workshop_of(job.workshop), marks_of(job))
    return TakenReading(*words, answer, decide(answer.error, camera.allowed_error, guard))


def _instrument_name(part: TakenPart) -> str:
    gauge = part.reading.named_gauge
    return part.instrument if part.instrument.strip() or gauge is None else gauge.name


def _instruments(job: JobDocument, listed: Sequence[InstrumentPart]) -> tuple[InstrumentUsed, ...]:
    """Those listed, then those that only a reading names, each once."""
    used = [
        InstrumentUsed(
            one.name, _limit(one.limit), one.source, one.serial, said_day(one.checked), one.source
        )
        for one in listed
    ]
    names = {one.name.strip() for one in used}
    for part in (*job.found, *job.left):
        name = _instrument_name(part).strip()
        if name and name not in names:
            names.add(name)
            used.append(_named_by(part, name))
    return tuple(used)


def _named_by(part: TakenPart, name: str) -> InstrumentUsed:
    """An instrument as the reading taken with it describes it."""
    reading, gauge = part.reading, part.reading.named_gauge
    if reading.said_limit is None and gauge is not None and gauge.limit is not None:
        limit = f"± {format_length(gauge.limit, places=3)}"
        return InstrumentUsed(name, limit, gauge.source)
    limit = _NOT_STATED
    if reading.said_limit is not None:
        limit = _limit(reading.said_limit, typed_of(type(reading), "limit"))
    return InstrumentUsed(name, limit, "" if limit == _NOT_STATED else "stated with the reading")


def _limit(text: str | None, field: fields.Typed | None = INSTRUMENT_LIMIT) -> str:
    """A limit as it was understood; no instrument is without error, so 0 states nothing."""
    if text is None or field is None:
        return _NOT_STATED
    limit = field.read(text)
    return f"± {field.echo(limit)}" if limit.value else _NOT_STATED
