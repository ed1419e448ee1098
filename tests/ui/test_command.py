"""The command line: exit codes, streams, and one sentence for a refused job."""

import io
import json
import os
import subprocess
import sys
from importlib.metadata import version
from pathlib import Path

import pytest

from optics.records.files import read_job
from optics.records.job import JobDocument
from optics.records.result import ResultDocument, result_of
from optics.records.solve import solve
from tests.optics.records.jobs import BED, HELICOID, READINGS, job
from ui.command import main
from ui.terminal.plain_text import solution_text

GOOD = json.dumps(job(HELICOID, READINGS[0], READINGS[-1]), ensure_ascii=False)
BAD = json.dumps(job(BED, READINGS[2]))  # a rotation on a bed


@pytest.fixture
def good(tmp_path: Path) -> Path:
    """Put a good job in a file."""
    file = tmp_path / "a job.json"
    file.write_text(GOOD, encoding="utf-8")
    return file


def shimwright(
    *arguments: str, given: str = "", env: dict[str, str] | None = None
) -> subprocess.CompletedProcess[bytes]:
    """Run the command as a program of its own."""
    return subprocess.run(
        [sys.executable, "-m", "ui.command", *arguments],
        input=given.encode(),
        capture_output=True,
        check=False,
        env={**os.environ, **(env or {})},
    )


def refused(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    """Run a command that must be refused, and return its one sentence."""
    assert main(arguments) == 3
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("shimwright: ")
    assert err.count("\n") == 1
    assert err.endswith(".\n")
    return err.removeprefix("shimwright: ").strip()


def test_a_job_is_worked_out_in_words(good: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Solving a job prints what to do and ends with 0."""
    assert main(["solve", str(good)]) == 0
    out, err = capsys.readouterr()
    assert out == solution_text(solve(read_job(GOOD.encode()))) + "\n"
    assert err == ""


def test_a_job_is_worked_out_as_json(good: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With --json the same answers are printed as the published result document."""
    assert main(["solve", "--json", str(good)]) == 0
    out, _ = capsys.readouterr()
    assert ResultDocument.model_validate_json(out) == result_of(solve(read_job(GOOD.encode())))


def test_a_dash_reads_standard_input(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], good: Path
) -> None:
    """A dash in place of a file reads the job from standard input, with the same answer."""
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(GOOD.encode())))
    assert main(["solve", "-"]) == 0
    from_input, _ = capsys.readouterr()
    main(["solve", str(good)])
    assert from_input == capsys.readouterr().out


def test_a_missing_file_is_said_to_be_missing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A file that is not there, or is a folder, is refused with its name."""
    said = refused(capsys, "solve", str(tmp_path / "none.json"))
    assert said.startswith("The file ")
    assert "none.json cannot be read: No such file" in said
    assert "cannot be read: " in refused(capsys, "solve", str(tmp_path))


def test_a_refused_job_is_one_sentence_on_the_error_stream(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A job that is none, or cannot be answered, ends with 3 and one sentence, and no output."""
    file = tmp_path / "job.json"
    for text, begins in (
        ("{}", "The file is not a job"),
        (BAD, "This camera has no focusing thread to turn"),
        (GOOD.replace("47 mm", "47 mmm"), "In camera → lens → focal_length: The focal length"),
        (json.dumps(job()), "The job has no reading"),
    ):
        file.write_text(text, encoding="utf-8")
        assert refused(capsys, "solve", str(file)).startswith(begins)
        assert refused(capsys, "solve", "--json", str(file)).startswith(begins)


@pytest.mark.parametrize(("which", "model"), [("job", JobDocument), ("result", ResultDocument)])
def test_the_schemas_are_printed(
    which: str, model: type[JobDocument], capsys: pytest.CaptureFixture[str]
) -> None:
    """The schema of a job or of a result is printed as JSON; a job's is the usual one."""
    assert main(["schema", which]) == 0
    printed = json.loads(capsys.readouterr().out)
    assert printed == model.model_json_schema()
    assert printed["properties"]["version"]["const"] == 1
    if which == "job":
        main(["schema"])
        assert json.loads(capsys.readouterr().out) == printed


