"""What is said of starts and marks, and what is to be marked before stripping."""

import math

import pytest

from optics.body.witness import Mark, MarksOn, Ranking, Thread, rank, wording
from optics.camera.camera import Turn
from optics.measure.uncertainty import within

A, B = Mark("A", 0.0), Mark("B", math.radians(10))
THREAD = Thread(18.0, 6, Turn.COUNTER_CLOCKWISE)


def ranking(
    error: float, marks: tuple[Mark, ...] = (A, B), marks_on: MarksOn = MarksOn.BARREL
) -> Ranking:
    """The usual barrel with a reading good to 0.02 mm."""
    reading = within(error, 0.02, "reading")
    return rank(THREAD, marks, "A", reading, spread=0.042, marks_on=marks_on)


def test_a_told_combination() -> None:
    """The verdict names mark and start, and the steps say how far and which way round."""
    found = ranking(6.48)
    assert wording.verdict_line(found) == (
        "It was mark B, 2 starts farther in: probability over 99 %, and no other comes near."
    )
    assert wording.instructions(found) == (
        "Part the thread and note where the ring stands as it lets go; enter it again 2 starts "
        "(120.0°) further counter-clockwise, seen from the front.",
        "Set the ring's ∞ against mark B instead of mark A: 10.0° clockwise, seen from the front.",
        "Leaves 0.020 mm too far in: as near as starts and marks can bring it.",
    )
    assert wording.said_combination(found, found.first) == (
        "Mark B, 2 starts farther in: 0.020 mm too far in, ± 0.046 mm; probability over 99 %."
    )


def test_a_barrel_that_is_right() -> None:
    """Where mark and start belong together, they are left."""
    assert wording.instructions(ranking(0.0)) == (
        "Leave start and mark as they are: they belong together.",
    )


def test_what_cannot_be_told() -> None:
    """Rivals are named, at most three of them, and a finer reading is asked for."""
    near = [Mark(name, math.radians(0.5 * n)) for n, name in enumerate("ABCDEF")]
    said = wording.verdict_line(ranking(-3.0, tuple(near)))
    assert said.startswith("Cannot tell: likeliest is mark")
    assert "; and 2 more. Take a finer reading" in said


def test_between_two() -> None:
    """A reading half-way between two candidates names both."""
    marks = (A, Mark("B", math.radians(3.4)))
    found = ranking(0.085, marks)
    if not found.rivals:
        assert "the reading falls between it and mark" in wording.verdict_line(found)
    assert wording.verdict_line(found).startswith("Cannot tell")


def test_none_fits() -> None:
    """Where no combination explains the reading, causes of that sense are named."""
    said = wording.verdict_line(ranking(1.4))
    assert said.startswith("No combination is right within its uncertainty; the nearest, mark")
    assert "too far out. Look for a shim too many" in said
    assert "too far in. Look for a missing shim" in wording.verdict_line(ranking(-0.9))
    for one in ranking(1.4).combinations:
        said = wording.said_combination(ranking(1.4), one)
        assert said.endswith("; does not fit.")
        assert "%" not in said
    rest = wording.instructions(ranking(1.4))[-1]
    assert rest.startswith("Put right what remains, ")


def test_a_mark_on_the_ring_is_brought_to_the_index() -> None:
    """A mark on the ring, clockwise of the present one, is brought back counter-clockwise."""
    found = ranking(-0.5, marks_on=MarksOn.RING)
    assert wording.instructions(found)[0] == (
        "Bring mark B on the ring to the index instead of mark A: 10.0° counter-clockwise, seen "
        "from the front."
    )
    assert wording.instructions(found)[1].startswith("Leaves no error to speak of")


@pytest.mark.parametrize(
    ("probability", "said"),
    [(0.0, "under 1 %"), (0.004, "under 1 %"), (0.42, "42 %"), (0.99, "99 %"), (1.0, "over 99 %")],
)
def test_nothing_is_certain(probability: float, said: str) -> None:
    """A probability is said in whole per cent and never as 0 or 100."""
    assert wording.said_probability(probability) == said


def test_what_to_mark_before_stripping() -> None:
    """The list names the scribed line, the place of parting, the shims and the card."""
    text = " ".join(wording.BEFORE_STRIPPING)
    assert all(word in text for word in ("scribe", "let go", "shims", "witness card"))
    assert {c.key for c in wording.CAUTIONS} == {"solvents", "springs", "adhesives"}
