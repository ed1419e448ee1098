"""What was read and what would be read, as it is written at the bench."""

import math

import pytest

from optics.finding.causes import ALL, NAMES
from optics.finding.diagnosis import Faults, diagnose, usual_priors
from optics.finding.diagnosis.reading_wording import (
    movable_faults,
    read_lines,
    said_reading,
    supposed_lines,
    would_show_cells,
)
from optics.finding.diagnosis.what_if import what_if
from tests.optics.teaching.bench_day import (
    BED,
    CORNERS,
    FAR_PAIR,
    GATE,
    GAUGE,
    HELICOID,
    NEAR,
    RULER,
    STOP,
    TURNED,
    all_shown,
)

SAID = [
    (NEAR, 1583.0, "sharp at 1.583 m"),
    (NEAR, math.inf, "sharp at ∞"),
    (NEAR, None, "nothing sharp"),
    # This camera extends counter-clockwise, and a tenth of a turn is 36°.
    (TURNED, math.pi / 5, "turned 36.00° counter-clockwise"),
    (TURNED, -math.pi / 5, "turned 36.00° clockwise"),
    (TURNED, 1e-6, "no turn"),
    (GAUGE, 59.92, "register 59.920 mm"),
    (CORNERS[0], 60.05, "0.050 mm too deep"),
    (CORNERS[0], 59.95, "0.050 mm too shallow"),
    (CORNERS[0], 60.0, "as deep as it should be"),
    (STOP, 1.2, "reticle 1.20 mm towards its lens"),
    (STOP, -1.2, "reticle 1.20 mm away from its lens"),
    (RULER, 12.0, "sharpest 12.0 mm nearer on the ruler"),
    (RULER, -12.0, "sharpest 12.0 mm farther on the ruler"),
    (FAR_PAIR, 10000.0, "images meet at 10 m"),
    (GATE, 0.05, "film 0.050 mm behind the glass"),
    (GATE, -0.05, "film 0.050 mm in front of the glass"),
]


@pytest.mark.parametrize(("reading", "figure", "words"), SAID)
def test_a_figure_is_said_as_it_is_written_down(
    reading: object, figure: float | None, words: str
) -> None:
    """Each kind of reading is said in its own unit, with its sense in words."""
    assert said_reading(reading, figure, HELICOID) == words  # type: ignore[arg-type]


def test_what_was_read_stands_beside_what_is_foretold() -> None:
    """Each line says place, error and scatter, and what the causes would make of it."""
    seen = all_shown(HELICOID, Faults(seat=-0.08), (GAUGE, NEAR))
    gauge, near = read_lines(diagnose(HELICOID, seen))
    assert gauge.startswith("The gauge: 0.080 mm too far in, ± 0.012 mm at 95 %; expected 0.080")
    assert near.startswith("The 1.5 m mark: 0.080 mm too far in")


def test_suppositions_are_listed_in_their_units() -> None:
    """Every cause of a camera has its line: starts counted, slopes as angles, gains in per cent."""
    lines = supposed_lines(usual_priors(HELICOID))
    assert len(lines) == len(ALL)
    assert "Wrong thread start: 5 % of cameras; one start is 3.00 mm." in lines
    assert any("off by 6.9′ where it is the cause" in line for line in lines)
    assert any("off by 4 % where it is the cause" in line for line in lines)
    assert len(supposed_lines(usual_priors(BED))) == len(ALL) - 1


def test_a_reading_that_stays_is_said_to_stay() -> None:
    """A slipped ring leaves the gauge the same and moves the mark."""
    found = diagnose(HELICOID, all_shown(HELICOID, Faults(), (GAUGE, NEAR)))
    gauge, near = (would_show_cells(w, HELICOID) for w in what_if(found, "ring", 0.1))
    assert gauge[:3] == ("the gauge", "register 60.000 mm", "the same")
    assert near[0] == "the 1.5 m mark"
    assert near[2].startswith("sharp at 1.4")
    assert near[3] == "0.100 mm too far out"


def test_every_fault_can_be_moved() -> None:
    """A threaded camera offers every fault, a bed all but the start, each with its words."""
    assert set(movable_faults(diagnose(HELICOID, all_shown(HELICOID, Faults(), (GAUGE,))))) == set(
        NAMES
    )
    assert "start" not in movable_faults(diagnose(BED, all_shown(BED, Faults(), (GAUGE,))))
    assert {name for cause in ALL for name, words in cause.figures.items() if words} == set(NAMES)