def test_the_job_schema_says_how_each_figure_is_typed(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Every typed figure in the schema says what it is and in what unit a bare number counts."""
    main(["schema", "job"])
    lens = json.loads(capsys.readouterr().out)["$defs"]["LensPart"]["properties"]
    # Both may be left out, so the text stands beside null.
    text, nothing = lens["focal_length"]["anyOf"]
    assert text["description"] == "focal length, as typed; a number without a unit is in mm"
    assert nothing == {"type": "null"}
    assert lens["full_aperture"]["anyOf"][0]["description"] == "full aperture, as typed"


@pytest.mark.parametrize(
    "arguments", [["sovle"], ["solve"], ["solve", "a", "b"], ["schema", "x"], ["--port", "x"]]
)
def test_a_misspelt_command_ends_with_2(
    arguments: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    """A command that is not one ends with 2 and says so on the error stream."""
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert "error: " in err


def test_the_version_and_the_exit_codes_are_told(capsys: pytest.CaptureFixture[str]) -> None:
    """--version prints the version, and --help every exit code."""
    for option, said in (("--version", version("shimwright")), ("--help", "3 job refused")):
        with pytest.raises(SystemExit) as ended:
            main([option])
        assert ended.value.code == 0
        assert said in " ".join(capsys.readouterr().out.split())


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[tuple[int | None, bool, str]]:
    """Port, browser and passphrase of every bench that is opened."""
    benches: list[tuple[int | None, bool, str]] = []

    def open_bench(port: int | None, *, browser: bool, passphrase: str) -> None:
        benches.append((port, browser, passphrase))

    monkeypatch.setattr("ui.shell.serve.open_bench", open_bench)
    return benches


def test_without_a_command_the_bench_is_opened(
    opened: list[tuple[int | None, bool, str]], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The bench is opened on the port asked for, and to nobody else, whatever is in the air."""
    monkeypatch.setenv("SHIMWRIGHT_PASSPHRASE", "three quiet lamps")
    assert main([]) == 0
    assert main(["--port", "8600", "--no-browser"]) == 0
    assert opened == [(None, True, ""), (8600, False, "")]


def test_the_network_switch_takes_a_passphrase(
    opened: list[tuple[int | None, bool, str]],
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """With the switch the bench is opened to others by a passphrase, and by no empty one."""
    monkeypatch.setenv("SHIMWRIGHT_PASSPHRASE", "three quiet lamps")
    assert main(["--network"]) == 0
    assert opened == [(None, True, "three quiet lamps")]
    monkeypatch.setenv("SHIMWRIGHT_PASSPHRASE", "")
    assert main(["--network"]) == 3
    assert "at least 10 letters long: got 0" in capsys.readouterr().err
    assert len(opened) == 1


def test_an_old_terminal_still_gets_every_sign() -> None:
    """Where the system's encoding has no ∞ or −, the output is UTF-8 all the same."""
    ran = shimwright("solve", "-", given=GOOD, env={"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"})
    assert (ran.returncode, ran.stderr) == (0, b"")
    assert "Ring at ∞" in ran.stdout.decode()


def test_nobody_reading_is_no_error() -> None:
    """Where the reader of the output goes away, the program ends without a word."""
    program = subprocess.Popen(
        [sys.executable, "-m", "ui.command", "solve", "-"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert program.stdin
    assert program.stdout
    assert program.stderr
    program.stdout.close()
    program.stdin.write(GOOD.encode())
    program.stdin.close()
    assert (program.stderr.read(), program.wait()) == (b"", 0)


def test_solving_loads_no_page_server() -> None:
    """Solving a job loads neither the page, its plots, nor the sheets."""
    program = (
        "import sys; from ui.command import main; main(['solve', '-']);"
        "sys.exit(','.join({'streamlit', 'plotly', 'reportlab'} & set(sys.modules)))"
    )
    ran = subprocess.run(
        [sys.executable, "-c", program], input=GOOD.encode(), capture_output=True, check=False
    )
    assert ran.stderr.decode().strip() == ""


def test_the_fewest_figures_are_answered(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """A job file of a turn alone is worked out: how far back, and what the rest would add."""
    file = tmp_path / "job.json"
    file.write_text(
        '{"format": "shimwright job", "version": 1, "camera": {"lens": {}, "focusing": {"kind": '
        '"helicoid", "extends": "counter-clockwise"}}, "readings": [{"kind": "rotation", '
        '"turned": "40", "sense": "clockwise"}]}',
        encoding="utf-8",
    )
    assert main(["solve", str(file)]) == 0
    printed = " ".join(capsys.readouterr().out.split())
    assert "Turn the ring 40.0° back (counter-clockwise, seen from the front)" in printed
    assert "Still needed - Lead: how far the lens is off in mm" in printed
    assert main(["solve", "--json", str(file)]) == 0
    assert json.loads(capsys.readouterr().out)["format"] == "shimwright first answer"
    assert main(["schema", "first"]) == 0
    assert "shimwright first answer" in capsys.readouterr().out
