"""The bench's front door: which pages there are, and what they share."""

import streamlit as st

from ui.pages import correction, depth_and_scales
from ui.theme import dress_page

# A page is shown by calling it here, not by Page.run(): the browser sends with a page
# change only what belongs to this script, and so keeps text typed a moment before.
PAGES = {"Correction": correction, "Depth and scales": depth_and_scales}

page = st.navigation(
    [
        st.Page(module.show, title=title, url_path=module.__name__.rpartition(".")[2])
        for title, module in PAGES.items()
    ],
    position="top",
)
dress_page(page.title)
PAGES[page.title].show()
