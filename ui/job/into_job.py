"""Put what a calculator worked out into the job that is open."""

from collections.abc import Iterator, Sequence
from datetime import date
from html import escape
from typing import Any

import streamlit as st

from optics.errors import ShimwrightError
from optics.readings.reading_part import ReadingPart
from optics.records.job import JobDocument, TakenPart
from optics.records.solve import Solution
from optics.records.store import KeptJob
from optics.typed import fields
from optics.typed.day import DAY, said_day
from optics.typed.part import Part
from ui.asking.fields import choice, field, plain_field
from ui.job.from_job import fill_untouched
from ui.kept.library import library_items
from ui.kept.open_job import job_name, look_again, my_store, open_job

FOUND, LEFT, WORKING = "as found", "as left", "to work with only"
_SAID = "said of the open job"
_NO_INSTRUMENT = "not named"
# What the calculators do not say anything about.
_NOT_SENT = {"format", "version", "title", "readings", "found", "left", "intake", "trays", "work"}


def offer_to_job(solution: Solution) -> None:
    """A button that opens the few fields needed, and puts the result into the open job."""
    kept = open_job()
    if kept is None:
        return
    name = job_name(kept.line.number)
    with st.popover(f"Put into {name}", key="into_job"):
        readings = solution.job.readings
        taken = _taken_fields(f"{name}.into_job", [one.kind for one in readings])
        refusal = taken.pop("refusal", "")
        st.button(
            f"Put it into {name}",
            key="put",
            type="primary",
            on_click=_put,
            args=[kept, solution.job, taken],
            disabled=bool(refusal),
        )
    sentence = st.session_state.pop(_SAID, "")
    st.html(f"<p class='saved' role='status'>{escape(sentence)}</p>")


def _taken_fields(key: str, kinds: Sequence[str]) -> dict[str, str]:
    """Which reading it is, when it was taken and with what; each kind is asked for its own.

    Several sent at once were taken with several instruments: which, is asked on the record.
    """
    if not kinds:
        return {}
    many = len(kinds) > 1
    label = "the readings are kept" if many else "the reading is kept"
    where = choice(label, [FOUND, LEFT, WORKING], f"{key}.where")
    entry = field(DAY, f"{key}.day", typed=date.today().isoformat(), label="day")
    instrument = "" if many else _instrument(f"{key}.{kinds[0]}")
    note = plain_field("note", f"{key}.{'all' if many else kinds[0]}.note", hint=None)
    return {
        "where": where,
        "day": entry.text,
        "instrument": instrument,
        "note": note,
        "refusal": entry.refusal,
    }


def _instrument(key: str) -> str:
    """One of the library's instruments, or the name typed where it has none."""
    instruments = [item.name for _, item in library_items("instrument")]
    if not instruments:
        return plain_field("instrument", f"{key}.named", hint=None, longest=200)
    names = [_NO_INSTRUMENT, *instruments]
    return choice("instrument", names, f"{key}.instrument").replace(_NO_INSTRUMENT, "")


def _put(kept: KeptJob, sent: JobDocument, taken: dict[str, str]) -> None:
    number = kept.line.number
    name = job_name(number)
    try:
        job = with_result(kept.job, sent, taken)
        if job == kept.job:
            st.session_state[_SAID] = f"{name} holds just this already."
            return
        my_store().save_job(number, job, based_on=kept.revision)
    except ShimwrightError as refusal:
        st.session_state[_SAID] = str(refusal)
        look_again()
        return
    where = f", {taken['where']}" if taken else ""
    st.session_state[_SAID] = f"It is in {name}{where}; undo it on the page Record."
    now = look_again()
    if now is not None:
        # The job's other calculators have the result too, where nothing was typed yet.
        fill_untouched(now)


def with_result(job: JobDocument, sent: JobDocument, taken: dict[str, str]) -> JobDocument:
    """The job with what a calculator sent: its parts, and a reading as found or as left."""
    names = sent.model_fields_set - _NOT_SENT
    update = {name: merged(getattr(job, name), getattr(sent, name)) for name in names}
    where = {FOUND: "found", LEFT: "left"}.get(taken.get("where", ""))
    if where == "left" and sent.diagnosis is None:
        # It weighed the camera as it was found.
        update["diagnosis"] = None
    update["readings"] = (*_still_worked_with(job, sent, where), *sent.readings)
    if where is not None:
        update[where] = _piled(getattr(job, where), sent, taken)
    return job.model_copy(update=update)


def merged(held: Any, sent: Any) -> Any:
    """What a page sent laid over what the job holds: of a part, what it did not ask for stays.

    A field that was asked for and left empty is sent as none.
    """
    if not isinstance(sent, Part) or type(held) is not type(sent):
        return sent
    told = sent.model_fields_set
    return held.model_copy(
        update={name: merged(getattr(held, name), getattr(sent, name)) for name in told}
    )


def _still_worked_with(
    job: JobDocument, sent: JobDocument, where: str | None
) -> Iterator[ReadingPart]:
    """The job's readings that those sent do not replace.

    A reading replaces the one of the same thing; all weighed together replace all. What was
    read as found tells nothing any more of a camera that is read as left.
    """
    again = {_thing_read(reading) for reading in sent.readings}
    before = [taken.reading for taken in job.found] if where == "left" else []
    after = [taken.reading for taken in job.left]
    for reading in job.readings:
        is_weighed = sent.diagnosis is not None and reading.is_measured
        is_past = reading in before and reading not in after
        if not (is_weighed or is_past or _thing_read(reading) in again):
            yield reading


def _thing_read(reading: ReadingPart) -> tuple[Any, ...]:
    """What tells one thing read from another: kind, ring mark, place, and how it was judged."""
    mark = fields.RING_MARK.read(reading.ring_mark).value
    others = (getattr(reading, name, None) for name in ("place", "where", "judged"))
    return (reading.kind, mark, *others)


def _piled(
    before: tuple[TakenPart, ...], sent: JobDocument, taken: dict[str, str]
) -> tuple[TakenPart, ...]:
    """The readings with those sent; one of the same day that is there already is not doubled."""
    said = {name: taken[name] for name in ("instrument", "note")}
    day = taken["day"].strip() or None
    there = {_figures(one.reading) for one in before if said_day(one.day) == said_day(day)}
    new = (reading for reading in sent.readings if _figures(reading) not in there)
    return (*before, *(TakenPart(reading=reading, day=day, **said) for reading in new))


def _figures(reading: ReadingPart) -> tuple[Any, ...]:
    """What was read and the figures as typed, whichever page it was typed on."""
    besides = {"mark", "instrument"}
    return _thing_read(reading), *reading.model_dump(exclude=besides, exclude_none=True).items()
