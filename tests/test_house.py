"""The rules of the house, each a claim about the files themselves."""

import ast
import re
import statistics
import subprocess
import sys
import tomllib
from collections import Counter
from collections.abc import Iterator, Mapping
from functools import partial
from graphlib import CycleError, TopologicalSorter
from pathlib import Path
from typing import Any

import pytest

HOUSE = Path(__file__).resolve().parents[1]
PACKAGES = ("optics", "ui")
TOP_LEVEL = {
    "DEVELOPERS.md",
    "LICENSE",
    "README.md",
    "optics",
    "pyproject.toml",
    "requirements.lock",
    "start.py",
    "tests",
    "ui",
    "worked_examples",
}
# What running and testing leave behind; never part of the house.
LEFT_BEHIND = {"build", "dist", "shimwright.egg-info"}

# Data flows one way. Who may import whom, besides itself and the two everybody may import.
EVERYBODY_MAY = {"optics.errors", "optics.units"}
TOPIC_MAY = {
    "optics.account",
    "optics.readings",
    "optics.moves",
    "optics.camera",
    "optics.typed",
    "optics.measure",
    "optics.theory",
    "optics.relation",
}
MAY_IMPORT = {
    "optics.errors": set(),
    "optics.units": set(),
    "optics.relation": set(),
    "optics.theory": {"optics.relation"},
    "optics.measure": {"optics.relation"},
    "optics.typed": {"optics.measure", "optics.theory", "optics.relation"},
    "optics.camera": {"optics.measure", "optics.theory", "optics.relation"},
    "optics.moves": {"optics.camera", "optics.measure", "optics.theory"},
    "optics.account": {"optics.camera", "optics.typed", "optics.measure"},
    "optics.readings": {
        "optics.moves",
        "optics.account",
        "optics.camera",
        "optics.typed",
        "optics.measure",
        "optics.theory",
        "optics.relation",
    },
    "optics.report": {"optics.account", "optics.readings", "optics.camera", "optics.measure"},
    "optics.scales": TOPIC_MAY,
    "optics.rangefinder": TOPIC_MAY,
    "optics.body": TOPIC_MAY,
    "optics.finding": {
        "optics.rangefinder",
        "optics.body",
        "optics.account",
        "optics.readings",
        "optics.moves",
        "optics.camera",
        "optics.typed",
        "optics.measure",
        "optics.theory",
        "optics.relation",
    },
    "optics.teaching": {
        "optics.finding",
        "optics.rangefinder",
        "optics.readings",
        "optics.moves",
        "optics.camera",
        "optics.measure",
        "optics.theory",
        "optics.relation",
        "optics.typed",
    },
    "optics.records": {
        "optics.teaching",
        "optics.finding",
        "optics.scales",
        "optics.rangefinder",
        "optics.body",
        "optics.report",
        "optics.account",
        "optics.readings",
        "optics.moves",
        "optics.camera",
        "optics.typed",
        "optics.measure",
    },
    "optics.drawing": set(),
    # The judge of every diagnosis knows nothing of what it judges.
    "optics.world": set(),
    "optics.sheets": {
        "optics.drawing",
        "optics.teaching",
        "optics.finding",
        "optics.scales",
        "optics.rangefinder",
        "optics.body",
        "optics.report",
        "optics.account",
        "optics.readings",
        "optics.moves",
        "optics.camera",
        "optics.measure",
    },
}
# Who may set its hidden cameras on the bench; whatever diagnoses or plans may not.
MAY_USE_THE_WORLD = {"optics.world", "optics.teaching"}
# No room may be so large that it is a house of its own.
LARGEST_SHARE = 0.25
SYMBOLIC = {"optics.relation", "optics.theory"}
SCIPY_ALLOWED = {"scipy.special", "scipy.optimize"}

# A fits-the-screen function; a docstring that is a data sheet is not counted against it.
LONGEST_FUNCTION = 60
MEDIAN_FUNCTION = 15

Function = ast.FunctionDef | ast.AsyncFunctionDef


