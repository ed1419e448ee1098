"""What is said of the rangefinder, word for word where it matters."""

import math

import pytest

from optics.measure.verdict import Verdict
from optics.rangefinder import wording
from optics.rangefinder.acuity import TRAINED, WORKING, film_uncertainty, goal, service
from optics.rangefinder.adjusters import (
    AdjusterFinding,
    AdjusterStep,
    Done,
    EndErrors,
    Stuck,
    Surprise,
    Trial,
    Which,
)
from optics.rangefinder.correction import correct
from optics.rangefinder.coupling import Coupling, set_at
from optics.rangefinder.curve import far_target
from optics.rangefinder.fit import fit
from optics.rangefinder.model import Rangefinder
from optics.rangefinder.near_setting import where_to_set
from tests.optics.rangefinder.test_fit import meeting
from tests.optics.rangefinder.workshop import camera

FINDER, BODY = Rangefinder(40.0, 20.0), camera(50, 2)
DESIGN = set_at(BODY, FINDER, math.inf, 1000.0)


@pytest.mark.parametrize(
    ("turns", "said"),
    [
        (0.125, "1/8 turn clockwise"),
        (-0.375, "3/8 turn counter-clockwise"),
        (1.0, "1 turn clockwise"),
        (-1.75, "1 3/4 turns counter-clockwise"),
        (0.09375, "3/32 turn clockwise"),
    ],
)
def test_turns_are_said_in_fractions(turns: float, said: str) -> None:
    """A turn is said in eighths, or finer where it is, and which way round."""
    assert FINDER.zero_adjuster.control.said(turns) == said


def test_a_step_names_adjuster_amount_and_way() -> None:
    """A step tells both adjusters in turn, what is foretold, and to read between."""
    step = AdjusterStep(-0.375, 0.125, 8, EndErrors(0.004, -0.011))
    assert wording.advice_lines(step, FINDER) == (
        "Turn the infinity adjuster 3/8 turn counter-clockwise and read far and near again.",
        "Then, unless the new reading says otherwise, turn the near adjuster 1/8 turn clockwise "
        "and read again.",
        "Expected: far 0.004 mm too far out, near 0.011 mm too far in.",
    )


def test_each_advice_has_its_words() -> None:
    """Trial, set, stuck and nothing finer are each told in a sentence."""
    said = [
        wording.advice_lines(advice, FINDER)[0]
        for advice in (
            Done(EndErrors(0.01, 0.0)),
            Trial(Which.GAIN, 0.25),
            Trial(Which.GAIN, 0.5, again=True),
            Stuck(None),
            Stuck(Which.ZERO),
            AdjusterStep(0.0, 0.0, 64, EndErrors(0.0, 0.0)),
        )
    ]
    assert len(set(said)) == 6
    assert said[0].startswith("Set: far 0.010 mm too far out, near right.")
    assert said[1].startswith("Turn the near adjuster 1/4 turn clockwise as a trial")
    assert said[2].startswith("The last turn changed too little")
    assert "same proportion" in said[3]
    assert "infinity adjuster" in said[4]
    assert "Nothing finer" in said[5]


def test_a_reversed_eccentric_is_told() -> None:
    """A reversed adjuster is told as past its dead point, a faded one with its share."""
    reversed_one = AdjusterFinding(Which.GAIN, Surprise.REVERSED, -0.7)
    step = AdjusterStep(0.0, 0.25, 8, EndErrors(0.0, 0.1), reversed_one, is_limited=True)
    said = " ".join(wording.advice_lines(step, FINDER))
    assert "near adjuster now acts the other way" in said
    assert "dead point" in said
    assert "go by steps" in said
    faded = wording.finding_line(AdjusterFinding(Which.ZERO, Surprise.FADED, 0.2), FINDER)
    assert "only 20%" in faded.replace(" %", "%")


def test_every_acuity_is_shown_with_its_source() -> None:
    """Whose eye it is and who says so stand beside the angle."""
    assert wording.said_acuity(TRAINED).startswith("12.0″ (trained observer; US Army TM 9-258")
    line = wording.film_line(film_uncertainty(BODY, FINDER, WORKING), WORKING)
    assert "the same at every distance" in line
    assert "common practice" in line


def test_service_is_told() -> None:
    """Service names the base needed and whether it is enough."""
    enough, serves = wording.service_lines(service(BODY, FINDER, WORKING))
    # 2500 × 1′ / 0.06 = 12.1 mm.
    assert "12.1 mm; this one is 40.0 mm: enough" in enough
    assert "f/0.6" in serves
    short = wording.service_lines(service(BODY, Rangefinder(10.0), WORKING))[0]
    assert short.endswith("not enough.")
    said = wording.goal_line(goal(BODY, FINDER, WORKING), Verdict.UNSURE)
    assert said.startswith("Too close to the tolerance to tell: allowed ± ")
    assert "half the depth of focus" in said


def test_a_fit_is_told_with_what_is_missing() -> None:
    """Zero in minutes, gain in per cent, both with their uncertainty, and what is missing."""
    hidden = Coupling(5e-4, DESIGN.gain * 1.04)
    found = fit(BODY, FINDER, [meeting(x, hidden) for x in (0.0, 2.7)], DESIGN)
    lines = wording.fit_lines(found, DESIGN)
    # 5e-4 rad is 1.72′.
    assert lines[0].startswith("Zero: 1.72′ ±")
    assert lines[1].startswith("Gain: 4.0 % more than designed, ±")
    assert lines[-1] == found.missing[0]
    correction = correct(found, DESIGN, math.inf, 1000.0)
    far, near = wording.correction_lines(correction)
    assert "too far in" in far
    assert "−1.72′" in far
    assert "−4.0 %" in near


def test_where_to_set_near_is_told_with_the_gain() -> None:
    """The usual, the best near and the best pair are told with the worst error of each."""
    usual, best, pair = wording.near_lines(where_to_set(BODY, FINDER, 1000.0))
    assert usual.startswith("Exact at ∞ and at 1 m: worst 0.063 mm")
    assert best.startswith("Exact at ∞ and at 1.19 m: worst 0.043 mm")
    assert best.endswith("0.020 mm less.")
    assert "worst 0.032 mm" in pair


def test_far_targets_and_height_are_told() -> None:
    """A near infinity target is told in minutes, an endless one as not to be told apart."""
    near = wording.far_target_line(far_target(BODY, FINDER, WORKING, 25_050.0))
    assert "0.100 mm short of infinity" in near
    assert "5.5 times what the eye can tell" in near
    far = wording.far_target_line(far_target(BODY, FINDER, WORKING, 1e6))
    assert "cannot tell it from infinity" in far
    assert "not touched" in wording.height_line(0.0, 0.0)
    assert "upright edges" in wording.height_line(-0.02, math.radians(20))


def test_the_sun_is_cautioned_against() -> None:
    """Whoever looks for an infinity target is warned of the Sun."""
    assert any("Sun" in caution.text for caution in wording.CAUTIONS)
