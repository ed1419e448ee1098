"""Groups of fields: what stands in the way, and what the job document gets."""

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
from optics.typed.fields import RING_DIAMETER, Typed, figure
from ui.asking import fields
from ui.asking.camera_form import OWN
from ui.asking.fields import FieldEntry
from ui.asking.forms import FieldGroup


def filled(**texts: str) -> FieldGroup:
    """Return a form as if these texts had been typed; `lens` and `lead` are required."""
    form = FieldGroup("camera")
    form.entries = {
        name: FieldEntry(figure(f"{name} in words", "mm"), text) for name, text in texts.items()
    }
    form.required = {"lens", "lead"}
    return form


def test_required_fields_left_empty_are_asked_for_in_order() -> None:
    """Each is named in words, in the order it stands on the page; optional ones are let be."""
    form = filled(lead=" ", arc="", lens="")
    assert form.problems == ["Enter the lead in words.", "Enter the lens in words."]


def test_refused_text_is_a_problem_in_any_field() -> None:
    """A refusal is passed on in its own words, required or not."""
    form = filled(lens="50", lead="18")
    form.entries["arc"] = FieldEntry(RING_DIAMETER, "abc", "The arc “abc” cannot be understood.")
    assert form.problems == ["The arc “abc” cannot be understood."]


def test_a_field_left_empty_is_no_refusal() -> None:
    """Where not all is needed yet, only what was typed and has no meaning stands in the way."""
    form = filled(lead=" ", arc="abc")
    form.entries["arc"] = FieldEntry(RING_DIAMETER, "abc", "The arc “abc” cannot be understood.")
    assert form.refusals == ["The arc “abc” cannot be understood."]


def test_job_gets_texts_as_typed() -> None:
    """What was typed goes on untouched, an empty field is left out, a choice is joined."""
    form = filled(lens=" 1,5 in ", lead="3 ft 6", arc="  ")
    form.chosen["extends"] = "clockwise"
    assert form.part() == {"lens": " 1,5 in ", "lead": "3 ft 6", "extends": "clockwise"}
    assert form.problems == []


def test_empty_field_has_the_value_it_stands_for() -> None:
    """A figure is worked out in mm where there is one (an inch is 25.4), else it is the default."""
    form = filled(lens="1 in", lead=" ")
    assert form.value("lens", 7.0) == 25.4
    assert form.value("lead", 7.0) == 7.0


# What stands under an empty field as an example is a text that the field takes.
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
