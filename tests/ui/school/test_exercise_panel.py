"""An exercise as the page shows it."""

from optics.teaching.exercises import ExerciseLevel, exercise, mark
from ui.school.exercise_panel import hints_html, marked_html, question_html

ONE = exercise("effective_base", ExerciseLevel.APPRENTICE, "1")


def test_the_question_stands_under_its_number_and_name() -> None:
    """The heading says number and name, and figures stay on the line of their units."""
    markup = question_html(3, ONE)
    assert "<h2>3 · The base the eye sees</h2>" in markup
    assert "\u00a0mm" in markup


def test_indices_are_set_low() -> None:
    """A symbol such as b_M is shown with its index below the line."""
    assert "b<sub>M</sub>" in hints_html(ONE.hints, 4)
    assert "b_M" not in hints_html(ONE.hints, 4)
    assert hints_html(ONE.hints[:1], 4).count("<section") == 1


def test_a_mark_is_said_by_sign_and_word() -> None:
    """Right, a slip with its name, and not yet have each a sign of their own; all are announced."""
    right, slip, wrong = (
        marked_html(mark(ONE, text))
        for text in (ONE.answer.printed, f"{ONE.answer.size * 1000:.4f}", "1")
    )
    assert "✓" in right
    assert "≈" in slip
    assert "<strong>A factor of 1000.</strong>" in slip
    assert "✕" in wrong
    for markup in (right, slip, wrong, marked_html(None)):
        assert 'role="status"' in markup


def test_what_is_typed_cannot_become_markup() -> None:
    """A refusal quotes the text that was typed, and quotes it as text."""
    assert "<script>" not in marked_html(mark(ONE, "<script>"))
