"""Job files: what is typed comes back as it was, and whatever is wrong is one sentence."""

import copy
import json
import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.errors import ShimwrightError, Unreadable
from optics.records.files import LARGEST_FILE, read_job, write_job
from optics.records.result import result_of
from optics.records.solve import solve
from tests.optics.records.jobs import FOCUSINGS, READINGS, job


def as_bytes(document: Any) -> bytes:
    """Write a document as a file would hold it."""
    return json.dumps(document, ensure_ascii=False).encode()


def refusal(data: bytes) -> str:
    """Read a file that must be refused, and return the sentence."""
    with pytest.raises(Unreadable) as refused:
        read_job(data)
    return str(refused.value)


def changed(path: str, value: Any) -> bytes:
    """Write a good job in which one thing has been changed (or taken out: ...)."""
    document: Any = job(FOCUSINGS[0], *READINGS)
    *above, last = path.split(".")
    place = document
    for step in above:
        place = place[int(step) if step.isdigit() else step]
    if value is ...:
        del place[last]
    else:
        place[last] = value
    return as_bytes(document)


def texts(document: Any) -> list[str]:
    """Return every text in a document, in order."""
    if isinstance(document, dict):
        return [text for value in document.values() for text in texts(value)]
    if isinstance(document, list):
        return [text for value in document for text in texts(value)]
    return [document] if isinstance(document, str) else []


@pytest.mark.parametrize("focusing", FOCUSINGS, ids=lambda f: f["kind"])
def test_what_was_typed_comes_back_byte_for_byte(focusing: dict[str, str]) -> None:
    """A job read and written holds every typed text as it was: blanks, commas, primes and all."""
    typed = job(focusing, *READINGS)
    read = read_job(as_bytes(typed))
    written = json.loads(write_job(read))
    assert set(texts(typed)) <= set(texts(written))
    assert written["camera"]["lens"] == typed["camera"]["lens"]
    assert written["marks"] == typed["marks"]
    assert read_job(write_job(read).encode()) == read


def test_what_was_left_out_stays_out() -> None:
    """A tolerance, limit or shim that was never typed is not written."""
    typed = job(FOCUSINGS[0], {"kind": "register", "measured": "45.5", "nominal": "45.46"})
    del typed["camera"]["tolerance"], typed["workshop"]
    written = json.loads(write_job(read_job(as_bytes(typed))))
    assert "tolerance" not in written["camera"]
    assert written["workshop"] == {}
    assert "limit" not in written["readings"][0]


def test_a_byte_order_mark_does_no_harm() -> None:
    """A file that an editor gave a byte order mark is read."""
    assert read_job(b"\xef\xbb\xbf" + as_bytes(job())).title == "Spring clean, No. 12"


# Each row: what the file holds, and how the sentence begins.
REFUSED: list[tuple[str, bytes, str]] = [
    ("empty", b"", "The job file is not JSON: Expecting value in line 1, column 1."),
    ("no JSON", b"lens: 47 mm", "The job file is not JSON: Expecting value in line 1, column 1."),
    ("cut short", as_bytes(job())[:-9], "The job file is not JSON: "),
    ("Latin-1", "Größe".encode("latin-1"), "The job file is not UTF-8 text; save it as UTF-8."),
    ("UTF-16", '{"format": 1}'.encode("utf-16"), "The job file is not UTF-8 text;"),
    ("too large", b" " * (LARGEST_FILE + 1), "The job file must be at most 1,000,000 bytes: got "),
    ("nested", b"[" * 50_000 + b"]" * 50_000, "The job file is nested too deeply to be a job."),
    ("NaN", b'{"format": NaN}', "The job file holds NaN, which is not JSON; write “inf”"),
    ("Infinity", b'{"a": Infinity}', "The job file holds Infinity, which is not JSON;"),
    ("-Infinity", b'{"a": -Infinity}', "The job file holds -Infinity, which is not JSON;"),
    ("huge number", b'{"a": ' + b"9" * 5000 + b"}", "The job file holds a number too long to be"),
    ("twice", b'{"a": 1, "a": 2}', "The job file has the field “a” twice in one place; remove one"),
    ("a list", b"[]", "The file is not a job: its “format” must be “shimwright job”."),
    ("null", b"null", "The file is not a job: its “format” must be “shimwright job”."),
    ("other format", changed("format", "shimwright result"), "The file is not a job: its “format”"),
    ("no format", changed("format", ...), "The file is not a job: its “format” must be"),
    ("version 2", changed("version", 2), "The job is of version 2, and this program reads version"),
    ("version text", changed("version", "1"), "The job is of version '1', and this program reads"),
    ("version true", changed("version", True), "The job is of version True, and this program"),
    ("version 1e999", changed("version", 1e308), "The job is of version 1e+308, and this program"),
    ("no version", changed("version", ...), "The job has no “version”; this program reads version"),
    ("unknown field", changed("camera.shutter", "1/100"), "In camera → shutter: this field is not"),
    ("unknown kind", changed("readings.0.kind", "guess"), "In readings no. 1: the kind “guess”"),
    ("odd kind", changed("readings.0.kind", {":": None}), "In readings no. 1: the kind “given”"),
    ("no kind", changed("readings.0.kind", ...), "In readings no. 1: its field “kind”"),
    (
        "number",
        changed("camera.lens.focal_length", 47),
        "In camera → lens → focal_length: write the figure as text with its unit, such as “1.2 m”.",
    ),
    ("no lens", changed("camera.lens", ...), "In camera → lens: this field is missing."),
    ("camera text", changed("camera", "Ostrin"), "In camera: a group of fields in { }"),
    (
        "long text",
        changed("camera.lens.focal_length", "4" * 500),
        "In camera → lens → focal_length: the text must have at most 400 letters and signs.",
    ),
    (
        "long number",
        changed("camera.lens.focal_length", "4" * 90),
        "In camera → lens → focal_length: The focal length “444",
    ),
    (
        "ambiguous",
        changed("camera.lens.focal_length", "1,234 mm"),
        "In camera → lens → focal_length"
        ": The focal length “1,234 mm” cannot be understood because the comma",
    ),
    (
        "too small",
        changed("camera.lens.focal_length", "-47"),
        "In camera → lens → focal_length: The"
        " focal length must be more than 0 mm: got −47 mm; check the figure and its unit.",
    ),
    (
        "starts",
        changed("camera.focusing.starts", "0"),
        "In camera → focusing → starts: The number of starts must be at least 1: got 0;",
    ),
    (
        "sense",
        changed("camera.focusing.extends", "left"),
        "In camera → focusing → extends: it must be clockwise or counter-clockwise.",
    ),
    ("too many marks", changed("marks", ["3 m"] * 13), "In marks: there must be at most 12"),
    ("too many readings", changed("readings", [READINGS[0]] * 201), "In readings: there must"),
    ("long title", changed("title", "x" * 201), "In title: the text must have at most 200"),
    ("lone half of a letter", changed("title", "x").replace(b'"x"', b'"\\ud800"'), "In title: "),
    ("long odd name", changed("camera.a\nb" + "c" * 5000, "1"), "In camera → a bccc"),
    ("long odd kind", changed("readings.0.kind", "a\nb" * 900), "In readings no. 1: the kind “a b"),
]


