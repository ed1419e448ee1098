"""The moves are what their folder holds, and one more file is one more move everywhere."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from optics.camera.camera import Camera
from optics.finding.causes import BenchStep, Cause, Prior, disturbed_by
from optics.finding.causes import registry as causes
from optics.finding.causes.size import Millimetres
from optics.finding.diagnosis import Faults, diagnose
from optics.finding.plan import make_plan
from optics.finding.plan.wording import step_lines
from optics.measure.uncertainty import within
from optics.moves import ALL, AtHand, Made, Move, Refused, curing, registry
from optics.moves.setting import near_enough
from optics.readings.correction import correct
from optics.readings.kinds.register import RegisterReading
from optics.readings.spots import Spot
from optics.records.result import RemedyOut
from optics.sheets.note import correction_note
from optics.teaching.practice import wording
from optics.teaching.practice.levels import Level
from optics.teaching.practice.sitting import Adjust, Sitting
from optics.teaching.practice.sitting_text import read_sitting, write_sitting
from tests.optics.moves.made_up.stone import STONE
from tests.optics.teaching.bench_day import (
    AT_HAND,
    BED,
    CELL,
    GAUGE,
    HELICOID,
    INFINITY,
    NEAR,
    STOP,
    TURNED,
    all_shown,
)
from tests.optics.teaching.practice.stands import OSTRIN

BURR = Cause(
    name="burr",
    in_jobs="burr",
    words="burr under the gauge",
    figures={"burr": "burr, higher"},
    order=15,
    step=BenchStep.INFINITY,
    within=9,
    size=Millimetres("high", "low"),
    prior=Prior(0.2, 0.001, 0.2),
    spots=frozenset({Spot.GAUGE}),
    is_always_open=True,
)
PLANNED = [
    (move, camera)
    for move in ALL
    for camera in (HELICOID, CELL, BED)
    if move.make and move.serves(camera)
]
CAMERAS = pytest.mark.parametrize("camera", [HELICOID, CELL, BED], ids=lambda c: c.name)
# A change of each fault that is worth a move on every camera, and that its parts can make.
WORTH = {
    "seat": 0.15,
    "tilt_x": 0.002,
    "tilt_y": -0.0016,
    "start": 6.0,
    "ring": 0.2,
    "stop": 0.15,
    "focal": 0.35,
    "gate": 0.06,
    "zero": 0.15,
    "gain": 0.03,
}


@pytest.fixture
def with_stone() -> Iterator[None]:
    """Have the moves of one folder more, where a made-up one stands, and a cause that asks it."""
    folder = Path(__file__).with_name("made_up")
    registry.find("tests.optics.moves.made_up", [str(folder)])
    causes.add(BURR)
    yield
    causes.drop(BURR)
    registry.drop(STONE)


@pytest.mark.usefixtures("with_stone")
def test_a_plan_offers_a_move_from_its_file_alone() -> None:
    """A plan asks for the made-up move where it puts right what was found."""
    readings = (GAUGE, STOP, INFINITY, TURNED, NEAR)
    found = diagnose(HELICOID, all_shown(HELICOID, Faults(burr=0.3), readings))
    (step,) = make_plan(found).steps
    said = step_lines(step)
    assert said[0].endswith("Stone the burr on the seat 0.3 mm lower.")
    assert said[1] == "Tool: oilstone."
    assert step.adjustment.after == "stoned the burr 0.3 mm lower"
    assert step.adjustment.changes["burr"].value == pytest.approx(-0.3)
    assert disturbed_by(step.adjustment.changes) == {Spot.GAUGE}


@pytest.mark.usefixtures("with_stone")
def test_the_practice_bench_offers_and_does_a_move_from_its_file_alone() -> None:
    """The made-up move is offered on the bench, done, told before and after, kept and read back."""
    stand = replace(OSTRIN)
    start = Sitting(stand, Level.ONE, 1)
    assert "stone the burr" in start.controls
    done = start.then(Adjust("stone the burr", -0.06))
    (entry,) = done.entries
    before, after = (state.practice.hidden["burr"] for state in (entry.before, entry.after))
    assert after - before == pytest.approx(-0.06, abs=0.01)
    assert wording.done_words(done, entry) == "Stoned the burr 0.06 mm lower"
    control = start.controls["stone the burr"]
    assert wording.miss_words(control) == "A hand misses by up to 0.01 mm either way."
    assert wording.cautions_for(control, None) == STONE.cautions
    text = write_sitting(done)
    assert text.splitlines()[-1] == "stone the burr 0.06 mm lower"
    assert read_sitting(text, {stand.camera.name: stand}).actions == done.actions


@pytest.mark.usefixtures("with_stone")
def test_a_note_prints_a_move_from_its_file_alone(read_back: Callable[[bytes], Any]) -> None:
    """The made-up move stands among a reading's remedies, in results and on the bench note."""
    nominal = GAUGE.nominal
    reading = RegisterReading(within(nominal.value + 0.3, 0.005, "gauge"), nominal)
    found = correct(HELICOID, reading)
    remedy = found.remedies[-1]
    assert remedy.residual.value == pytest.approx(0.0, abs=1e-9)
    assert RemedyOut.of(remedy).words == "Stone the burr on the seat 0.3 mm lower."
    note = correction_note(found, title="", reading_title="Register", made=date(2026, 3, 6))
    text = " ".join(read_back(note).text.split())
    assert "Burr on the seat Stone the burr on the seat 0.3 mm lower." in text


