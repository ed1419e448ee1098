"""A sheet as the page previews it: the very drawing that is printed."""

from base64 import b64encode

import streamlit as st

from optics.drawing.page import Sheet

_PRINT_ADVICE = "Print at 100 %, unscaled, then measure both rulers before you trust it."


def sheet_html(svg: str, page: int) -> str:
    """One page of a sheet as an image on white paper."""
    data = b64encode(svg.encode()).decode()
    return (
        f'<img class="sheet" alt="Page {page + 1} of the sheet as it will be printed" '
        f'src="data:image/svg+xml;base64,{data}">'
    )


def show_sheet(sheet: Sheet, key: str, advice: str = _PRINT_ADVICE) -> None:
    """Offer a sheet as PDF over a picture of each of its pages; `advice` says how to print it."""
    row = st.container(horizontal=True, vertical_alignment="center", key="print")
    row.download_button(
        "Sheet (PDF)",
        sheet.pdf,
        file_name="sheet.pdf",
        mime="application/pdf",
        on_click="ignore",
        key=key,
    )
    row.html(f'<p class="advice">{advice}</p>')
    st.html("".join(sheet_html(sheet.svg(page), page) for page in range(sheet.page_count)))
