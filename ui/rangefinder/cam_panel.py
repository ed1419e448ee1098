"""The cam's answer: what to take off and where, or the table of a new cam."""

from collections.abc import Iterable
from datetime import date
from html import escape

import streamlit as st

from optics.rangefinder import cam_wording
from optics.rangefinder.cam import Cam
from optics.rangefinder.cam_part import CamAnswer
from optics.rangefinder.cam_result import STEP
from optics.rangefinder.stoning import StoningMap
from optics.sheets.cam_sheet import cam_sheet
from optics.units import format_distance, format_length
from ui.answers.bench_panel import wide_html
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
    if found is None:
        st.html(_new_cam(cam))
    else:
        st.html(map_html(found))
        figure = cam_plot(found, palette_in_use())
        st.plotly_chart(figure, key="cam_plot", theme=None, height=HEIGHT, config=_QUIET_CHART)
    show_sheet(sheet, "cam_pdf")


def map_html(found: StoningMap) -> str:
    """What comes off where, and what that leaves."""
    lines = (
        cam_wording.zero_line(found),
        cam_wording.gain_line(found),
        *cam_wording.before_and_after(found),
        *(f"⚠ {warning}" for warning in cam_wording.warnings(found)),
    )
    heads = ("place", "lift read", "lift needed", "first pass", "in all", "film, now", "after")
    rows = zip(
        [cam_wording.place(float(r)) for r in found.rotation],
        [_fine(m - found.measured[0]) for m in found.measured],
        [_fine(y - found.required[0]) for y in found.required],
        [_bare(cam_wording.said_cut(found, m)) for m in found.first_pass],
        [_bare(cam_wording.said_cut(found, m)) for m in found.cut],
        [_film(e.value) for e in found.before.focus_error],
        [_film(e.value) for e in found.after.focus_error],
        strict=True,
    )
    return (
        '<section class="answer"><p class="headline scale" role="status">'
        f"{escape(cam_wording.headline(found))}</p><p><b>{escape(cam_wording.advice(found))}</b>"
        f"</p>{''.join(f'<p>{escape(line)}</p>' for line in lines if line)}"
        f"{wide_html(_table(heads, rows), 'Metal to come off')}"
        '<p class="quiet">All in mm; plus is '
        f"too far out at the film. {escape(cam_wording.PRESUMED)} "
        f"{escape(cam_wording.ONE_WAY)}</p></section>"
    )


def _new_cam(cam: Cam) -> str:
    table = cam.table(STEP)
    rows = zip(
        [cam_wording.place(float(r)) for r in table.rotation],
        [format_distance(float(d)) for d in table.film_distance],
        [_fine(y) for y in table.lift],
        [f"± {_fine(t)}" for t in table.tolerance],
        strict=True,
    )
    heads = ("place", "sharp at", "lift, mm", "true within, mm")
    return (
        '<section class="answer"><p class="headline scale" role="status">'
        f"{escape(cam_wording.said_law(cam.law))}.</p>"
        f"<p>{escape(cam_wording.said_tolerance(cam))}</p>{_table(heads, rows)}</section>"
    )


def _table(heads: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    head = "".join(f"<th>{escape(one)}</th>" for one in heads)
    body = "".join(
        f"<tr><th>{escape(first)}</th>{''.join(f'<td>{escape(cell)}</td>' for cell in rest)}</tr>"
        for first, *rest in rows
    )
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def _fine(mm: float) -> str:
    return _bare(format_length(float(mm), places=3))


def _bare(length: str) -> str:
    """A length without its unit, which stands once under the table."""
    return length.removesuffix(" mm")


def _film(mm: float) -> str:
    return f"{mm:+.3f}".replace("-", "−") if abs(mm) >= 0.0005 else "0"
