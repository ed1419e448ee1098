"""A small bench of two pages of fields, so that the fields are tested apart from any page."""

import streamlit as st

from optics.typed import fields
from ui.asking.fields import field
from ui.theme import dress_page

ROWS = (("ring mark", "sharp at", "near stop"), ("far stop", "lath distance", "lamp distance"))


def first() -> None:
    """Six fields in two rows, to be walked through row by row."""
    st.title("First page")
    for row in ROWS:
        for column, words in zip(st.columns(3), row, strict=True):
            with column:
                asked = fields.figure(words, "m")
                field(asked, words.replace(" ", "_"), hint="such as 1.2 m, 3 ft 6 or ∞")
    st.html('<p class="below">Below the fields</p>')


def second() -> None:
    """A page to go to and come back from."""
    st.title("Second page")
    field(fields.figure("shim", "mm"), "shim", typed="0.05")
    field(fields.leaves("shim stock", "0.05 × 4; 0.1"), "shim_stock", typed="0.05 x 4; 0.1")


PAGES = {"First": first, "Second": second}
page = st.navigation(
    [st.Page(show, title=title, url_path=title.lower()) for title, show in PAGES.items()],
    position="top",
)
dress_page(page.title)
PAGES[page.title]()
