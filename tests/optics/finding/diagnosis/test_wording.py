"""The diagnosis in words."""

import pytest

from optics.finding.causes.focal import FOCAL
from optics.finding.causes.ring import RING
from optics.finding.diagnosis import Diagnosis, Faults, diagnose, usual_priors
from optics.finding.diagnosis.wording import (
    accused_lines,
    assumption_lines,
    chance_lines,
    headline,
    joined,
    open_lines,
    outlier_line,
    percent,
    reading_words,
)
from tests.optics.teaching.bench_day import (
    BED,
    CELL,
    CORNERS,
    FAR_PAIR,
    FULL_ROUND,
    GAUGE,
    HELICOID,
    INFINITY,
    INFINITY_FILM,
    MIDDLE,
    NEAR,
    NEAR_PAIR,
    RULER,
    STOP,
    TURNED,
    all_shown,
)


def found(hidden: Faults, *readings: object) -> object:
    """Diagnose a helicoid camera with these faults."""
    return diagnose(HELICOID, all_shown(HELICOID, hidden, readings or FULL_ROUND))


def test_the_headline_names_causes_with_size_and_sense() -> None:
    """A seat 0.08 mm thin beside a ring 0.15 mm too far out is said in one sentence."""
    said = headline(found(Faults(seat=-0.08, ring=0.15)))  # type: ignore[arg-type]
    assert "shims under the lens seat, 0.08" in said
    assert "mm too thin (± 0.0" in said
    assert "slipped scale ring, 0.1" in said
    assert "mm too far out" in said


@pytest.mark.parametrize(
    ("hidden", "words"),
    [
        (Faults(start=-6.0), "wrong thread start, 2 starts too far in"),
        (Faults(focal=0.9), "mm longer"),
        (Faults(gate=0.09), "mm farther from the lens"),
        (Faults(gain=-0.06), "of the extension too little out"),
        (Faults(tilt_x=0.004), "standard out of square, by 1"),
        (Faults(), "nothing wrong beyond their own scatter"),
    ],
)
def test_every_cause_is_said_in_its_own_measure(hidden: Faults, words: str) -> None:
    """Starts are counted, focal lengths longer or shorter, gains a share, tilts an angle."""
    readings = (GAUGE, STOP, INFINITY, TURNED) if hidden["start"] else FULL_ROUND
    assert words in headline(found(hidden, *readings))  # type: ignore[arg-type]


def test_evidence_is_said_for_and_against() -> None:
    """A moved stop has the stop for it; the seat has the gauge and the marks against it."""
    lines = {line.split(":")[0]: line for line in chance_lines(found(Faults(stop=0.2)))}  # type: ignore[arg-type]
    assert lines["Infinity stop out of place"].endswith("For: it accounts for the stop.")
    seat = lines["Shims under the lens seat"]
    assert "Against: the gauge" in seat
    assert seat.endswith("are accounted for without it, and would be disturbed.")


def test_evidence_names_the_corner() -> None:
    """Of a standard that leans each corner gauged is named by its place."""
    lines = chance_lines(diagnose(HELICOID, all_shown(HELICOID, Faults(tilt_x=0.004), CORNERS)))
    (tilt,) = (line for line in lines if line.startswith("Standard out of square"))
    for corner in ("top left", "top right", "bottom left", "bottom right"):
        assert f"the gauge at the {corner}" in tilt


FAINT = (STOP, INFINITY, GAUGE, MIDDLE)


def with_a_faint_cause() -> Diagnosis:
    """A slipped ring, and a focal length supposed likely that such readings cannot show."""
    priors = usual_priors(HELICOID).changed(FOCAL, chance=0.9)
    readings = all_shown(HELICOID, Faults(ring=0.2), FAINT, limit=0.012)
    return diagnose(HELICOID, readings, priors)


def test_the_headline_names_no_cause_that_is_too_faint() -> None:
    """What the page calls too small to see is not in its headline, which says there is more."""
    found = with_a_faint_cause()
    assert FOCAL in found.leading.causes
    said = headline(found)
    assert "focal length" not in said
    assert said.endswith("; what is left over is too small to see.")
    lines = open_lines(found)
    assert any(line.startswith("Too small to see with these readings:") for line in lines)
    assert any(
        line.startswith("It cannot be said whether this is at work too: focal") for line in lines
    )


def test_the_probability_in_the_headline_belongs_to_what_it_names() -> None:
    """Named without the faint cause, the set is as probable as with and without it together."""
    found = with_a_faint_cause()
    sets = {h.causes: w for h, w in zip(found.left.hypotheses, found.left.weights, strict=True)}
    ring = frozenset({RING})
    assert found.named_probability == pytest.approx(sets[ring] + sets[ring | {FOCAL}])
    assert f"({percent(found.named_probability)})" in headline(found)


