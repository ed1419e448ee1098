"""What the repairer is told of a ring, in full sentences."""

import math
import re

import numpy as np
import pytest

from optics.camera.camera import Camera
from optics.camera.confusion import FORMATS, conventions
from optics.scales.depth_marks import infer_confusion
from optics.scales.ring_marks import measure_depth, measure_scale
from optics.scales.scale_check import ScaleCheck, check_scale
from optics.scales.scale_wording import (
    both_line,
    confusion_line,
    depth_mark_line,
    explanation_line,
    fit_line,
    found_line,
    mark_line,
    order_lines,
    said_turn,
    scale_headline,
    wrong_line,
)
from tests.optics.scales.rings import (
    CORVANE,
    DEGREE,
    DISTANCES,
    LIMIT,
    OSTRIN,
    engraver,
    of_other_lens,
)

OWN = engraver(OSTRIN).angles()


def checked(
    angles: np.ndarray, limit: float = LIMIT, camera: Camera = OSTRIN, **how: str
) -> ScaleCheck:
    """The check of a ring read without any error."""
    marks = measure_scale(DISTANCES, [[float(a)] for a in angles], limit)
    return check_scale(camera, marks, **how)


def test_a_right_ring() -> None:
    """A right ring is said to be right, and from a mark on it, what cannot be said."""
    assert scale_headline(checked(OWN)).startswith("The ring is right: ")
    from_mark = scale_headline(checked(OWN, reference="ring mark"))
    assert "cannot be told from a mark on the ring" in from_mark


@pytest.mark.parametrize(
    ("slip", "film", "sense"),
    # 18 mm in 360°: 2° are 0.1 mm; the Ostrin extends counter-clockwise.
    [(2, "0.100 mm too far out", "counter-clockwise"), (-2, "0.100 mm too far in", "clockwise")],
)
def test_a_slipped_ring_is_turned_back_the_right_way(slip: int, film: str, sense: str) -> None:
    """A slipped ring is told by how much, what the lens does, and which way to turn it."""
    text = scale_headline(checked(OWN + slip * DEGREE))
    assert "The ring has slipped" in text
    assert f"With the ring on ∞ the lens stands {film}" in text
    assert re.search(rf"turn the ring 2\.00° {sense}, seen from the front\.$", text)


@pytest.mark.parametrize("ahead", [2.0, -3.5])
def test_turning_a_slipped_ring_as_told_puts_it_right(ahead: float) -> None:
    """On a barrel whose ring sits so far ahead on the lens, the turn that is told removes it."""

    def as_met(on_lens: float) -> np.ndarray:
        # Where the lens stands, in its extending sense, when each mark comes to the index: the
        # farther ahead the ring sits on the lens, the sooner.
        return OWN - on_lens * DEGREE

    text = scale_headline(checked(as_met(ahead)))
    told = re.search(r"turn the ring ([\d.]+)° (clockwise|counter-clockwise)", text)
    assert told is not None
    # The Ostrin extends counter-clockwise.
    turned = float(told[1]) * (1 if told[2] == "counter-clockwise" else -1)
    assert scale_headline(checked(as_met(ahead + turned))).startswith("The ring is right: ")


def test_a_ring_from_another_lens() -> None:
    """A ring of 50 mm on a lens of 47 mm is told with both focal lengths."""
    text = scale_headline(checked(of_other_lens(OSTRIN, 50.0).angles(), LIMIT / 20))
    assert re.match(
        r"The ring is from another lens: .* 50\.0000 mm ± 0\.00\d\d mm, not 47\.0 mm\.$", text
    )


def test_lens_or_lead_is_not_decided_beyond_the_readings() -> None:
    """Where readings cannot tell lens from lead, the words say so and what would tell."""
    text = scale_headline(checked(of_other_lens(OSTRIN, 50.0).angles()))
    assert "cannot tell whether" in text
    assert "another lens" in text
    assert "another lead" in text
    assert "measure the travel of one turn, and read the marks more finely." in text


def test_a_wrong_mark() -> None:
    """A single wrong mark is named with its side and its length along the edge."""
    angles = OWN.copy()
    angles[4] -= 2 * DEGREE
    check = checked(angles)
    text = scale_headline(check)
    assert text.startswith("The 3 m mark is wrong, or was misread: ")
    # 2° on a ring of 52 mm: 0.9076 mm.
    assert "(0.91 mm along the edge) too far towards the far end" in text
    assert check.fit is not None
    assert wrong_line(check.fit) == "The 3 m mark disagrees with the rest."
    assert "0.100 mm too far in" in mark_line(check.as_it_stands.marks[4])


