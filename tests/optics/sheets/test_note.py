"""The bench note: one page, true to the correction, whatever is written on it."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from itertools import combinations
from typing import Any

import pytest

from optics.camera.cautions import LOCAL_RULES
from optics.drawing.page import MARGIN, PAPERS, Sheet
from optics.moves import Picture, Refused
from optics.readings import wording
from optics.readings.correction import Correction
from optics.sheets.note import correction_note
from optics.sheets.note_figures import draw_remedy

MADE = date(2026, 3, 6)
MM = 25.4 / 72
LEFT_OUT = "left out here to keep to one page"
# Half of the heaviest rule, and how far a letter may lean over its own box.
OVERHANG = 0.3


def note_of(correction: Correction, **changed: Any) -> bytes:
    """The note with everyday headings unless others are given."""
    headings = {"title": "Lantern Street Camera Works", "reading_title": "A reading", "made": MADE}
    return correction_note(correction, **{**headings, **changed})


def plain(text: str) -> str:
    """Text with every run of white space made one space."""
    return " ".join(text.split())


def assert_one_page_inside_the_margins(back: Any, page_size: str) -> None:
    """One page, and everything on it between the margins."""
    assert len(back.pages) == 1
    left, top, right, bottom = back.extent()
    paper = PAPERS[page_size]
    assert left >= MARGIN - OVERHANG
    assert top >= MARGIN - OVERHANG
    assert right <= paper.width - MARGIN + OVERHANG
    assert bottom <= paper.height - MARGIN + OVERHANG


def overlapping(back: Any) -> list[tuple[str, str]]:
    """Pairs of words that are set over each other, a twentieth of a line's height aside."""
    words = [w for w in back.words() if w[0].strip()]
    return [
        (a[0], b[0])
        for a, b in combinations(words, 2)
        if min(a[3], b[3]) - max(a[1], b[1]) > 0.1
        and min(a[4], b[4]) - max(a[2], b[2]) > 0.12 * min(a[4] - a[2], b[4] - b[2])
    ]


def test_every_note_is_one_page(
    camera: str, reading: str, page_size: str, solved: Any, read_back: Callable[[bytes], Any]
) -> None:
    """Every camera and reading gives one page, inside the margins, with no text over text."""
    back = read_back(note_of(solved(camera, reading), page_size=page_size))
    assert_one_page_inside_the_margins(back, page_size)
    assert overlapping(back) == []
    assert LEFT_OUT not in back.text


def test_paper_and_screen_say_the_same(
    camera: str, reading: str, solved: Any, read_back: Callable[[bytes], Any]
) -> None:
    """The note holds every sentence of the answer: error, tolerance, sights, remedies, cautions."""
    correction = solved(camera, reading)
    text = read_back(note_of(correction)).text
    said = [wording.headline(correction), wording.tolerance_line(correction)]
    said += [wording.advice(correction), correction.sense.words, LOCAL_RULES]
    for sight in correction.sights:
        said += [wording.sharp_where(sight), wording.blur_at(sight)]
    for offer in correction.offers:
        if isinstance(offer, Refused):
            said += [f"{offer.title}: not called for. {offer.reason}"]
            continue
        said += [offer.title, offer.instruction, wording.residual_line(offer), *offer.notes]
        said += [words for amount in offer.amounts for words in amount]
    said += [caution.text for caution in correction.cautions]
    said += [line for step in correction.steps for line in step.working_text()]
    assert [sentence for sentence in said if plain(sentence) not in text] == []


def test_what_was_measured_is_on_the_note(solved: Any, read_back: Callable[[bytes], Any]) -> None:
    """The reading's figures are given with their limits, a turn by its sense."""
    # Means of 18.4, 18.9, 18.6 m and of 3.5, 3.8, 3.4 degrees, worked by hand.
    mark = read_back(note_of(solved("Ostrin 35", "mark"), reading_title="Ring mark")).text
    assert "Ring mark distance from the film plane that is really sharp 18.63 m ±" in mark
    turned = read_back(note_of(solved("Ostrin 35", "rotation"))).text
    assert "rotation of the ring 3.57° counter-clockwise ±" in turned
    other_way = read_back(note_of(solved("Corvane 6×6", "rotation"))).text
    assert "rotation of the ring 3.57° counter-clockwise ±" in other_way


