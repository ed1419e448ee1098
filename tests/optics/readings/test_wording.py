"""What is said: the right sense, no signs where words belong, no zero with a minus."""

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.camera.camera import Bed, Camera, Focusing, FrontCell, Helicoid, Lens, Turn
from optics.measure.uncertainty import Estimate, exact, from_repeats, within
from optics.measure.verdict import Verdict
from optics.readings import wording
from optics.readings.correction import Correction, Sight, correct
from optics.readings.kinds.collimator import CollimatorReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.remedies import Remedy, Workshop

FOCUSINGS: tuple[Focusing, ...] = (
    Helicoid(18.0, 6, Turn.COUNTER_CLOCKWISE, 50.0),
    Helicoid(12.0, 1, Turn.CLOCKWISE),
    FrontCell(51.0, 9.0, Turn.COUNTER_CLOCKWISE, 92.0, 36.0),
    Bed(),
)
DRAWER = ((0.02, 6), (0.03, 4), (0.05, 6), (0.1, 6), (0.2, 3))


def answer(
    error: float, limit: float = 0.005, focusing: Focusing = FOCUSINGS[0], known: bool = False
) -> Correction:
    """Work out a register that is so much too long, gauged within a limit."""
    camera = Camera("", Lens(75.0, 3.5), focusing, 0.05)
    workshop = Workshop(DRAWER, ((0.1, 2), (0.05, 1)) if known else None)
    reading = RegisterReading(within(error, limit, "gauge").plus(exact(50.0)), exact(50.0))
    return correct(camera, reading, workshop)


def everything_said(found: Correction) -> list[str]:
    """Return every sentence about an answer."""
    said = [wording.headline(found), wording.tolerance_line(found), wording.advice(found)]
    said += [wording.sight_line(s) for s in found.sights]
    for offer in found.offers:
        if isinstance(offer, Remedy):
            said += [offer.instruction, wording.residual_line(offer), *offer.notes]
        else:
            said += [offer.reason]
    return said


def test_an_untold_distance_of_the_collimator_is_said_with_what_it_costs() -> None:
    """Where nobody told how far the collimator stood, the sentence says from where to where."""
    camera = Camera("", Lens(50.0, 3.5), Bed(), 0.05)
    # By hand, 310 mm and 28 mm inwards: touching 70000/86020 mm, 360 mm apart 70000/96100.
    shift = within(28.0, 0.05, "slide")
    untold, told = (
        wording.tolerance_line(correct(camera, CollimatorReading(shift, exact(310.0), to_lens=g)))
        for g in (None, exact(60.0))
    )
    assert (
        "Collimator lens to camera lens not told: from touching to 360.00 mm apart (both focal "
        "lengths together) the error would be 0.728 mm to 0.814 mm, which is in the ±."
    ) in untold
    assert "not told" not in told
    slight = correct(camera, CollimatorReading(exact(0.1), exact(310.0)))
    assert wording.tolerance_line(slight).endswith("it makes no difference.")


answers = st.builds(
    answer,
    st.one_of(st.floats(-12, 12), st.floats(-0.3, 0.3), st.floats(-0.002, 0.002)),
    st.sampled_from((0.0, 1e-6, 0.005, 0.1)),
    st.sampled_from(FOCUSINGS),
    st.booleans(),
)

# What would make a repairer stop and wonder.
SLIPS = {
    "a zero with a sign": r"[-−+]0(\.0+)?(?![.\d])",
    "two colons or points": r"::|\.\.|,,|;;|\. \.",
    "two blanks, or one before a mark": r"  | [,.;:](?!\d)",
    "no number": r"\bnan\b|\bnone\b(?!:)|\binf\b|None",
    "a sign for a minus": r"(?<![\w–])-\d",
    "an exponent": r"\d[eE][-+]?\d",
    "one of several": r"\b1 starts\b|\b[2-9] start\b",
    "a bare sign for a sense": r"\be = ",
}


@settings(max_examples=250, deadline=None)
@given(answers)
def test_nothing_said_has_a_slip(found: Correction) -> None:
    """No sentence has a signed zero, doubled marks, a missing number or a wrong plural."""
    for sentence in everything_said(found):
        for what, pattern in SLIPS.items():
            assert not re.search(pattern, sentence), f"{what}: {sentence}"
        assert sentence.endswith("."), sentence


@settings(max_examples=100, deadline=None)
@given(answers)
def test_the_words_have_the_sign_of_the_figures(found: Correction) -> None:
    """The sense in words is that of the error, for what is found and for what is left."""
    for said, error in [
        (wording.headline(found), found.error.value),
        *((wording.residual_line(r), r.residual.value) for r in found.remedies),
    ]:
        assert ("too far out" in said) == (error >= 0.0005)
        assert ("too far in" in said) == (error <= -0.0005)


@settings(max_examples=100, deadline=None)
@given(answers)
def test_a_disc_that_looks_sharp_is_not_said_to_be_none(found: Correction) -> None:
    """No sentence says both that nothing is sharp and that the mark looks sharp."""
    for line in map(wording.sight_line, found.sights):
        assert not ("nothing is sharp" in line and "looks sharp" in line)


def test_the_headline_has_figure_sense_and_certainty() -> None:
    """The headline gives size, sense, U and the factor; ± 0.005 mm rectangular is ± 0.006 mm."""
    # 1.96 × 0.005/√3 = 0.00566.
    assert wording.headline(answer(0.1234)) == (
        "The lens is 0.123 mm too far out, ± 0.006 mm at 95 % (k = 1.96)."
    )
    assert wording.headline(answer(-0.1234, 0.0)) == (
        "The lens is 0.123 mm too far in, ± not known."
    )
    assert wording.headline(answer(0.0, 0.005)).startswith("The lens is right, ± 0.006 mm")


