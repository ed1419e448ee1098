"""What a reading says before the camera is told in full, and what each further figure adds."""

import math
import re
from typing import Any

import pytest

from optics.measure.verdict import Verdict
from optics.readings import first_wording as wording
from optics.readings.first_answer import FirstAnswer
from optics.records.first import FirstSolution, answered
from optics.records.job import JobDocument
from optics.records.solve import Solution
from tests.optics.readings.simulated_camera import FrontCellLens, SimulatedCamera, WholeLens

TURNED = {"kind": "rotation", "turned": "40°", "sense": "clockwise"}
GAUGED = {"kind": "register", "measured": "28.7", "nominal": "28.8", "limit": "0.01 mm"}
MARKED = {"kind": "mark", "sharp_at": "18 m"}
FULL = {
    "focal_length": "50 mm",
    "full_aperture": "2.8",
    "circle_of_confusion": "0.03",
    "lead": "18 mm",
}
NONE = "focal length, full aperture, circle of confusion and lead"


def job(reading: dict[str, Any], kind: str = "helicoid", **told: str) -> JobDocument:
    """A job of one reading on a camera of which only so much is told."""
    lens = {n: told[n] for n in ("focal_length", "full_aperture") if n in told}
    body = {n: told[n] for n in ("circle_of_confusion", "tolerance") if n in told}
    thread = {n: told[n] for n in ("lead", "group_focal_length", "cell_to_film") if n in told}
    turns = {} if kind == "bed" else {"extends": told.get("extends", "counter-clockwise"), **thread}
    camera = {"lens": lens, "focusing": {"kind": kind, **turns}, **body}
    shims = {"fitted": told["fitted"]} if "fitted" in told else {}
    return JobDocument.model_validate({"camera": camera, "workshop": shims, "readings": [reading]})


def first(reading: dict[str, Any], kind: str = "helicoid", **told: str) -> FirstAnswer:
    """The first answer to one reading."""
    found = answered(job(reading, kind, **told))
    assert isinstance(found, FirstSolution), "the camera is told in full"
    (answer,) = found.answers
    assert isinstance(answer, FirstAnswer)
    return answer


def done(answer: FirstAnswer) -> str:
    """Everything there is to do, as one text."""
    return " ".join(words for _, words in answer.to_do)


def test_a_turn_alone_says_how_far_to_turn_back() -> None:
    """40° clockwise until sharp is 40° back, before a single figure of the camera is typed."""
    answer = first(TURNED)
    assert wording.headline(answer) == (
        "Turn the ring 40.0° back (counter-clockwise, seen from the front), ± not known until "
        f"the {NONE} are."
    )
    assert "turn the ring alone 40.0° back, counter-clockwise" in done(answer)
    assert wording.judged(answer) is Verdict.NOT_STATED


@pytest.mark.parametrize("right_hand", [True, False])
@pytest.mark.parametrize("slip", [-37.0, 40.0, 3.3])
@pytest.mark.parametrize("lens", [WholeLens(50.0, 0.5), FrontCellLens(51.0, -150.0, 8.0)])
def test_the_ring_turned_back_puts_a_camera_right(
    lens: WholeLens | FrontCellLens, slip: float, right_hand: bool
) -> None:
    """On a camera of another model both ways of doing as told leave it right at infinity."""
    camera = SimulatedCamera(lens, 12.0, 4, right_hand, 40.0, [], 0.0, slip=slip)
    degrees, sense = camera.turned_until_sharp(math.inf, math.inf)
    reading = {"kind": "rotation", "turned": f"{degrees:.9f}°", "sense": sense}
    extends = "clockwise" if right_hand else "counter-clockwise"
    kind = "helicoid" if isinstance(lens, WholeLens) else "front cell"
    words = done(first(reading, kind, extends=extends))
    alone = re.search(r"ring alone ([\d.]+)° back, ([\w-]+),", words)
    held = re.search(r"turns ([\d.]+)° ([\w-]+)\.", words)
    assert alone is not None
    assert held is not None
    # A ring turned on its lens meets its mark by as much later the other way round.
    for (amount, way), by in ((alone.groups(), -1), (held.groups(), 1)):
        camera.slip = slip + by * float(amount) * (1 if way == "clockwise" else -1)
        assert abs(camera.slip) < 0.051, words
        assert camera.true_error() == pytest.approx(0.0, abs=0.006)


def test_repeats_tell_how_well_a_turn_is_known() -> None:
    """Three tries have a scatter of their own: of 40, 41 and 39.5° the mean is known to ± 1.9°."""
    # s = 0.7638°, s/√3 = 0.4410°, Student's t for 2 degrees of freedom 4.303 (GUM table G.2).
    answer = first(TURNED | {"turned": "40; 41; 39.5"})
    assert wording.known(answer) == "± 1.9° at 95 %"


