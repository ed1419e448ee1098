"""From readings at the bench to the correction to make."""

import streamlit as st

from ui.fields import distance_field

FIELDS = ("ring mark", "sharp at", "infinity target")


def show() -> None:
    """Draw the page."""
    st.title("Correction")
    for column, words in zip(st.columns(3), FIELDS, strict=True):
        with column:
            distance_field(words, words.replace(" ", "_"), hint="such as 1.2 m, 3 ft 6 or ∞")