def tracked_files() -> list[Path]:
    """Return the files git knows, or all that look like ours when there is no checkout."""
    if (HOUSE / ".git").exists():
        listing = subprocess.run(
            ["git", "ls-files", "-z"], cwd=HOUSE, capture_output=True, text=True, check=False
        )
        names = [name for name in listing.stdout.split("\0") if name]
        if names:
            return [HOUSE / name for name in names if (HOUSE / name).is_file()]
    files = (path for path in HOUSE.rglob("*") if path.is_file())
    return [path for path in files if not _is_left_behind(path.relative_to(HOUSE))]


def _is_left_behind(path: Path) -> bool:
    hidden = any(part.startswith(".") or part == "__pycache__" for part in path.parts)
    return hidden or path.parts[0] in LEFT_BEHIND


def text_files() -> Iterator[tuple[Path, str]]:
    """Yield every file that can be read as text, by its path in the house."""
    for path in tracked_files():
        try:
            yield path.relative_to(HOUSE), path.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            continue


def module_name(path: Path) -> str:
    """Return the dotted name of a source file."""
    parts = path.relative_to(HOUSE).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def sources(*folders: str) -> list[Path]:
    """Return the Python files below the given folders of the house."""
    return sorted(path for folder in folders for path in (HOUSE / folder).rglob("*.py"))


def parse(path: Path) -> ast.Module:
    """Return the syntax tree of a source file."""
    return ast.parse(path.read_text(encoding="utf-8"), str(path))


def imports(tree: ast.AST, path: Path) -> Iterator[str]:
    """Yield every dotted name that the tree imports, `from a import b` giving `a.b`."""
    package = module_name(path) if path.name == "__init__.py" else module_name(path.parent / "x")
    package = package.removesuffix(".x")
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            above = package.split(".")[: len(package.split(".")) - node.level + 1]
            start = ".".join([*above, *filter(None, [node.module])]) if node.level else node.module
            yield from (f"{start}.{alias.name}" for alias in node.names)


def room_of(name: str) -> str:
    """Return the room a dotted name is in: `optics.camera` for all that is below it."""
    return ".".join(name.split(".")[:2])


def owner(paths: Mapping[str, Path], name: str) -> str:
    """Return the module that an imported name is, or is in; empty where it is none of ours."""
    while name and name not in paths:
        name = name.rpartition(".")[0]
    return name


def functions(tree: ast.AST) -> Iterator[Function]:
    """Yield every function and method of a tree, nested ones too."""
    for node in ast.walk(tree):
        if isinstance(node, Function):
            yield node


def length_without_docstring(function: Function) -> int:
    """Return how many lines a function takes on the screen, its docstring aside."""
    lines = (function.end_lineno or 0) - function.lineno + 1
    first = function.body[0]
    if ast.get_docstring(function) is not None:
        lines -= (first.end_lineno or 0) - first.lineno + 1
    return lines


def locked_requirements() -> list[str]:
    """Return each requirement of the lock as one text: its line and its hash lines."""
    text = (HOUSE / "requirements.lock").read_text(encoding="utf-8")
    lines = "\n".join(line for line in text.splitlines() if not line.startswith("#"))
    return [block.strip() for block in re.split(r"\n(?=\S)", lines) if block.strip()]


def normal_name(requirement: str) -> str:
    """Return a requirement's bare name in the form the package index compares by."""
    found = re.match(r"[A-Za-z0-9._-]+", requirement)
    assert found, requirement
    return re.sub(r"[-_.]+", "-", found.group()).lower()


