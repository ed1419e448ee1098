"""The table of which fault disturbs which reading, against the forward model."""

import re

import pytest

import optics.finding.diagnosis
from optics.finding.diagnosis import Cause, Faults, Spot, disturbing, predict
from optics.finding.diagnosis.evidence import spot_of
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
)

# One fault of a noticeable size for each cause, in the sense that keeps every reading possible.
ONE = {
    Cause.SEAT: Faults(seat=0.05), Cause.START: Faults(start=3.0), Cause.RING: Faults(ring=0.05),
    Cause.STOP: Faults(stop=0.05), Cause.FOCAL: Faults(focal=0.5),
    Cause.TILT: Faults(tilt_x=0.002), Cause.GATE: Faults(gate=0.05),
    Cause.ZERO: Faults(zero=0.05), Cause.GAIN: Faults(gain=0.05),
}  # fmt: skip
ROWS = {
    "seat (shim)": Cause.SEAT, "thread start": Cause.START, "scale ring": Cause.RING,
    "infinity stop": Cause.STOP, "focal length": Cause.FOCAL,
    "squareness (off centre)": Cause.TILT, "film gate (on film)": Cause.GATE,
    "rangefinder zero": Cause.ZERO, "rangefinder gain": Cause.GAIN,
}  # fmt: skip
READINGS = (GAUGE, CORNERS[0], STOP, INFINITY, INFINITY_FILM, NEAR, RULER, TURNED, FAR_PAIR, GATE)


@pytest.mark.parametrize("cause", Cause)
@pytest.mark.parametrize("reading", READINGS, ids=lambda r: f"{r.kind} {spot_of(r)}")
def test_a_fault_moves_the_readings_of_the_table_and_no_others(
    cause: Cause, reading: object
) -> None:
    """A fault changes what a reading shows where the table says so, and nowhere else."""
    faults = ONE[cause]
    if reading is FAR_PAIR and cause is Cause.START:
        # Three millimetres out, the ring cannot be set far enough in.
        faults = Faults(start=-3.0)
    right = predict(HELICOID, Faults(), reading)  # type: ignore[arg-type]
    wrong = predict(HELICOID, faults, reading)  # type: ignore[arg-type]
    moved = abs(wrong - right) > 1e-9 * max(abs(right), 1.0) if right < 1e9 else wrong < 1e9
    assert moved == (cause in disturbing(reading))  # type: ignore[arg-type]


def documented() -> dict[Cause, list[bool]]:
    """Read the table in the package's own words."""
    text = optics.finding.diagnosis.__doc__ or ""
    rows = re.findall(r"^\| ([a-z][^|]+) \|((?: (?:yes|no) \|)+)$", text, re.MULTILINE)
    return {ROWS[name]: [w == "yes" for w in re.findall("yes|no", cells)] for name, cells in rows}


def test_the_table_that_is_printed_is_the_table_that_is_used() -> None:
    """The table in the package's docstring says what the program goes by."""
    spots = (
        Spot.GAUGE, Spot.STOP, Spot.INFINITY, Spot.NEAR, Spot.COINCIDENCE, Spot.GATE,
    )  # fmt: skip
    used = {
        cause: [cause in optics.finding.diagnosis.DISTURBED_BY[spot] for spot in spots]
        for cause in Cause
    }
    assert documented() == used


def test_readings_belong_where_they_were_taken() -> None:
    """Each reading is filed under the place at which it was taken."""
    spots = [spot_of(r) for r in (GAUGE, STOP, INFINITY, TURNED, NEAR, RULER, NEAR_PAIR, GATE)]
    assert spots == [
        Spot.GAUGE, Spot.STOP, Spot.INFINITY, Spot.INFINITY, Spot.NEAR, Spot.NEAR,
        Spot.COINCIDENCE, Spot.GATE,
    ]  # fmt: skip
