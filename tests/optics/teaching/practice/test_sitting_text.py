"""A sitting as text, and the text as a sitting."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.errors import Unreadable
from optics.readings.readings import Moved
from optics.records.practice_shelf import SHELF
from optics.teaching.practice.levels import Level
from optics.teaching.practice.sitting import Adjust, Finish, Read, Sitting
from optics.teaching.practice.sitting_text import read_sitting, write_sitting
from tests.optics.teaching.practice.stands import OSTRIN, STANDS, sitting

HEAD = "Shimwright practice sitting, version 1\ncamera: Ostrin 35\nlevel: 2\nseed: 41\n"
SAID = """\
read register
read register, top right
judge infinity stop at 0 mm
judge infinity stop at 1.25 mm outwards
judge 3 m mark at 4.5° counter-clockwise
judge rangefinder at 1.2 m at 40.04° from ∞
move the film 0.05 mm nearer the lens
shim the standard, bottom left screw, 0.1 mm thicker
enter the thread 2 starts clockwise
shim the lens seat 0.05 mm thinner
turn the barrel 2.3° clockwise
make the scale 0.35 mm shorter
turn the height screw 3/8 turn counter-clockwise
turn the near screw 1 1/8 turns clockwise
finish
"""


def test_the_text_is_what_it_always_was() -> None:
    """Every kind of line of version 1 is read, and written again letter for letter."""
    done = read_sitting(HEAD + SAID, SHELF)
    assert (done.stand, done.level, done.seed) == (OSTRIN, Level.TWO, 41)
    assert done.actions[3] == Read("infinity stop", -1.25)
    assert done.actions[4] == Read("3 m mark", 4.5)
    assert done.actions[8] == Adjust("enter the thread", 2.0)
    assert done.actions[13] == Adjust("turn the near screw", 1.125)
    assert write_sitting(done) == HEAD + SAID


def test_a_sitting_that_says_upper_and_lower_is_read_and_written_top_and_bottom() -> None:
    """A text kept from before, with the older words for a corner, is the same sitting."""
    older = SAID.replace("top right", "upper right").replace("bottom left", "lower left")
    assert older != SAID
    assert read_sitting(HEAD + older, SHELF) == read_sitting(HEAD + SAID, SHELF)
    assert write_sitting(read_sitting(HEAD + older, SHELF)) == HEAD + SAID


@pytest.mark.parametrize("size", ["0.21", "0.2", "0.25", "1/3", "1 1/2", "7/32", "2.625", "3"])
def test_a_turn_stays_as_it_was_typed(size: str) -> None:
    """Two tenths of a turn do not become a fifth, and 0.21 turn not four nineteenths."""
    line = (
        f"turn the near screw {size} turn{'s' * (size[0] in '123' and size != '1/3')} clockwise\n"
    )
    assert write_sitting(read_sitting(HEAD + line, SHELF)) == HEAD + line


@pytest.mark.parametrize(("amount", "said"), [(0.21, "0.21"), (0.375, "3/8"), (5 / 24, "5/24")])
def test_a_turn_that_was_never_typed_in_turns_is_the_very_amount(amount: float, said: str) -> None:
    """A fraction is written where it is the amount, else the decimal figure, never its like."""
    line = f"turn the near screw {said} turn clockwise\n"
    done = sitting(Adjust("turn the near screw", amount))
    assert write_sitting(done).endswith(line)


@settings(max_examples=60, deadline=None)
@given(data=st.data())
def test_any_sitting_is_read_back_as_it_was_written(data: st.DataObject) -> None:
    """Written and read back, a sitting of any actions is the same sitting."""
    stand = data.draw(st.sampled_from(STANDS))
    plain = sitting(stand=stand)
    tenths = st.integers(1, 4000).map(lambda n: n / 100)
    eighths = st.integers(1, 40).map(lambda n: n / 8)
    actions: list[Read | Adjust] = []
    for _ in range(data.draw(st.integers(0, 5))):
        if data.draw(st.booleans()):
            control = plain.controls[data.draw(st.sampled_from(list(plain.controls)))]
            size = data.draw(
                {"turns": eighths, "starts": st.integers(1, 5)}.get(control.unit, tenths)
            )
            actions.append(Adjust(control.name, float(size) * data.draw(st.sampled_from([1, -1]))))
            continue
        offered = stand.offered[data.draw(st.sampled_from(list(stand.offered)))]
        amount = data.draw(st.none() if offered.moved is None else tenths)
        if amount and offered.moved is Moved.RETICLE:
            amount = amount * data.draw(st.sampled_from([1, -1]))
        actions.append(Read(offered.name, amount))
    done = Sitting(stand, data.draw(st.sampled_from(list(Level))), 5, (*actions, Finish()))
    assert read_sitting(write_sitting(done), SHELF) == done


def test_remarks_and_empty_lines_are_passed_over() -> None:
    """A teacher may write lines that begin with #, and leave lines empty."""
    noted = "\n# For Tuesday's class\n" + HEAD + "\n# first, the gauge\nread register\n\n"
    assert read_sitting(noted, SHELF).actions == (Read("register"),)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "A sitting begins with the line"),
        ("Hello\n" + HEAD, "A sitting begins with the line"),
        (HEAD.replace("Ostrin 35", "Pinhole"), "Line 2 .*no such camera; choose from Ostrin 35"),
        (HEAD.replace("level: 2", "level: 4"), "Line 3 .*the level is 1, 2 or 3"),
        (HEAD.replace("seed: 41", "seed: −4"), "Line 4 .*the seed is a whole number"),
        (HEAD.replace("seed: 41", "41"), "Line 4 .*the seed belongs here"),
        (HEAD + "read the moon", "Line 5 .*no such reading; choose from register"),
        (HEAD + "\nturn the barrel a little", "Line 6 .*'turn the barrel a little'; write it as"),
        (HEAD + "judge 3 m mark at 4,5° clockwise", "Line 5 .*cannot be understood"),
        (HEAD + "judge register at 3 mm", "Line 5 .*cannot be understood"),
        (HEAD + "turn the near screw 1/0 turns clockwise", "Line 5 .*cannot be understood"),
        (HEAD + "turn the barrel 1° sideways", "Line 5 .*cannot be understood"),
    ],
)
def test_what_is_no_line_of_the_bench_is_refused(text: str, words: str) -> None:
    """A line that cannot be understood is named by its number, with what to write instead."""
    with pytest.raises(Unreadable, match=words):
        read_sitting(text, SHELF)
