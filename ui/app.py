"""The bench's front door: which pages there are, and what they share."""

import streamlit as st

from ui.pages import correction
from ui.theme import dress_page

# A page is shown by calling it here, not by Page.run(): the browser sends with a page
# change only what belongs to this script, and so keeps text typed a moment before.
PAGES = {"Correction": correction.show}

page = st.navigation(
    [st.Page(show, title=title, url_path=title.lower()) for title, show in PAGES.items()],
    position="top",
)
dress_page(page.title)
PAGES[page.title]()
