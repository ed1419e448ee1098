"""The bench's front door: the page that is asked for, and what all share."""

from importlib import import_module

import streamlit as st

from ui.kept.drafts import kept_while_drawn
from ui.kept.open_job import strip
from ui.pages import PAGES
from ui.theme import dress_page


def show() -> None:
    """Draw the page that is asked for."""
    import_module(f"ui.pages.{PAGES[page.title]}").show()


# A page is shown by calling it here, not by Page.run(): the browser sends with a page
# change only what belongs to this script, and so keeps text typed a moment before.
pages = {title: st.Page(show, title=title, url_path=place) for title, place in PAGES.items()}
page = st.navigation(list(pages.values()), position="top")
dress_page(page.title)
with kept_while_drawn(page.title):
    strip(pages, page.title)
    show()
