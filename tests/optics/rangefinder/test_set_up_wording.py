"""The set-up in words: which end, which way, how much, and what to do."""

import math
from dataclasses import replace

import pytest

from optics.measure.uncertainty import exact
from optics.measure.verdict import Verdict
from optics.rangefinder import set_up_wording as words
from optics.rangefinder.acuity import TRAINED, WORKING, stated
from optics.rangefinder.model import Compensator, CounterWedges, Mirror, SlidingWedge, SwungLens
from optics.rangefinder.readings import Coincidence
from optics.rangefinder.set_up import Round, SetUp, near_advice, set_up
from tests.optics.rangefinder.test_set_up import BENCH, NEAR, coincidences, scale_at


def found(far: float, near: float, *rounds: Round) -> SetUp:
    """Return the set-up of a rangefinder that leaves these errors."""
    return set_up(BENCH, coincidences(scale_at(far, math.inf), scale_at(near, NEAR)), rounds)


def test_the_headline_says_both_ends_with_their_sense() -> None:
    """Size, doubt, sense and distance are said for the far and for the near end."""
    said = words.headline(found(0.10, -0.05))
    assert said.startswith("When the two images meet the lens is 0.100 mm ± ")
    assert "too far out at ∞, and 0.050 mm ± " in said
    assert said.endswith("too far in at 1 m.")


@pytest.mark.parametrize(
    ("far", "near", "verdict"),
    [(0.3, 0.0, Verdict.OUTSIDE), (0.0, -0.3, Verdict.OUTSIDE), (0.02, 0.0, Verdict.UNSURE)],
)
def test_the_worse_end_decides(far: float, near: float, verdict: Verdict) -> None:
    """One end surely outside is enough, and an end too close to tell keeps the other waiting."""
    assert words.verdict(found(far, near)) is verdict


def test_every_round_is_told() -> None:
    """The history says what was turned, which way round, and where that left both ends."""
    one = Round(0.25, -0.125, exact(scale_at(0.02, math.inf)), exact(scale_at(0.01, NEAR)))
    idle = Round(0.0, 0.0, exact(scale_at(0.02, math.inf)), exact(scale_at(0.0, NEAR)))
    told = found(0.10, 0.05, one, idle)
    assert words.round_line(told, 0) == (
        "As found: far 0.100 mm too far out, near 0.050 mm too far out."
    )
    assert words.round_line(told, 1) == (
        "Round 1, infinity adjuster 1/4 turn clockwise and near adjuster 1/8 turn "
        "counter-clockwise: far 0.020 mm too far out, near 0.010 mm too far out."
    )
    assert words.round_line(told, 2).startswith("Round 2, nothing turned: ")


def test_one_distance_asks_for_another() -> None:
    """With one target read, what to do next is to read another."""
    alone = set_up(BENCH, coincidences(2e4, NEAR)[:1])
    assert "Read another" in " ".join(words.next_lines(alone))


def test_next_lines_say_which_adjuster_and_which_way() -> None:
    """The advice names the adjuster, the eighths and the way round."""
    (line,) = words.next_lines(found(0.2, 0.2))
    assert "infinity adjuster 1/4 turn clockwise" in line


def test_readings_of_one_target_that_cannot_both_be_true_are_named_before_a_turn() -> None:
    """Met at 2 m and at 3 m on one target, nothing is advised but to read both again."""
    far, near = coincidences(math.inf, NEAR)
    middle = [Coincidence(exact(3000.0), exact(scale)) for scale in (2000.0, 3000.0)]
    (line,) = words.next_lines(set_up(BENCH, [far, *middle, near]))
    # Newton's equation by hand, x = f²/a·(1 + f²/a²), a = D − 2f: 1.3167 less 0.8623 mm.
    assert "at 3 m was read twice, and the two cannot both be true: the images met" in line
    assert "lens scale at 2 m and at 3 m. They lie 0.454 mm apart at the film" in line
    assert "Take both again before an adjuster is turned." in line
    # The eye's minute of arc of a 32 mm base is 0.023 mm at the film, either way.
    alike = [Coincidence(exact(3000.0), exact(scale)) for scale in (2950.0, 3000.0)]
    assert "cannot both be true" not in words.next_lines(set_up(BENCH, [far, *alike, near]))[0]