def test_few_readings_show_their_degrees_of_freedom() -> None:
    """Three readings show k 4.30 and two degrees of freedom (GUM table G.2)."""
    said = wording.said_uncertainty(from_repeats([0.1, 0.12, 0.13], 0.0, "gauge"))
    assert said.endswith("at 95 % (k = 4.30, 2 degrees of freedom)")


def test_the_tolerance_says_whose_it_is() -> None:
    """The tolerance line says whether it was stated or is half of N·c, 3.5 × 0.05 = 0.175 mm."""
    said = wording.tolerance_line(answer(0.3))
    assert said.startswith(
        "Outside tolerance: allowed ± 0.088 mm (half the depth of focus); depth of focus N·c at "
        "f/3.5 as engraved ± 0.175 mm."
    )
    stated = Camera("", Lens(75.0, 3.5), Bed(), 0.05, tolerance=0.02)
    reading = RegisterReading(exact(50.0), exact(50.0))
    assert "allowed ± 0.020 mm (stated)" in wording.tolerance_line(correct(stated, reading))


def test_one_try_says_what_its_uncertainty_leaves_out() -> None:
    """Read once, the ± is the instrument's alone, and the line says so; three tries are whole."""
    assert wording.tolerance_line(answer(0.3)).endswith("three tries show it.")
    camera = Camera("", Lens(75.0, 3.5), Bed(), 0.05)
    thrice = RegisterReading(from_repeats([50.3, 50.31, 50.29], 0.005, "gauge"), exact(50.0))
    assert "Read once" not in wording.tolerance_line(correct(camera, thrice))


def sight_of(
    sharp: float | None, nearest: float | None, farthest: float | None, looks_sharp: bool = False
) -> Sight:
    """Give a sight at the infinity mark."""
    return Sight(math.inf, sharp, nearest, farthest, 0.01, looks_sharp)


@pytest.mark.parametrize(
    ("found", "said"),
    [
        (sight_of(20000.0, 18000.0, 23000.0), "sharp at 20 m (18 m to 23 m)"),
        (sight_of(20000.0, 18000.0, None), "sharp at 20 m (18 m to beyond ∞)"),
        (sight_of(20000.0, 18000.0, math.inf), "sharp at 20 m (18 m to ∞)"),
        (sight_of(math.inf, math.inf, math.inf), "sharp at ∞"),
        (sight_of(20000.0, 20000.0, 20000.0), "sharp at 20 m"),
        (sight_of(None, 18000.0, None), "nothing is sharp, the focus lies beyond infinity"),
        (sight_of(None, None, None, True), "the focus lies beyond infinity"),
    ],
)
def test_where_it_is_sharp_is_said_with_its_bounds(found: Sight, said: str) -> None:
    """The sharp distance is said with its interval, or that the focus lies beyond infinity."""
    assert wording.sharp_where(found) == said


def test_a_whole_sight_is_one_sentence() -> None:
    """A ring mark is told in one sentence: what is sharp, how the mark looks, and its disc."""
    line = wording.sight_line(answer(0.35, 0.0).sights[0])
    # f²/e + 2f + e = 5625/0.35 + 150.35 = 16221.8 mm; the disc is 0.35/3.5 mm.
    assert line == "Ring at ∞: sharp at 16.22 m; ∞ itself looks soft, a disc of 0.100 mm."


@pytest.mark.parametrize(
    ("error", "limit", "verdict", "said"),
    [
        (0.01, 0.005, Verdict.INSIDE, "The lens is where it should be: leave it, and go on"),
        (0.09, 0.02, Verdict.UNSURE, "The reading cannot tell whether the lens is inside"),
        (0.3, 0.005, Verdict.OUTSIDE, "Any one of these brings it inside tolerance: shim under"),
    ],
)
def test_the_advice_follows_the_verdict(
    error: float, limit: float, verdict: Verdict, said: str
) -> None:
    """Inside is left alone, unsure is measured again, outside is put right by what serves."""
    found = answer(error, limit)
    assert found.verdict is verdict
    assert wording.advice(found).startswith(said)


def test_shim_that_may_not_be_there_is_not_promised() -> None:
    """Too far out with nothing said of the shims fitted, a shim is a remedy only if it is there."""
    assert "shim under the lens seat (only if that much is fitted)" in wording.advice(
        answer(0.3, 0.005)
    )


def test_no_remedy_is_promised_that_is_not_sure() -> None:
    """Where no remedy is sure to bring it inside tolerance, that is said."""
    found = answer(0.9, 0.2)
    assert wording.advice(found).startswith("No single remedy at hand is sure")


def test_what_a_remedy_leaves_is_said_with_its_certainty() -> None:
    """What is left has size, sense and U; of a figure that nothing is known of, U is not known."""
    (start,) = (r for r in answer(3.01, 0.0).remedies if r.kind == "start")
    assert wording.residual_line(start) == (
        "Leaves 0.010 mm too far out, ± not known: no verdict (nothing says how well it is known), "
        "inside the depth of focus."
    )
    # A leaf's own doubt is known, but the figure it is added to is not.
    (shim,) = (r for r in answer(-0.3, 0.0).remedies if r.kind == "shim")
    assert shim.residual.standard > 0
    assert ", ± not known: no verdict" in wording.residual_line(shim)
    (ring,) = (r for r in answer(0.3).remedies if r.kind == "ring")
    assert wording.residual_line(ring).startswith("Leaves no error, ± 0.0")


def test_right_needs_no_sense() -> None:
    """An error below half a micrometre is said to be right, whichever way it is."""
    assert {wording.said_error(Estimate(e)) for e in (0.0004, -0.0004, 0.0, -0.0)} == {"right"}
