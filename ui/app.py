"""The bench's front door: which pages there are, and what they share."""

from pathlib import Path

import streamlit as st

from ui.theme import dress_page

PAGES = Path(__file__).with_name("pages")

page = st.navigation(
    [st.Page(PAGES / "correction.py", title="Correction", default=True)],
    position="top",
)
dress_page(page.title)
page.run()