def project() -> dict[str, Any]:
    """Return the project table of the project file."""
    table = tomllib.loads((HOUSE / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert isinstance(table, dict)
    return table


def names_of(requirements: list[str]) -> set[str]:
    """Return the bare names of a list of requirements."""
    return {normal_name(requirement) for requirement in requirements}


def test_the_top_level_holds_what_it_should() -> None:
    """The top level holds the ten known entries and dot-files, nothing more or less."""
    entries = {path.relative_to(HOUSE).parts[0] for path in tracked_files()}
    assert {entry for entry in entries if not entry.startswith(".")} == TOP_LEVEL


def test_imports_go_one_way() -> None:
    """Each room of the calculator imports only the rooms that lie upstream of it."""
    wrong = []
    for path in sources("optics"):
        room = room_of(module_name(path))
        allowed = MAY_IMPORT.get(room, set()) | EVERYBODY_MAY | {room}
        if room == "optics.errors":
            allowed = {room}
        rooms = {room_of(name) for name in imports(parse(path), path) if name.startswith("optics.")}
        wrong += [f"{module_name(path)} imports {name}" for name in sorted(rooms - allowed)]
    assert wrong == []


def test_the_world_knows_nothing_of_the_bench() -> None:
    """The traced world imports only numpy, the standard library, errors and itself, nor does
    anything import it that it judges.
    """
    own = {"numpy", "optics.errors", "optics.world"}
    wrong = [
        f"{module_name(path)} imports {name}"
        for path in sources("optics/world")
        for name in imports(parse(path), path)
        if name.split(".")[0] not in sys.stdlib_module_names
        and not own & {name.split(".")[0], room_of(name)}
    ]
    wrong += [
        f"{module_name(path)} imports {name}"
        for path in sources("optics")
        if room_of(module_name(path)) not in MAY_USE_THE_WORLD
        for name in imports(parse(path), path)
        if room_of(name) == "optics.world"
    ]
    assert wrong == []


def test_no_import_runs_in_a_circle() -> None:
    """No module imports, by whatever way round, a module that imports it, inside a room either."""
    paths = {module_name(path): path for path in sources(*PACKAGES)}
    graph = {
        name: {found for found in map(partial(owner, paths), imports(parse(path), path)) if found}
        - {name}
        for name, path in paths.items()
    }
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as circle:
        pytest.fail(" imports ".join(reversed(circle.args[1])))


def test_folders_of_the_face_import_one_way() -> None:
    """No two folders of the face import each other, by whatever way round."""
    graph: dict[str, set[str]] = {}
    for path in sources("ui"):
        room = room_of(module_name(path))
        found = {room_of(name) for name in imports(parse(path), path) if name.startswith("ui.")}
        graph.setdefault(room, set()).update(found - {room})
    try:
        TopologicalSorter(graph).prepare()
    except CycleError as circle:
        pytest.fail(" imports ".join(reversed(circle.args[1])))


def test_no_room_outgrows_the_house() -> None:
    """No room holds more than a quarter of the product's lines."""
    lines = Counter[str]()
    for path in sources(*PACKAGES):
        name = module_name(path)
        room = "ui" if name.split(".")[0] == "ui" else room_of(name)
        lines[room] += len(path.read_text(encoding="utf-8").splitlines())
    limit = LARGEST_SHARE * lines.total()
    assert {room: count for room, count in lines.items() if count > limit} == {}


def test_every_room_of_the_calculator_has_its_direction() -> None:
    """No module or package stands in the calculator without a rule on what it may import."""
    rooms = {room_of(module_name(path)) for path in sources("optics")} - {"optics"}
    assert rooms == set(MAY_IMPORT)


def test_the_calculator_knows_no_face() -> None:
    """Nothing in the calculator imports the page, its server or its plots."""
    faces = {"ui", "streamlit", "plotly", "starlette", "uvicorn"}
    wrong = [
        f"{module_name(path)} imports {name}"
        for path in sources("optics")
        for name in imports(parse(path), path)
        if name.split(".")[0] in faces
    ]
    assert wrong == []


def test_only_the_symbolic_core_imports_sympy() -> None:
    """Sympy is imported by the relation engine and the catalogue alone."""
    wrong = [
        module_name(path)
        for path in sources(*PACKAGES)
        if room_of(module_name(path)) not in SYMBOLIC
        and any(name.split(".")[0] == "sympy" for name in imports(parse(path), path))
    ]
    assert wrong == []


def test_relations_are_solved_for_a_quantity_and_not_for_its_name() -> None:
    """A name in quotes, which no checker can follow, is given to `solve_for` or its kin nowhere."""
    by_quantity = {"solve_for", "mark_error_formula", "depth_of_focus_formula"}
    wrong = [
        f"{module_name(path)}:{node.lineno}: {node.args[0].value}"
        for path in sources(*PACKAGES)
        for node in ast.walk(parse(path))
        if isinstance(node, ast.Call)
        and isinstance(node.func, ast.Attribute)
        and node.func.attr in by_quantity
        and node.args
        and isinstance(node.args[0], ast.Constant)
    ]
    assert wrong == []


def test_scipy_is_imported_only_where_it_is_used() -> None:
    """Only scipy.special and scipy.optimize are imported, and only inside functions."""
    wrong = []
    for path in sources(*PACKAGES):
        tree = parse(path)
        everywhere = [name for name in imports(tree, path) if name.split(".")[0] == "scipy"]
        inside = {
            name
            for function in functions(tree)
            for name in imports(function, path)
            if any(name == part or name.startswith(part + ".") for part in SCIPY_ALLOWED)
        }
        wrong += [f"{module_name(path)}: {name}" for name in everywhere if name not in inside]
        top = [node for node in tree.body if isinstance(node, ast.Import | ast.ImportFrom)]
        wrong += [
            f"{module_name(path)}: {name} at the top"
            for node in top
            for name in imports(ast.Module([node], []), path)
            if name.split(".")[0] == "scipy"
        ]
    assert wrong == []


def test_the_face_decides_no_verdict() -> None:
    """Pages, drawings and terminal name a verdict only as the key of how it is drawn."""
    wrong = []
    for path in sources("ui"):
        tree = parse(path)
        drawn = {
            key for node in ast.walk(tree) if isinstance(node, ast.Dict) for key in node.keys if key
        }
        wrong += [
            f"{module_name(path)}:{node.lineno}"
            for node in ast.walk(tree)
            if isinstance(node, ast.Attribute)
            and isinstance(node.value, ast.Name)
            and node.value.id == "Verdict"
            and node not in drawn
        ]
    assert wrong == []


def test_importing_the_bench_stays_light() -> None:
    """Importing the bench loads neither the page, the plots, the sheets nor scipy.stats."""
    program = "import sys, optics.finding.plan; print(*sorted(sys.modules), sep='\\n')"
    loaded = subprocess.run(
        [sys.executable, "-c", program], cwd=HOUSE, capture_output=True, text=True, check=True
    ).stdout.split()
    assert "optics.finding.plan" in loaded
    heavy = {"streamlit", "plotly", "pandas", "reportlab", "scipy.stats", "scipy.optimize"}
    assert heavy & set(loaded) == set()


def test_everything_public_says_what_it_is_for() -> None:
    """Every module, public class and public function has a docstring."""
    silent = []
    for path in sources(*PACKAGES):
        tree = parse(path)
        public = [tree] + [
            node
            for node in tree.body
            if isinstance(node, Function | ast.ClassDef) and not node.name.startswith("_")
        ]
        silent += [
            f"{module_name(path)}: {getattr(node, 'name', 'the module')}"
            for node in public
            if not ast.get_docstring(node)
        ]
    assert silent == []


def test_no_case_takes_in_silently_what_is_new() -> None:
    """No match over kinds ends in a catch-all, so that the type check names a new kind."""
    caught = [
        f"{module_name(path)}:{case.pattern.lineno}"
        for path in sources(*PACKAGES)
        for match in ast.walk(parse(path))
        if isinstance(match, ast.Match) and not isinstance(match.subject, ast.Tuple)
        for case in match.cases
        if isinstance(case.pattern, ast.MatchAs) and case.pattern.pattern is None
    ]
    assert caught == []


def test_functions_fit_a_screen() -> None:
    """No function is longer than 60 lines, its docstring aside, and the median is under 15."""
    lengths = {
        f"{module_name(path)}.{function.name}": length_without_docstring(function)
        for path in sources(*PACKAGES)
        for function in functions(parse(path))
    }
    assert {name: n for name, n in lengths.items() if n > LONGEST_FUNCTION} == {}
    assert statistics.median(lengths.values()) < MEDIAN_FUNCTION


@pytest.mark.parametrize("package", PACKAGES)
def test_tests_mirror_what_they_test(package: str) -> None:
    """Every test file below tests/optics and tests/ui bears the name of a module or package."""
    strays = []
    for path in (HOUSE / "tests" / package).rglob("test_*.py"):
        inside = path.relative_to(HOUSE / "tests").with_name(path.stem.removeprefix("test_"))
        mirrored = HOUSE / inside
        if not (mirrored.with_suffix(".py").is_file() or (mirrored / "__init__.py").is_file()):
            strays.append(str(path.relative_to(HOUSE)))
    assert strays == []


def test_every_test_states_its_claim() -> None:
    """Every test has a docstring of one sentence that ends with a full stop."""
    wrong = []
    for path in sources("tests", "worked_examples"):
        for function in functions(parse(path)):
            if not function.name.startswith("test_"):
                continue
            claim = " ".join((ast.get_docstring(function) or "").split())
            if not claim.endswith(".") or re.search(r"[.!?] +[A-Z]", claim):
                wrong.append(f"{path.relative_to(HOUSE)}: {function.name}")
    assert wrong == []


# Written with a gap in each word, so that this file does not hold what it forbids.
FORBIDDEN = {
    "a folder of one machine": r"(?<![\w.])/(?:wo~rk|ro~ot|tm~p|ho~me)/",
    "a registry's address": r"py~pi\.org|python~hosted|conda\.~org|anaconda\.~com",
    "a private index": r"extra-index~-url|find-li~nks\s*=|opt/whe~els",
    "a working paper": r"des~ign\.md|sty~le\.md|check_va~lues|bench_pra~ctice",
    "talk of how it was written": r"\btrans~cripts?\b|\bseed doc~ument|\bl~lms?\b|language mo~del",
    "an issue number": r"\biss~ue\s*#?\s*\d",
    "an unfinished mark": r"\bTO~DO\b|\bFIX~ME\b|\bX~XX\b",
    "a real maker": r"\b(?:lei~ca|lei~tz|ze~iss|nik~on|rol~lei\w*|cont~ax|pent~ax|mino~lta|olym~pus"
    r"|kod~ak|voi~gtl\w*|has~sel\w*|ag~fa|mami~ya|graf~lex|fu~ji\w*|zor~ki|yash~ica|polar~oid)\b",
}


@pytest.mark.parametrize("what", FORBIDDEN)
def test_no_file_names_what_has_no_place_here(what: str) -> None:
    """No file names a machine's folder, a registry, a working paper, a real maker or the like."""
    pattern = re.compile(FORBIDDEN[what].replace("~", ""), re.IGNORECASE)
    found = [
        f"{path}:{text.count(chr(10), 0, match.start()) + 1}: {match.group()}"
        for path, text in text_files()
        for match in pattern.finditer(text)
    ]
    assert found == []


def test_every_locked_requirement_is_hashed() -> None:
    """Every requirement of the lock is one exact version with at least one SHA-256."""
    requirements = locked_requirements()
    assert len(requirements) > 40
    wrong = [
        block.split()[0]
        for block in requirements
        if not re.match(r"[a-z0-9-]+==[^\s]+ ", block)
        or not re.search(r"--hash=sha256:[0-9a-f]{64}(\s|$)", block)
    ]
    assert wrong == []


def test_the_lock_names_no_address() -> None:
    """The lock holds no address, path or index option, so every mirror can serve it."""
    text = (HOUSE / "requirements.lock").read_text(encoding="utf-8")
    assert re.findall(r"\S*(?:://|\s@\s|file:|--index|--find)\S*", text) == []


@pytest.mark.parametrize("section", ["dependencies", "test"])
def test_the_lock_holds_what_the_project_declares(section: str) -> None:
    """Every package that the project file asks for is in the lock."""
    table = project()
    extras = table["optional-dependencies"]
    declared = table["dependencies"] if section == "dependencies" else extras["test"]
    assert names_of(declared) - names_of(locked_requirements()) == set()


def test_every_import_is_declared() -> None:
    """Every package that the code imports is declared, and every declared one is imported."""
    imported = {
        name.split(".")[0] for path in sources(*PACKAGES) for name in imports(parse(path), path)
    }
    third_party = imported - set(sys.stdlib_module_names) - set(PACKAGES)
    assert {normal_name(name) for name in third_party} == names_of(project()["dependencies"])
