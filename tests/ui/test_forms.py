"""Groups of fields: what stands in the way, and what the job document gets."""

from optics.records.fields import RING_DIAMETER, length
from ui.fields import Entry
from ui.forms import Form


def filled(**texts: str) -> Form:
    """Return a form as if these texts had been typed; `lens` and `lead` are required."""
    form = Form("camera")
    form.entries = {name: Entry(length(f"{name} in words"), text) for name, text in texts.items()}
    form.required = {"lens", "lead"}
    return form


def test_required_fields_left_empty_are_asked_for_in_order() -> None:
    """Each is named in words, in the order it stands on the page; optional ones are let be."""
    form = filled(lead=" ", arc="", lens="")
    assert form.problems == ["Enter the lead in words.", "Enter the lens in words."]


def test_refused_text_is_a_problem_in_any_field() -> None:
    """A refusal is passed on in its own words, required or not."""
    form = filled(lens="50", lead="18")
    form.entries["arc"] = Entry(RING_DIAMETER, "abc", "The arc “abc” cannot be understood.")
    assert form.problems == ["The arc “abc” cannot be understood."]


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
