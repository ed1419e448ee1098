"""The table of which fault disturbs which reading, against the forward model."""

import re
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest

import optics.finding.causes
from optics.camera.camera import Camera
from optics.finding.causes import ALL, BenchStep, Cause, Prior, Steps
from optics.finding.causes.focal import FOCAL
from optics.finding.causes.gain import GAIN
from optics.finding.causes.gate import GATE as THE_GATE
from optics.finding.causes.registry import add, drop
from optics.finding.causes.ring import RING
from optics.finding.causes.seat import SEAT
from optics.finding.causes.size import Millimetres
from optics.finding.causes.start import START
from optics.finding.causes.stop import STOP as THE_STOP
from optics.finding.causes.tilt import TILT
from optics.finding.causes.zero import ZERO
from optics.finding.diagnosis import Faults, diagnose, predict
from optics.finding.diagnosis.hypotheses import Hypothesis
from optics.finding.diagnosis.reading_wording import movable_faults
from optics.finding.diagnosis.wording import headline
from optics.finding.part import SuspectPart
from optics.finding.plan import make_plan
from optics.moves import AtHand
from optics.readings.spots import Spot
from optics.teaching.practice import draw_camera
from tests.optics.teaching.bench_day import (
    BED,
    CELL,
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
@pytest.mark.parametrize("reading", READINGS, ids=lambda r: f"{r.kind} {r.spot}")
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
    spots = [r.spot for r in (GAUGE, STOP, INFINITY, TURNED, NEAR, RULER, NEAR_PAIR, GATE)]
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


@pytest.fixture
def with_burr() -> Iterator[None]:
    """Have one made-up cause more, as if its record stood in the folder."""
    add(BURR)
    yield
    drop(BURR)


@pytest.mark.usefixtures("with_burr")
def test_a_cause_is_weighed_worded_and_suspected_from_its_record_alone() -> None:
    """A made-up cause that is nothing but a record is found, named, suspected and planned for."""
    readings = (GAUGE, STOP, INFINITY, TURNED, NEAR)
    found = diagnose(HELICOID, all_shown(HELICOID, Faults(burr=0.3), readings))
    assert found.claimed == (BURR,)
    assert "burr under the gauge, 0.300 mm high" in headline(found)
    assert "burr" in movable_faults(found)
    assert SuspectPart.model_validate({"cause": "burr", "wrong": "0.5 mm"}).cause == "burr"
    # As long as no move changes it, the plan says just that.
    (blocked,) = make_plan(found).blocked
    assert blocked.reason == "No move on this bench changes it: burr under the gauge."


NOTCH = replace(
    BURR,
    name="notch",
    in_jobs="notch",
    words="bayonet in another notch",
    figures={"notch": "notches farther out"},
    order=25,
    spots=frozenset({Spot.GAUGE, Spot.STOP}),
    prior=Prior(0.1, 0.0, 0.0),
    steps=lambda camera: Steps(0.5, (-2, -1, 1, 2)),
    told_by="a look at the bayonet",
)


@pytest.fixture
def with_notch() -> Iterator[None]:
    """Have one made-up cause more that goes by whole steps."""
    add(NOTCH)
    yield
    drop(NOTCH)


@pytest.mark.usefixtures("with_notch")
def test_a_cause_that_goes_by_steps_is_counted_from_its_record_alone() -> None:
    """A made-up cause two steps off is found two steps off, beside the thread's own starts."""
    readings = (GAUGE, STOP, INFINITY, TURNED, NEAR)
    found = diagnose(HELICOID, all_shown(HELICOID, Faults(notch=1.0), readings))
    assert found.leading == Hypothesis(frozenset({NOTCH}), 2)
    assert found.sizes["notch"].value == pytest.approx(1.0)
    assert found.priors.typical(NOTCH) == 0.5
    chance = np.random.default_rng(3)
    sure = found.priors.changed(NOTCH, chance=0.999)
    drawn = [draw_camera(HELICOID, AtHand(), sure, chance).hidden["notch"] for _ in range(20)]
    assert {abs(size) for size in drawn} <= {0.0, 0.5, 1.0}
    assert any(drawn)


@pytest.mark.parametrize("camera", [HELICOID, CELL, BED], ids=lambda camera: camera.name)
def test_every_cause_that_a_camera_can_have_can_be_put_right(camera: Camera) -> None:
    """Each cause supposed of a camera has a move on it that changes all its faults."""
    for cause in ALL:
        if cause.supposed_of(camera):
            assert cause.cure(camera), cause


def test_every_cause_says_all_there_is_to_say() -> None:
    """No cause lacks words, a name for job files, a place to be seen or a figure."""
    for cause in ALL:
        assert cause.words, cause
        assert cause.in_jobs, cause
        assert cause.spots, cause
        assert all(cause.figures.values()), cause
    assert len({cause.in_jobs for cause in ALL}) == len(ALL)
    assert len({cause.order for cause in ALL}) == len(ALL)
