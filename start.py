"""Start Shimwright, or test it, with nothing but Python in hand.

    python3 start.py                 open the bench (arguments go to ``shimwright``)
    python3 start.py test            check the style, the types and every claim
    python3 start.py benchmarks      measure the speeds
    python3 start.py screenshots     take a picture of every page, into .screenshots

The first start makes a private environment in ``.venv`` beside this file, from the
packages named and hashed in ``requirements.lock``. Later starts find it ready and need
no network. Nothing outside this folder is changed.

This file must parse on Pythons that are far too old, so that they can say so: it keeps
to plain ASCII, without annotations and f-strings.
"""

import sys

OLDEST_PYTHON = (3, 11)


def old_python_sentence(version):
    """Return what to tell somebody whose Python is too old, or "" when it is not."""
    if tuple(version[:2]) >= OLDEST_PYTHON:
        return ""
    return (
        "Shimwright needs Python {}.{} or newer, and this is Python {}.{}: "
        "install a newer Python and start again with it."
    ).format(*(OLDEST_PYTHON + tuple(version[:2])))


if old_python_sentence(sys.version_info):
    sys.exit(old_python_sentence(sys.version_info))

import hashlib
import importlib.util
import os
import subprocess
import tempfile
import tomllib
from pathlib import Path

HOUSE = Path(__file__).resolve().parent
TESTS_MARKER = "# --- tests ---"
NO_VENV = (
    "This Python cannot make environments: install its venv package first "
    "(on Debian or Ubuntu: sudo apt install python3-venv), then start again."
)
# Building from source would fetch tools that no hash covers. prysm comes as source only:
# it is built with the tools that the first section of the lock has installed by then.
LOCKED = ("--require-hashes", "--no-deps", "--no-build-isolation")
LOCKED += ("--only-binary", ":all:", "--no-binary", "prysm")
CHECKS = (
    ("the style", ("ruff", "check", ".")),
    ("the layout of the code", ("ruff", "format", "--check", ".")),
    ("the types (about a minute the first time)", ("mypy",)),
)
# One process for each core. A file stays in one process, so that what its tests share is made once.
SPREAD = ("-n", "logical", "--maxprocesses", "4", "--dist", "loadfile")
# What pytest says where the arguments choose no test.
NOTHING_CHOSEN = 5


class Stopped(Exception):
    """One sentence that says why nothing further can be done."""


def split_lock(text):
    """Return the two sections of the lock: what runs Shimwright, and what tests add to it."""
    run, marker, tests = text.partition(TESTS_MARKER + "\n")
    if not marker:
        raise Stopped(
            "requirements.lock has no line '{}': fetch that file afresh.".format(TESTS_MARKER)
        )
    return run, tests


def environment_paths(environment, os_name):
    """Return the interpreter and the console script of an environment on this system."""
    if os_name == "nt":
        return environment / "Scripts" / "python.exe", environment / "Scripts" / "shimwright.exe"
    return environment / "bin" / "python", environment / "bin" / "shimwright"


def fingerprint(section, *circumstances):
    """Return the one line that stands in the stamp for a section installed in full.

    The circumstances are whatever else makes an environment stale: the folder it is in
    (environments cannot be moved) and the project's own data (which name the console script).
    """
    digest = hashlib.sha256()
    for text in (section,) + circumstances:
        digest.update(text.encode("utf-8") + b"\0")
    return digest.hexdigest()


def sections_to_install(stamp, wanted):
    """Return which of the wanted fingerprints are still to install, and whether from scratch.

    Sections build on each other in order. Once the first is missing, so is all the rest:
    what lies there is half made, or made from another lock, and is not built upon.
    """
    done = stamp.split()
    if wanted[0] not in done:
        return wanted, True
    return [line for line in wanted if line not in done], False


def say(text):
    """Print a progress line at once, even into a pipe."""
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


def do(command, otherwise):
    """Run a command in the house; stop with a sentence when it fails."""
    if subprocess.call([str(word) for word in command], cwd=str(HOUSE)) != 0:
        raise Stopped(otherwise)


def make_environment(environment):
    """Make an empty environment, clearing away whatever is there."""
    if importlib.util.find_spec("venv") is None or importlib.util.find_spec("ensurepip") is None:
        raise Stopped(NO_VENV)
    # Started with the environment's own Python, that one must not saw off its branch.
    inside = Path(sys.prefix) == environment
    python = getattr(sys, "_base_executable", sys.executable) if inside else sys.executable
    do(
        [python, "-m", "venv", "--clear", environment],
        "The environment in .venv could not be made (see above): "
        "close every window that uses it, delete .venv and start again.",
    )


