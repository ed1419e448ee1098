"""The Correction page under a person's hands: what is typed, and what the page makes of it."""

import io
import json
from pathlib import Path

import hands
import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from optics.readings.kinds.collimator import CollimatorPart
from optics.readings.kinds.mark import MarkPart
from optics.readings.kinds.parallax import ParallaxPart
from optics.readings.kinds.register import RegisterPart
from optics.readings.kinds.rotation import RotationPart
from optics.readings.kinds.ruler import RulerPart
from optics.records.files import read_job
from optics.records.lantern_street import CAMERAS
from ui.asking.camera_form import OWN
from ui.command import main

CAMERA, READING = "Camera (examples, invented)", "Reading"
OSTRIN, CORVANE, TARNBROOK = (camera.name for camera in CAMERAS)
MARK, ROTATION, REGISTER, COLLIMATOR, RULER, PARALLAX = (
    part.title
    for part in (MarkPart, RotationPart, RegisterPart, CollimatorPart, RulerPart, ParallaxPart)
)
SENSES = ("too far out", "too far in", "right")


def opened(page: Page, address: str, reading: str = MARK, camera: str = OSTRIN) -> Page:
    """Open the bench at a reading of a camera."""
    hands.open_correction(page, address)
    hands.choose(page, CAMERA, camera)
    hands.choose(page, READING, reading)
    return page


def type_all(page: Page, **texts: str) -> None:
    """Fill fields in, by the first words of their labels with underscores for spaces."""
    for label, text in texts.items():
        hands.type_into(page, label.replace("_", " "), text, delay=0)
    hands.wait_until_idle(page)


def plain_text(page: Page) -> str:
    """Return the answer as the page offers it for copying."""
    code = page.get_by_test_id("stCode")
    if not code.is_visible():
        hands.press(page.get_by_text("As plain text, to copy"))
    expect(code).to_be_visible()
    hands.wait_until_idle(page)
    return str(code.locator("code").inner_text())


# What is typed, where, what is understood, and what follows. The answers are worked by hand
# from published definitions: a reticle moved by d shows as d·(f/f_c)² at the film, here with
# f 47 and f_c 300 mm (0.02454·d); an inch is 25.4 mm, so 1/8 in is 3.175 mm; and a lens that
# is sharp just where its mark says stands right.
UNDERSTOOD = [
    (COLLIMATOR, {"Reticle_moved": "1,5"}, "= 1.5 mm", "0.037 mm too far out"),
    (COLLIMATOR, {"Reticle_moved": "−0.05"}, "= −0.05 mm", "0.001 mm too far in"),
    (MARK, {"Really_sharp_at": "3 ft 6", "Ring_mark": "3 ft 6"}, "= 1.067 m = 3 ft 6 in", "right"),
    (MARK, {"Really_sharp_at": "∞", "Ring_mark": "∞"}, "= infinity (∞)", "right"),
    (
        REGISTER,
        {"Nominal": "3.175 mm", "Measured": "1/8 in"},
        "= 3.175 mm = 1/8 in",
        "right",
    ),
    (
        REGISTER,
        {"Nominal": "3 mm", "Measured": "1/8 in"},
        "= 3.175 mm = 1/8 in",
        "0.175 mm too far out",
    ),
]


def test_what_is_typed_as_people_write_it_is_answered(page: Page, bench_address: str) -> None:
    """Commas, feet, fractions, ∞ and a real minus are understood, echoed and answered."""
    opened(page, bench_address)
    for reading, texts, echo, answer in UNDERSTOOD:
        hands.choose(page, READING, reading)
        type_all(page, **texts)
        label, typed = list(texts.items())[-1]
        expect(hands.echo_of(page, label.replace("_", " "))).to_have_text(echo)
        expect(hands.field(page, label.replace("_", " "))).to_have_value(typed)
        expect(hands.headline(page)).to_contain_text(f"The lens is {answer}")


