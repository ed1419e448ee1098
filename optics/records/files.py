"""Reading job files and library files: strict, and one sentence for whatever is wrong."""

import json
from collections import Counter
from functools import partial
from typing import Any, NoReturn, TypeVar

from pydantic import BaseModel, ValidationError

from optics.errors import ShimwrightError, Unreadable
from optics.records.job import JobDocument

LARGEST_FILE = 1_000_000

Document = TypeVar("Document", bound=BaseModel)


def read_job(data: bytes) -> JobDocument:
    """The job in a file's bytes; Unreadable with one sentence for anything that is not one."""
    return read_document(data, JobDocument, "job")


def read_document(data: bytes, kind: type[Document], what: str) -> Document:
    """The document in a file's bytes; `what` names its kind in the sentence of a refusal."""
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
        return kind.model_validate(found)
    except ValidationError as wrong:
        raise Unreadable(problem_sentence(wrong, what), quantity="file") from None


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
    place = " → ".join(one_line(str(step)) for step in first["loc"]) or f"the {what}"
    refusal = first.get("ctx", {}).get("error")
    if isinstance(refusal, ShimwrightError):
        return f"In {place}: {refusal}"
    if first["type"] == "extra_forbidden":
        return f"In {place}: this field is not known; remove it or correct its name."
    if first["type"] == "string_type":
        return f"In {place}: write the figure as text with its unit, such as “1.2 m”."
    if first["type"] == "missing":
        return f"In {place}: this field is missing."
    return f"In {place}: {one_line(first['msg'], 200)}."


def one_line(text: str, longest: int = 60) -> str:
    """Foreign text as a sentence can hold it: short, on one line, nothing unprintable."""
    line = "".join(c if c.isprintable() else "?" for c in " ".join(text.split()))
    return line if len(line) <= longest else f"{line[: longest - 1]}…"
