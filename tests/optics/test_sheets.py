"""One camera, one set of numbers: which f-number a stop counts with, on paper and in exercises.

The exact f-number is what strip, card and table take unless they are told otherwise, and each
question says so. The figure of the other convention is right where the two print alike (f/8 and
f/16 are exact as engraved), and else a slip that says which f-number it took.
"""

import re
from collections.abc import Callable
from datetime import date
from functools import partial
from typing import Any

import pytest

from optics.camera.stops import Stops, set_stop
from optics.scales.depth_table import depth_table
from optics.sheets.bench_sheet import bench_sheet
from optics.sheets.certificate import certificate
from optics.sheets.customer_page import customer_page
from optics.sheets.depth_card import depth_card
from optics.sheets.exercise_sheet import exercise_sheet
from optics.sheets.face_ring import Face, face_ring
from optics.sheets.note import correction_note
from optics.sheets.posters import POSTERS
from optics.sheets.scale_plan import ScalePlan
from optics.sheets.scale_strip import StripBarrel, scale_strip
from optics.sheets.true_size import Signature
from optics.teaching.exercises import KINDS, Exercise, ExerciseLevel, exercise, mark
from optics.teaching.exercises.marking import Outcome
from optics.teaching.exercises.slips import Slip
from optics.teaching.shelf import CORVANE, OSTRIN, RING
from tests.optics.conftest import ReadBack
from tests.optics.sheets.conftest import correction_of
from tests.optics.sheets.posters_read import drawn
from tests.optics.sheets.reports import report
from tests.optics.sheets.test_certificate import HEADING

MADE = date(2026, 3, 6)
SIGNED = Signature(MADE)
Read = Callable[[bytes], Any]
SAID = re.compile(r"as engraved|exact f-number", re.IGNORECASE)
# Dictionary of Optometry, table F1.
TABLE_F1 = {5.6: 5.657, 8.0: 8.0, 11.0: 11.314, 16.0: 16.0}


@pytest.fixture
def read_back() -> Read:
    """Give what reads a sheet back."""
    return ReadBack


def printed_marks(text: str) -> dict[float, tuple[str, str]]:
    """Each stop's angle and arc as the strip's table prints them."""
    table = text[text.index("± from the index") :]
    rows = re.findall(r"(?<![\d.])([\d.]+) ([\d.]+°) ([\d.]+ mm)", table)
    return {float(stop): (angle, arc) for stop, angle, arc in rows}


def strip(camera: Any, read_back: Read, stops: Stops, diameter: float = RING) -> str:
    """Give the words of a printed strip."""
    plan = ScalePlan(camera, f_numbers=(5.6, 8, 11, 16), stops=stops)
    return str(read_back(scale_strip(plan, StripBarrel(diameter, 0.0), SIGNED).pdf()).text)


def asked() -> list[tuple[Exercise, float]]:
    """Give exercises on depth marks, each with the stop that it asks for."""
    found = [exercise("depth_mark", level, str(n)) for level in ExerciseLevel for n in range(8)]
    return [
        (one, float(re.findall(r"mark for f/([\d.]+) stand", one.question)[0])) for one in found
    ]


def camera_of(one: Exercise) -> Any:
    """Give the camera that an exercise is about."""
    return CORVANE if CORVANE.name in one.question else OSTRIN


@pytest.mark.parametrize("stops", Stops)
def test_an_exercise_takes_what_the_printed_strip_shows(stops: Stops, read_back: Read) -> None:
    """The strip's own figure is right, and one of the other convention is named or as good."""
    texts = {c.name: printed_marks(strip(c, read_back, stops)) for c in (OSTRIN, CORVANE)}
    seen = set()
    for one, stop in asked():
        angle, arc = texts[camera_of(one).name][stop]
        outcome = mark(one, arc if one.answer.unit == "mm" else angle)
        seen.add(stop)
        if stops is Stops.EXACT or stop in (8.0, 16.0):
            assert outcome.outcome is Outcome.RIGHT, (one.question, angle, arc)
        else:
            assert (outcome.outcome, outcome.slip) == (Outcome.SLIP, Slip.STOP)
            assert f"f/{stop:g} as engraved: its exact f-number is" in outcome.sentence
    assert seen == set(TABLE_F1)


