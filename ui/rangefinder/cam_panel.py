"""The cam's answer: what to take off and where, or the table of a new cam."""

from datetime import date

import streamlit as st

from optics.rangefinder.cam_account import cam_account
from optics.rangefinder.cam_part import CamAnswer
from optics.sheets.cam_sheet import cam_sheet
from ui.answers.account_panel import account_html
from ui.asking.part_form import PartForm
from ui.depth.sheet_panel import show_sheet
from ui.figures.cam_plot import HEIGHT, cam_plot
from ui.theme import palette_in_use

_QUIET_CHART = {"displayModeBar": False}


def show_cam(wishes: PartForm, answer: CamAnswer) -> None:
    """Show the table, the map with its plot where lifts were read, and the sheet."""
    cam, found = answer.cam, answer.stoning
    diameter, paper = wishes.value("diameter", 0.0), wishes.text_at("paper")
    sheet = cam_sheet(cam, diameter, found, title="", made=date.today(), page_size=paper)
    st.html(account_html(cam_account(answer)))
    if found is not None:
        figure = cam_plot(found, palette_in_use())
        st.plotly_chart(figure, key="cam_plot", theme=None, height=HEIGHT, config=_QUIET_CHART)
    show_sheet(sheet, "cam_pdf")
