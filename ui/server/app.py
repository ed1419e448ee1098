"""The bench's front door: which pages there are, and what they share."""

from importlib import import_module

import streamlit as st

from ui.theme import dress_page

# Title and module of each page. A page is imported when it is first shown, so that the
# opening page does not wait for the others' plots and sheets.
PAGES = {
    "Correction": "correction",
    "Whole camera": "whole_camera",
    "Depth and scales": "depth_and_scales",
    "Rangefinder": "rangefinder",
    "Standard and marks": "standard_and_marks",
}


def show() -> None:
    """Draw the page that is asked for."""
    import_module(f"ui.pages.{PAGES[page.title]}").show()


# A page is shown by calling it here, not by Page.run(): the browser sends with a page
# change only what belongs to this script, and so keeps text typed a moment before.
page = st.navigation(
    [st.Page(show, title=title, url_path=address) for title, address in PAGES.items()],
    position="top",
)
dress_page(page.title)
show()
