"""Which fields the record of a job has, part by part, and where in the job each is kept."""

from dataclasses import dataclass
from typing import get_args

from optics.records.intake import SHIMS_FOUND, Fault
from optics.records.states import State
from optics.records.work import INSTRUMENT_LIMIT, SHIMS_ADDED, SHIMS_REMOVED
from optics.typed.day import DAY
from optics.typed.fields import Typed

INSTRUMENTS, DONE = "work.instruments", "work.done"
_DAY_HINT = "such as 2026-03-06"


@dataclass(frozen=True)
class Ask:
    """One field: its place in the job, its words; a quantity, a choice, or else plain text."""

    name: str
    words: str
    quantity: Typed | None = None
    options: tuple[str, ...] = ()
    hint: str | None = None
    width: int = 1


@dataclass(frozen=True)
class Single:
    """Fields that a job has once, in rows as they stand on the page."""

    title: str
    path: str
    rows: tuple[tuple[Ask, ...], ...]


@dataclass(frozen=True)
class Several:
    """Fields that a job has any number of times; a row left empty is none."""

    title: str
    path: str
    rows: tuple[tuple[Ask, ...], ...]

    @property
    def choices(self) -> dict[str, str]:
        """What stands in a row's choices until they are made."""
        asks = (ask for row in self.rows for ask in row)
        return {ask.name: ask.options[0] for ask in asks if ask.options}


def _day(name: str, words: str, hint: str = _DAY_HINT) -> Ask:
    return Ask(name, words, DAY, hint=hint, width=3)


_INTAKE = (
    Single(
        "Customer",
        "intake.customer",
        (
            (Ask("reference", "customer reference"), Ask("name", "name")),
            (Ask("contact", "contact"),),
        ),
    ),
    Single(
        "Camera and lens",
        "intake.identity",
        (
            (Ask("camera", "camera"), Ask("serial", "serial number")),
            (Ask("lens_serial", "lens number"), Ask("marks", "other marks")),
        ),
    ),
    Single(
        "Dates",
        "intake.dates",
        (
            (_day("received", "received"), _day("promised", "promised", "")),
            (_day("finished", "finished", ""), _day("returned", "returned", "")),
        ),
    ),
    Single(
        "Work requested",
        "",
        (
            (Ask("title", "job in a few words"),),
            (Ask("intake.wanted", "customer's request"),),
        ),
    ),
)
_CONDITION = (
    Several(
        "Screws and parts out of order",
        "intake.condition.findings",
        (
            (
                Ask("what", "kind", options=("screw", "part"), width=3),
                Ask("fault", "condition", options=get_args(Fault), width=3),
                Ask("name", "screw or part", width=5),
            ),
            (
                Ask("place", "location", width=5),
                Ask("quantity", "how many", width=3),
                Ask("note", "note", width=5),
            ),
        ),
    ),
    Several(
        "Old marks",
        "intake.condition.old_marks",
        ((Ask("place", "place of the mark", width=4), Ask("note", "appearance", width=7)),),
    ),
    Several(
        "Shims found",
        "intake.condition.shims",
        (
            (
                Ask("leaves", "leaves", SHIMS_FOUND, hint="such as 0.05 × 2; 0.1", width=5),
                Ask("material", "material", width=3),
                Ask("place", "position", width=4),
            ),
            (Ask("note", "note on the shims"),),
        ),
    ),
    Single(
        "Before",
        "intake.condition",
        (
            (Ask("earlier_repairs", "earlier repairs"),),
            (Ask("note", "other notes"),),
        ),
    ),
    Several(
        "Photos, by the name of their file",
        "intake.photos",
        ((Ask("file", "file", width=4), _day("day", "taken on"), Ask("note", "shows", width=4)),),
    ),
)
_TRAYS = (
    Several(
        "In the order of taking off",
        "trays",
        (
            (
                Ask("part", "part", width=4),
                Ask("place", "came from", width=4),
                Ask("tray", "tray", width=2),
            ),
            (
                Ask("quantity", "screws", width=2),
                Ask("screw", "kind of screw", width=4),
                Ask("note", "note", width=4),
            ),
        ),
    ),
)
_WORK = (
    Several(
        "Work done",
        DONE,
        (
            (Ask("done", "done", width=7), Ask("quantity", "how much", width=4)),
            (
                Ask("added", "shims in", SHIMS_ADDED, hint="such as 0.05 × 2", width=4),
                Ask("removed", "shims out", SHIMS_REMOVED, hint="", width=4),
                _day("day", "day"),
            ),
        ),
    ),
    Several(
        "Instruments used",
        INSTRUMENTS,
        (
            (
                Ask("name", "instrument", width=5),
                Ask("limit", "good to ±", INSTRUMENT_LIMIT, hint="", width=3),
                Ask("serial", "number", width=3),
            ),
            (
                Ask("source", "calibrated by", width=5),
                _day("checked", "checked on"),
                Ask("note", "note", width=3),
            ),
        ),
    ),
    Single("About the work", "work", ((Ask("note", "note"),),)),
)
_DECISION = (
    Single(
        "How far the job has come",
        "work",
        ((Ask("state", "the job is", options=get_args(State)),),),
    ),
    Single(
        "Decision on the readings as left",
        "work.decision",
        (
            (
                Ask(
                    "guard_band",
                    "guard band inside the tolerance",
                    options=("expanded uncertainty", "none"),
                ),
            ),
            (Ask("by", "decided by", width=5), _day("day", "on")),
            (Ask("note", "note"),),
        ),
    ),
    Single(
        "Next service", "work.next_service", ((_day("due", "due"), Ask("note", "reason", width=5)),)
    ),
)
TAKEN = (
    (_day("day", "day", ""), Ask("instrument", "instrument", width=5)),
    (Ask("note", "note"),),
)

READINGS = "Readings"
PART = "record.part"
PARTS: dict[str, tuple[Single | Several, ...]] = {
    "Intake": _INTAKE,
    "Condition as found": _CONDITION,
    "Trays": _TRAYS,
    READINGS: (),
    "Work": _WORK,
    "Decision and next service": _DECISION,
}
LISTS = tuple(one for part in PARTS.values() for one in part if isinstance(one, Several))
