"""What a field answers to a text, and whether it takes the examples under it."""

import re
from collections.abc import Callable

import pytest
from streamlit.testing.v1 import AppTest

from optics.errors import ShimwrightError
from optics.readings.kinds.collimator import CollimatorPart
from optics.readings.kinds.mark import MarkPart
from optics.readings.kinds.register import RegisterPart
from optics.readings.kinds.rotation import RotationPart
from optics.readings.kinds.ruler import RulerPart
from optics.records.job import FOCUSING
from optics.typed.fields import RING_MARK, Typed
from ui.asking import fields
from ui.asking.camera_form import OWN
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


_SAMPLE = re.compile(r"(?:such as|repeats:) (.+)")
_HINTS: list[tuple[Typed, str]] = []


@pytest.fixture
def hints(monkeypatch: pytest.MonkeyPatch) -> list[tuple[Typed, str]]:
    """Note the hint of every field that is drawn."""
    plain = fields.answer

    def noting(text: str, quantity: Typed, hint: str = "") -> tuple[fields.FieldEntry, str]:
        _HINTS.append((quantity, hint))
        return plain(text, quantity, hint)

    _HINTS.clear()
    monkeypatch.setattr(fields, "answer", noting)
    return _HINTS


def correction() -> None:
    """Draw the page."""
    from ui.pages.correction import show

    show()


def standard() -> None:
    """Draw the page."""
    from ui.pages.standard_and_marks import show

    show()


def rangefinder() -> None:
    """Draw the page."""
    from ui.pages.rangefinder import show

    show()


def refused() -> list[str]:
    """Examples under a field that the field itself refuses."""
    found = []
    for quantity, hint in _HINTS:
        sample = _SAMPLE.search(hint)
        for text in re.split(", or |, and ", sample[1]) if sample else ():
            try:
                quantity.read(text)
            except ShimwrightError as refusal:
                found.append(str(refusal))
    return found


@pytest.mark.parametrize("focusing", FOCUSING.values())
def test_hints_of_the_correction_page_are_taken(
    focusing: str, hints: list[tuple[Typed, str]]
) -> None:
    """Every example under a field of one's own camera is understood by that field."""
    page = AppTest.from_function(correction, default_timeout=60).run()
    page.selectbox(key="camera").set_value(OWN).run()
    page.selectbox(key=f"{OWN}.focusing.kind").set_value(focusing).run()
    for part in (MarkPart, RotationPart, RegisterPart, CollimatorPart, RulerPart):
        page.selectbox(key=f"{OWN}.reading").set_value(part.title).run()
    assert any(_SAMPLE.search(hint) for _, hint in hints)
    assert refused() == []


@pytest.mark.parametrize("script", [standard, rangefinder])
def test_hints_of_the_other_calculators_are_taken(
    script: Callable[[], None], hints: list[tuple[Typed, str]]
) -> None:
    """Every example under a field of the standard's and the rangefinder's page is understood."""
    AppTest.from_function(script, default_timeout=60).run()
    assert any(_SAMPLE.search(hint) for _, hint in hints)
    assert refused() == []
