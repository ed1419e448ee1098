"""The three sheets of a job, printed from what is saved."""

from collections.abc import Callable
from datetime import date
from functools import partial

import streamlit as st

from optics.records.library import LetterheadItem
from optics.records.report import report_of
from optics.report.job_report import JobReport
from optics.sheets.bench_sheet import bench_sheet
from optics.sheets.certificate import certificate
from optics.sheets.customer_page import customer_page
from ui.asking.fields import choice, name_field
from ui.job.answering import found
from ui.job.record_draft import RecordDraft
from ui.kept.library import library_items

_SHEETS: dict[str, Callable[..., bytes]] = {
    "Certificate (PDF)": certificate,
    "Bench sheet (PDF)": bench_sheet,
    "Customer's page (PDF)": customer_page,
}


def offer_sheets(record: RecordDraft) -> None:
    """Ask for paper and letterhead, and offer the sheets."""
    report = found([], partial(report_of, record.kept.job))
    if report is None:
        return
    with st.container(key="sheets"):
        workshop, address, paper = _letterhead()
        row = st.container(horizontal=True, key="three_sheets")
        for label, sheet in _SHEETS.items():
            if sheet is certificate and not report.corrections_left:
                continue
            _offer(
                row,
                label,
                sheet,
                report,
                {
                    "made": date.today(),
                    "workshop": workshop,
                    "address": address,
                    "number": str(record.kept.line.number),
                    "page_size": paper,
                },
            )
        st.caption(_said(report, bool(record.mine)))


def _said(report: JobReport, is_unsaved: bool) -> str:
    missing = "" if report.corrections_left else "A certificate needs a measured reading as left. "
    return missing + ("The sheets hold what is saved." if is_unsaved else "")


def _letterhead() -> tuple[str, str, str]:
    """Workshop, its address and the paper: a letterhead of the library, or what is typed."""
    heads = [item for _, item in library_items("letterhead") if isinstance(item, LetterheadItem)]
    left, right = st.columns([3, 1])
    with right:
        paper = choice("paper", ["A4", "Letter"], "record.paper")
    with left:
        if heads:
            named = {item.name: item.part for item in heads}
            part = named[choice("letterhead", list(named), "record.letterhead")]
            return part.name, part.address, paper
        return name_field("workshop's name on the sheets", "record.workshop", None), "", paper


def _offer(
    row: st.delta_generator.DeltaGenerator,
    label: str,
    sheet: Callable[..., bytes],
    report: JobReport,
    said: dict[str, object],
) -> None:
    name = sheet.__name__.replace("_", "-")
    row.download_button(
        label,
        partial(sheet, report, **said),
        key=f"sheet_{name}",
        mime="application/pdf",
        file_name=f"{name}-{said['number']}.pdf",
        on_click="ignore",
    )