def test_marks_that_no_single_cause_explains() -> None:
    """Where nothing fits, the words ask to measure again and to look for two faults."""
    angles = of_other_lens(OSTRIN, 52.0).angles()
    angles[3] += 5 * DEGREE
    angles[6] -= 5 * DEGREE
    assert "two faults at once" in scale_headline(checked(angles))


ORDER = re.compile(r"\b(loosen|turn|hold|measure|read|look)\b", re.IGNORECASE)


@pytest.mark.parametrize("turned", [{}, {4: -2}, {3: 5, 6: -5}, dict.fromkeys(range(8), 2)])
def test_what_was_found_stands_apart_from_what_to_do(turned: dict[int, float]) -> None:
    """The finding gives no order, and with the orders behind it is the whole answer."""
    angles = of_other_lens(OSTRIN, 52.0).angles() if len(turned) == 2 else OWN.copy()
    for place, degrees in turned.items():
        angles[place % len(angles)] += degrees * DEGREE
    check = checked(angles)
    assert not ORDER.search(found_line(check).replace("misread", ""))
    assert " ".join([found_line(check), *order_lines(check)]) == scale_headline(check)
    assert bool(order_lines(check)) is bool(turned)


@pytest.mark.parametrize(
    ("degrees", "said"),
    [(0.31, "0.31°"), (-0.31, "−0.31°"), (0.04, "0.040°"), (6.82, "6.82°"), (20.44, "20.4°")],
)
def test_a_turn_of_the_ring_is_told_in_one_unit(degrees: float, said: str) -> None:
    """A ring is measured in degrees, and what is below one is told in degrees too."""
    assert said_turn(degrees * DEGREE) == said
    assert said_turn(0.0) == "0°"


def test_no_share_is_said_to_be_nothing_or_certain() -> None:
    """An explanation of next to no weight is under 0.1 %, one of nearly all over 99.9 %."""
    check = checked(of_other_lens(OSTRIN, 50.0).angles(), LIMIT / 20)
    lines = [explanation_line(check, one) for one in check.explanations]
    assert not any(line.startswith(("0.0%", "100.0%")) for line in lines)
    assert any(line.startswith("under 0.1%") for line in lines)


@pytest.mark.parametrize("camera", [OSTRIN, CORVANE], ids=lambda c: c.name)
def test_every_line_is_a_sentence(camera: Camera) -> None:
    """Every line of a check is one or more sentences, without a nan and with a real minus."""
    angles = engraver(camera).angles() - 3 * DEGREE
    check = checked(angles, camera=camera)
    assert check.fit is not None
    lines = [
        scale_headline(check),
        fit_line(check.fit),
        fit_line(check.as_it_stands),
        wrong_line(check.fit),
        both_line(check),
        *(mark_line(mark) for mark in check.as_it_stands.marks),
        *(explanation_line(check, e) for e in check.explanations),
    ]
    for line in lines:
        assert line.endswith(".")
        assert "nan" not in line
        assert not re.search(r"-\d", line)


def test_lens_and_lead_together_are_told_or_not() -> None:
    """Fine readings give both figures; coarse ones say that one must be measured by itself."""
    assert both_line(checked(OWN, LIMIT / 50)).startswith("Fitted together: focal length of 47.0")
    assert "hardly tell focal length from lead" in both_line(checked(OWN))
    few = measure_scale((math.inf, 1000.0), [[0.0], [float(OWN[8])]], LIMIT)
    assert "cannot give focal length and lead" in both_line(check_scale(OSTRIN, few))


def test_the_maker_s_circle_of_confusion() -> None:
    """Depth marks for 0.03 mm are said to be, and to agree with that convention alone."""
    stops = (4.0, 8.0, 16.0)
    found = infer_confusion(
        OSTRIN, measure_depth(stops, [[0.6 * DEGREE * s] for s in stops], 0.05 * DEGREE)
    )
    text = confusion_line(found, conventions(FORMATS["24x36"]))
    assert text.startswith("The depth marks were made for a circle of confusion of 0.0300")
    assert text.endswith("It agrees with 0.03 mm.")
    assert "reckoned with the exact f-numbers (f/5.6 is f/5.657; the full aperture as" in text
    assert "With the f-numbers as engraved it would be" not in text
    eleven = infer_confusion(OSTRIN, measure_depth((11.0,), [[6.788 * DEGREE]], 0.05 * DEGREE))
    assert "as engraved it would be 0.0309 mm." in confusion_line(eleven, ())
    assert "It agrees with no convention listed" in confusion_line(
        found, conventions(FORMATS["4x5in"])
    )
    assert depth_mark_line(found.marks[1]) == (
        "f/8: 4.80° from the index, where it belongs; within what the readings allow."
    )