def test_the_lead_alone_gives_millimetres_and_a_shim() -> None:
    """40° of a lead of 18 mm is 2 mm, whatever the focal length; the shim follows."""
    answer = first(TURNED, lead="18 mm")
    assert answer.error is not None
    assert answer.error.value == pytest.approx(2.0)
    assert wording.found(answer).startswith("The lens is 2.000 mm too far out: turn the ring 40.0°")
    assert "Remove 2.00 mm of shim from under the lens seat, only if that much is fitted." in (
        done(answer)
    )
    assert "no shim is fitted" in done(first(TURNED, lead="18 mm", fitted="none"))


def test_a_register_needs_no_figure_of_the_camera() -> None:
    """A body 0.1 mm short is shimmed by 0.1 mm, with the gauge's ±, and no lens told."""
    answer = first(GAUGED, "bed")
    assert wording.headline(answer) == (
        "The lens is 0.100 mm too far in, ± 0.011 mm at 95 % (k = 1.96)."
    )
    assert "Add 0.10 mm of shim under the lens seat." in done(answer)
    assert "Move both infinity stops 0.10 mm away from the film." in done(answer)


def test_a_stated_tolerance_brings_a_verdict() -> None:
    """With a tolerance of ± 0.04 mm a register 0.1 mm short is outside, and nothing else asked."""
    answer = first(GAUGED, tolerance="0.04 mm")
    assert wording.verdict_line(answer) == (
        "Outside tolerance: allowed ± 0.040 mm. Read once: what the hand adds is not in the ±; "
        "three tries show it."
    )


def test_a_mark_says_which_way_before_how_far() -> None:
    """Sharp at 18 m with the ring at ∞ is too far out; how far waits for the focal length."""
    answer = first(MARKED)
    assert wording.headline(answer) == (
        "The lens is too far out, by how much is not known until the focal length is."
    )
    # By Newton's equation f²/(D − 2f) = 50²/17900 = 0.140 mm.
    further = first(MARKED, focal_length="50 mm")
    assert further.error is not None
    assert further.error.value == pytest.approx(0.140, abs=0.0005)
    assert wording.known(further) == (
        "± not known until the full aperture and circle of confusion are"
    )


def test_a_single_try_has_the_eyes_blur_before_the_lead_is_told() -> None:
    """Sharp at 40 m, tried once: ± N·c/4 of 2.8 × 0.03 mm by eye, and no verdict from the tape."""
    told = {name: text for name, text in FULL.items() if name != "lead"}
    answer = first(MARKED | {"sharp_at": "40 m", "limit": "5 cm"}, tolerance="0.04 mm", **told)
    # f²/(D − 2f) = 50²/39900 = 0.0627 mm; rectangular ± 0.021 mm is 0.021/√3 × 1.96 = ± 0.0238
    # (GUM 4.3.7), and 5 cm of 40 m is 0.0001 mm.
    assert wording.headline(answer) == (
        "The lens is 0.063 mm too far out, ± 0.024 mm at 95 % (k = 1.96)."
    )
    assert wording.judged(answer) is Verdict.UNSURE
    assert wording.advice(answer).endswith("before changing anything.")
    assert (
        "Tried once, or alike each time: the eye's blur, N·c/4 = 0.021 mm either way"
        in wording.verdict_line(answer)
    )


def test_a_turn_between_two_marks_is_set_by_the_ring_alone() -> None:
    """Sharp on a target at 3 m, the ring alone is set to 3 m; amounts wait for lead and lens."""
    answer = first(TURNED | {"target": "3 m"})
    assert answer.sense is None
    assert "set the ring alone to 3 m" in done(answer)
    assert answer.waits[0].figures == ("lead", "focal length")


@pytest.mark.parametrize("reading", [TURNED, GAUGED, MARKED])
@pytest.mark.parametrize("missing", FULL)
def test_every_figure_that_is_missing_says_what_it_would_add(
    reading: dict[str, Any], missing: str
) -> None:
    """Whatever single figure is missing, it alone is still needed and has something to add."""
    answer = first(reading, **{name: text for name, text in FULL.items() if name != missing})
    ((figures, adds),) = [(wait.figures, wait.adds) for wait in answer.waits]
    assert figures == (missing.replace("_", " "),)
    assert adds


@pytest.mark.parametrize("reading", [TURNED, GAUGED, MARKED])
@pytest.mark.parametrize("kind", ["helicoid", "front cell"])
def test_what_is_told_first_is_told_in_the_end(reading: dict[str, Any], kind: str) -> None:
    """An error given without some figures is the error of the camera told in full."""
    for missing in FULL:
        told = {name: text for name, text in FULL.items() if name != missing}
        error = first(reading, kind, **told).error
        full = answered(job(reading, kind, **FULL))
        assert isinstance(full, Solution)
        if error is not None:
            assert error.value == pytest.approx(full.answers[0].error.value)  # type: ignore[union-attr]


def test_a_whole_turn_is_no_correction() -> None:
    """A turn of 400° asks for another look and not for a turn back."""
    assert "a whole turn or more: look for a wrong start" in done(first(TURNED | {"turned": "400"}))
