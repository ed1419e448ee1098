"""A job's record with what was typed since: what differs, what collides, and the job with both.

Every text of a job has a path, such as ``intake.condition.shims.0.leaves``.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from optics.records.job import JobDocument
from optics.typed.ask import Field
from ui.job.record_fields import LISTS, choices_of

Texts = dict[str, str]


@dataclass(frozen=True)
class Collision:
    """One text that was changed here and elsewhere: as it was, as it is here, and there."""

    path: str
    before: str
    here: str
    there: str


def flat(job: JobDocument) -> Texts:
    """Every text of a job by its path."""
    found: Texts = {}
    _flatten(job.model_dump(mode="json", exclude_none=True), "", found)
    return found


def _flatten(value: Any, path: str, found: Texts) -> None:
    if isinstance(value, str):
        found[path] = value
        return
    inner = enumerate(value) if isinstance(value, list) else ()
    for name, one in value.items() if isinstance(value, dict) else inner:
        _flatten(one, f"{path}.{name}" if path else str(name), found)


def changed(typed: Mapping[str, str], kept: Mapping[str, str]) -> Texts:
    """The typed texts that differ from those kept."""
    return {path: text for path, text in typed.items() if text != kept.get(path, "")}


def collisions(mine: Texts, before: Texts, now: Texts) -> list[Collision]:
    """The texts changed here that somebody else has changed otherwise since `before`."""
    return [
        Collision(path, before.get(path, ""), text, now.get(path, ""))
        for path, text in mine.items()
        if now.get(path, "") not in (before.get(path, ""), text)
    ]


def with_changes(job: JobDocument, mine: Mapping[str, str]) -> JobDocument:
    """The job with the texts typed; rows that were left empty are left out.

    Errors: a ValidationError of pydantic for a text that the job cannot hold.
    """
    document = job.model_dump(mode="json", exclude_none=True)
    for path, text in mine.items():
        _set(document, path.split("."), text)
    for path, rows in LISTS.items():
        _drop_empty(document, path, rows)
    return JobDocument.model_validate(document)


def _set(inside: Any, steps: list[str], text: str) -> None:
    """Put a text where its path leads, making what is not there yet; empty text is none."""
    step, *rest = steps
    place: Any = int(step) if isinstance(inside, list) else step
    if isinstance(inside, list):
        inside.extend({} for _ in range(len(inside), place + 1))
    if not rest:
        if text.strip() or isinstance(inside, list):
            inside[place] = text
        else:
            inside.pop(place, None)
        return
    if not isinstance(inside, list):
        inside.setdefault(place, [] if rest[0].isdigit() else {})
    _set(inside[place], rest, text)


def _drop_empty(document: dict[str, Any], path: str, rows: Field) -> None:
    *steps, last = path.split(".")
    inside = document
    for step in steps:
        inside = inside.get(step, {})
    choices = choices_of(rows)
    if last in inside:
        inside[last] = [choices | row for row in inside[last] if row.keys() - choices.keys()]
