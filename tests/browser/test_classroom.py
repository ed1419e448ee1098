"""The classroom under a person's hands: sections, sliders and text, refusals, and Why?"""

import re
import time
from typing import Literal

import hands
import pytest
from playwright.sync_api import Browser, Locator, Page, ViewportSize, expect
from test_correction_looks import broken_rules

from optics.teaching.classroom.section import Section
from optics.teaching.classroom.sections import COUPLING, LENS, SECTIONS, TRIANGLE

SECTION, RELATION, FIND = "Section", "Relation", "Find"
DISTANCE, FOCAL = "Distance from the film plane to the subject D", "Focal length f"
# Hardly a figure of speed on a machine busy with other tests; the benchmark holds the real one.
LATENCY = 3.0


def opened(page: Page, address: str) -> Page:
    """Open the classroom at its own address."""
    hands.open_at(page, f"{address}/classroom")
    expect(page.get_by_role("combobox", name=SECTION)).to_be_visible()
    hands.wait_until_idle(page, 0.4)
    return page


def typed(page: Page, label: str, text: str) -> None:
    """Fill one field and wait for the answer."""
    hands.type_into(page, label, text, delay=0)
    hands.wait_until_idle(page, 0.3)


def slider(page: Page, words: str) -> Locator:
    """The slider of a quantity."""
    return page.get_by_role("slider", name=f"{words}, slider")


def reads(page: Page, words: str) -> str:
    """What a slider says it stands at, to who cannot see it."""
    said = slider(page, words).get_attribute("aria-valuetext")
    assert said is not None
    return said


@pytest.mark.parametrize(
    ("size", "scheme", "checked"),
    # The checker takes its time, and all sections are made of the same parts: each third is tried.
    [(hands.DESK, "light", SECTIONS[::3]), (hands.PHONE, "dark", SECTIONS[1::3])],
    ids=["desk", "phone"],
)
def test_every_section_opens_with_its_drawing(
    size: ViewportSize,
    scheme: Literal["light", "dark"],
    checked: tuple[Section, ...],
    chromium: Browser,
    bench_address: str,
) -> None:
    """Each section shows an answer, one drawing and its derivation, fits, and breaks no rule."""
    context = chromium.new_context(viewport=size, color_scheme=scheme)
    page = opened(context.new_page(), bench_address)
    for section in SECTIONS:
        hands.choose(page, SECTION, section.title)
        expect(page.locator(".idea")).to_contain_text(section.idea[:40])
        expect(page.locator(".lesson .headline strong")).to_be_visible()
        expect(page.locator(".js-plotly-plot")).to_have_count(1)
        expect(page.get_by_role("heading", name="Where it comes from")).to_be_attached()
        expect(page.locator(".katex-error")).to_have_count(0)
        assert page.get_by_test_id("stException").count() == 0
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
        assert section not in checked or broken_rules(page) == []
    context.close()


def test_slider_and_text_are_one_figure(page: Page, bench_address: str) -> None:
    """Typing moves the slider, the slider writes the text, and nothing else rewrites it."""
    opened(page, bench_address)
    distance = "distance from the film plane to the subject"
    typed(page, DISTANCE, "1,3 m")
    expect(hands.field(page, DISTANCE)).to_have_value("1,3 m")
    expect(hands.echo_of(page, DISTANCE)).to_have_text("= 1.3 m")
    assert reads(page, distance) == "1,3 m"
    slider(page, distance).focus()
    page.keyboard.press("ArrowRight")
    hands.wait_until_idle(page, 0.6)
    expect(hands.field(page, DISTANCE)).to_have_value("1.5 m")
    assert reads(page, distance) == "1.5 m"
    page.keyboard.press("End")
    hands.wait_until_idle(page, 0.6)
    expect(hands.field(page, DISTANCE)).to_have_value("∞")
    expect(hands.headline(page)).to_contain_text("x = 0 mm")
    typed(page, DISTANCE, "3 ft 6")
    typed(page, FOCAL, "50")
    expect(hands.field(page, DISTANCE)).to_have_value("3 ft 6")
    # Beyond the slider's ends the text still counts, and the slider stands at it.
    typed(page, FOCAL, "210 mm")
    assert reads(page, "focal length") == "210 mm"
    expect(hands.field(page, FOCAL)).to_have_value("210 mm")


def test_published_figure_comes_out(page: Page, bench_address: str) -> None:
    """A lens of 50 mm and a tape of 1 m give the published 2.7864 mm, worked line by line."""
    opened(page, bench_address)
    typed(page, FOCAL, "50")
    typed(page, DISTANCE, "1 m")
    expect(hands.headline(page)).to_contain_text("x = 2.786 mm")
    expect(page.locator(".st-key-lesson .katex").filter(has_text="2.7864").first).to_be_visible()
    expect(page.locator(".told").first).to_contain_text("If the focal length grows by 0.5 mm")


