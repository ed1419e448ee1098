"""The whole camera's account: every part in its order, nothing said twice, nothing left out."""

from dataclasses import replace
from html import unescape

import pytest

from optics.finding.account import whole_account
from optics.finding.plan.wording import NOTHING, nothing_line
from optics.finding.result import PlanOut
from optics.finding.whole import WholeCamera
from optics.records.lantern_street import CAMERAS
from optics.records.solve import Solution
from tests.optics.records.diagnoses import (
    GAUGE,
    NEAR,
    RANGEFINDER,
    READINGS,
    STANDARD,
    STOP,
    solved,
)
from ui.answers.account_panel import account_html
from ui.terminal.plain_text import WEIGH_TOGETHER, solution_text

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
        "\n\nPossible causes\n- Shims under the lens seat: more than 99 %.",
        "\n\nWhat cannot be told\n- No reading touches",
        "\n\nPlan\nNot checked, and presumed right: step 1",
        "1. Shim under the lens seat (step 3 of the bench's order).",
        "- Tool: lens spanner",
        "Last of all: a film test",
        "\n\nAlternatives, and their price\n- Without removing the lens from its seat:",
        "\n\nWhat was read\n- The gauge: 0.080 mm too far in",
        "\n\nAssumptions\n- Supposed: at most three causes",
        "- Slipped scale ring: 20 % of cameras; off by 0.400 mm",
        "\n\nWhat each reading would ask for by itself is left out",
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
    for said in (flat(untold), unescape(account_html(whole_account(untold.whole)))):
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
    account = whole_account(replace(whole, plan=idle))
    line = nothing_line(idle)
    assert line.startswith("Read out of tolerance: the gauge, 0.080 mm too far in (± 0.")
    assert line in account.to_do
    assert line in unescape(account_html(account))
    assert PlanOut.of(idle).moves_nothing == line
    assert PlanOut.of(whole.plan).moves_nothing == ""
    assert NOTHING not in "".join(account.to_do)


def whole(*readings: dict[str, str]) -> WholeCamera:
    """Diagnose the readings of a job."""
    found = solved(*(readings or READINGS)).whole
    assert found is not None
    return found


def test_a_plan_that_is_sure_is_promised() -> None:
    """Where causes are settled the promise has its sign, and nothing is asked for first."""
    html = account_html(whole_account(whole()))
    assert "verdict inside" in html
    assert "Take both again" not in html
    assert "shims under the lens seat, 0.082\u00a0mm too thin" in html


def test_a_reading_that_disagrees_comes_first() -> None:
    """An accused reading is to be taken again before anything is moved."""
    wrong = {"kind": "mark", "mark": "1.5 m", "sharp_at": "1.200; 1.201; 1.199 m", "limit": "1 mm"}
    found = whole(
        GAUGE, STOP, NEAR, {**NEAR, "mark": "3 m", "sharp_at": "3.35; 3.36; 3.34 m"}, wrong
    )
    assert found.diagnosis.is_accused
    html = account_html(whole_account(found))
    assert "wo readings of the 1.5 m mark contradict each other" in html
    assert "Take both again" in html
    assert "verdict unsure" in html


def test_every_cause_is_weighed_and_every_step_drawn() -> None:
    """Likely causes have a bar, the rest a line; each step has amounts, tool and outlook."""
    found = whole()
    html = account_html(whole_account(found))
    assert html.count('class="weight"') == 2
    assert "Less than 1 % each: slipped scale ring, infinity stop" in html
    assert "Tool: lens spanner" in html
    assert "Then the least sure is" in html
    assert 'id="what-to-do"' in html


def test_tables_and_lists_name_every_reading_and_cause() -> None:
    """Readings, other ways and suppositions are all there when they are unfolded."""
    found = whole()
    _, ways, read, supposed = account_html(whole_account(found)).split("<details>")
    assert read.count("<tr>") == 1 + 3
    assert "Without removing the lens from its seat" in ways
    assert supposed.count("<p>") == 1 + 1 + 9
