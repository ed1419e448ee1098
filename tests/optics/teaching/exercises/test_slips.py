"""Slips that are known by name."""

from hypothesis import given, settings
from hypothesis import strategies as st

from optics.teaching.exercises import Exercise, ExerciseLevel, Outcome, Slip, exercise, mark
from optics.teaching.exercises.answer import Answer, Reads
from optics.teaching.exercises.slips import Mistake, telling
from tests.optics.teaching.exercises.drawn import exercises, typed


@settings(deadline=None)
@given(exercises(), st.data())
def test_every_slip_is_recognised_by_its_name(one: Exercise, data: st.DataObject) -> None:
    """Typed with as many digits as one likes, a known slip is named, not merely called wrong."""
    mistake = data.draw(st.sampled_from(one.mistakes))
    marked = mark(one, typed(one, mistake.amount))
    assert (marked.outcome, marked.slip) == (Outcome.SLIP, mistake.slip)
    assert marked.sentence == mistake.sentence


@settings(deadline=None)
@given(exercises())
def test_the_wrong_unit_is_recognised(one: Exercise) -> None:
    """Micrometres typed as millimetres, radians as degrees and metres as millimetres are named."""
    answer = one.answer
    factor, slip = {
        Reads.LENGTH: (1000.0, Slip.THOUSAND),
        Reads.DISTANCE: (1000.0, Slip.THOUSAND),
        Reads.ANGLE: (0.017453292519943295, Slip.RADIANS),
        Reads.NUMBER: (10.0, Slip.TEN),
    }[answer.reads]
    known = {m.slip for m in one.mistakes}
    marked = mark(one, typed(one, answer.size * factor))
    assert slip in known
    assert marked.slip is slip


@settings(deadline=None)
@given(
    st.integers(0, 200).map(str),
    st.sampled_from([ExerciseLevel.APPRENTICE, ExerciseLevel.JOURNEYMAN]),
)
def test_the_wrong_conversion_is_recognised(seed: str, level: ExerciseLevel) -> None:
    """3 ft 6 taken for 3.6 ft, and feet taken for metres, are each named."""
    one = exercise("tape", level, seed)
    words = one.question.split("reads ")[1].split(" in.")[0].replace(" ft ", " ").split()
    feet = int(words[0])
    inches = int(words[1]) + (0.5 if len(words) > 2 else 0)
    assert mark(one, f"{(feet + inches / 10) * 0.3048:.4f}").slip is Slip.FEET_INCHES
    assert mark(one, f"{feet + inches / 12:.4f} m").slip is Slip.FEET
    assert mark(one, f"{feet} ft {inches} in").outcome is Outcome.RIGHT


def test_every_slip_can_happen() -> None:
    """No name stands in the list for nothing: each is met within a few dozen exercises."""
    from optics.teaching.exercises import KINDS

    met = {
        mistake.slip
        for kind in KINDS
        for level in ExerciseLevel
        for seed in range(12)
        for mistake in exercise(kind, level, str(seed)).mistakes
    }
    of_marking = {Slip.SENSE, Slip.SIGN, Slip.NO_SENSE, Slip.ROUNDED}
    assert met | of_marking == set(Slip)
    assert not met & of_marking


def test_of_two_slips_that_come_to_the_same_the_first_stands() -> None:
    """What cannot be told from the answer or from an earlier slip is left out."""
    answer = Answer("arc", 10.0, Reads.LENGTH, "mm", 1)
    one, same, right = (
        Mistake(slip, amount, "")
        for slip, amount in ((Slip.DIAMETER, -20.0), (Slip.DOUBLE, 20.01), (Slip.HALF, 10.02))
    )
    assert [m.slip for m in telling(answer, [one, same, right])] == [Slip.DIAMETER]
