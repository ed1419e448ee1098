"""The bench's front door: the page that is asked for, and what all share."""

from importlib import import_module

import streamlit as st

from ui.pages import PAGES
from ui.theme import dress_page


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