def test_a_contradiction_comes_before_any_cause() -> None:
    """Two readings of the stop 0.1 mm apart are the headline, by place and by what they show."""
    twice = [all_shown(HELICOID, Faults(stop=s), (STOP,))[0] for s in (0.0, 0.1)]
    found = diagnose(HELICOID, (*all_shown(HELICOID, Faults(seat=0.1), (GAUGE, NEAR)), *twice))
    apart = "wo readings of the stop contradict each other, right and 0.100 mm too far out"
    assert headline(found) == f"Before any cause is looked for: t{apart}."
    (line,) = accused_lines(found)
    assert line.startswith(f"T{apart}: so far apart by chance less than once in a million.")
    assert line.endswith("Take both again before anything is moved.")


def test_look_alikes_are_said_with_what_would_tell() -> None:
    """Seat and ring at the marks alone are said to be alike, and gauge or stop to tell."""
    lines = " ".join(open_lines(found(Faults(ring=0.1), INFINITY, NEAR)))  # type: ignore[arg-type]
    assert (
        "Shims under the lens seat and slipped scale ring cannot be told apart: both shift every "
        "reading taken alike; the gauge or a reading at the stop tells." in lines
    )
    assert "No reading touches, and nothing is said of: infinity stop out of place" in lines


def test_a_settled_case_leaves_no_open_line() -> None:
    """A full round on a camera with a plain fault leaves nothing to be said that is open."""
    lines = open_lines(found(Faults(ring=-0.3, stop=0.2, zero=0.3)))  # type: ignore[arg-type]
    assert not [line for line in lines if "cannot be told" in line or "No reading" in line]


def test_an_accused_reading_is_named_first() -> None:
    """A slipped reading is named by its place and what it shows, with what to do."""
    readings = list(all_shown(HELICOID, Faults(), FULL_ROUND))
    readings[6] = all_shown(HELICOID, Faults(seat=0.2), FULL_ROUND[6:7])[0]
    diagnosis = diagnose(HELICOID, readings)
    said = outlier_line(diagnosis, diagnosis.outliers[0])
    assert said.startswith(
        "The reading of the ∞ mark that shows 0.200 mm too far out disagrees with all the others "
        "by 0.196 mm, "
        "by chance less than once in a million"
    )
    assert said.endswith("take it again before anything is moved.")
    assert accused_lines(diagnosis)[0] == said


@pytest.mark.parametrize(
    ("reading", "words"),
    [
        (GAUGE, "the gauge"),
        (CORNERS[0], "the gauge at the top right"),
        (STOP, "the stop"),
        (INFINITY, "the ∞ mark"),
        (INFINITY_FILM, "the ∞ mark on film"),
        (NEAR, "the 1.5 m mark"),
        (RULER, "the 1.5 m mark on film"),
        (FAR_PAIR, "the rangefinder at 12 m"),
    ],
)
def test_readings_are_named_by_their_place(reading: object, words: str) -> None:
    """A reading is named by where it was taken."""
    assert reading_words(reading) == words  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("chance", "words"),
    [(1.0, "more than 99 %"), (0.996, "more than 99 %"), (0.5, "50 %"), (0.0, "less than 1 %")],
)
def test_no_probability_is_certain(chance: float, words: str) -> None:
    """A probability is never said to be 0 or 100 %."""
    assert percent(chance) == words


def test_lists_are_said() -> None:
    """Two or three things are joined as they are said."""
    assert joined(["a"]) == "a"
    assert joined(["a", "b", "c"]) == "a, b and c"
    assert joined(["a", "b"], "or") == "a or b"


@pytest.mark.parametrize("camera", [HELICOID, CELL, BED], ids=lambda c: c.name)
def test_the_suppositions_are_always_said(camera: object) -> None:
    """Every diagnosis says what was supposed."""
    text = assumption_lines(diagnose(camera, all_shown(camera, Faults(ring=-0.1), FULL_ROUND)))  # type: ignore[arg-type]
    assert text[0].startswith("Supposed: at most three causes together")


def test_zero_and_gain_read_at_one_distance_ask_for_another() -> None:
    """One coincidence cannot tell zero from gain, and another distance is what tells."""
    seen = all_shown(HELICOID, Faults(zero=0.2), (GAUGE, NEAR_PAIR))
    lines = open_lines(diagnose(HELICOID, seen))
    both = "Rangefinder's infinity setting and rangefinder's near setting cannot be told apart"
    (alike,) = (line for line in lines if line.startswith(both))
    assert alike.endswith("a reading at another distance tells.")


def test_a_corner_alone_asks_for_the_middle() -> None:
    """A corner gauged alone cannot tell a leaning standard from a shim; another place tells."""
    lines = open_lines(diagnose(HELICOID, all_shown(HELICOID, Faults(seat=0.1), CORNERS[:1])))
    assert any("another place of the picture tells" in line for line in lines), lines
