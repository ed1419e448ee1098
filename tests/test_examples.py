"""Everything that the guide and the worked examples show is executed."""

import doctest
import re
from pathlib import Path

import pytest

from optics.records.files import read_job
from optics.records.solve import solve
from optics.theory import CATALOGUE

HOUSE = Path(__file__).resolve().parents[1]
EXAMPLES = HOUSE / "worked_examples"
PAGES = [*sorted(HOUSE.glob("*.md")), *sorted(EXAMPLES.glob("*.md"))]
BLOCK = re.compile(r"^```python\n(.*?)^```$", re.MULTILINE | re.DOTALL)
JOB = re.compile(r"^```json\n(.*?)^```$", re.MULTILINE | re.DOTALL)

each_page = pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)


def python_blocks(page: Path) -> list[tuple[int, str]]:
    """Every block of Python on a page, with the number of lines before it."""
    text = page.read_text(encoding="utf-8")
    return [(text.count("\n", 0, m.start(1)), m.group(1)) for m in BLOCK.finditer(text)]


@each_page
def test_examples_say_what_comes_out(page: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Run from top to bottom, every example on a page prints what stands below it."""
    parser, runner, names = doctest.DocTestParser(), doctest.DocTestRunner(), {}
    for line, block in python_blocks(page):
        test = parser.get_doctest(block, names, page.name, str(page), line)
        runner.run(test, clear_globs=False)
        names = test.globs
    assert runner.failures == 0, capsys.readouterr().out


@each_page
def test_every_block_of_python_is_an_example(page: Path) -> None:
    """No block of Python on a page stands there without being run."""
    parser = doctest.DocTestParser()
    idle = [line for line, block in python_blocks(page) if not parser.get_examples(block)]
    assert idle == []


def test_the_job_in_the_guide_is_worked_out() -> None:
    """The job file that the guide shows is read as it stands, and each reading is answered."""
    (text,) = JOB.findall((HOUSE / "README.md").read_text(encoding="utf-8"))
    solution = solve(read_job(text.encode()))
    assert len(solution.answers) == len(solution.job.readings) == 1


def test_there_are_examples() -> None:
    """The worked examples hold examples to run."""
    assert sum(block.count(">>> ") for page in PAGES for _, block in python_blocks(page)) > 40


@pytest.mark.parametrize("name", CATALOGUE)
def test_every_relation_is_in_the_formula_book(name: str) -> None:
    """Every relation of the catalogue has a question in the formula book and is worked there."""
    book = (EXAMPLES / "formula_book.md").read_text(encoding="utf-8")
    assert f"\n**{name}** · " in book
    assert re.search(rf'show\(\s*(?:\.\.\.\s+)?"{name}"', book)
