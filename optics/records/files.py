"""Reading job files: strict, and one sentence for whatever is wrong."""

import json
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
        return json.loads(data.decode("utf-8-sig"), parse_constant=_refuse_constant)
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


def _check_version(found: Any) -> None:
    if not isinstance(found, dict) or found.get("format") != FORMAT:
        raise Unreadable(f"The file is not a job: its “format” must be “{FORMAT}”.")
    version = found.get("version")
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
    place = " → ".join(str(step) for step in first["loc"]) or "the job"
    refusal = first.get("ctx", {}).get("error")
    if isinstance(refusal, ShimwrightError):
        return f"In {place}: {refusal}"
    if first["type"] == "extra_forbidden":
        return f"In {place}: this field is not known; remove it or correct its name."
    if first["type"] == "string_type":
        return f"In {place}: write the figure as text with its unit, such as “1.2 m”."
    if first["type"] == "missing":
        return f"In {place}: this field is missing."
    return f"In {place}: {first['msg'][:200]}."
