"""What stands under an empty field as an example is a text that the field takes."""

import re
from collections.abc import Iterator

import pytest
from streamlit.testing.v1 import AppTest

from optics.errors import ShimwrightError
from optics.records.fields import Typed
from optics.records.job import (
    CollimatorPart,
    MarkPart,
    RegisterPart,
    RotationPart,
    RulerPart,
)
from ui import fields
from ui.camera_form import FOCUSING, OWN

_SAMPLE = re.compile(r"(?:such as|repeats:) (.+)")
_HINTS: list[tuple[Typed, str]] = []


@pytest.fixture(autouse=True)
def hints(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[tuple[Typed, str]]]:
    """Note the hint of every field that is drawn."""
    plain = fields.answer

    def noting(text: str, quantity: Typed, hint: str = "") -> tuple[fields.Entry, str]:
        _HINTS.append((quantity, hint))
        return plain(text, quantity, hint)

    _HINTS.clear()
    monkeypatch.setattr(fields, "answer", noting)
    yield _HINTS


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
def test_hints_of_the_correction_page_are_taken(focusing: str) -> None:
    """Every example under a field of one's own camera is understood by that field."""
    page = AppTest.from_function(correction, default_timeout=60).run()
    page.selectbox(key="camera").set_value(OWN).run()
    page.selectbox(key=f"{OWN}.kind").set_value(focusing).run()
    for part in (MarkPart, RotationPart, RegisterPart, CollimatorPart, RulerPart):
        page.selectbox(key=f"{OWN}.reading").set_value(part.title).run()
    assert any(_SAMPLE.search(hint) for _, hint in _HINTS)
    assert refused() == []


@pytest.mark.parametrize("script", [standard, rangefinder])
def test_hints_of_the_other_calculators_are_taken(script: object) -> None:
    """Every example under a field of the standard's and the rangefinder's page is understood."""
    AppTest.from_function(script, default_timeout=60).run()  # type: ignore[arg-type]
    assert any(_SAMPLE.search(hint) for _, hint in _HINTS)
    assert refused() == []
