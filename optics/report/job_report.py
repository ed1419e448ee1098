"""A job told from end to end, worked out and in words: what the sheets and the terminal show.

Only figures that the bench worked out, and what the repairer wrote; nothing is calculated here.
"""

from dataclasses import dataclass

from optics.account import Account
from optics.camera.camera import Camera
from optics.measure.decision import Decision, overall
from optics.measure.verdict import Guard, Verdict
from optics.readings.correction import Correction
from optics.readings.directions import Direction

Row = tuple[str, str]


@dataclass(frozen=True)
class TakenReading:
    """A reading as found or as left, and what follows; parallax has no decision.

    `title` tells it from the others, and `figures` are the tries.
    """

    title: str
    figures: str
    day: str
    instrument: str
    note: str
    answer: Correction | Direction
    decision: Decision | None = None

    @property
    def in_full(self) -> str:
        """What was read and the tries, so that no reading is taken for another."""
        return in_full(self.title, self.figures)


def in_full(title: str, figures: str) -> str:
    """A reading in one line: what was read, then the tries."""
    return f"{title}: {figures}"


@dataclass(frozen=True)
class TrayRow:
    """A part taken off and where it lies."""

    part: str
    place: str
    screw: str
    quantity: str
    tray: str
    note: str


@dataclass(frozen=True)
class WorkRow:
    """One piece of work, its quantity and its day, as written."""

    done: str
    quantity: str
    day: str


@dataclass(frozen=True)
class InstrumentUsed:
    """An instrument, how far either way it may be out, and who says so.

    `calibrated_by` is who calibrated it where that was written down: a standard that gives a
    limit for its kind has calibrated nothing.
    """

    name: str
    limit: str
    source: str
    serial: str = ""
    checked: str = ""
    calibrated_by: str = ""


@dataclass(frozen=True)
class JobReport:
    """Everything about one job; empty text where nothing was written.

    `worked_with` are the readings in hand that are kept neither as found nor as left, and
    `disagreeing` says which of all in hand cannot both be true.
    """

    title: str
    camera_name: str
    camera: Camera | None
    customer: str
    reference: str
    state: str
    identity: tuple[Row, ...]
    dates: tuple[Row, ...]
    wanted: str
    condition: tuple[Row, ...]
    photos: tuple[Row, ...]
    trays: tuple[TrayRow, ...]
    found: tuple[TakenReading, ...]
    left: tuple[TakenReading, ...]
    work: tuple[WorkRow, ...]
    work_note: str
    instruments: tuple[InstrumentUsed, ...]
    guard: Guard
    decided_by: str
    decided_on: str
    decision_note: str
    next_service: str
    checked: tuple[Account, ...] = ()
    worked_with: tuple[str, ...] = ()
    disagreeing: tuple[str, ...] = ()
    shims_fitted: str = ""

    @property
    def corrections_found(self) -> tuple[Correction, ...]:
        """The measured readings as found."""
        return _corrections(self.found)

    @property
    def corrections_left(self) -> tuple[Correction, ...]:
        """The measured readings as left."""
        return _corrections(self.left)

    @property
    def verdict(self) -> Verdict | None:
        """The worst of the decisions on the readings as left; None where there is none."""
        return overall(one.decision for one in self.left if one.decision is not None)

    @property
    def open_checks(self) -> tuple[Account, ...]:
        """What else was measured and is not proved right."""
        return tuple(one for one in self.checked if one.is_open)


def _corrections(taken: tuple[TakenReading, ...]) -> tuple[Correction, ...]:
    return tuple(one.answer for one in taken if isinstance(one.answer, Correction))