def test_a_negative_hiatus_is_taken_with_a_real_minus(page: Page, bench_address: str) -> None:
    """A hiatus below nothing, typed with a true minus sign, reaches the job as it was typed."""
    opened(page, bench_address)
    hands.press(page.get_by_text("More about the lens and the tolerance"))
    type_all(page, Hiatus="−0.05")
    expect(hands.echo_of(page, "Hiatus")).to_have_text("= −0.05 mm")
    expect(hands.headline(page)).to_contain_text("too far out")
    job = json.loads(hands.download(page, "Job file"))
    assert job["camera"]["lens"]["hiatus"] == "−0.05"


NONSENSE = ("1,200", "abc", "--5", "3 6")
FIELDS = ("Tape ±", "Focal length", "Full aperture", "Number of starts", "Ring mark")


def test_nonsense_is_refused_where_it_stands(page: Page, bench_address: str) -> None:
    """A text without one meaning is refused in the field and in the answer, and kept as typed."""
    opened(page, bench_address)
    for text in NONSENSE:
        type_all(page, **dict.fromkeys(FIELDS, text))
        expect(hands.headline(page)).to_contain_text("Still needed")
        expect(hands.problems(page)).to_have_count(len(FIELDS))
        for label in FIELDS:
            refusal = hands.echo_of(page, label)
            expect(refusal).to_contain_text("✕ The")
            expect(refusal).to_contain_text(f"“{text}”")
            sentence = refusal.inner_text().removeprefix("✕ ")
            expect(hands.problems(page).filter(has_text=sentence)).to_have_count(1)
            expect(hands.field(page, label)).to_have_value(text)


