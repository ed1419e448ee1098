"""The two-command start: its decisions, without making any environment."""

import ast
from pathlib import Path, PurePosixPath, PureWindowsPath

import pytest

import start

HOUSE = Path(__file__).resolve().parents[1]


@pytest.mark.parametrize(
    ("version", "words"),
    [
        ((2, 7, 18), "this is Python 2.7"),
        ((3, 9, 0), "this is Python 3.9"),
        ((3, 10, 99), "this is Python 3.10"),
    ],
)
def test_an_old_python_is_told_what_is_needed(version, words):
    """An old Python is answered with one sentence naming what is needed and what was found."""
    sentence = start.old_python_sentence(version)
    assert "needs Python 3.11 or newer" in sentence
    assert words in sentence
    assert sentence.count(". ") == 0
    assert sentence.endswith(".")


@pytest.mark.parametrize("version", [(3, 11, 0), (3, 14, 1), (4, 0, 0)])
def test_a_python_new_enough_is_not_stopped(version):
    """Python 3.11 and everything newer passes without a word."""
    assert start.old_python_sentence(version) == ""


def test_the_oldest_python_is_the_one_the_project_declares():
    """The start asks for the same oldest Python as the project file."""
    declared = ".".join(str(number) for number in start.OLDEST_PYTHON)
    project = (HOUSE / "pyproject.toml").read_text(encoding="utf-8")
    assert f'requires-python = ">={declared}"' in project


def test_start_keeps_to_words_that_old_pythons_can_read():
    """The start has no annotation, f-string, keyword-only argument or non-ASCII character."""
    text = (HOUSE / "start.py").read_text(encoding="ascii")
    too_new = (ast.JoinedStr, ast.AnnAssign, ast.NamedExpr, ast.Match, ast.AsyncFunctionDef)
    for node in ast.walk(ast.parse(text)):
        assert not isinstance(node, too_new), ast.unparse(node)
        if isinstance(node, ast.FunctionDef):
            arguments = [*node.args.args, *node.args.posonlyargs]
            assert not any(argument.annotation for argument in arguments), node.name
            assert node.returns is None, node.name
            assert not node.args.kwonlyargs, node.name
            assert not node.args.posonlyargs, node.name


def test_the_lock_is_split_at_its_marker():
    """Each section of a lock is what stands on its side of the marker line."""
    run, tests = start.split_lock("# head\na==1\n# --- tests ---\nb==2\n")
    assert run == "# head\na==1\n"
    assert tests == "b==2\n"


def test_a_lock_without_a_marker_stops_the_start():
    """A lock that has lost its marker is refused in a sentence that names the file."""
    with pytest.raises(start.Stopped, match=r"requirements\.lock has no line"):
        start.split_lock("a==1\n")


def test_the_lock_of_the_house_has_both_sections():
    """The lock holds streamlit in its first section and pytest in its second."""
    run, tests = start.split_lock((HOUSE / "requirements.lock").read_text(encoding="utf-8"))
    assert "\nstreamlit==" in run
    assert "\npytest==" not in run
    assert "\npytest==" in tests


def test_windows_keeps_its_programs_in_scripts():
    """On Windows the environment's Python and console script are sought in Scripts."""
    environment = PureWindowsPath(r"C:\My Tools\bench\.venv")
    python, script = start.environment_paths(environment, "nt")
    assert str(python) == r"C:\My Tools\bench\.venv\Scripts\python.exe"
    assert str(script) == r"C:\My Tools\bench\.venv\Scripts\shimwright.exe"


def test_other_systems_keep_their_programs_in_bin():
    """On Linux and macOS the environment's Python and console script are sought in bin."""
    python, script = start.environment_paths(PurePosixPath("/my tools/bench/.venv"), "posix")
    assert str(python) == "/my tools/bench/.venv/bin/python"
    assert str(script) == "/my tools/bench/.venv/bin/shimwright"