def pip_install(python, *what):
    """Install something with the environment's own pip, quietly."""
    pip = [python, "-m", "pip", "--quiet", "--disable-pip-version-check", "--no-input", "install"]
    do(
        pip + list(what),
        "The packages could not be installed (see above): "
        "check that this machine is on the network, then start again.",
    )


def install_locked(python, section):
    """Install one section of the lock, refusing any file whose hash is not in it."""
    handle, name = tempfile.mkstemp(suffix=".txt")
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as listing:
            listing.write(section)
        pip_install(python, *(LOCKED + ("-r", name)))
    finally:
        Path(name).unlink()


def prepare(environment, with_tests):
    """Bring the environment to what the lock says, doing only what is still missing."""
    python, script = environment_paths(environment, os.name)
    run, tests = split_lock((HOUSE / "requirements.lock").read_text(encoding="utf-8"))
    # Only this table bears on what is installed; how the tools are set does not.
    project = str(tomllib.loads((HOUSE / "pyproject.toml").read_text(encoding="utf-8"))["project"])
    sections = {fingerprint(run, project, str(environment)): run}
    if with_tests:
        sections[fingerprint(run + tests, project, str(environment))] = tests

    stamp = environment / "shimwright-stamp.txt"
    whole = stamp.exists() and python.exists() and script.exists()
    done = stamp.read_text(encoding="utf-8") if whole else ""
    missing, afresh = sections_to_install(done, list(sections))
    if afresh:
        say("Preparing Shimwright in .venv, once: a minute or two, mostly downloading.")
        make_environment(environment)
        done = ""
    for line in missing:
        if sections[line] is run:
            install_locked(python, run)
            pip_install(python, "--no-deps", "--no-build-isolation", "--editable", ".")
        else:
            say("Adding the packages that the tests need, once: about a minute.")
            install_locked(python, tests)
        # Last of all, so that an interrupted start leaves no stamp and begins again.
        done += line + "\n"
        stamp.write_text(done, encoding="utf-8")


def run_benchmarks(python, arguments):
    """Measure the speeds that the house promises."""
    say("Measuring speeds (leave the machine alone meanwhile) ...")
    command = [
        python,
        "-m",
        "pytest",
        "tests/benchmarks",
        "-s",
        "-o",
        "python_files=bench_*.py",
    ] + arguments
    return subprocess.call([str(word) for word in command], cwd=str(HOUSE))


def take_screenshots(python):
    """Take a picture of every page, with the browser that the tests use."""
    say("Taking a picture of every page ...")
    command = [str(python), str(Path("tests") / "browser" / "screenshots.py")]
    return subprocess.call(command, cwd=str(HOUSE))


def run_tests(python, arguments):
    """Check style and types, then run pytest, which has the last word."""
    for what, command in CHECKS:
        say("Checking {} ...".format(what))
        do([python, "-m"] + list(command), "Stopped: {} is not in order.".format(what))
    say("Running the tests (some minutes) ...")
    # Pages are tried one after the other: a browser that waits for its turn is no fair test.
    codes = []
    for mark, spread in (("not browser", SPREAD), ("browser", ())):
        command = [str(python), "-m", "pytest", "-m", mark] + list(spread) + arguments
        codes.append(subprocess.call(command, cwd=str(HOUSE)))
        if codes[-1] not in (0, NOTHING_CHOSEN):
            return codes[-1]
    return min(codes)


def open_shimwright(script, arguments):
    """Hand over to the console script, in the folder the caller stands in."""
    command = [str(script)] + arguments
    if os.name == "nt":
        return subprocess.call(command)
    return os.execv(command[0], command)


def main(arguments):
    """Do what the command line asks and return the exit code."""
    environment = HOUSE / ".venv"
    python, script = environment_paths(environment, os.name)
    errand = arguments[0] if arguments else ""
    try:
        prepare(environment, with_tests=errand in ("test", "benchmarks", "screenshots"))
        if errand == "test":
            return run_tests(python, arguments[1:])
        if errand == "benchmarks":
            return run_benchmarks(python, arguments[1:])
        if errand == "screenshots":
            return take_screenshots(python)
        return open_shimwright(script, arguments)
    except Stopped as reason:
        sys.stderr.write("{}\n".format(reason))
        return 1
    except KeyboardInterrupt:
        sys.stderr.write("Interrupted; start again at any time.\n")
        return 130


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
