"""The gate's words say where the emulsion lies and what that costs."""

from optics.body.gate import Gate, Plate, measure_gate, wording
from optics.measure.uncertainty import exact

LOOSE = measure_gate(Gate(exact(0.15), Plate.STOPS, exact(0.20)))


def test_a_loose_film_is_said() -> None:
    """Play, place and error of a loose film are each one sentence."""
    assert wording.said_play(LOOSE) == "Channel 0.200 mm, film 0.150 mm: 0.050 mm of play."
    assert wording.said_emulsion(LOOSE) == (
        "The emulsion lies anywhere from the rails to 0.050 mm behind them: 0.025 mm in the mean, "
        "± 0.025 mm."
    )
    assert wording.said_gate_error(LOOSE) == (
        "A lens set on this ground glass is 0.025 mm too far out for the film in the mean, "
        "± 0.028 mm at 95 %: the emulsion lies behind the ground side."
    )


def test_a_held_film_is_said() -> None:
    """A sprung plate leaves no play and no error to speak of."""
    held = measure_gate(Gate(exact(0.15), Plate.SPRUNG))
    assert wording.said_play(held).endswith("no play.")
    assert wording.said_emulsion(held) == "The emulsion lies on the rails."
    assert wording.said_gate_error(held) == "A lens set on this ground glass is right for the film."


def test_bow_paper_and_a_glass_too_deep_are_said() -> None:
    """Film without a plate, paper behind it, and a ground side behind the film have their words."""
    bowed = measure_gate(Gate(exact(0.15), Plate.NONE, bow=exact(0.2)))
    assert wording.said_play(bowed) == "Without a plate the film can bow back by 0.200 mm."
    papered = measure_gate(Gate(exact(0.11), Plate.STOPS, exact(0.25), paper=exact(0.09)))
    assert "film 0.110 mm, paper 0.090 mm: 0.050 mm of play" in wording.said_play(papered)
    deep = measure_gate(Gate(exact(0.15), Plate.SPRUNG), exact(0.05))
    assert "0.050 mm too far in" in wording.said_gate_error(deep)
    assert "in front of the ground side" in wording.said_gate_error(deep)


def test_what_is_left_of_the_tolerance_is_said() -> None:
    """The share of the gate in the tolerance is said, and that it is all used up."""
    assert "The gate can take 0.050 mm of the tolerance of ± 0.084 mm; 0.034 mm is left" in (
        wording.said_tolerance(LOOSE, 0.084)
    )
    assert wording.said_tolerance(LOOSE, 0.04).endswith(". Put the gate right first.")
    assert "ground side faces the lens" in wording.GROUND_SIDE
    assert "curl" in wording.FLAT_FILM