@pytest.mark.parametrize("camera", [OSTRIN, CORVANE, TARNBROOK])
def test_page_and_command_line_say_the_same(
    camera: str,
    page: Page,
    bench_address: str,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Each reading of each camera is answered in the very words `shimwright solve` prints."""
    opened(page, bench_address, camera=camera)
    for reading in (MARK, ROTATION, REGISTER, COLLIMATOR, RULER, PARALLAX):
        hands.choose(page, READING, reading)
        if (camera, reading) == (TARNBROOK, ROTATION):  # a bed has no thread to turn
            expect(hands.problems(page)).to_contain_text(["has no focusing thread to turn"])
            continue
        said = hands.headline(page).inner_text()
        assert any(sense in said for sense in SENSES), (reading, said)
        file = tmp_path / "job.json"
        file.write_bytes(hands.download(page, "Job file"))
        assert main(["solve", str(file)]) == 0
        printed = capsys.readouterr().out
        assert plain_text(page).split() == printed.split(), reading
        assert camera in printed
        (read,) = read_job(file.read_bytes()).readings
        assert read.said_thing in printed


def test_remedies_are_in_shop_units(page: Page, bench_address: str) -> None:
    """Shims come in leaves, turns in degrees and mm of arc with a sense, starts by count."""
    # 3 mm in is one start of an 18 mm lead with 6 starts (18/6), which is 60° of a turn; on a
    # ring of 52 mm that is 27.2 mm of arc (52π/6).
    opened(page, bench_address, REGISTER)
    type_all(page, Measured="25.8", Nominal="28.8", Shims_in_the_drawer="1 × 4")
    cards = page.locator(".offers")
    expect(hands.headline(page)).to_contain_text("3.000 mm too far in")
    expect(cards).to_contain_text("add 3.000 mm")
    expect(cards).to_contain_text("3 × 1 mm")
    expect(cards).to_contain_text("60.0° counter-clockwise")
    expect(cards).to_contain_text("27.2 mm on ⌀ 52 mm")
    expect(cards).to_contain_text("1 start clockwise")


def test_the_sense_of_turning_follows_the_camera(page: Page, bench_address: str) -> None:
    """The same error on a lens that moves out the other way round is mended the other way."""
    opened(page, bench_address)
    ring = page.locator(".offer", has_text="Focusing ring")
    expect(ring).to_contain_text("2.4° clockwise, seen from the front")
    hands.choose(page, "Lens moves out when turned", "clockwise")
    expect(ring).to_contain_text("2.4° counter-clockwise, seen from the front")
    expect(page.get_by_role("img", name="Turn 2.4° counter-clockwise")).to_be_visible()


def test_switching_loses_nothing_typed(page: Page, bench_address: str) -> None:
    """Another camera, another reading and back again: every text stands as it was typed."""
    opened(page, bench_address)
    type_all(page, Really_sharp_at="20,5 m", Full_aperture="1,200")
    hands.choose(page, READING, ROTATION)
    type_all(page, Turned_until_sharp="7")
    hands.choose(page, CAMERA, CORVANE)
    expect(hands.field(page, "Full aperture")).to_have_value("f/3.5")
    hands.choose(page, READING, MARK)
    type_all(page, Really_sharp_at="5 m")
    hands.choose(page, CAMERA, OSTRIN)
    expect(hands.field(page, "Turned until sharp")).to_have_value("7")
    expect(hands.field(page, "Full aperture")).to_have_value("1,200")
    hands.choose(page, READING, MARK)
    expect(hands.field(page, "Really sharp at")).to_have_value("20,5 m")
    hands.choose(page, CAMERA, CORVANE)
    expect(hands.field(page, "Really sharp at")).to_have_value("5 m")


def test_own_camera_starts_blank_and_says_what_to_enter(page: Page, bench_address: str) -> None:
    """One's own camera has no figures of an example, asks for its own, and is then answered."""
    opened(page, bench_address, camera=OWN)
    for label in ("Really sharp at", "Focal length", "Full aperture", "Lead", "Shims in the"):
        expect(hands.field(page, label)).to_have_value("")
    expect(hands.problems(page)).to_have_text(
        [
            "Enter the distance really sharp.",
        ]
    )
    type_all(page, Really_sharp_at="18 m")
    expect(hands.headline(page)).to_contain_text("too far out")
    expect(page.locator(".answer")).to_contain_text("not known until the focal length is")
    type_all(
        page,
        Focal_length="50",
        Full_aperture="2",
        Circle_of_confusion="0.03",
        Lead="20",
        Its_name="Mine <b>& only</b>",
    )
    expect(hands.headline(page)).to_contain_text("too far out")
    assert plain_text(page).startswith("Mine <b>& only</b>\n")


def test_each_way_of_focusing_keeps_its_own_figures(page: Page, bench_address: str) -> None:
    """The lead of a helicoid is not that of a front cell; each comes back with its kind."""
    opened(page, bench_address, camera=OWN)
    type_all(page, Lead="20 mm", Number_of_starts="5")
    hands.choose(page, "It focuses", "the front cell alone")
    expect(hands.field(page, "Lead")).to_have_value("")
    type_all(page, Lead="9 mm")
    hands.choose(page, "It focuses", "on a bed or struts")
    expect(hands.field(page, "Lead")).to_have_count(0)
    hands.choose(page, "It focuses", "the whole lens on a thread")
    expect(hands.field(page, "Lead")).to_have_value("20 mm")
    expect(hands.field(page, "Number of starts")).to_have_value("5")
    hands.choose(page, "It focuses", "the front cell alone")
    expect(hands.field(page, "Lead")).to_have_value("9 mm")


def test_the_note_is_one_page_with_the_answer(page: Page, bench_address: str) -> None:
    """The note that is downloaded is a PDF of one page and says what the page says."""
    opened(page, bench_address)
    found = hands.answered(page)
    note = PdfReader(io.BytesIO(hands.download(page, "One-page note")))
    assert len(note.pages) == 1
    assert found in " ".join(note.pages[0].extract_text().split())


def test_the_text_can_be_copied(page: Page, bench_address: str) -> None:
    """One press puts the whole answer on the clipboard as plain text."""
    page.context.grant_permissions(["clipboard-read", "clipboard-write"])
    opened(page, bench_address)
    text = plain_text(page)
    hands.press(page.get_by_label("Copy to clipboard"))
    copied = page.evaluate("navigator.clipboard.readText()")
    assert copied.split() == text.split()
    assert "The lens is 0.119 mm too far out" in copied


def test_using_the_page_reaches_nobody_and_complains_of_nothing(
    page: Page, bench_address: str
) -> None:
    """Reading, refusing, downloading and unfolding make no outside request and no complaint."""
    outside: list[str] = []
    complaints: list[str] = []
    own = ("data:", "blob:", bench_address, bench_address.replace("http", "ws"))
    page.on("request", lambda r: r.url.startswith(own) or outside.append(r.url))
    page.on("websocket", lambda w: w.url.startswith(own) or outside.append(w.url))
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.on("console", lambda m: m.type in {"error", "warning"} and complaints.append(m.text))
    opened(page, bench_address)
    for title in ("Show the working", "Where the uncertainty comes from", "As plain text, to copy"):
        hands.press(page.get_by_text(title))
    type_all(page, Really_sharp_at="abc")
    type_all(page, Really_sharp_at="12 m; 14 m")
    hands.choose(page, READING, REGISTER)
    hands.choose(page, "Measured with", "Caliper's depth rod")
    expect(page.get_by_text("cannot verify ±0.02 mm")).to_be_visible()
    hands.download(page, "One-page note")
    assert outside == []
    assert complaints == []


def test_tab_walks_the_page_in_reading_order(page: Page, bench_address: str) -> None:
    """The keyboard goes from camera to reading to fields, row by row, with no stop between."""
    opened(page, bench_address)
    page.get_by_role("combobox", name=CAMERA).focus()
    walked = []
    for _ in range(14):
        walked.append(
            page.evaluate(
                "document.activeElement.getAttribute('aria-label')"
                " ?? document.activeElement.querySelector('p').textContent"
            )
        )
        page.keyboard.press("Tab")
    assert [words.split(", ")[0] for words in walked] == [
        CAMERA.split(", ")[0],
        READING,
        "Ring mark",
        "Really sharp at",
        "Tape ±",
        "It focuses",
        "Lens moves out when turned",
        "Focal length",
        "Full aperture",
        "Circle of confusion",
        "Lead",
        "Number of starts",
        "Ring diameter",
        "More about the lens and the tolerance",
    ]


def test_a_correction_by_keys_alone(page: Page, bench_address: str) -> None:
    """With no mouse at all a camera and reading are chosen, typed, answered and printed."""
    hands.open_correction(page, bench_address)
    page.keyboard.press("Tab")
    for box, option in ((CAMERA, CORVANE), (READING, REGISTER)):
        hands.tab_to(page, box)
        hands.choose_by_keys(page, option)
        expect(page.get_by_role("combobox", name=box)).to_have_value(option)
    hands.tab_to(page, "Measured")
    page.keyboard.press("Control+A")
    page.keyboard.type("92.10")
    hands.tab_to(page, "Nominal")
    page.keyboard.press("Control+A")
    page.keyboard.type("92.00")
    hands.wait_until_idle(page)
    expect(hands.headline(page)).to_contain_text("0.100 mm too far out")
    hands.tab_to(page, "One-page note")
    with page.expect_download() as note:
        page.keyboard.press("Enter")
    assert note.value.suggested_filename == "correction.pdf"
    hands.tab_to(page, "Show the working")
    page.keyboard.press("Enter")
    expect(page.locator(".katex").first).to_be_visible()


def test_enter_answers_and_stays(page: Page, bench_address: str) -> None:
    """Enter takes the text at once and leaves the keyboard in the field."""
    opened(page, bench_address)
    type_all(page, Really_sharp_at="∞")
    page.keyboard.press("Enter")
    hands.wait_until_idle(page)
    expect(hands.headline(page)).to_contain_text("The lens is right")
    assert (
        page.evaluate("document.activeElement.getAttribute('aria-label')") == "Really sharp at, m"
    )


@pytest.mark.parametrize("size", ["page", "phone_page"])
def test_tiny_and_huge_errors_are_answered_calmly(
    size: str, bench_address: str, request: pytest.FixtureRequest
) -> None:
    """Errors from below a micrometre to a lost lens have a headline, and nothing sticks out."""
    window: Page = request.getfixturevalue(size)
    opened(window, bench_address, REGISTER)
    for measured, found in (
        ("28.8004", "right"),
        ("31.8", "3.000 mm too far out"),
        ("68.8", "40.000 mm too far out"),
    ):
        type_all(window, Nominal="28.8 mm", Measured=measured)
        expect(hands.headline(window)).to_contain_text(f"The lens is {found}")
        assert window.evaluate("document.documentElement.scrollWidth <= innerWidth")
