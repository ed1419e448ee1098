"""Which fields the record of a job has, part by part: where in the job they stand."""

from optics.records.job import JobDocument
from optics.typed.ask import Field, asked
from optics.typed.part import Part

INSTRUMENTS, DONE = "work.instruments", "work.done"
READINGS = "Readings"
PART = "record.part"
# Each part's groups: their titles, and what of the job stands under each.
PARTS: dict[str, dict[str, tuple[str, ...]]] = {
    "Intake": {
        "Customer": ("intake.customer",),
        "Camera and lens": ("intake.identity",),
        "Dates": ("intake.dates",),
        "Work requested": ("title", "intake.wanted"),
    },
    "Condition as found": {
        "Screws and parts out of order": ("intake.condition.findings",),
        "Old marks": ("intake.condition.old_marks",),
        "Shims found": ("intake.condition.shims",),
        "Before": ("intake.condition",),
        "Photos, by the name of their file": ("intake.photos",),
    },
    "Trays": {"In the order of taking off": ("trays",)},
    READINGS: {},
    "Work": {
        "Work done": (DONE,),
        "Instruments used": (INSTRUMENTS,),
        "About the work": ("work.note",),
    },
    "Decision and next service": {
        "How far the job has come": ("work.state",),
        "Decision on the readings as left": ("work.decision",),
        "Next service": ("work.next_service",),
    },
}


def field_at(path: str) -> Field:
    """The field of a job at a place."""
    part: type[Part] = JobDocument
    found = None
    for step in path.split("."):
        found = next(one for one in asked(part) if one.name == step)
        part = found.parts[0] if found.parts else part
    assert found is not None
    return found


def choices_of(rows: Field) -> dict[str, str]:
    """What stands in the choices of a row until they are made."""
    return {one.name: one.first_choice for one in asked(rows.parts[0]) if one.choices}


# What a job holds any number of times; a row left empty is none.
LISTS = {
    path: field_at(path)
    for groups in PARTS.values()
    for paths in groups.values()
    for path in paths
    if field_at(path).is_several
}