def test_without_its_file_the_made_up_move_is_nowhere() -> None:
    """Taken out again, the made-up move is offered by nobody."""
    assert STONE not in ALL
    assert curing(("burr",), HELICOID) is None
    assert "stone the burr" not in Sitting(replace(OSTRIN), Level.ONE, 1).controls


def lacking(move: Move) -> list[str]:
    """Name what a move's record does not say."""
    controls = [c for camera in (HELICOID, CELL, BED) for c in move.on(camera, AT_HAND)]
    said = {
        "a title": move.title,
        "a tool": move.tool,
        "a control": controls,
        "words before": all(c.name for c in controls),
        "words after": all(c.past and c.past != c.name for c in controls),
        "two ways": all(c.ways[0] != c.ways[1] for c in controls),
        "an effect": all(c.effects or c.height for c in controls),
        "what a unit does": all(c.does or c.unit == "mm" for c in controls),
        "how nearly it is set": all(c.limit > 0 or c.is_whole for c in controls),
        "a fault to put right": move.puts_right or not move.make,
        "a way to work out amounts": move.make or not move.puts_right,
    }
    return [what for what, is_said in said.items() if not is_said]


@pytest.mark.parametrize("move", [*ALL, STONE], ids=str)
def test_no_move_lacks_anything(move: Move) -> None:
    """Every move says what is done, with what, by how much, how nearly and to what effect."""
    assert lacking(move) == []


def test_what_a_move_lacks_is_named() -> None:
    """A record without a tool, words after, effect or limit is told just that."""
    (control,) = STONE.on(HELICOID, AT_HAND)
    bare = replace(control, past="", effects={}, limit=0.0)
    vague = replace(STONE, tool="", controls=(bare,))
    assert lacking(vague) == ["a tool", "words after", "an effect", "how nearly it is set"]


@pytest.mark.parametrize("way", [1, -1], ids=["out", "in"])
@pytest.mark.parametrize(("move", "camera"), PLANNED, ids=lambda one: getattr(one, "name", one))
def test_what_is_set_does_what_is_said_to_change(move: Move, way: int, camera: Camera) -> None:
    """The controls' effects, times the amounts asked for, come to the changes a plan counts on."""
    made = move.made(camera, AT_HAND, {name: way * WORTH[name] for name in move.puts_right})
    assert isinstance(made, Made), made
    done = dict.fromkeys(made.changes, 0.0)
    for control, amount in made.settings:
        for name, effect in control.effects.items():
            done[name] += amount * effect
    for name, change in made.changes.items():
        # Degrees are said to a tenth, which on the coarsest of these threads is 0.003 mm.
        assert done[name] == pytest.approx(change.value, abs=0.003), name


@CAMERAS
def test_what_is_next_to_nothing_is_left_alone(camera: Camera) -> None:
    """No move is made for a hundredth of what would be near enough."""
    for move in ALL:
        if move.make and move.serves(camera):
            tiny = dict.fromkeys(move.puts_right, near_enough(camera) / 1e4)
            assert isinstance(move.made(camera, AtHand(AT_HAND.workshop), tiny), Refused), move


def test_the_order_of_the_moves_is_the_bench_s() -> None:
    """Gate and standard come before the lens, the lens before its scale, the finder last."""
    names = [move.name for move in ALL]
    assert names[:4] == ["gate", "standard", "start", "shim"]
    assert names[-4:] == ["scale", "height_screw", "infinity_screw", "near_screw"]


def documented() -> set[str]:
    """Read the faults in the table of the package's own words."""
    import optics.moves

    rows = [line for line in (optics.moves.__doc__ or "").splitlines() if line.startswith("| ")]
    cells = (row.split("|")[2] for row in rows[1:])
    return {name.strip() for cell in cells for name in cell.split(",") if "none" not in cell}


def test_the_table_names_every_fault_that_a_move_touches() -> None:
    """The table in the package's docstring has the faults that controls move, and no others."""
    touched = {
        name
        for move in ALL
        for camera in (HELICOID, CELL, BED)
        for control in move.on(camera, AT_HAND)
        for name in control.effects
    }
    assert documented() == touched
