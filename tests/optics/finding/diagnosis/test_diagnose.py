"""Readings of known faults in, the causes out."""

import pytest

from optics.camera.camera import Camera
from optics.finding.causes import Prior, named
from optics.finding.causes.gate import GATE as THE_GATE
from optics.finding.causes.ring import RING
from optics.finding.causes.seat import SEAT
from optics.finding.causes.start import START
from optics.finding.diagnosis import Faults, diagnose, usual_priors
from optics.finding.diagnosis.hypotheses import Hypothesis
from optics.measure.uncertainty import exact, within
from tests.optics.teaching.bench_day import (
    BED,
    CELL,
    FULL_ROUND,
    GATE,
    GAUGE,
    HELICOID,
    TURNED,
    all_shown,
    showing,
)

CASES = {
    "seat": Faults(seat=-0.08),
    "ring": Faults(ring=-0.2),
    "stop": Faults(stop=-0.15),
    "focal": Faults(focal=0.9),
    "tilt": Faults(tilt_x=0.003, tilt_y=-0.004),
    "gate": Faults(gate=0.09),
    "zero": Faults(zero=0.12),
    "gain": Faults(gain=0.06),
    "seat ring": Faults(seat=0.07, ring=-0.15),
    "ring stop zero": Faults(ring=0.12, stop=0.1, zero=0.1),
}


@pytest.mark.parametrize("camera", [HELICOID, CELL, BED], ids=lambda c: c.name)
@pytest.mark.parametrize("names", CASES)
def test_the_true_causes_come_first_with_their_sizes(camera: Camera, names: str) -> None:
    """A full round of readings puts the true causes first, each near its true size."""
    hidden = CASES[names]
    found = diagnose(camera, all_shown(camera, hidden, FULL_ROUND))
    assert found.leading == Hypothesis(frozenset(named(name) for name in names.split()))
    for name, size in found.sizes.items():
        assert abs(size.value - hidden[name]) <= size.expanded
    assert set(found.claimed) == found.leading.causes
    assert found.outliers == ()


def test_a_sound_camera_has_nothing_wrong() -> None:
    """Readings that are all right put nothing wrong first and claim nothing."""
    found = diagnose(HELICOID, all_shown(HELICOID, Faults(), FULL_ROUND))
    assert found.leading == Hypothesis(frozenset())
    assert found.claimed == ()


def test_a_wrong_start_is_found_beside_a_slipped_ring() -> None:
    """Two starts too far in with the ring slipped 0.1 mm: both are found from what can be read."""
    hidden = Faults(start=-6.0, ring=0.1)
    found = diagnose(HELICOID, all_shown(HELICOID, hidden, (GAUGE, *FULL_ROUND[5:7], TURNED)))
    assert found.leading == Hypothesis(frozenset({START, RING}), -2)
    assert found.sizes["start"].value == -6.0


def test_causes_that_cannot_be_told_apart_are_not_claimed() -> None:
    """A start of the ring's size is not claimed where seat and ring look alike."""
    found = diagnose(HELICOID, all_shown(HELICOID, Faults(ring=0.1), FULL_ROUND[6:7]))
    assert found.claimed == ()
    assert {SEAT, RING} <= set(found.open)


def test_what_is_supposed_decides_where_the_readings_do_not() -> None:
    """Between look-alikes the supposed chances decide, and changing them changes the order."""
    readings = all_shown(HELICOID, Faults(ring=0.1), FULL_ROUND[6:7])
    priors = usual_priors(HELICOID)
    for likely, unlikely in ((SEAT, RING), (RING, SEAT)):
        changed = priors.changed(likely, chance=0.5).changed(unlikely, chance=0.001)
        assert diagnose(HELICOID, readings, changed).leading.causes == {likely}


def test_readings_must_be_there_and_have_an_uncertainty() -> None:
    """No reading, and a reading said to be exact, are refused in words."""
    with pytest.raises(ValueError, match=r"^A diagnosis needs at least one reading: got none"):
        diagnose(HELICOID, ())
    with pytest.raises(ValueError, match=r"^Reading 1 \(register\) must have an uncertainty"):
        diagnose(HELICOID, (showing(GAUGE, exact(60.0)),))


@pytest.mark.parametrize("figures", [(0.0, 0.1, 0.2), (1.0, 0.1, 0.2)])
def test_a_chance_is_neither_never_nor_always(figures: tuple[float, float, float]) -> None:
    """A chance of 0 or 1 is refused in words."""
    with pytest.raises(ValueError, match=r"^The chance of a cause must lie between 0 and 1"):
        Prior(*figures)


def test_a_sound_part_is_nearer_its_place_than_a_faulty_one() -> None:
    """A usual deviation larger than the faulty one is refused in words."""
    with pytest.raises(ValueError, match=r"^A part that is right must be nearer its place"):
        Prior(0.1, 0.2, 0.1)


def test_the_gate_gauged_tells_the_film_from_the_seat() -> None:
    """Gauged 0.09 mm behind the glass, film is the cause with that size, and no shim is."""
    seen = all_shown(HELICOID, Faults(gate=0.09), (GAUGE, GATE))
    found = diagnose(HELICOID, seen)
    assert found.leading.causes == {THE_GATE}
    assert found.sizes["gate"].value == pytest.approx(0.09, abs=0.001)
    assert [duty.words for duty in found.duties] == ["register", "film gate"]


def test_what_a_reading_does_not_carry_is_added_to_it() -> None:
    """A reading with no figure of its own for the eye's blur is weighed with what is added."""
    bare = showing(GAUGE, exact(60.0))
    found = diagnose(HELICOID, [bare], also=[within(0.03, 0.02, "eye")])
    assert found.seen.values == pytest.approx([0.03])
    assert found.seen.standard == pytest.approx([0.02 / 3**0.5])


def test_the_leading_causes_foretell_every_reading() -> None:
    """What the leading causes foretell is what was read, where readings are free of scatter."""
    seen = all_shown(HELICOID, Faults(seat=0.07, ring=-0.15), FULL_ROUND)
    found = diagnose(HELICOID, seen)
    assert found.foretold == pytest.approx(found.seen.values, abs=0.003)