def test_the_mark_of_f_11_is_the_one_of_the_printed_series(read_back: Read) -> None:
    """At 0.03 mm on a lead of 18 mm, f/11 stands 0.6° × 11.314 = 6.79° from the index."""
    assert printed_marks(strip(OSTRIN, read_back, Stops.EXACT))[11.0][0] == "6.79°"
    assert printed_marks(strip(OSTRIN, read_back, Stops.MARKED))[11.0][0] == "6.60°"
    elevens = [one for one, stop in asked() if stop == 11 and one.level is ExerciseLevel.APPRENTICE]
    assert elevens
    for one in elevens:
        assert one.answer.printed == "6.79°"
        assert "f/11 is 11.314." in one.question


@pytest.mark.parametrize("kind", ["depth_near", "depth_far"])
def test_an_exercise_on_depth_takes_what_the_card_shows(kind: str) -> None:
    """The limits of a depth card for the same camera, stop and distance are right answers."""
    for n in range(8):
        one = exercise(kind, ExerciseLevel.APPRENTICE, str(n))
        (metres, stop), *_ = re.findall(
            r"focused at ([\d.]+) m and stopped down to f/([\d.]+)\.", one.question
        )
        used = set_stop(float(stop), OSTRIN.lens.full_aperture)
        table = depth_table(OSTRIN, used, 1000 * float(metres))
        limit = table.near if kind == "depth_near" else table.far
        assert mark(one, f"{limit[0, 0] / 1000:.2f} m").outcome is Outcome.RIGHT


@pytest.mark.parametrize("level", [ExerciseLevel.JOURNEYMAN])
def test_wide_open_an_exercise_takes_the_bench_s_own_depth_of_focus(level: ExerciseLevel) -> None:
    """The full aperture counts as engraved: ± 0.084 mm at f/2.8, as tolerances rest on it."""
    found = [exercise("depth_of_focus", level, str(n)) for n in range(12)]
    ostrins = [one for one in found if OSTRIN.name in one.question]
    assert ostrins
    for one in ostrins:
        assert mark(one, "0.084 mm").outcome is Outcome.RIGHT  # 2.8 × 0.03
        assert mark(one, "0.085 mm").slip is Slip.STOP  # 2.828 × 0.03


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("level", ExerciseLevel)
def test_an_exercise_that_names_a_stop_says_how_it_counts(kind: str, level: ExerciseLevel) -> None:
    """Wherever a question has an f-number, it says whether that is exact or as engraved."""
    for n in range(8):
        question = exercise(kind, level, str(n)).question
        if "f/" in question.replace("(f/f₁)", "").replace("(f₁/f)", ""):
            assert SAID.search(question), question


PLAN = ScalePlan(OSTRIN, f_numbers=(5.6, 8, 11, 16))
# Every kind of sheet that can print a stop.
PAPERS: dict[str, Callable[[], bytes]] = {
    "strip": lambda: scale_strip(PLAN, StripBarrel(52.0), SIGNED).pdf(),
    "face ring": lambda: face_ring(PLAN, Face(60.0, 46.0), SIGNED).pdf(),
    "card": lambda: depth_card(
        depth_table(OSTRIN, [2.8, 11.314], [3000.0]), ["f/2.8", "f/11"], SIGNED
    ).pdf(),
    "exercises": lambda: exercise_sheet(
        [exercise("depth_near", ExerciseLevel.BENCH, str(n)) for n in range(4)],
        made=MADE,
        with_answers=True,
    ).pdf(),
    "note": lambda: correction_note(
        correction_of("Ostrin 35", "mark"), title="", reading_title="", made=MADE
    ),
    "bench sheet": lambda: bench_sheet(report(), **HEADING),
    "certificate": lambda: certificate(report(), **HEADING),
    "customer's page": lambda: customer_page(report(), **HEADING),
    **{f"poster: {title}": partial(drawn, title) for title in POSTERS},
}


@pytest.mark.parametrize("name", PAPERS)
def test_a_sheet_that_prints_a_stop_says_how_it_counts(name: str, read_back: Read) -> None:
    """Every sheet and poster with an f-number on it says whether it is exact or as engraved."""
    text = " ".join(read_back(PAPERS[name]()).text.split())
    if re.search(r"f/\d", text):
        assert SAID.search(text), name
