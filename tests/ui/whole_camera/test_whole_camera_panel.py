"""The whole camera as the page shows it: what comes first, and nothing left out."""

from optics.finding.whole import WholeCamera
from tests.optics.records.diagnoses import GAUGE, NEAR, READINGS, STOP, solved
from ui.whole_camera.whole_camera_panel import (
    causes_html,
    plan_html,
    read_html,
    supposed_html,
    verdict_html,
    ways_html,
)


def whole(*readings: dict[str, str]) -> WholeCamera:
    """Diagnose the readings of a job."""
    found = solved(*(readings or READINGS)).whole
    assert found is not None
    return found


def test_a_plan_that_is_sure_is_promised() -> None:
    """Where causes are settled the promise has its sign, and nothing is asked for first."""
    html = verdict_html(whole())
    assert "verdict inside" in html
    assert "offer first" not in html
    assert "shims under the lens seat, 0.082\u00a0mm too thin" in html


def test_a_reading_that_disagrees_comes_first() -> None:
    """An accused reading is to be taken again before anything is moved."""
    wrong = {"kind": "mark", "mark": "1.5 m", "sharp_at": "1.200; 1.201; 1.199 m", "limit": "1 mm"}
    found = whole(
        GAUGE, STOP, NEAR, {**NEAR, "mark": "3 m", "sharp_at": "3.35; 3.36; 3.34 m"}, wrong
    )
    assert found.diagnosis.is_accused
    html = verdict_html(found)
    assert "Before anything is moved" in html
    assert "wo readings of the 1.5 m mark contradict each other" in html
    assert "Take both again" in html
    assert "verdict unsure" in html


def test_every_cause_is_weighed_and_every_step_drawn() -> None:
    """Likely causes have a bar, the rest a line; each step has amounts, tool and outlook."""
    found = whole()
    causes, plan = causes_html(found), plan_html(found.plan)
    assert causes.count('class="weight"') == 2
    assert "Less than 1 % each: slipped scale ring, infinity stop" in causes
    assert "Tool: lens spanner" in plan
    assert "Then the least sure is" in plan
    assert 'id="what-to-do"' in plan


def test_tables_and_lists_name_every_reading_and_cause() -> None:
    """Readings, other ways and suppositions are all there when they are unfolded."""
    found = whole()
    assert read_html(found).count("<tr>") == 1 + 3
    assert "Without removing the lens from its seat" in ways_html(found.plan)
    assert supposed_html(found.diagnosis).count("<p>") == 1 + 1 + 9