def test_a_gain_far_out_is_no_adjusters_job() -> None:
    """A tenth or more out, what to look for stands before the turn; less than that it does not."""
    # At 1 m a lens of 50 mm is 2.79 mm out (√ of the published relation, by hand): 0.35 mm is 12 %.
    first, then, *_ = words.next_lines(found(0.0, 0.35))
    assert "no adjuster's job" in first
    assert "a tenth or more" in first
    assert "follower off its cam or its arm, another lens's cam, or a moved lever pivot" in first
    assert then.startswith("Only if all of these are in order: Turn the ")
    assert not any("adjuster's job" in line for line in words.next_lines(found(0.0, 0.2)))
    # The zero alone shifts far and near alike and leaves the gain.
    assert not any("adjuster's job" in line for line in words.next_lines(found(0.4, 0.4)))


def test_set_but_too_close_to_tell_asks_for_more_readings() -> None:
    """Locking is not the last word where the readings cannot tell that both ends are inside."""
    close = found(0.02, 0.0)
    set_line, more = words.next_lines(close)
    assert (words.verdict(close), set_line[:4]) == (Verdict.UNSURE, "Set:")
    assert "More readings of each target" in more


def test_what_further_readings_would_tell_is_said_once() -> None:
    """The advice to read a third distance stands once among what was found."""
    lines = words.found_lines(found(0.10, 0.05))
    assert len([line for line in lines if "a third, between" in line]) == 1
    assert len(set(lines)) == len(lines)


# From ∞ to 1 m the sights of a base of 40 mm, 20 mm before the film, close by 40/980: 2.3373°.
@pytest.mark.parametrize(
    ("compensator", "said"),
    [
        (Mirror(), "The turning mirror turns 1.17° from ∞ to 1 m"),
        (SwungLens(60.0), "The swung lens travels 2.449 mm from ∞ to 1 m"),
        (SlidingWedge(0.05, 60.0), "The sliding wedge travels 48.9"),
        (CounterWedges(1.5, 0.02), "does not serve this base"),
    ],
)
def test_the_compensator_is_told_how_far_it_goes(compensator: Compensator, said: str) -> None:
    """By hand: half the angle, 60·40/980 mm, 60·0.0408/0.05 mm, and wedges that reach 0.02 rad."""
    finder = replace(BENCH.rangefinder, compensator=compensator)
    told = set_up(replace(BENCH, rangefinder=finder), coincidences(scale_at(0.1, math.inf), NEAR))
    assert said in words.compensator_line(told)


def test_the_change_of_zero_is_half_of_it_at_the_mirror() -> None:
    """The mirror turns half the change of convergence."""
    for error in (0.1, 0.2):
        told = found(error, 0.0)
        half = math.degrees(abs(told.correction.zero.value)) / 2
        assert f"change of zero is {half * 60:.1f}′ of it" in words.compensator_line(told)


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (2.4, "converges 2.4′ too much"),
        (-2.4, "converges 2.4′ too little"),
        (0.01, "converges right"),
    ],
)
def test_a_wrong_angle_is_said_with_its_sense(minutes: float, said: str) -> None:
    """Plus converges too much, minus too little, and next to nothing is right."""
    assert words.said_excess(math.radians(minutes / 60)) == said


def test_the_stated_eye_comes_first() -> None:
    """The eye that was stated stands first, beside it the usual ones, none twice."""
    own = stated(1e-4)
    assert words.eyes(own) == (own, WORKING, TRAINED)
    assert words.eyes(TRAINED) == (TRAINED, WORKING)


def test_what_the_base_can_tell_is_said() -> None:
    """Film error for each eye, the base needed, and from where on all is infinity."""
    lines = words.base_lines(BENCH)
    assert sum("at the film" in line for line in lines) == 2
    # needed f²ε/(N·c) by hand: 2500 · 2.9089e-4 / 0.06 = 12.1 mm; at hand 40 · 0.8 = 32 mm.
    assert "effective base of 12.1 mm; this one is 32.0 mm: enough" in " ".join(lines)
    # b·M/ε + k by hand: 32 / 2.9089e-4 = 110.0 m.
    assert lines[-1] == "Beyond 110 m a target cannot be told from infinity in the rangefinder."


def test_near_words_say_where_and_what_is_saved() -> None:
    """The headline names both settings and both worst errors; the rows say where each is."""
    advice = near_advice(BENCH)
    said = words.near_headline(advice)
    assert said.startswith("Set far at ∞ and near at 1.")
    assert "instead of 0.063 mm" in said  # the printed set-up: f 50, b 40, k 20, ∞ and 1 m
    exact_at, worst, where = words.setting_row(advice.usual)
    assert (exact_at, worst) == ("∞ and 1 m", "± 0.063 mm")
    assert where.startswith("at ")
