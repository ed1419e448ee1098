"""Reading job files and library files: strict, and one sentence for whatever is wrong."""

import json
import re
from collections import Counter
from collections.abc import Sequence
from functools import partial
from typing import Any, NoReturn, TypeVar

from pydantic import BaseModel, ValidationError

from optics.errors import ShimwrightError, Unreadable
from optics.records.earlier import write_as_now
from optics.records.job import JobDocument
from optics.typed.fields import KEPT

LARGEST_FILE = 1_000_000
_ROUNDS = 3

Document = TypeVar("Document", bound=BaseModel)


def read_job(data: bytes) -> JobDocument:
    """The job in a file's bytes; Unreadable with one sentence for anything that is not one."""
    return read_document(data, JobDocument, "job")


def read_kept_job(data: bytes) -> JobDocument:
    """The job in what the records keep, be it from before only semicolons parted figures."""
    return read_document(data, JobDocument, "job", kept=True)


def read_document(data: bytes, kind: type[Document], what: str, *, kept: bool = False) -> Document:
    """The document in a file's bytes; `what` names its kind in the sentence of a refusal.

    Of a document that is `kept`, texts that were good once are read as they were then, and a
    figure out of its range is left as it stands.
    """
    if len(data) > LARGEST_FILE:
        raise Unreadable(
            f"The {what} file must be at most {LARGEST_FILE:,} bytes: got {len(data):,}; "
            "check that it is the right file.",
            quantity="file",
            value=len(data),
            limit=LARGEST_FILE,
        )
    found = _parsed(data, what)
    _check_version(found, kind, what)
    try:
        return _validated(found, kind, kept)
    except ValidationError as wrong:
        raise Unreadable(problem_sentence(wrong, what), quantity="file") from None


def _validated(found: Any, kind: type[Document], kept: bool) -> Document:
    # A part's own check runs once its fields are good, so it is refused only then.
    for _ in range(_ROUNDS if kept else 0):
        try:
            return kind.model_validate(found, context=KEPT)
        except ValidationError as wrong:
            if not write_as_now(found, wrong):
                break
    return kind.model_validate(found, context=KEPT if kept else None)


def write_job(job: JobDocument) -> str:
    """The job as JSON text, every figure as it was typed."""
    return write_document(job)


def write_document(document: BaseModel) -> str:
    """A document as JSON text; what was never given is not written."""
    return document.model_dump_json(indent=2, exclude_none=True) + "\n"


def _parsed(data: bytes, what: str) -> Any:
    try:
        return json.loads(
            data.decode("utf-8-sig"),
            parse_constant=partial(_refuse_constant, what),
            object_pairs_hook=partial(_refuse_twice, what),
        )
    except Unreadable:
        raise
    except UnicodeDecodeError:
        raise Unreadable(f"The {what} file is not UTF-8 text; save it as UTF-8.") from None
    except json.JSONDecodeError as wrong:
        raise Unreadable(
            f"The {what} file is not JSON: {wrong.msg} in line {wrong.lineno}, "
            f"column {wrong.colno}."
        ) from None
    except RecursionError:
        raise Unreadable(f"The {what} file is nested too deeply to be a {what}.") from None
    except ValueError:
        raise Unreadable(f"The {what} file holds a number too long to be read.") from None


def _refuse_constant(what: str, name: str) -> NoReturn:
    raise Unreadable(f"The {what} file holds {name}, which is not JSON; write “inf” in quotes.")


def _refuse_twice(what: str, pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    # JSON readers keep the last of two without a word, and the first would be lost.
    found = dict(pairs)
    if len(found) < len(pairs):
        twice = Counter(name for name, _ in pairs).most_common(1)[0][0]
        raise Unreadable(
            f"The {what} file has the field “{one_line(twice)}” twice in one place; remove one.",
            quantity="file",
        )
    return found


def _check_version(found: Any, kind: type[BaseModel], what: str) -> None:
    name, current = (kind.model_fields[field].default for field in ("format", "version"))
    if not isinstance(found, dict) or found.get("format") != name:
        raise Unreadable(f"The file is not a {what}: its “format” must be “{name}”.")
    version = found.get("version")
    if version is None:
        raise Unreadable(f"The {what} has no “version”; this program reads version {current}.")
    if version != current or isinstance(version, bool):
        raise Unreadable(
            f"The {what} is of version {version!r:.40}, and this program reads version "
            f"{current}; use the program that wrote it.",
            quantity="version",
            value=version,
            limit=current,
        )


def problem_sentence(wrong: ValidationError, what: str = "job") -> str:
    """The first thing wrong, and where; the sentence of a refused figure is kept whole."""
    first = wrong.errors()[0]
    place = _place(first["loc"]) or f"the {what}"
    told = first.get("ctx", {})
    if isinstance(told.get("error"), ShimwrightError):
        return f"In {place}: {told['error']}"
    said = _PROBLEMS.get(first["type"])
    if said is None:
        return f"In {place}: {one_line(first['msg'], 200)}."
    words = {name: one_line(str(text).replace("'", ""), 200) for name, text in told.items()}
    if not _WORDS.fullmatch(words.get("tag", "")):
        # What stands for a kind may be anything at all; only words are worth repeating.
        words["tag"] = "given"
    return f"In {place}: {said.format(**words)}."


_WORDS = re.compile(r"[\w -]+…?")
_GROUP = "a group of fields in {{ }} is wanted here"
_PROBLEMS = {
    "extra_forbidden": "this field is not known; remove it or correct its name",
    "string_type": "write the figure as text with its unit, such as “1.2 m”",
    "string_too_long": "the text must have at most {max_length} letters and signs",
    "missing": "this field is missing",
    "union_tag_invalid": "the kind “{tag}” is not known; it must be one of {expected_tags}",
    "union_tag_not_found": "its field “kind” is missing; write what it is, such as “mark”",
    "enum": "it must be {expected}",
    "literal_error": "it must be {expected}",
    "too_long": "there must be at most {max_length} of them: got {actual_length}",
    "model_type": _GROUP,
    "model_attributes_type": _GROUP,
    "tuple_type": "a list in [ ] is wanted here",
}
# Fields that hold one of several kinds of part: the checker's report names the kind after them.
_OF_SEVERAL_KINDS = {"focusing", "reading", "body", "compensator"}


def _place(steps: Sequence[int | str]) -> str:
    """Where in the file: names as they stand in it, lists counted from 1."""
    said: list[str] = []
    for number, step in enumerate(steps):
        before = steps[number - 1] if number else ""
        is_last = number == len(steps) - 1
        if isinstance(step, int):
            said.append(f"{said.pop()} no. {step + 1}")
        elif before in _OF_SEVERAL_KINDS or (steps[0] == "readings" and number == 2):
            # The kind of the part, which is no field of the file; alone it is the place itself.
            said += [one_line(step)] if is_last else []
        else:
            said.append(one_line(step))
    return " → ".join(said)


def one_line(text: str, longest: int = 60) -> str:
    """Foreign text as a sentence can hold it: short, on one line, nothing unprintable."""
    line = "".join(c if c.isprintable() else "?" for c in " ".join(text.split()))
    return line if len(line) <= longest else f"{line[: longest - 1]}…"
