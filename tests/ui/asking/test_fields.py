"""What a field answers to a text, without a browser."""

import pytest

from optics.typed.fields import RING_MARK
from ui.asking.fields import FieldEntry, answer


def test_understood_text_gives_its_value_and_echo() -> None:
    """A foot is 304.8 mm (agreement of 1959), and the line under the field says it in metres."""
    entry, line = answer("1 ft", RING_MARK)
    assert entry == FieldEntry(RING_MARK, "1 ft")
    assert entry.is_good
    assert line == '<div class="echo" role="status">= 304.8 mm = 1 ft</div>'


def test_refused_text_gives_no_value_but_a_reason() -> None:
    """A refusal is a sign and a sentence, never a colour or a silent guess."""
    entry, line = answer("abc", RING_MARK)
    assert not entry.is_good
    assert entry.refusal.startswith("The ring mark “abc”")
    assert line.startswith('<div class="echo refusal" role="status">✕ The ring mark “abc”')


@pytest.mark.parametrize("text", ["", "   ", "\t"])
def test_empty_field_asks_and_does_not_scold(text: str) -> None:
    """A field not yet filled in shows its hint and no refusal."""
    assert answer(text, RING_MARK, "such as 1.2 m") == (
        FieldEntry(RING_MARK, text),
        '<div class="echo" role="status">such as 1.2 m</div>',
    )


def test_typed_text_cannot_become_markup() -> None:
    """Whatever is typed is shown as text."""
    _, line = answer("<img src=x>", RING_MARK)
    assert "<img" not in line
    assert "&lt;img src=x&gt;" in line
