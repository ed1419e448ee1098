"""The table of which fault disturbs which reading, against the forward model."""

import re
from collections.abc import Iterator

import pytest

import optics.finding.causes
from optics.camera.camera import Camera
from optics.finding.causes import ALL, Adjustment, AtHand, BenchStep, Cause, Prior
from optics.finding.causes.focal import FOCAL
from optics.finding.causes.gain import GAIN
from optics.finding.causes.gate import GATE as THE_GATE
from optics.finding.causes.record import Outcome, Wanted
from optics.finding.causes.registry import add, drop
from optics.finding.causes.ring import RING
from optics.finding.causes.seat import SEAT
from optics.finding.causes.size import Millimetres
from optics.finding.causes.start import START
from optics.finding.causes.stop import STOP as THE_STOP
from optics.finding.causes.tilt import TILT
from optics.finding.causes.zero import ZERO
from optics.finding.diagnosis import Faults, diagnose, predict
from optics.finding.diagnosis.reading_wording import movable_faults
from optics.finding.diagnosis.wording import headline
from optics.finding.part import SuspectPart
from optics.finding.plan import make_plan
from optics.measure.uncertainty import within
from optics.readings.spots import Spot, spot_of
from tests.optics.teaching.bench_day import (
    CORNERS,
    FAR_PAIR,
    GATE,
    GAUGE,
    HELICOID,
    INFINITY,
    INFINITY_FILM,
    NEAR,
    NEAR_PAIR,
    RULER,
    STOP,
    TURNED,
    all_shown,
)

# One fault of a noticeable size for each cause, in the sense that keeps every reading possible.
ONE = {
    SEAT: Faults(seat=0.05),
    START: Faults(start=3.0),
    RING: Faults(ring=0.05),
    THE_STOP: Faults(stop=0.05),
    FOCAL: Faults(focal=0.5),
    TILT: Faults(tilt_x=0.002),
    THE_GATE: Faults(gate=0.05),
    ZERO: Faults(zero=0.05),
    GAIN: Faults(gain=0.05),
}
ROWS = {
    "seat (shim)": SEAT,
    "thread start": START,
    "scale ring": RING,
    "infinity stop": THE_STOP,
    "focal length": FOCAL,
    "squareness (off centre)": TILT,
    "film gate (on film)": THE_GATE,
    "rangefinder zero": ZERO,
    "rangefinder gain": GAIN,
}
READINGS = (GAUGE, CORNERS[0], STOP, INFINITY, INFINITY_FILM, NEAR, RULER, TURNED, FAR_PAIR, GATE)


@pytest.mark.parametrize("cause", ALL)
@pytest.mark.parametrize("reading", READINGS, ids=lambda r: f"{r.kind} {spot_of(r)}")
def test_a_fault_moves_the_readings_of_the_table_and_no_others(
    cause: Cause, reading: object
) -> None:
    """A fault changes what a reading shows where the table says so, and nowhere else."""
    faults = ONE[cause]
    if reading is FAR_PAIR and cause is START:
        # Three millimetres out, the ring cannot be set far enough in.
        faults = Faults(start=-3.0)
    right = predict(HELICOID, Faults(), reading)  # type: ignore[arg-type]
    wrong = predict(HELICOID, faults, reading)  # type: ignore[arg-type]
    moved = abs(wrong - right) > 1e-9 * max(abs(right), 1.0) if right < 1e9 else wrong < 1e9
    assert moved == cause.disturbs(reading)  # type: ignore[arg-type]


def documented() -> dict[Cause, list[bool]]:
    """Read the table in the package's own words."""
    text = optics.finding.causes.__doc__ or ""
    rows = re.findall(r"^\| ([a-z][^|]+) \|((?: (?:yes|no) \|)+)$", text, re.MULTILINE)
    return {ROWS[name]: [w == "yes" for w in re.findall("yes|no", cells)] for name, cells in rows}


def test_the_table_that_is_printed_is_the_table_that_is_used() -> None:
    """The table in the package's docstring says what the program goes by."""
    spots = (
        Spot.GAUGE,
        Spot.STOP,
        Spot.INFINITY,
        Spot.NEAR,
        Spot.COINCIDENCE,
        Spot.GATE,
    )
    used = {cause: [spot in cause.spots for spot in spots] for cause in ALL}
    assert documented() == used


def test_readings_belong_where_they_were_taken() -> None:
    """Each reading is filed under the place at which it was taken."""
    spots = [spot_of(r) for r in (GAUGE, STOP, INFINITY, TURNED, NEAR, RULER, NEAR_PAIR, GATE)]
    assert spots == [
        Spot.GAUGE,
        Spot.STOP,
        Spot.INFINITY,
        Spot.INFINITY,
        Spot.NEAR,
        Spot.NEAR,
        Spot.COINCIDENCE,
        Spot.GATE,
    ]


def _file_off(camera: Camera, at_hand: AtHand, wanted: Wanted) -> Outcome:
    del camera, at_hand
    depth = wanted["burr"]
    return Adjustment(
        BURR, "Seat", "Take the burr off the seat.", {"burr": within(depth, 0.002, "oilstone")}, ()
    )


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
    tool="oilstone",
    put_right=_file_off,
    is_always_open=True,
)


@pytest.fixture
def with_burr() -> Iterator[None]:
    """Have one made-up cause more, as if its record stood in the folder."""
    add(BURR)
    yield
    drop(BURR)


@pytest.mark.usefixtures("with_burr")
def test_a_cause_is_weighed_worded_and_put_right_from_its_record_alone() -> None:
    """A made-up cause that is nothing but a record is found, named, planned for and suspected."""
    readings = (GAUGE, STOP, INFINITY, TURNED, NEAR)
    found = diagnose(HELICOID, all_shown(HELICOID, Faults(burr=0.3), readings))
    assert found.claimed == (BURR,)
    assert "burr under the gauge, 0.300 mm high" in headline(found)
    plan = make_plan(found)
    (step,) = plan.steps
    assert (step.adjustment.instruction, step.bench_step) == (
        "Take the burr off the seat.",
        BenchStep.INFINITY,
    )
    assert step.adjustment.changes["burr"].value == pytest.approx(-0.3, abs=0.01)
    assert "burr" in movable_faults(found)
    assert SuspectPart.model_validate({"cause": "burr", "wrong": "0.5 mm"}).cause == "burr"


def test_every_cause_says_all_there_is_to_say() -> None:
    """No cause lacks words, a name for job files, a tool, a place to be seen or a figure."""
    for cause in ALL:
        assert cause.words, cause
        assert cause.in_jobs, cause
        assert cause.tool, cause
        assert cause.spots, cause
        assert all(cause.figures.values()), cause
    assert len({cause.in_jobs for cause in ALL}) == len(ALL)
    assert len({cause.order for cause in ALL}) == len(ALL)