@pytest.mark.parametrize(
    ("stamp", "wanted", "missing", "afresh"),
    [
        ("", ["run"], ["run"], True),
        ("", ["run", "tests"], ["run", "tests"], True),
        ("run\n", ["run"], [], False),
        ("run\n", ["run", "tests"], ["tests"], False),
        ("run\ntests\n", ["run", "tests"], [], False),
        ("run\ntests\n", ["run"], [], False),
        ("older\n", ["run"], ["run"], True),
        ("older\nolder-tests\n", ["run", "tests"], ["run", "tests"], True),
        ("older\ntests\n", ["run", "tests"], ["run", "tests"], True),
    ],
)
def test_only_what_is_missing_is_installed(stamp, wanted, missing, afresh):
    """An environment is added to when its base is current, and made afresh otherwise."""
    assert start.sections_to_install(stamp, wanted) == (missing, afresh)


def test_the_fingerprint_notices_every_circumstance():
    """A changed lock, project file or folder, or a text that moved between them, shows."""
    seen = {
        start.fingerprint("a==1", "project", "here"),
        start.fingerprint("a==2", "project", "here"),
        start.fingerprint("a==1", "project 2", "here"),
        start.fingerprint("a==1", "project", "there"),
        start.fingerprint("a==1p", "roject", "here"),
    }
    assert len(seen) == 5
    assert start.fingerprint("a==1", "project", "here") in seen


class Hands:
    """Stands in for everything that touches the disk or the network, and keeps a diary."""

    def __init__(self, monkeypatch, house):
        self.diary = []
        self.fail_at = None
        self.house = house
        self.environment = house / ".venv"
        self.write("requirements.lock", "a==1\n# --- tests ---\nb==2\n")
        self.write("pyproject.toml", "[project]\nname = 'x'\n[tool.ruff]\nline-length = 100\n")
        monkeypatch.setattr(start, "HOUSE", house)
        monkeypatch.setattr(start, "make_environment", self.make_environment)
        monkeypatch.setattr(start, "install_locked", self.install_locked)
        monkeypatch.setattr(start, "pip_install", lambda python, *what: self.note("project"))

    def write(self, name, text):
        """Write one of the files that the start reads."""
        (self.house / name).write_text(text, encoding="utf-8")

    def note(self, what):
        """Write down one step, or fail at it."""
        if what == self.fail_at:
            raise KeyboardInterrupt
        self.diary.append(what)

    def make_environment(self, environment):
        """Make the two files that an environment is known by, and clear the stamp."""
        self.note("environment")
        for path in start.environment_paths(environment, start.os.name):
            path.parent.mkdir(parents=True, exist_ok=True)
            path.touch()
        (environment / "shimwright-stamp.txt").unlink(missing_ok=True)

    def install_locked(self, python, section):
        """Note the section by its text."""
        self.note(section.strip())

    def prepare(self, with_tests=False):
        """Prepare, and return the steps that took."""
        self.diary = []
        start.prepare(self.environment, with_tests)
        return self.diary


@pytest.fixture
def hands(monkeypatch, tmp_path):
    """Return a house in a folder of its own whose steps are only noted."""
    return Hands(monkeypatch, tmp_path)


def test_the_second_start_does_nothing(hands):
    """A start that finds everything installed runs no installer, so needs no network."""
    assert hands.prepare() == ["environment", "a==1", "project"]
    assert hands.prepare() == []


def test_tests_are_added_to_what_is_there(hands):
    """The test packages are added to a finished environment without making it again."""
    hands.prepare()
    assert hands.prepare(with_tests=True) == ["b==2"]
    assert hands.prepare(with_tests=True) == []
    assert hands.prepare() == []


