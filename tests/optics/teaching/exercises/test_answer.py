"""How answers are typed and how near is near enough."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.errors import Unreadable
from optics.teaching.exercises import Exercise, Outcome, mark
from optics.teaching.exercises.answer import FOCUS, SHIM, TURN, Answer, Reads
from optics.units.printing import fixed
from optics.units.scales import ANGLES, LENGTHS
from tests.optics.teaching.exercises.drawn import exercises

UNITS = {
    Reads.LENGTH: ["mm", "cm", "m", "in", "thou", "µm", '"', "ft", "inches"],
    Reads.DISTANCE: ["m", "mm", "cm", "km", "ft", "yd", "in", "'"],
    Reads.ANGLE: ["°", "deg", "'", "arcmin", "rad", "mrad", "turn", '"'],
    Reads.NUMBER: [""],
}


@settings(deadline=None)
@given(exercises(), st.data())
def test_the_right_answer_is_right_in_any_unit(one: Exercise, data: st.DataObject) -> None:
    """Millimetres or thou, degrees or turns, point or comma: a right amount is right."""
    answer = one.answer
    unit = data.draw(st.sampled_from(UNITS[answer.reads]))
    table = ANGLES if answer.reads is Reads.ANGLE else LENGTHS
    size = float(table[unit].size) if unit else 1.0
    # Nine digits and more after the mark cannot be taken for grouped thousands.
    number = fixed(answer.size / size, 12).replace(".", data.draw(st.sampled_from(".,")))
    space = data.draw(st.sampled_from(["", " ", "  "]))
    text = f"{number}{space}{unit}"
    if answer.senses:
        words = answer.senses.words(answer.value)
        text = data.draw(st.sampled_from([f"{text} {words}", f"{words.upper()} {text}"]))
    marked = mark(one, text)
    assert marked.outcome is Outcome.RIGHT, (text, marked)


@settings(deadline=None)
@given(exercises())
def test_the_answer_as_printed_is_right(one: Exercise) -> None:
    """What the answer sheet says, typed back as it stands, is right."""
    assert mark(one, one.answer.printed).outcome is Outcome.RIGHT


@settings(deadline=None)
@given(exercises(), st.sampled_from([1.0, -1.0]))
def test_feet_and_inches_are_right_too(one: Exercise, side: float) -> None:
    """A distance answered in feet and inches within the tolerance is right."""
    if one.answer.reads is not Reads.DISTANCE:
        return
    feet, inches = divmod((one.answer.value + side * 0.9 * one.answer.tolerance) / 25.4, 12)
    assert mark(one, f"{feet:.0f} ft {inches:.4f} in").outcome is Outcome.RIGHT


@settings(deadline=None)
@given(exercises(), st.floats(-0.98, 0.98))
def test_near_enough_is_right_and_farther_is_not(one: Exercise, share: float) -> None:
    """Inside the tolerance an answer is right; outside by a hair it is not."""
    answer = one.answer
    way = f" {answer.senses.words(answer.value)}" if answer.senses else ""
    for reach, is_right in ((share, True), (1.02, False), (-1.02, False)):
        amount = fixed((answer.size + reach * answer.tolerance) / answer.unit_size, 12)
        assert (mark(one, amount + way).outcome is Outcome.RIGHT) is is_right


def test_half_a_last_digit_and_what_was_read_make_the_tolerance() -> None:
    """Asked to 0.01 mm with 0.004 mm left open by the readings, 0.009 mm either way is allowed."""
    assert Answer("shift", 1.0, Reads.LENGTH, "mm", 2, 0.004).tolerance == pytest.approx(0.009)
    assert Answer("shift", 1.0, Reads.LENGTH, "mm", 2).step == "0.01 mm"


@pytest.mark.parametrize(
    ("senses", "text", "sense"),
    [
        (FOCUS, "0.1 in too far in", -1),
        (FOCUS, "+0.1", 1),
        (FOCUS, "−0.1 mm", -1),
        (FOCUS, "0.1 in", 0),
        (SHIM, "remove 0.1", -1),
        (SHIM, "0.1 mm added", 1),
        (SHIM, "take out 0.1", -1),
        (TURN, "2.4°cw", 1),
        (TURN, "1/8 turn counter clockwise", -1),
        (TURN, "anticlockwise 3°", -1),
        (TURN, "3 degrees", 0),
    ],
)
def test_the_way_is_read_in_shop_words(senses: object, text: str, sense: int) -> None:
    """Shop words and signs say the way; an inch is never taken for one of them."""
    reads = Reads.ANGLE if senses is TURN else Reads.LENGTH
    unit = "deg" if senses is TURN else "mm"
    answer = Answer("it", 1.0, reads, unit, 1, senses=senses)  # type: ignore[arg-type]
    assert answer.read(text).sense == sense


@pytest.mark.parametrize(
    "text", ["0.1 too far in too far out", "+0.1 too far out", "too far out", "cw cw", "0.1 add"]
)
def test_what_says_the_way_twice_is_refused(text: str) -> None:
    """A sign beside a word, two words, or no amount at all is refused and not guessed."""
    answer = Answer("it", 1.0, Reads.LENGTH, "mm", 2, senses=FOCUS)
    with pytest.raises(Unreadable):
        answer.read(text)


def test_a_turn_takes_no_sign() -> None:
    """Plus and minus tell no way round, so a turn with a sign is asked for its word."""
    answer = Answer("turn", 0.1, Reads.ANGLE, "deg", 1, senses=TURN)
    with pytest.raises(Unreadable, match="counter-clockwise"):
        answer.read("−3°")


def test_a_comma_before_three_places_is_a_decimal_comma_where_three_are_asked() -> None:
    """Who is asked for three places writes 1,042 and means no thousand; with two it is asked."""
    for reads, unit in ((Reads.LENGTH, "mm"), (Reads.DISTANCE, "m"), (Reads.NUMBER, "")):
        three = Answer("figure", 1.042, reads, unit, 3)
        assert three.read("1,042").amount == pytest.approx(1.042 * three.unit_size)
        with pytest.raises(Unreadable, match=r"1\.042 or 1042"):
            Answer("figure", 1.04, reads, unit, 2).read("1,042")
    angle = Answer("turn", 0.0182, Reads.ANGLE, "deg", 3)
    assert angle.read("1,042").echo == "1.042°"
