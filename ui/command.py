"""The command line: `shimwright` opens the bench, `shimwright solve` works a job file out.

`shimwright jobs` works with the records. Exit codes: 0 worked out; 2 the command was misspelt;
3 the job was refused, with one sentence on the error stream.
"""

import argparse
import io
import json
import os
import sys
from collections.abc import Sequence
from getpass import getpass
from importlib.metadata import version
from pathlib import Path

from optics.errors import ShimwrightError, Unreadable
from ui.terminal.jobs_command import add_jobs

REFUSED = 3
_SCHEMAS = ("job", "result", "first")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command; the console script's entry point."""
    for stream in (sys.stdout, sys.stderr):
        # Not every system's own encoding knows ∞, −, Ø and the rest of what is said.
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8")
    options = _parser().parse_args(arguments)
    try:
        code = int(options.run(options))
        print(end="", flush=True)
        return code
    except BrokenPipeError:
        # Whoever reads, such as head, has seen enough; what is left must not be flushed at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 0
    except ShimwrightError as refusal:
        print(f"shimwright: {refusal}", file=sys.stderr)
        return REFUSED


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="shimwright",
        description="Focus calibration for the repair bench. Without a command it opens "
        "the bench in the browser.",
        epilog="Exit codes: 0 worked out, 2 command misspelt, 3 job refused.",
    )
    parser.add_argument("--version", action="version", version=version("shimwright"))
    parser.add_argument("--port", type=int, help="port of the bench on this machine")
    parser.add_argument(
        "--no-browser", action="store_true", help="print the address and open no browser"
    )
    parser.add_argument(
        "--network",
        action="store_true",
        help="let other machines on this network in, with a passphrase; it is asked for, or "
        "taken from the environment variable SHIMWRIGHT_PASSPHRASE",
    )
    parser.set_defaults(run=_open)
    commands = parser.add_subparsers(title="commands")
    solve = commands.add_parser("solve", help="work a job file out and print what to do")
    solve.add_argument("file", type=Path, help="a job file (JSON); - reads standard input")
    solve.add_argument("--json", action="store_true", help="print every figure as JSON")
    solve.set_defaults(run=_solve)
    schema = commands.add_parser("schema", help="print the JSON schema of job or result files")
    schema.add_argument("which", choices=_SCHEMAS, nargs="?", default="job")
    schema.set_defaults(run=_schema)
    add_jobs(commands)
    return parser


def _open(options: argparse.Namespace) -> int:
    # Imported here: the other commands answer without loading the page server.
    from ui.shell.serve import open_bench

    passphrase = _passphrase() if options.network else ""
    open_bench(options.port, browser=not options.no_browser, passphrase=passphrase)
    return 0


def _passphrase() -> str:
    from ui.shell.network import VARIABLE, checked_passphrase

    if VARIABLE in os.environ:
        return checked_passphrase(os.environ[VARIABLE])

    try:
        return checked_passphrase(getpass("Passphrase for the other machines: "))
    except EOFError:
        raise Unreadable(f"No passphrase was given: type one, or set {VARIABLE}.") from None


def _solve(options: argparse.Namespace) -> int:
    from optics.records.files import read_job
    from optics.records.first import FirstSolution, answered, first_result_of
    from optics.records.result import result_of
    from ui.terminal.plain_text import solution_text

    solution = answered(read_job(_contents(options.file)))
    if not options.json:
        print(solution_text(solution))
    elif isinstance(solution, FirstSolution):
        as_json = first_result_of(solution).model_dump_json(indent=2)
        print(as_json)
    else:
        print(result_of(solution).model_dump_json(indent=2))
    return 0


def _contents(file: Path) -> bytes:
    if str(file) == "-":
        return sys.stdin.buffer.read()
    try:
        return file.read_bytes()
    except OSError as wrong:
        raise Unreadable(f"The file {file} cannot be read: {wrong.strerror}.") from None


def _schema(options: argparse.Namespace) -> int:
    from pydantic import BaseModel

    from optics.records.first import FirstResult
    from optics.records.job import JobDocument
    from optics.records.result import ResultDocument

    document: dict[str, type[BaseModel]] = dict(
        zip(_SCHEMAS, (JobDocument, ResultDocument, FirstResult), strict=True)
    )
    print(json.dumps(document[options.which].model_json_schema(), indent=2, ensure_ascii=False))
    return 0


if __name__ == "__main__":
    sys.exit(main())
