"""What was done, with what, and what was decided."""

from typing import Annotated, Literal

from pydantic import Field

from optics.records.states import State
from optics.typed import fields
from optics.typed.day import Day
from optics.typed.part import Line, Note, Part

SHIMS_ADDED = fields.leaves("shims added", "0.05 × 2")
SHIMS_REMOVED = fields.leaves("shims removed", "0.1")
INSTRUMENT_LIMIT = fields.GAUGE_LIMIT


class DonePart(Part):
    """One piece of work with its quantity as it was typed; shims also by their leaves."""

    done: Note
    quantity: Line = ""
    added: Annotated[str, SHIMS_ADDED] | None = None
    removed: Annotated[str, SHIMS_REMOVED] | None = None
    day: Day | None = None


class InstrumentPart(Part):
    """A measuring instrument: how far either way it may be out, and who says so."""

    name: Line
    limit: Annotated[str, INSTRUMENT_LIMIT] | None = None
    source: Line = ""
    serial: Line = ""
    checked: Day | None = None
    note: Note = ""


class DecisionPart(Part):
    """How the figures as left are held against the tolerance, and who answers for it."""

    guard_band: Literal["expanded uncertainty", "none"] = "expanded uncertainty"
    by: Line = ""
    day: Day | None = None
    note: Note = ""


class ServicePart(Part):
    """When the camera should be looked at again, and what for."""

    due: Day | None = None
    note: Note = ""


class WorkPart(Part):
    """How far the job has come, the work, the instruments, the decision, the next service."""

    state: State = "booked in"
    done: Annotated[tuple[DonePart, ...], Field(max_length=200)] = ()
    instruments: Annotated[tuple[InstrumentPart, ...], Field(max_length=200)] = ()
    decision: DecisionPart = DecisionPart()
    next_service: ServicePart | None = None
    note: Note = ""
