"""What a field answers to a text, without a browser."""

from functools import partial

import pytest

from optics import units
from ui.fields import answer

RING_MARK = partial(units.read_distance, words="ring mark")


def echo(understood: units.Understood) -> str:
    """The echo as the units word it."""
    return understood.echo


def test_understood_text_gives_its_value_and_echo() -> None:
    """A foot is 304.8 mm (agreement of 1959), and the line under the field says it in metres."""
    understood, line = answer("1 ft", RING_MARK, echo)
    assert understood is not None
    assert understood.value == pytest.approx(304.8)
    assert line == '<div class="echo" role="status">= 304.8 mm = 1 ft</div>'


def test_refused_text_gives_no_value_but_a_reason() -> None:
    """A refusal is a sign and a sentence, never a colour or a silent guess."""
    understood, line = answer("abc", RING_MARK, echo)
    assert understood is None
    assert line.startswith('<div class="echo refusal" role="status">✕ The ring mark “abc”')


@pytest.mark.parametrize("text", ["", "   ", "\t"])
def test_empty_field_asks_and_does_not_scold(text: str) -> None:
    """A field not yet filled in shows its hint and no refusal."""
    assert answer(text, RING_MARK, echo, "such as 1.2 m") == (
        None,
        '<div class="echo" role="status">such as 1.2 m</div>',
    )


def test_typed_text_cannot_become_markup() -> None:
    """Whatever is typed is shown as text."""
    _, line = answer("<img src=x>", RING_MARK, echo)
    assert "<img" not in line
    assert "&lt;img src=x&gt;" in line