@pytest.mark.parametrize(
    ("data", "begins"), [row[1:] for row in REFUSED], ids=[row[0] for row in REFUSED]
)
def test_whatever_is_wrong_is_said_in_one_sentence(data: bytes, begins: str) -> None:
    """A file that is no job is refused with one short sentence that says what is wrong."""
    said = refusal(data)
    assert said.startswith(begins)
    assert_is_a_sentence(said)


def assert_is_a_sentence(said: str) -> None:
    """Check that a refusal is one line, ends with a point and can be read at a glance."""
    assert said.isprintable()
    assert said.endswith(".")
    assert not re.search(r"\.\.$|::|\bpydantic\b|https?:", said)
    assert len(said) < 500


def test_every_nesting_up_to_the_deepest_is_refused_or_read() -> None:
    """However deep the nesting, the reader never gives up without a sentence."""
    for depth in (10, 400, 900, 980, 1000, 1100, 3000):
        for text in (
            '{"format":"shimwright job","version":%s}' % ("[" * depth + "]" * depth),
            '{"format":"shimwright job","version":1,"camera":%s}'
            % ('{"lens":' * depth + "1" + "}" * depth),
        ):
            assert_is_a_sentence(refusal(text.encode()))


def test_many_fields_twice_are_refused_at_once() -> None:
    """Eighty thousand fields, one of them twice, are refused without a long search."""
    fields = ",".join(f'"{number}":1' for number in range(80_000))
    assert refusal(f'{{{fields},"79999":1}}'.encode()).startswith("The job file has the field “799")


anything = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner),
    max_leaves=12,
)


def solved_or_refused(data: bytes) -> None:
    """Read and solve; whatever happens, nothing but a deliberate refusal may come out."""
    try:
        text = result_of(solve(read_job(data))).model_dump_json()
    except ShimwrightError as refused:
        assert_is_a_sentence(str(refused))
    else:
        json.loads(text, parse_constant=lambda name: pytest.fail(f"{name} is not JSON"))


@settings(max_examples=150, deadline=None)
@given(anything)
def test_any_document_is_read_or_refused(document: Any) -> None:
    """Any JSON at all is read or refused in a sentence."""
    solved_or_refused(json.dumps(document).encode())


@settings(max_examples=100, deadline=None)
@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    """Any bytes at all are read or refused in a sentence."""
    solved_or_refused(data)


def places(document: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Return the way to everything in a document."""
    items: Any = ()
    if isinstance(document, dict):
        items = document.items()
    elif isinstance(document, list):
        items = enumerate(document)
    found = [path] if path else []
    for key, value in items:
        found += places(value, (*path, key))
    return found


FIGURES = st.sampled_from(
    (
        "0",
        "-1",
        "1e300",
        "inf",
        "-inf",
        "∞",
        "nan",
        "0.0001",
        "1e-300",
        "9" * 60,
        "1000 m",
        "0." + "0" * 55 + "1",
        "-" + "9" * 60,
        "1/8 in",
        "3 ft 6",
        "",
        " ",
        "none",
        "1; 2; 3",
        "1; inf",
        "0.1 x 9999",
        "50 mm",
        "1.5 m",
        "90°",
        "360",
        "12' 30\"",
        "clockwise",
        "nearer",
        "caliper",
        "depth_micrometer",
        "100000 km",
    )
)
mutations = st.lists(
    st.tuples(st.integers(0, 10**6), st.one_of(FIGURES, FIGURES, FIGURES, anything)),
    min_size=1,
    max_size=3,
)


@settings(max_examples=250, deadline=None)
@given(st.sampled_from(FOCUSINGS), st.sampled_from(READINGS), mutations)
def test_a_spoilt_job_is_solved_or_refused(
    focusing: dict[str, str], reading: dict[str, str], spoilt: list[tuple[int, Any]]
) -> None:
    """A good job with a few things replaced by odd ones is solved or refused in a sentence."""
    document: Any = job(focusing, reading)
    for number, value in spoilt:
        ways = places(document)
        *above, last = ways[number % len(ways)]
        place = document
        for step in above:
            place = place[step]
        place[last] = copy.deepcopy(value)
        if not ways:
            break
    solved_or_refused(json.dumps(document).encode())
