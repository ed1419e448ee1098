"""What a diagnosis asks beside the readings: the rangefinder, the bench, and what is supposed."""

from typing import Any

import streamlit as st

from optics.finding.part import DiagnosisPart, SuspectPart
from ui.answers.answer_panel import group_html
from ui.asking.camera_form import Texts, example_of, is_example, workshop_form
from ui.asking.part_form import PartForm
from ui.rangefinder.rangefinder_form import rangefinder_form

_SCREW_SIGN = "Plus: the images then meet with the lens farther out."


def beside_form(name: str, pairs: list[Texts]) -> tuple[dict[str, Any], list[str]]:
    """Draw the rangefinder where it was read, shims and suppositions; the parts of the job.

    `pairs` are what was read through the rangefinder, as the job's rangefinder takes them.
    """
    found: dict[str, Any] = {}
    problems: list[str] = []
    known, key = example_of(name, "diagnosis"), f"{name}.diagnosis"
    bench = PartForm(DiagnosisPart, key, known, is_example=is_example(name))
    # A block of its own, there or not: what comes or goes moves no field out of its place.
    with st.container():
        if pairs:
            st.html(group_html("The rangefinder"))
            rangefinder = rangefinder_form(name)
            found["rangefinder"] = rangefinder.part | pairs[0]
            problems += rangefinder.problems
            bench.draw("infinity_screw", "near_screw")
            st.html(f'<p class="note">{_SCREW_SIGN}</p>')
    st.html(group_html("Shims at hand"))
    workshop = workshop_form(name)
    found["workshop"] = workshop.part
    with st.expander("More about the bench and the assumptions"):
        bench.draw("picture", "standard_screws", "seen_blur", "most_causes")
        suspect = PartForm(SuspectPart, f"{key}.suspects.0")
        suspect.draw("cause", "chance", "wrong", "usual")
    suspects = [suspect.part] if suspect.is_in_use else []
    found["diagnosis"] = bench.part | {"suspects": suspects}
    amiss = suspect.problems if suspect.is_in_use else []
    return found, [*problems, *workshop.problems, *bench.problems, *amiss]