@pytest.mark.parametrize("step", ["a==1", "project"])
def test_an_interrupted_start_begins_again(hands, step):
    """An environment whose making was interrupted at any step is made afresh."""
    hands.fail_at = step
    with pytest.raises(KeyboardInterrupt):
        hands.prepare()
    hands.fail_at = None
    assert hands.prepare() == ["environment", "a==1", "project"]


def test_a_new_lock_makes_a_new_environment(hands):
    """An environment made from another lock is made afresh."""
    hands.prepare(with_tests=True)
    hands.write("requirements.lock", "a==9\n# --- tests ---\nb==2\n")
    assert hands.prepare() == ["environment", "a==9", "project"]


def test_only_the_project_table_makes_a_new_environment(hands):
    """A changed project table makes the environment afresh, and a changed tool setting does not."""
    hands.prepare()
    hands.write("pyproject.toml", "[project]\nname = 'x'\n[tool.ruff]\nline-length = 90\n")
    assert hands.prepare() == []
    hands.write("pyproject.toml", "[project]\nname = 'y'\n[tool.ruff]\nline-length = 90\n")
    assert hands.prepare()[0] == "environment"


def test_an_environment_that_lost_its_python_is_made_again(hands):
    """An environment whose Python is gone, as after a system upgrade, is made afresh."""
    hands.prepare()
    start.environment_paths(hands.environment, start.os.name)[0].unlink()
    assert hands.prepare()[0] == "environment"


def test_a_python_without_ensurepip_is_told_what_to_install(monkeypatch, tmp_path):
    """A Python that cannot make environments is answered with the package to install."""
    monkeypatch.setattr(start.importlib.util, "find_spec", lambda name: None)
    with pytest.raises(start.Stopped, match="apt install python3-venv"):
        start.make_environment(tmp_path / ".venv")


def test_a_failed_check_is_the_exit_code(hands, monkeypatch, capsys):
    """A style check that fails stops the test command with code 1 and says which it was."""
    monkeypatch.setattr(start.subprocess, "call", lambda command, cwd: 1)
    assert start.main(["test"]) == 1
    assert capsys.readouterr().err == "Stopped: the style is not in order.\n"


def test_pytest_has_the_last_word(hands, monkeypatch):
    """The test command passes its arguments to pytest and returns pytest's exit code."""
    calls = []

    def call(command, cwd):
        calls.append(command[2:])
        return 5 if "pytest" in command else 0

    monkeypatch.setattr(start.subprocess, "call", call)
    assert start.main(["test", "-k", "lens"]) == 5
    assert calls[-2] == ["pytest", "-m", "not browser", *start.SPREAD, "-k", "lens"]
    assert calls[-1] == ["pytest", "-m", "browser", "-k", "lens"]
    assert [words[0] for words in calls] == ["ruff", "ruff", "mypy", "pytest", "pytest"]


@pytest.mark.parametrize(
    ("codes", "code", "parts"), [((5, 0), 0, 2), ((0, 5), 0, 2), ((1,), 1, 1), ((0, 1), 1, 2)]
)
def test_a_part_without_chosen_tests_fails_nothing(hands, monkeypatch, codes, code, parts):
    """Tests of one part alone may be chosen; a failure is returned, and no later part is begun."""
    left = list(codes)

    def call(command, cwd):
        return left.pop(0) if "pytest" in command else 0

    monkeypatch.setattr(start.subprocess, "call", call)
    assert start.main(["test", "-k", "lens"]) == code
    assert len(codes) - len(left) == parts


def test_the_pictures_are_taken_with_what_the_tests_need(hands, monkeypatch):
    """The screenshots command prepares the tests' packages too and passes the exit code on."""
    calls = []

    def call(command, cwd):
        calls.append(command[1:])
        return 3

    hands.prepare(with_tests=True)
    monkeypatch.setattr(start.subprocess, "call", call)
    assert start.main(["screenshots"]) == 3
    assert [Path(words[-1]).name for words in calls] == ["screenshots.py"]
    assert (HOUSE / calls[0][-1]).is_file()