@pytest.mark.parametrize(
    ("reading", "out"), [("register", True), ("rotation", False), ("register right", None)]
)
def test_the_drawing_shows_which_way(
    reading: str, out: bool | None, solved: Any, read_back: Callable[[bytes], Any]
) -> None:
    """A lens too far out is drawn left of its place, one too far in right, the film rightmost."""
    correction = solved("Ostrin 35", reading)
    back = read_back(note_of(correction))
    if out is None:
        assert "the lens, where it should be" in back.text
        assert "is here" not in back.text
        return
    is_here, should_be = (back.pages[0].search(f"{words} here")[0] for words in ("is", "should be"))
    found = (is_here["x0"], should_be["x0"])
    named = back.pages[0].search("film plane")
    (film,) = (one["x0"] for one in named if abs(one["top"] - is_here["top"]) < 2)
    assert max(found) < film
    assert (found[0] < found[1]) is out
    assert ("too far out" if out else "too far in") == correction.sense.words


@pytest.mark.parametrize("reading", ["mark", "rotation", "collimator", "register one start out"])
def test_the_gauge_is_to_scale(
    reading: str, solved: Any, read_back: Callable[[bytes], Any]
) -> None:
    """On the gauge the error stands to the tolerance as the figures do, too far out at the left."""
    correction = solved("Ostrin 35", reading)
    page = read_back(note_of(correction)).pages[0]
    # Both bands are 10 mm high; nothing else on the note is.
    bands = [r for r in page.rects if abs(r["height"] * MM - 10) < 0.05]
    depth, tolerance = sorted(bands, key=lambda r: -r["width"])
    middle = (tolerance["x0"] + tolerance["x1"]) / 2
    # The mark is the only diamond 2.8 mm wide.
    (mark,) = [c for c in page.curves if abs(c["width"] * MM - 2.8) < 0.05 and len(c["pts"]) == 5]
    found = (middle - (mark["x0"] + mark["x1"]) / 2) / (tolerance["width"] / 2)
    camera = correction.camera
    assert found == pytest.approx(correction.error.value / camera.allowed_error, rel=0.01)
    assert depth["width"] / tolerance["width"] == pytest.approx(2, rel=0.01)


def test_a_full_note_is_one_page(
    page_size: str, solved: Any, twelve_marks: list[str], read_back: Callable[[bytes], Any]
) -> None:
    """Twelve marks and the longest names a job can hold still make one page."""
    correction = solved("Ostrin 35", "register one start out", marks=twelve_marks)
    name = "Ostrin 35 rigid body with a long history and many former owners " * 3
    correction = replace(correction, camera=replace(correction.camera, name=name))
    headings = {"title": "A very long title for one job " * 6, "reading_title": "Reading " * 25}
    back = read_back(note_of(correction, page_size=page_size, **headings))
    assert_one_page_inside_the_margins(back, page_size)
    assert overlapping(back) == []
    assert wording.headline(correction) in back.text


def test_a_note_that_is_too_full_says_what_it_leaves_out(
    page_size: str, solved: Any, twelve_marks: list[str], read_back: Callable[[bytes], Any]
) -> None:
    """Far too many marks and notes fold, with a sentence for each, and never spill or overlap."""
    correction = solved("Ostrin 35", "rotation", marks=twelve_marks)
    offers = tuple(
        replace(offer, notes=("A note that goes on and on and on. " * 9,) * 40)
        if not isinstance(offer, Refused)
        else offer
        for offer in correction.offers
    )
    correction = replace(correction, offers=offers, sights=correction.sights * 20)
    names = {"title": "T" * 5000, "reading_title": "reading " * 900, "made_by": "M" * 900}
    back = read_back(note_of(correction, page_size=page_size, **names))
    assert_one_page_inside_the_margins(back, page_size)
    assert overlapping(back) == []
    for what in ("lines are", "more notes", "more ring marks"):
        assert what in back.text
    assert back.text.count(LEFT_OUT) >= 3
    assert wording.headline(correction) in back.text
    assert all(caution.text in back.text for caution in correction.cautions)


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        ("<b>Ostrin</b> &amp; <script>", "<b>Ostrin</b> &amp; <script>"),
        ("Ostrin \U0001f4f7 富士", "Ostrin � ��"),
        ("Ostrin\x00\x1b[31m 35", "Ostrin��[31m 35"),
        ("Ostrin\u202e 35", "Ostrin� 35"),
        ("half \ud800 pair", "half � pair"),
        (r"C:\new (paren) \( %d", r"C:\new (paren) \( %d"),
    ],
)
def test_hostile_text_is_printed_or_seen_to_be_missing(
    typed: str, printed: str, solved: Any, read_back: Callable[[bytes], Any]
) -> None:
    """Any text in any heading is printed as typed, or with � for what the type does not have."""
    correction = solved("Ostrin 35", "mark")
    correction = replace(correction, camera=replace(correction.camera, name=typed))
    back = read_back(note_of(correction, title=typed + " t", reading_title=typed, made_by=typed))
    assert_one_page_inside_the_margins(back, "A4")
    assert back.text.count(plain(printed)) == 4
    assert ("a character this type does not have" in back.text) == ("�" in printed)


