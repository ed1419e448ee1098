"""The whole camera in plain text: every part in its order, and nothing said twice."""

from dataclasses import replace
from html import unescape

import pytest

from optics.finding.plan.wording import NOTHING, nothing_line
from optics.finding.result import PlanOut
from optics.records.lantern_street import CAMERAS
from optics.records.solve import Solution
from tests.optics.records.diagnoses import GAUGE, NEAR, RANGEFINDER, READINGS, STANDARD, solved
from ui.terminal.diagnosis_text import plan_lines
from ui.terminal.plain_text import WEIGH_TOGETHER, solution_text
from ui.whole_camera.whole_camera_panel import plan_html, supposed_html

TURNED = {
    "kind": "rotation",
    "turned": "2.5; 2.75; 2.75; 2.5",
    "sense": "clockwise",
    "limit": "0.25",
}
ALIKE = (TURNED, {**NEAR, "mark": "3 m", "sharp_at": "2.55; 2.58; 2.57; 2.555"})


def flat(solution: Solution) -> str:
    """The text on one line."""
    return " ".join(solution_text(solution).split())


def test_each_part_stands_in_its_order() -> None:
    """Verdict, readings, causes, what is open, the plan, another way and what is supposed."""
    text = solution_text(solved())
    parts = [
        "Ostrin 35",
        "\n\nWhole camera\nMost probable (",
        "When this is done it will conform:",
        "\n\nWhat was read\n- The gauge: 0.080 mm too far in",
        "\n\nPossible causes\n- Shims under the lens seat: more than 99 %.",
        "\n\nWhat cannot be told\n- No reading touches",
        "\n\nPlan\nNot checked, and presumed right: step 1",
        "1. Lens at infinity (step 3 of the bench's order).",
        "- Tool: lens spanner",
        "Last of all: a film test",
        "\n\nAlternatives\n- Without removing the lens from its seat:",
        "\n\nAssumptions\nSupposed: at most three causes",
        "- Slipped scale ring: 20 % of cameras; off by 0.400 mm",
        "\n\nTake care\n- Local rules",
    ]
    found = [text.find(part) for part in parts]
    assert -1 not in found, parts[found.index(-1)]
    assert found == sorted(found)


def test_the_assumptions_name_the_aperture_and_what_nobody_told_of_a_collimator() -> None:
    """The tolerance says which f-number it rests on; a collimator's distance untold is named."""
    shifted = {
        "kind": "collimator",
        "shift": "20 mm",
        "limit": "0.1",
        "towards": "its lens",
        "collimator_focal_length": "300 mm",
    }
    untold = solved(*READINGS, shifted)
    assert untold.whole is not None
    for said in (flat(untold), unescape(supposed_html(untold.whole.diagnosis))):
        # 2.8 × 0.03/2 = 0.042 mm.
        assert "± 0.042 mm (half the depth of focus N·c at f/2.8 as engraved)" in said
        # 47²·20/(300² − 20·347) and 20·(47/300)² by hand, the lenses touching and f + f_c apart.
        assert "Collimator lens to camera lens not told: from touching" in said
        assert "0.491 mm to 0.532 mm, which is in the ±" in said
    assert "not told" not in flat(solved(*READINGS, {**shifted, "to_lens": "60 mm"}))


def test_single_remedies_do_not_stand_beside_the_plan() -> None:
    """One plan is printed, and no reading's own remedies that would contradict it."""
    text = solution_text(solved())
    assert "Focusing ring:" not in text
    assert "Ring at 1.5 m: sharp at" not in text


def test_several_readings_without_a_diagnosis_say_how_to_have_one() -> None:
    """Answered one by one, several readings end with how to have them weighed together."""
    text = flat(solved(diagnosis=None))
    assert " ".join(WEIGH_TOGETHER.split()) in text
    assert WEIGH_TOGETHER not in flat(solved(GAUGE, diagnosis=None))


def test_what_is_best_read_next_is_said_once() -> None:
    """Where causes look alike the next reading is said at the top, and not again below."""
    text = flat(solved(*ALIKE))
    assert text.count("Most would be told by the register gauged") == 1
    assert "The causes are not settled (" in text
    assert "cannot be told apart" in text


def test_the_rangefinder_keeps_its_own_part() -> None:
    """What the rangefinder asks for is printed after the whole camera, as without it."""
    text = solution_text(solved(*READINGS, rangefinder=RANGEFINDER, standard=STANDARD))
    places = [text.find(f"\n\n{title}\n") for title in ("Whole camera", "Lens standard")]
    assert -1 < places[0] < places[1] < text.find("Coupled rangefinder")
    assert "Of the rangefinder's readings the farthest and the nearest" in text.replace("\n  ", " ")


@pytest.mark.parametrize("camera", CAMERAS, ids=lambda camera: camera.name)
def test_every_camera_is_said_within_a_terminal(camera: object) -> None:
    """No line of any camera's plan is longer than 76 signs or empty of words."""
    text = solution_text(
        solved(GAUGE, NEAR, camera=camera.model_dump(mode="json", exclude_none=True))  # type: ignore[attr-defined]
    )
    for line in text.splitlines():
        assert len(line) <= 76
        assert line == line.rstrip()


def test_an_idle_plan_names_what_was_read_outside() -> None:
    """Terminal, page and JSON of a plan without steps say what lies out of tolerance and why."""
    whole = solved().whole
    assert whole is not None
    idle = replace(whole.plan, steps=())
    line = nothing_line(idle)
    assert line.startswith("Read out of tolerance: the gauge, 0.080 mm too far in (± 0.")
    assert line in plan_lines(idle)
    assert line in unescape(plan_html(idle))
    assert PlanOut.of(idle).moves_nothing == line
    assert PlanOut.of(whole.plan).moves_nothing == ""
    assert NOTHING not in "".join(plan_lines(idle))
