"""Reading job files: strict, and one sentence for whatever is wrong."""

import json
from collections import Counter
from typing import Any, NoReturn

from pydantic import ValidationError

from optics.errors import ShimwrightError, Unreadable
from optics.records.job import FORMAT, VERSION, JobDocument

LARGEST_FILE = 1_000_000


def read_job(data: bytes) -> JobDocument:
    """The job in a file's bytes; Unreadable with one sentence for anything that is not one."""
    if len(data) > LARGEST_FILE:
        raise Unreadable(
            f"The job file must be at most {LARGEST_FILE:,} bytes: got {len(data):,}; "
            "check that it is the right file.",
            quantity="file",
            value=len(data),
            limit=LARGEST_FILE,
        )
    found = _parsed(data)
    _check_version(found)
    try:
        return JobDocument.model_validate(found)
    except ValidationError as wrong:
        raise Unreadable(problem_sentence(wrong), quantity="file") from None


def write_job(job: JobDocument) -> str:
    """The job as JSON text, every figure as it was typed."""
    return job.model_dump_json(indent=2, exclude_none=True) + "\n"


def _parsed(data: bytes) -> Any:
    try:
        return json.loads(
            data.decode("utf-8-sig"),
            parse_constant=_refuse_constant,
            object_pairs_hook=_refuse_twice,
        )
    except Unreadable:
        raise
    except UnicodeDecodeError:
        raise Unreadable("The job file is not UTF-8 text; save it as UTF-8.") from None
    except json.JSONDecodeError as wrong:
        raise Unreadable(
            f"The job file is not JSON: {wrong.msg} in line {wrong.lineno}, column {wrong.colno}."
        ) from None
    except RecursionError:
        raise Unreadable("The job file is nested too deeply to be a job.") from None
    except ValueError:
        raise Unreadable("The job file holds a number too long to be read.") from None


def _refuse_constant(name: str) -> NoReturn:
    raise Unreadable(f"The job file holds {name}, which is not JSON; write “inf” in quotes.")


def _refuse_twice(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    # JSON readers keep the last of two without a word, and the first would be lost.
    found = dict(pairs)
    if len(found) < len(pairs):
        twice = Counter(name for name, _ in pairs).most_common(1)[0][0]
        raise Unreadable(
            f"The job file has the field “{_one_line(twice)}” twice in one place; remove one.",
            quantity="file",
        )
    return found


def _check_version(found: Any) -> None:
    if not isinstance(found, dict) or found.get("format") != FORMAT:
        raise Unreadable(f"The file is not a job: its “format” must be “{FORMAT}”.")
    version = found.get("version")
    if version is None:
        raise Unreadable(f"The job has no “version”; this program reads version {VERSION}.")
    if version != VERSION or isinstance(version, bool):
        raise Unreadable(
            f"The job is of version {version!r:.40}, and this program reads version {VERSION}; "
            "use the program that wrote it.",
            quantity="version",
            value=version,
            limit=VERSION,
        )


def problem_sentence(wrong: ValidationError) -> str:
    """The first thing wrong, and where; the sentence of a refused figure is kept whole."""
    first = wrong.errors()[0]
    place = " → ".join(_one_line(str(step)) for step in first["loc"]) or "the job"
    refusal = first.get("ctx", {}).get("error")
    if isinstance(refusal, ShimwrightError):
        return f"In {place}: {refusal}"
    if first["type"] == "extra_forbidden":
        return f"In {place}: this field is not known; remove it or correct its name."
    if first["type"] == "string_type":
        return f"In {place}: write the figure as text with its unit, such as “1.2 m”."
    if first["type"] == "missing":
        return f"In {place}: this field is missing."
    return f"In {place}: {_one_line(first['msg'], 200)}."


def _one_line(text: str, longest: int = 60) -> str:
    """Foreign text as a sentence can hold it: short, on one line, nothing unprintable."""
    line = "".join(c if c.isprintable() else "?" for c in " ".join(text.split()))
    return line if len(line) <= longest else f"{line[: longest - 1]}…"
