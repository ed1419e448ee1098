"""`shimwright jobs …`: the records from the command line."""

import argparse
import json
import sys
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING, get_args

from optics.errors import Unreadable
from optics.records.states import State

if TYPE_CHECKING:
    from optics.records.store import Store

_WHERE = (
    "The records lie in the user's data folder, or in the folder that the environment variable "
    "SHIMWRIGHT_DATA names."
)
_EXIT_CODES = "Exit codes: 0 done, 2 command misspelt, 3 refused, with one sentence that says why."


def add_jobs(commands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    """Add `jobs` and what it can do to the commands."""
    jobs = commands.add_parser(
        "jobs",
        help="the records: list, show, export, import, backup, restore",
        description=f"Work with the records of jobs. {_WHERE}",
        epilog=_EXIT_CODES,
    )
    errands = jobs.add_subparsers(title="commands", required=True, metavar="COMMAND")
    for add in (_add_list, _add_show, _add_export, _add_import, _add_backup, _add_restore):
        add(errands)


def _add(
    errands: "argparse._SubParsersAction[argparse.ArgumentParser]", name: str, words: str
) -> argparse.ArgumentParser:
    description = f"{words[0].upper()}{words[1:]}. {_WHERE}"
    return errands.add_parser(name, help=words, description=description, epilog=_EXIT_CODES)


def _add_list(errands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    it = _add(errands, "list", "list jobs, the last changed first, that hold all the words given")
    it.add_argument("words", nargs="*", metavar="WORD", help="found anywhere in the job")
    it.add_argument("--state", choices=get_args(State), help="only jobs in this state")
    which = it.add_mutually_exclusive_group()
    which.add_argument("--archived", action="store_true", help="list the archived jobs instead")
    which.add_argument("--deleted", action="store_true", help="list the deleted jobs instead")
    it.add_argument("--limit", type=_count, default=50, help="at most so many (50)")
    it.add_argument("--json", action="store_true", help="print the list as JSON")
    it.set_defaults(run=_list)


def _add_show(errands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    it = _add(errands, "show", "show one job: as found, done, as left, and what was decided")
    it.add_argument("number", type=int, metavar="NUMBER", help="the job's number in the list")
    it.add_argument("--json", action="store_true", help="print the job file instead")
    it.set_defaults(run=_show)


def _add_export(errands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    it = _add(errands, "export", "write one job as a job file, or all of them as one zip")
    it.add_argument("number", metavar="NUMBER", help="a job's number, or “all” for every job")
    it.add_argument("file", type=Path, metavar="FILE", help="a new file; - prints one job")
    it.set_defaults(run=_export)


def _add_import(errands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    it = _add(errands, "import", "take in a job file, or a zip of them; what is here stays")
    it.add_argument("file", type=Path, metavar="FILE", help="a job file or a zip from export")
    it.set_defaults(run=_import)


def _add_backup(errands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    it = _add(errands, "backup", "copy the whole of the records to one new file")
    it.add_argument("file", type=Path, metavar="FILE", help="a file that is not there yet")
    it.set_defaults(run=_backup)


def _add_restore(errands: "argparse._SubParsersAction[argparse.ArgumentParser]") -> None:
    it = _add(errands, "restore", "check a backup, then put it in place; the old records are kept")
    it.add_argument("file", type=Path, metavar="FILE", help="a file from backup")
    it.set_defaults(run=_restore)


def _count(text: str) -> int:
    number = int(text)
    if number < 1:
        raise ValueError
    return number


def _store() -> "Store":
    # Imported here: the other commands answer without a database.
    from optics.records.store import Store

    return Store()


def _list(options: argparse.Namespace) -> int:
    from ui.terminal.job_text import job_lines

    words, store = " ".join(options.words), _store()
    which = {"archived": options.archived, "deleted": options.deleted, "state": options.state}
    lines = store.jobs(words, limit=options.limit, **which)
    if options.json:
        print(json.dumps([asdict(line) for line in lines], indent=2, ensure_ascii=False))
    else:
        print(job_lines(lines, store.count_jobs(words, **which)))
    return 0


def _show(options: argparse.Namespace) -> int:
    from optics.records.report import report_of
    from ui.terminal.job_text import report_text

    if options.json:
        print(_store().export_job(options.number).decode(), end="")
        return 0
    kept = _store().job(options.number)
    print(report_text(report_of(kept.job), options.number))
    return 0


def _export(options: argparse.Namespace) -> int:
    from optics.records.store.bundle import write_new

    store = _store()
    if options.number == "all":
        count = store.export_all(options.file)
        print(f"{_counted(count, 'job')} and the library written.")
        return 0
    data = store.export_job(_number(options.number))
    if str(options.file) == "-":
        sys.stdout.buffer.write(data)
        return 0
    write_new(options.file, lambda out: out.write(data))
    print(f"Job {options.number} written.")
    return 0


def _number(text: str) -> int:
    if not text.isascii() or not text.isdigit() or len(text) > 15:
        raise Unreadable(f"A job's number, or “all”, was expected: got {text!r:.40}.")
    return int(text)


def _import(options: argparse.Namespace) -> int:
    from optics.records.files import LARGEST_FILE

    try:
        with options.file.open("rb") as file:
            data = file.read(LARGEST_FILE + 1)
    except OSError as wrong:
        raise Unreadable(f"The file {options.file} cannot be read: {wrong.strerror}.") from None
    if data[:2] != b"PK":
        print(f"Taken in as job {_store().import_job(data)}.")
        return 0
    done = _store().import_all(options.file)
    print(
        f"{_counted(done.jobs, 'job')} and {_counted(done.items, 'library item')} taken in; "
        f"{done.already} were here already."
    )
    return 0


def _counted(count: int, what: str) -> str:
    return f"{count} {what}{'' if count == 1 else 's'}"


def _backup(options: argparse.Namespace) -> int:
    _store().back_up(options.file)
    print(f"Backup written to {options.file}.")
    return 0


def _restore(options: argparse.Namespace) -> int:
    aside = _store().restore(options.file)
    kept = f" The records before it are kept in {aside}." if aside else ""
    print(f"Backup checked and put in place.{kept}")
    return 0
