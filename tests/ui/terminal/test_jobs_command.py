"""The records from the command line."""

import argparse
import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from optics.records.store import Store
from tests.optics.records.jobs import BED, READINGS, job, record
from tests.optics.records.store.conftest import document, titled
from tests.ui.test_command import refused
from ui.command import _parser, main

README = Path(__file__).resolve().parents[3] / "README.md"


@pytest.fixture
def store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Store:
    """Give the store that the commands will find, with one whole job in it."""
    monkeypatch.setenv("SHIMWRIGHT_DATA", str(tmp_path / "data"))
    it = Store()
    it.add_job(document(record()))
    return it


def said(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """Run a command that must be done, and return what it prints."""
    assert main(arguments) == 0
    out, err = capsys.readouterr()
    assert err == ""
    return out


def parsers(parser: argparse.ArgumentParser) -> Iterator[argparse.ArgumentParser]:
    """Yield a parser and all below it."""
    yield parser
    for action in parser._actions:
        if isinstance(action, argparse._SubParsersAction):
            for inner in action.choices.values():
                yield from parsers(inner)


def test_every_command_is_documented() -> None:
    """Every command and every argument says what it is for, and the guide shows each command."""
    guide, silent = README.read_text(encoding="utf-8"), []
    for parser in parsers(_parser()):
        silent += [
            f"{parser.prog} {a.dest}" for a in parser._actions if not a.help and a.choices is None
        ]
        if " jobs" in parser.prog:
            assert parser.description
            assert "SHIMWRIGHT_DATA" in parser.description
            assert "3 refused" in str(parser.epilog)
        if len(parser.prog.split()) > 1:
            assert parser.prog in guide, parser.prog
    assert silent == []


def test_jobs_are_listed(store: Store, capsys: pytest.CaptureFixture[str]) -> None:
    """The list shows number, state, camera, serial and customer, and narrows by words and state."""
    store.add_job(titled("another"))
    out = said(capsys, "jobs", "list")
    assert out.endswith("2 jobs.\n")
    assert "finished" in out
    assert "Zoë Ångström" in out
    assert said(capsys, "jobs", "list", "zoe", "41", "207").count("\n") == 2
    assert said(capsys, "jobs", "list", "--state", "waiting") == "No job found.\n"
    assert said(capsys, "jobs", "list", "--limit", "1").endswith("1 of 2 jobs.\n")
    assert [line["number"] for line in json.loads(said(capsys, "jobs", "list", "--json"))] == [2, 1]
    store.delete_job(2)
    assert "another" in said(capsys, "jobs", "list", "--deleted")
    store.archive_job(1)
    assert said(capsys, "jobs", "list", "--archived").endswith("1 job.\n")


def test_a_job_is_shown(store: Store, capsys: pytest.CaptureFixture[str]) -> None:
    """One job is told from end to end, or printed as its file."""
    out = " ".join(said(capsys, "jobs", "show", "1").split())
    for words in (
        "Job 1: Spring clean, No. 12",
        "As found",
        "too far out",
        "- Loose: screw: M1.7",
        "- A1 · front plate",
        "removed 0.1 mm",
        "Lens focus as left: inside tolerance (register alone).",
        "guard band w = U",
        "Decided by R. Vane · 2026-03-06",
        "grease",
    ):
        assert words in out
    assert said(capsys, "jobs", "show", "1", "--json").encode() == store.export_job(1)


def test_foreign_text_gives_a_terminal_no_orders(
    store: Store, capsys: pytest.CaptureFixture[str]
) -> None:
    """Escape signs in a job reach no terminal, in the list or when it is shown."""
    typed = record(title="\x1b[2J\x07 title")
    typed["intake"]["customer"]["name"] = "\x1b]0;x\x07\u202e"
    typed["intake"]["identity"]["serial"] = "\x9b31m"
    number = store.add_job(document(typed))
    for command in (("list",), ("show", str(number))):
        out = said(capsys, "jobs", *command)
        assert all(c.isprintable() or c == "\n" for c in out)


def test_one_job_goes_out_and_comes_in(
    store: Store, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A job exported to a file and imported is kept as another job, the same to the byte."""
    file = tmp_path / "job.json"
    assert said(capsys, "jobs", "export", "1", str(file)) == "Job 1 written.\n"
    assert file.read_bytes() == store.export_job(1)
    assert said(capsys, "jobs", "import", str(file)) == "Taken in as job 2.\n"
    assert store.export_job(2) == store.export_job(1)
    assert said(capsys, "solve", str(file))
    assert "is there already: choose another" in refused(capsys, "jobs", "export", "1", str(file))


def test_all_jobs_go_out_and_come_in(
    store: Store,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """All jobs exported to a zip come in on another machine, and only once."""
    file = str(tmp_path / "all.zip")
    assert said(capsys, "jobs", "export", "all", file) == "1 job and the library written.\n"
    monkeypatch.setenv("SHIMWRIGHT_DATA", str(tmp_path / "other"))
    taken_in = said(capsys, "jobs", "import", file)
    assert taken_in.startswith("1 job and 0 library items taken in; 0 were here")
    assert "1 were here already" in said(capsys, "jobs", "import", file)
    assert Store().export_job(1) == store.export_job(1)


def test_records_are_backed_up_and_restored(
    store: Store, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A backup restores what was there, and the records before it lie where the command says."""
    file = str(tmp_path / "b.sqlite")
    assert said(capsys, "jobs", "backup", file) == f"Backup written to {file}.\n"
    store.delete_job(1)
    out = said(capsys, "jobs", "restore", file)
    assert store.count_jobs() == 1
    aside = out.partition("are kept in ")[2].strip()[:-1]
    assert Store(Path(aside)).count_jobs(deleted=True) == 1


@pytest.mark.parametrize(
    ("arguments", "begins"),
    [
        (("show", "9"), "There is no job 9"),
        (("export", "9", "x"), "There is no job 9"),
        (("export", "every", "x"), "A job's number, or “all”, was expected: got 'every'."),
        (("import", "none.json"), "The file none.json cannot be read: No such file"),
        (("restore", "none"), "The backup none cannot be read: No such file"),
        (("backup", "none/b.sqlite"), "The records none/b.sqlite cannot be opened for writing"),
    ],
    ids=lambda row: row[0] if isinstance(row, tuple) else "",
)
def test_what_cannot_be_done_is_one_sentence(
    arguments: tuple[str, ...], begins: str, store: Store, capsys: pytest.CaptureFixture[str]
) -> None:
    """A number or a file that is not there ends with 3 and one sentence."""
    assert refused(capsys, "jobs", *arguments).startswith(begins)


def test_a_job_that_cannot_be_told_is_refused(
    store: Store, capsys: pytest.CaptureFixture[str]
) -> None:
    """A job whose reading makes no sense for its camera is refused with the reading's sentence."""
    number = store.add_job(document({**job(BED), "found": [{"reading": READINGS[2]}]}))
    assert refused(capsys, "jobs", "show", str(number)).startswith("This camera has no focusing")
    assert said(capsys, "jobs", "show", str(number), "--json")


MISSPELT = (
    (),
    ("lits",),
    ("show",),
    ("show", "x"),
    ("list", "--limit", "0"),
    ("list", "--archived", "--deleted"),
)


@pytest.mark.parametrize("arguments", MISSPELT, ids=" ".join)
def test_a_misspelt_command_ends_with_2(arguments: tuple[str, ...]) -> None:
    """A command of the records that is not one ends with 2."""
    with pytest.raises(SystemExit) as ended:
        main(("jobs", *arguments))
    assert ended.value.code == 2
