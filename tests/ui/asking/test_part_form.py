"""Any part is drawn as its own annotations ask, by the real page server without a browser."""

from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field
from streamlit.testing.v1 import AppTest

from optics.typed import fields
from optics.typed.ask import Ask
from optics.typed.part import Part
from ui.asking.part_form import texts_of


class Way(StrEnum):
    """Two ways, one of them worded otherwise."""

    OUT = "out"
    IN = "in"


class ThreadPart(Part):
    """One kind of a part in a part."""

    kind: Literal["thread"] = "thread"
    lead: Annotated[str, fields.LEAD, Ask(width=6)]


class StrutsPart(Part):
    """Another kind, with nothing to ask."""

    kind: Literal["struts"] = "struts"


class MadeUpPart(Part):
    """A part that no job has."""

    name: Annotated[str, Ask("its name", width=6)] = ""
    measured: Annotated[
        str, fields.MEASURED_REGISTER, Ask(beside=("nominal", fields.register_against), width=6)
    ]
    nominal: Annotated[str, fields.NOMINAL_REGISTER, Ask(example="28.8", width=6)]
    way: Annotated[Way, Ask(words={"in": "towards the film"}, width=6)] = Way.OUT
    deep: (
        Annotated[str, fields.GAUGE_LIMIT, Ask("how deep", when=lambda t: t["way"] == "in")] | None
    ) = None
    limit: Annotated[str, fields.GAUGE_LIMIT, Ask("good to ±", starts="0.01")] = "0 mm"
    moves: Annotated[
        ThreadPart | StrutsPart,
        Field(discriminator="kind"),
        Ask("moves by", words={"thread": "a thread", "struts": "struts"}, width=6),
    ]


def form_page() -> None:
    """Draw the part and keep what it gives."""
    import streamlit as st

    from tests.ui.asking.test_part_form import MadeUpPart
    from ui.asking.part_form import PartForm

    form = PartForm(MadeUpPart, "it", is_example=st.session_state.get("is_example", False))
    form.draw()
    st.session_state["given"], st.session_state["amiss"] = form.part, form.problems


def test_a_made_up_part_is_drawn_without_code_of_its_own() -> None:
    """Labels, choices in words and texts at first stand there as the part says, in its order."""
    page = AppTest.from_function(form_page).run()
    assert not page.exception
    assert [one.label for one in page.text_input] == [
        "Its name",
        "Register measured, mm",
        "Nominal register, mm",
        "Good to ±, mm",
        "Lead, mm",
    ]
    assert [(one.label, one.value) for one in page.selectbox] == [
        ("Way", "out"),
        ("Moves by", "a thread"),
    ]
    assert page.session_state["amiss"] == [
        "Enter the register measured.",
        "Enter the nominal register.",
        "Enter the lead.",
    ]


def test_what_hangs_on_another_field_follows_it() -> None:
    """A field comes with the choice that asks for it, and one is read beside its neighbour."""
    page = AppTest.from_function(form_page)
    page.session_state["is_example"] = True
    page.run().selectbox(key="it.way").set_value("towards the film").run()
    assert page.text_input(key="it.deep").label == "How deep, mm"
    page.text_input(key="it.measured").set_value("2.88").run()
    assert "times the nominal 28.8 mm" in page.session_state["amiss"][0]
    page.selectbox(key="it.moves.kind").set_value("struts").run()
    assert page.session_state["given"]["moves"] == {"kind": "struts"}
    assert page.session_state["given"]["way"] == "in"


def test_what_is_refused_stands_in_the_way_and_the_job_gets_texts_as_typed() -> None:
    """A refusal stands in its field's turn, nothing typed is changed, what is empty is left out."""
    page = AppTest.from_function(form_page).run()
    page.text_input(key="it.nominal").set_value(" 28,8 ").run()
    page.text_input(key="it.measured").set_value("abc").run()
    refused, *others = page.session_state["amiss"]
    assert "“abc”" in refused
    assert others == ["Enter the lead."]
    given = page.session_state["given"]
    assert given["nominal"] == " 28,8 "
    assert given["moves"] == {"kind": "thread"}


def test_a_part_goes_through_its_fields_unchanged() -> None:
    """What a part holds, put into its fields, comes out of them as the same part."""
    part = MadeUpPart.model_validate(
        {
            "name": "Grey one",
            "measured": "28.74; 28.75",
            "nominal": "28.8",
            "way": "in",
            "deep": "0.2",
            "moves": {"kind": "thread", "lead": "18"},
        }
    )
    page = AppTest.from_function(form_page)
    for key, text in texts_of(part, "it").items():
        page.session_state[key] = text
    page.run()
    assert page.session_state["amiss"] == []
    assert MadeUpPart.model_validate(page.session_state["given"]) == part
