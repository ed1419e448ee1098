"""What was done, with what, and what was decided."""

from typing import Annotated, Literal

from pydantic import Field

from optics.records.states import State
from optics.typed import fields
from optics.typed.ask import Ask
from optics.typed.day import DAY_HINT, Day
from optics.typed.part import Line, Note, Part

SHIMS_ADDED = fields.leaves("shims added", "0.05 × 2")
SHIMS_REMOVED = fields.leaves("shims removed", "0.1")
INSTRUMENT_LIMIT = fields.GAUGE_LIMIT


class DonePart(Part):
    """One piece of work with its quantity as it was typed; shims also by their leaves."""

    done: Annotated[Note, Ask("done", hint=None, width=8)]
    quantity: Annotated[Line, Ask("how much", hint=None, width=4)] = ""
    added: Annotated[str, SHIMS_ADDED, Ask("shims in", "such as 0.05 × 2")] | None = None
    removed: Annotated[str, SHIMS_REMOVED, Ask("shims out")] | None = None
    day: Annotated[Day, Ask("day", DAY_HINT)] | None = None


class InstrumentPart(Part):
    """A measuring instrument: how far either way it may be out, and who says so."""

    name: Annotated[Line, Ask("instrument", hint=None, width=5)]
    limit: Annotated[str, INSTRUMENT_LIMIT, Ask("good to ±", width=3)] | None = None
    source: Annotated[Line, Ask("calibrated by", hint=None)] = ""
    serial: Annotated[Line, Ask("number", hint=None)] = ""
    checked: Annotated[Day, Ask("checked on", DAY_HINT)] | None = None
    note: Annotated[Note, Ask("note", hint=None)] = ""


class DecisionPart(Part):
    """How the figures as left are held against the tolerance, and who answers for it."""

    guard_band: Annotated[
        Literal["expanded uncertainty", "none"], Ask("guard band inside the tolerance", width=12)
    ] = "expanded uncertainty"
    by: Annotated[Line, Ask("decided by", hint=None, width=7)] = ""
    day: Annotated[Day, Ask("on", DAY_HINT, width=5)] | None = None
    note: Annotated[Note, Ask("note", hint=None, width=12)] = ""


class ServicePart(Part):
    """When the camera should be looked at again, and what for."""

    due: Annotated[Day, Ask("due", DAY_HINT)] | None = None
    note: Annotated[Note, Ask("reason", hint=None, width=8)] = ""


class WorkPart(Part):
    """How far the job has come, the work, the instruments, the decision, the next service."""

    state: Annotated[State, Ask("the job is", width=12)] = "booked in"
    done: Annotated[tuple[DonePart, ...], Field(max_length=200)] = ()
    instruments: Annotated[tuple[InstrumentPart, ...], Field(max_length=200)] = ()
    decision: DecisionPart = DecisionPart()
    next_service: ServicePart | None = None
    note: Annotated[Note, Ask("note", hint=None, width=12)] = ""