def test_right_to_left_names_read_from_the_right(
    solved: Any, read_back: Callable[[bytes], Any]
) -> None:
    """The letters of a right-to-left name stand on paper with the first one rightmost."""
    page = read_back(note_of(solved("Ostrin 35", "mark"), title="אבג")).pages[0]
    stands = {char["text"]: char["x0"] for char in page.chars}
    assert stands["א"] > stands["ב"] > stands["ג"]


def test_a_nameless_note_is_still_a_note(solved: Any, read_back: Callable[[bytes], Any]) -> None:
    """Without a title the camera's name heads the note, and without that the word Camera."""
    correction = solved("Ostrin 35", "mark")
    assert "Bench note Ostrin 35 47 mm" in read_back(note_of(correction, title=" ")).text
    nameless = replace(correction, camera=replace(correction.camera, name=""))
    assert "Bench note Camera 47 mm" in read_back(note_of(nameless, title="")).text


def test_a_note_without_uncertainty_says_so(solved: Any, read_back: Callable[[bytes], Any]) -> None:
    """A reading taken as exact gives a note that says that its ± is not known."""
    text = read_back(note_of(solved("Ostrin 35", "register right"))).text
    assert "How well known ± not known" in text


def test_a_note_is_ready_for_print(solved: Any, read_back: Callable[[bytes], Any]) -> None:
    """The note brings its fonts, forbids scaling, is dated as told and names its program."""
    back = read_back(note_of(solved("Tarnbrook 6×9", "ruler"), made_by="A. Ferrow"))
    assert all(back.font_files().values())
    assert back.reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert "Made 2026-03-06 by A. Ferrow" in back.text
    assert back.reader.metadata.title == "Bench note: Lantern Street Camera Works"


def test_a_note_prints_in_black_and_white(solved: Any, read_back: Callable[[bytes], Any]) -> None:
    """Beside greys there is one colour, as dark as print, so nothing hangs on colour alone."""
    page = read_back(note_of(solved("Corvane 6×6", "mark"))).pages[0]
    drawn = [*page.chars, *page.lines, *page.curves, *page.rects]
    inks = {c["non_stroking_color"] for c in drawn} | {c["stroking_color"] for c in drawn}
    colours = {ink for ink in inks if ink and len(ink) == 3 and len(set(ink)) > 1}
    (colour,) = colours
    # Luminance by the weights of ITU-R BT.601: below a third reads as dark grey.
    assert sum(w * c for w, c in zip((0.299, 0.587, 0.114), colour, strict=True)) < 1 / 3


def test_the_same_note_has_the_same_bytes(solved: Any) -> None:
    """The same correction and headings give the same bytes, another date gives others."""
    one, again = (note_of(solved("Corvane 6×6", "rotation")) for _ in range(2))
    assert one == again
    assert one != note_of(solved("Corvane 6×6", "rotation"), made=date(2026, 3, 7))


def test_what_is_supposed_of_the_camera_is_on_the_note(
    solved: Any, read_back: Callable[[bytes], Any]
) -> None:
    """Where a front cell's own focal length was not told, the note says what is taken for it."""
    correction = solved("Corvane 6×6", "mark")
    cell = replace(correction.camera.focusing, group_limit=5.6)
    correction = replace(correction, camera=replace(correction.camera, focusing=cell))
    text = read_back(note_of(correction)).text
    assert "The focal length of the front group is not known: 42.4 mm to 53.6 mm" in text


@pytest.mark.parametrize(("picture", "word"), [(Picture.LEAF, "add"), (None, "")])
def test_the_move_says_what_is_drawn_beside_it(
    picture: Picture | None, word: str, solved: Any, read_back: Callable[[bytes], Any]
) -> None:
    """A leaf put in is drawn where the move's record names the picture, and nothing where not."""
    correction = solved("Ostrin 35", "rotation")
    sheet = Sheet(PAPERS["A4"], title="", made=MADE)
    remedy = next(one for one in correction.remedies if one.kind == "shim")
    move = replace(remedy.move, picture=picture)
    end = draw_remedy(sheet, (100.0, 100.0), replace(remedy, move=move))
    drawn = read_back(sheet.pdf()).text.partition("Made")[0].strip()
    assert (drawn, end > 100.0) == (word, picture is not None)