def test_refusals_are_one_clear_sentence(page: Page, bench_address: str) -> None:
    """Nonsense, and a subject too near, are each refused in one sentence, the text left alone."""
    opened(page, bench_address)
    for text, said in (
        ("1,200", "cannot be understood"),
        ("10 cm", "must be at least 188 mm"),
    ):
        typed(page, DISTANCE, text)
        expect(hands.problems(page)).to_have_count(1)
        expect(hands.problems(page)).to_contain_text(said)
        assert len(re.findall(r"[.!?](?= [A-Z]|$)", hands.problems(page).inner_text())) == 1
        expect(hands.field(page, DISTANCE)).to_have_value(text)
    typed(page, DISTANCE, "2 m")
    expect(hands.problems(page)).to_have_count(0)


def test_any_relation_may_be_turned_round(page: Page, bench_address: str) -> None:
    """Another relation is drawn as a curve, solved for what is chosen, and keeps the figures."""
    opened(page, bench_address)
    typed(page, FOCAL, "50")
    hands.choose(page, RELATION, "Thin lens")
    expect(hands.field(page, FOCAL)).to_have_value("50")
    typed(page, "Distance from the front principal plane to the subject s", "3 m")
    # College Physics, ch. 25: f 50, 3.00 m: 5.08 cm.
    expect(hands.headline(page)).to_contain_text("v = 50.85 mm")
    expect(page.locator(".js-plotly-plot")).to_have_count(1)
    hands.choose(page, "Drawn against", "focal length f")
    hands.choose(page, FIND, "f · focal length")
    # What was found is what the other question begins with.
    expect(hands.headline(page)).to_contain_text("f = 50 mm")


def test_why_brings_the_numbers_along(page: Page, bench_address: str) -> None:
    """A step of the Correction opens the classroom with its numbers, and the page keeps its own."""
    hands.open_correction(page, bench_address)
    hands.type_into(page, "Really sharp at", "17,5 m")
    hands.wait_until_idle(page)
    hands.press(page.get_by_text("Show the working"))
    expect(page.get_by_role("button", name="Why?").first).to_be_visible()
    hands.wait_until_idle(page)
    error = hands.headline(page).locator("strong").inner_text()
    hands.press(page.get_by_role("button", name="Why?").first)
    expect(page.get_by_role("combobox", name=RELATION)).to_have_value("Mark error")
    hands.wait_until_idle(page, 0.4)
    sharp = "Distance from the film plane that is really sharp"
    expect(hands.field(page, sharp)).to_have_value("17.5 m")
    expect(hands.field(page, "Distance engraved at the ring's mark")).to_have_value("∞")
    found = float(re.findall(r"0\.\d+", hands.headline(page).inner_text())[0])
    assert found == pytest.approx(float(re.findall(r"0\.\d+", error)[0]), abs=6e-4)
    hands.press(page.get_by_role("link", name="Correction"))
    expect(hands.field(page, "Really sharp at")).to_have_value("17,5 m")


def test_why_is_on_the_other_pages(page: Page, bench_address: str) -> None:
    """Depth, rangefinder and standard lead to their sections."""
    for address, label, section, carried, figure in (
        ("depth_and_scales", "Band drawn for", "Depth of field and focus", FOCAL, "47 mm"),
        ("rangefinder", "Task", COUPLING.title, FOCAL, "47 mm"),
        ("standard_and_marks", "Task", "Tilt of the standard", "F-number N", "2.8"),
    ):
        hands.open_at(page, f"{bench_address}/{address}")
        expect(page.get_by_role("combobox", name=label)).to_be_visible()
        hands.wait_until_idle(page, 0.4)
        hands.press(page.get_by_role("button", name="Why?"))
        expect(page.get_by_role("combobox", name=SECTION)).to_have_value(section)
        hands.wait_until_idle(page, 0.4)
        expect(hands.field(page, carried)).to_have_value(figure)
        expect(hands.problems(page)).to_have_count(0)


def test_what_was_typed_outlives_another_section(page: Page, bench_address: str) -> None:
    """Text typed in a section is there on coming back from another, and from another page."""
    opened(page, bench_address)
    typed(page, DISTANCE, "2,2 m")
    hands.choose(page, SECTION, TRIANGLE.title)
    expect(hands.field(page, DISTANCE)).to_have_value("1.5 m")
    hands.choose(page, SECTION, LENS.title)
    expect(hands.field(page, DISTANCE)).to_have_value("2,2 m")
    hands.press(page.get_by_role("link", name="Rangefinder"))
    expect(page.get_by_role("combobox", name="Task")).to_be_visible()
    hands.wait_until_idle(page)
    hands.press(page.get_by_role("link", name="Classroom"))
    expect(hands.field(page, DISTANCE)).to_have_value("2,2 m")


def test_answer_follows_soon(page: Page, bench_address: str) -> None:
    """The headline follows the last key of a figure without a wait one would notice."""
    opened(page, bench_address)
    waits = []
    for text, said in (("52", "1.94 mm"), ("61", "2.706 mm"), ("55", "2.18 mm")):
        hands.type_into(page, FOCAL, text[:-1], delay=0)
        hands.wait_until_idle(page, 0.3)
        started = time.monotonic()
        page.keyboard.type(text[-1])
        expect(hands.headline(page)).to_contain_text(said)
        waits.append(time.monotonic() - started)
    print("answer after the last key: " + ", ".join(f"{1000 * w:.0f} ms" for w in waits))
    assert min(waits) <= LATENCY
