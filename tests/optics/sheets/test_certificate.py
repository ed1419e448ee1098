"""The certificate: everything that was found, done and left, and no more than is known."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from optics.camera.cautions import LOCAL_RULES
from optics.drawing.page import MARGIN, PAPERS
from optics.errors import NoAnswer, OutOfRange
from optics.measure.decision import said_decision, said_probability, said_rule
from optics.measure.uncertainty import budget
from optics.measure.verdict import Verdict
from optics.readings import wording
from optics.readings.correction import Correction
from optics.report.job_report import InstrumentUsed, JobReport
from optics.sheets.bench_sheet import bench_sheet
from optics.sheets.certificate import NO_ACCREDITATION, certificate
from optics.sheets.customer_page import customer_page
from tests.optics.sheets.reports import BARE, CASES, left, report
from tests.optics.sheets.test_note import OVERHANG, overlapping, plain

MADE = date(2026, 3, 6)
HEADING: dict[str, Any] = {
    "made": MADE,
    "workshop": "Lantern Street Camera Works",
    "address": "14 Lantern Street\nby appointment",
    "number": "147",
}
MM = 25.4 / 72
ReadBack = Callable[[bytes], Any]


def made(it: JobReport, **changed: Any) -> bytes:
    """Make the certificate with everyday headings unless others are given."""
    return certificate(it, **{**HEADING, **changed})


@pytest.mark.parametrize("sheet", [certificate, bench_sheet, customer_page])
@pytest.mark.parametrize("case", CASES)
def test_every_page_stays_inside_its_margins(
    sheet: Callable[..., bytes], case: str, page_size: str, read_back: ReadBack
) -> None:
    """However much was written, nothing runs off a page and no text lies over other text."""
    back = read_back(sheet(report(**CASES[case]), **HEADING, page_size=page_size))
    paper = PAPERS[page_size]
    for page in range(len(back.pages)):
        reached = back.extent(page)
        assert reached[0] >= MARGIN - OVERHANG
        assert reached[1] >= MARGIN - OVERHANG
        assert reached[2] <= paper.width - MARGIN + OVERHANG
        assert reached[3] <= paper.height - MARGIN + OVERHANG
    if case in ("whole", "bare"):
        assert overlapping(back) == []


@pytest.mark.parametrize("sheet", [certificate, bench_sheet, customer_page])
def test_the_same_job_gives_the_same_bytes(sheet: Callable[..., bytes]) -> None:
    """Made twice from the same job on the same day, a sheet is the same to the byte."""
    assert sheet(report(), **HEADING) == sheet(report(), **HEADING)


@pytest.mark.parametrize("sheet", [certificate, bench_sheet, customer_page])
def test_an_unknown_paper_is_refused(sheet: Callable[..., bytes]) -> None:
    """A paper that is neither A4 nor Letter is refused."""
    with pytest.raises(OutOfRange, match="The paper must be A4 or Letter"):
        sheet(report(), **HEADING, page_size="A3")


def test_a_usual_job_is_one_page(read_back: ReadBack) -> None:
    """The certificate of a job with an everyday amount of writing takes one page."""
    assert len(read_back(made(report())).pages) == 1


@pytest.mark.parametrize("case", ["whole", "bare", "far out", "exact", "long"])
def test_the_certificate_tells_everything(case: str, read_back: ReadBack) -> None:
    """Every answer, decision, chance, cause, instrument, rule and caution is on the paper."""
    it = report(**CASES[case])
    text = read_back(made(it)).text
    said = [said_rule(it.guard), LOCAL_RULES, NO_ACCREDITATION, HEADING["workshop"], "Job 147"]
    said += [f"{i.name} {i.limit}" for i in it.instruments]
    said += [word for i in it.instruments for word in i.source.split()]
    if case != "long":
        said += [w.done for w in it.work] + [w.quantity for w in it.work]
        said += [text for row in it.condition for text in row]
    for taken in (*it.found, *it.left):
        said += [taken.title, taken.day]
        if taken.decision is not None:
            assert isinstance(taken.answer, Correction)
            said += [wording.headline(taken.answer), said_decision(taken.decision)]
            said += [said_probability(taken.decision)]
            said += [caution.text for caution in taken.answer.cautions]
    for correction in it.corrections_left:
        said += [name for name, _, _ in budget(correction.error)]
    assert [one for one in said if plain(one) not in text.replace("\xa0", " ")] == []


# Allowed is ± 0.04 mm; the register's nominal is 28.80 mm.
@pytest.mark.parametrize(
    ("measured", "limit", "says"),
    [
        ("28.81", "0.005 mm", "Lens focus as left: inside tolerance (register alone)"),
        ("28.90", "0.005 mm", "Lens focus as left: outside tolerance"),
        ("28.839", "0.005 mm", "Lens focus as left: too close to the tolerance to tell"),
    ],
)
def test_the_result_is_the_decision(
    measured: str, limit: str, says: str, read_back: ReadBack
) -> None:
    """The heading says inside, outside or too close to tell, as the guard band has it."""
    assert says in read_back(made(report(left=left(measured, limit)))).text


def test_the_worst_reading_decides(read_back: ReadBack) -> None:
    """One reading outside is enough, however many are inside."""
    both = left("28.81") + left("28.95")
    assert "Lens focus as left: outside tolerance" in read_back(made(report(left=both))).text
    text = read_back(made(report(left=left("28.81") * 2))).text
    assert "Lens focus as left: inside tolerance (all 2 readings)" in text


def test_what_else_is_out_stands_beside_the_result(read_back: ReadBack) -> None:
    """A lens inside tolerance does not hide a rangefinder or gate that is not proved right."""
    whole = report(**CASES["checked"])
    assert whole.open_checks
    text = read_back(made(whole)).text
    for one in whole.open_checks:
        how = "outside tolerance" if one.verdict is Verdict.OUTSIDE else "cannot be told"
        assert f"{one.title}, as last measured: {how}" in text


def test_what_was_checked_is_told_without_orders(read_back: ReadBack) -> None:
    """All that was found besides focus stands on the paper, and what is still to do does not."""
    whole = report(**CASES["checked"])
    text = read_back(made(whole)).text.replace("\xa0", " ")
    bench = read_back(bench_sheet(whole, **HEADING)).text.replace("\xa0", " ")
    orders = [line for one in whole.checked for line in (*one.to_do, *one.weighed)]
    assert orders
    for one in whole.checked:
        assert [said for said in one.said if plain(said) not in text] == []
    assert [said for said in orders if plain(said) in text] == []
    assert [said for said in orders if plain(said) not in bench] == []


def test_without_a_guard_band_the_certificate_says_so(read_back: ReadBack) -> None:
    """Decided without a guard band, the paper names that rule and not the other."""
    it = report(left=left("28.839"), work={"decision": {"guard_band": "none"}})
    text = read_back(made(it)).text
    assert "Lens focus as left: inside tolerance" in text
    assert "no guard band (w = 0, ILAC-G8:09/2019)" in text
    assert "w = U" not in text


def test_nothing_is_certified_that_was_not_measured() -> None:
    """Without a measured reading as left there is no certificate, and the reason is said."""
    parallax = [{"reading": {"kind": "parallax", "image_moves": "not at all"}}]
    for readings in ([], parallax):
        with pytest.raises(NoAnswer, match="needs a measured reading as left: got none"):
            made(report(left=readings))


def test_found_and_left_are_drawn_to_one_scale(read_back: ReadBack) -> None:
    """On the drawing both errors stand to the tolerance as their figures do, on their sides."""
    # Register 28.86 and 28.78 against 28.80: 0.06 out and 0.02 in, allowed 0.04.
    it = report(found=left("28.86"), left=left("28.78"))
    page = read_back(made(it)).pages[0]
    diamonds = [c for c in page.curves if abs(c["width"] * MM - 2.6) < 0.05 and len(c["pts"]) == 5]
    found, now = sorted(diamonds, key=lambda c: c["top"])
    band = next(r for r in page.rects if abs(r["height"] * MM - 18.6) < 0.1)
    middle, half = (band["x0"] + band["x1"]) / 2, band["width"] / 2
    places = [((c["x0"] + c["x1"]) / 2 - middle) / half for c in (found, now)]
    assert places == [pytest.approx(1.5, abs=0.02), pytest.approx(-0.5, abs=0.02)]


def test_a_bare_certificate_is_still_whole(read_back: ReadBack) -> None:
    """A job with nothing but a reading as left gives a certificate that says what is missing."""
    text = read_back(made(report(**BARE), workshop=" ", number="")).text
    assert "No work is recorded." in text
    # Room for a stamp, and no word that would be taken for a name.
    assert "Workshop" not in text
    assert "14 Lantern Street" in text


def test_a_reading_without_uncertainty_is_drawn_as_one(read_back: ReadBack) -> None:
    """Where no uncertainty was stated, the drawing says so instead of showing a point as exact."""
    gauged = {"kind": "register", "measured": "45.46", "nominal": "45.46", "limit": "0 mm"}
    bare = [{"reading": gauged, "instrument": "Tape"}]
    text = read_back(made(report(left=bare))).text
    assert "right, ± not known" in text
    assert "Tape not stated" in text
    assert "± 0 mm" not in text
    assert "0.000 mm" not in text


def test_parallax_is_told_without_an_order(read_back: ReadBack) -> None:
    """What parallax showed stands on the paper, and not that another reading is to be taken."""
    text = read_back(made(report())).text
    assert "The lens is too far out for this target. Parallax tells the direction only." in text
    assert "take a measured reading" not in text.lower()


def test_no_two_readings_look_alike(read_back: ReadBack) -> None:
    """Result, readings and sources of uncertainty each say what was read, with its tries."""
    both = left("28.81") + left("28.802; 28.804")
    text = read_back(made(report(left=both))).text
    for tries in ("28.81 mm", "28.802 mm; 28.804 mm"):
        assert text.count(f"Register: {tries}, made for 28.80 mm.") == 3


def test_no_figure_is_finer_than_any_instrument(read_back: ReadBack) -> None:
    """An uncertainty of next to nothing is not spelled out in zeros, and never said to be none."""
    text = read_back(made(report(left=left("28.80", "0.0000002 mm")))).text
    assert "0.0000001" not in text
    assert "less than 0.0001 mm" in text
    assert "w = U less than 0.001 mm" in text


def test_a_standard_that_gives_a_limit_has_calibrated_nothing(read_back: ReadBack) -> None:
    """Where a limit comes from stands with the limit; who calibrated it is who was written down."""
    listed = InstrumentUsed("Tape", "± 5 mm", "Weir Lane", calibrated_by="Weir Lane")
    named = InstrumentUsed("Dial gauge", "± 0.015 mm", "JIS B 7503:2011, extract")
    it = replace(report(**CASES["whole"]), instruments=(listed, named))
    text = " ".join(read_back(made(it)).text.split())
    assert "± 5 mm Weir Lane Dial gauge ± 0.015 mm (JIS B 7503:2011, extract)" in text
