"""The practice bench's panel: what is shown while working, and what only at the end."""

from html import unescape

import pytest

from optics.errors import NoAnswer
from optics.teaching.practice.debrief import debrief
from optics.teaching.practice.sitting import Adjust, Finish, Read
from tests.optics.teaching.practice.stands import OSTRIN, sitting
from tests.ui.figures.drawn import image_of
from ui.school import practice_panel

DONE = (Read("∞ mark"), Read("register"), Adjust("turn the barrel", 2.5), Read("∞ mark"))


def test_nothing_hidden_is_shown_before_the_end() -> None:
    """Log, facts and headline of a sitting under way name no hidden fault and no true line."""
    now = sitting(*DONE)
    parts = (
        practice_panel.log_html(now),
        practice_panel.facts_html(now),
        practice_panel.headline_html(now, ""),
    )
    shown = unescape(" ".join(parts)).lower()
    assert "0.126" not in shown
    assert "slipped" not in shown
    assert "maker's own" not in shown
    told = unescape(practice_panel.debrief_html(now.then(Finish()), debrief(now.then(Finish()))))
    assert "Slipped scale ring: 0.126 mm too far out." in told
    assert "The maker's own old line was A." in told


def test_log_has_a_row_for_each_action() -> None:
    """Readings show their figure and what it says, adjustments neither."""
    html = practice_panel.log_html(sitting(*DONE))
    assert html.count("<tr>") == 1 + len(DONE)
    assert "<td>Turned the barrel 2.5° clockwise</td><td></td><td></td>" in html
    assert "One fault is hidden" in practice_panel.log_html(sitting())


def test_a_refusal_is_said_at_once_and_escaped() -> None:
    """Why the last action was refused stands under the headline, for a screen reader too."""
    html = practice_panel.headline_html(sitting(), "got <b>")
    assert 'role="alert">✕ got &lt;b&gt;</p>' in html
    assert "alert" not in practice_panel.headline_html(sitting(), "")


def test_loupe_and_finder_are_shown_where_they_belong() -> None:
    """A ground-glass look is the loupe's picture, a rangefinder look the finder's."""
    loupe = practice_panel.view_html(sitting(), OSTRIN.offered["3 m mark"], 0.0)
    finder = practice_panel.view_html(sitting(), OSTRIN.offered["rangefinder at 1.2 m"], 40.0)
    for html, word in ((loupe, "Ground glass"), (finder, "Finder")):
        inner = html.removeprefix('<div class="eye">').removesuffix("</div>")
        assert image_of(inner)["alt"].startswith(word)
    with pytest.raises(NoAnswer):
        practice_panel.view_html(sitting(), OSTRIN.offered["rangefinder at 1.2 m"], -1.0)


def test_scale_of_the_picture_is_stated() -> None:
    """Under each picture stand what is looked at and how large it is drawn."""
    assert "8 × loupe" in practice_panel.scale_html(OSTRIN.offered["3 m mark"])
    assert "in the finder" in practice_panel.scale_html(OSTRIN.offered["rangefinder at 1.2 m"])
