"""The Whole camera page in a real browser: rows, answers, the same words as the command line."""

import json
import re
from typing import Literal
from urllib.parse import urlsplit

import hands
import pytest
from playwright.sync_api import Page, expect
from test_correction_looks import broken_rules

from optics.readings.reading_part import ReadFrom
from optics.records.lantern_street import CAMERAS
from ui.asking.camera_form import OWN
from ui.command import main

CAMERA = "Camera (examples, invented)"
OSTRIN, CORVANE, TARNBROOK = (camera.name for camera in CAMERAS)
SHARP_AT, REGISTER = "4 really sharp at", "1 measured"


def opened(page: Page, address: str, camera: str = OSTRIN) -> Page:
    """Open the page by its own address, at a camera."""
    hands.open_at(page, f"{address}/whole_camera")
    hands.choose(page, CAMERA, camera)
    return page


def press_button(page: Page, name: str) -> None:
    """Press a button of the rows and wait for the page to answer."""
    hands.press(page.get_by_role("button", name=name, exact=True))
    hands.wait_until_idle(page)


@pytest.mark.parametrize("camera", [OSTRIN, CORVANE, TARNBROOK])
def test_every_example_opens_with_its_answer(camera: str, page: Page, bench_address: str) -> None:
    """Nothing need be typed to see verdict, figure, causes and plan of each camera."""
    opened(page, bench_address, camera)
    expect(hands.headline(page)).to_contain_text("Most probable (")
    expect(page.locator(".expected img")).to_have_attribute("alt", re.compile("expected"))
    expect(page.locator("table.told tr").first).to_be_visible()
    expect(page.locator(".plan .offer").first).to_contain_text("Tool:")


def test_two_causes_alike_ask_for_the_reading_that_tells(page: Page, bench_address: str) -> None:
    """Where causes look alike the next reading stands first, and taken it settles the case."""
    opened(page, bench_address, CORVANE)
    first = page.locator(".steps")
    expect(first).to_contain_text("Most would be told by the register gauged")
    expect(page.locator(".answer ul")).to_contain_text("cannot be told apart")
    press_button(page, "Add a reading")
    for label, text in (
        ("3 measured", "45.21; 45.20; 45.21"),
        ("3 nominal", "45.2"),
        ("3 gauge", "0.015"),
    ):
        hands.type_into(page, label, text, delay=0)
    hands.wait_until_idle(page)
    expect(first).to_have_count(0)
    expect(hands.headline(page)).to_contain_text("slipped scale ring")


def test_the_answer_follows_what_is_typed(page: Page, bench_address: str) -> None:
    """Another figure gives another verdict, figure and plan."""
    opened(page, bench_address)
    before = hands.headline(page).inner_text()
    drawn = page.locator(".expected img").get_attribute("src")
    hands.type_into(page, REGISTER, "28.90; 28.901; 28.899", delay=0)
    expect(hands.headline(page)).not_to_have_text(before)
    expect(page.locator(".expected img")).not_to_have_attribute("src", drawn or "")


def test_page_and_command_line_say_the_same(
    page: Page,
    bench_address: str,
    tmp_path_factory: pytest.TempPathFactory,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The job file saved from the page, solved at the command line, gives the page's words."""
    opened(page, bench_address)
    hands.type_into(page, SHARP_AT, "1,62", delay=0)
    hands.wait_until_idle(page)
    job = hands.download(page, "Job file")
    assert json.loads(job)["readings"][3]["sharp_at"] == "1,62"
    file = tmp_path_factory.mktemp("job") / "job.json"
    file.write_bytes(job)
    assert main(["solve", str(file)]) == 0
    hands.press(page.get_by_text("As plain text, to copy"))
    shown = page.get_by_test_id("stCode").locator("code").inner_text()
    assert shown.strip() == capsys.readouterr().out.strip()


def test_rows_come_and_go_and_lose_nothing(page: Page, bench_address: str) -> None:
    """Rows added, taken away and put back keep what was typed in them and in their neighbours."""
    opened(page, bench_address)
    hands.type_into(page, SHARP_AT, "1,62", delay=0)
    hands.type_into(page, REGISTER, "28,81", delay=0)
    press_button(page, "Add a reading")
    hands.type_into(page, "6 measured", "28.79", delay=0)
    press_button(page, "✕ 4")
    expect(hands.field(page, "4 really sharp at")).to_have_count(0)
    expect(hands.field(page, "5 measured")).to_have_value("28.79")
    press_button(page, "Put back")
    expect(hands.field(page, SHARP_AT)).to_have_value("1,62")
    expect(hands.field(page, REGISTER)).to_have_value("28,81")
    expect(hands.field(page, "6 measured")).to_have_value("28.79")
    hands.choose(page, CAMERA, TARNBROOK)
    hands.choose(page, CAMERA, OSTRIN)
    expect(hands.field(page, SHARP_AT)).to_have_value("1,62")
    expect(hands.field(page, "6 measured")).to_have_value("28.79")


def test_all_rows_taken_away_leave_a_question(page: Page, bench_address: str) -> None:
    """With no reading left the page asks for one, and a row added answers again."""
    opened(page, bench_address, CORVANE)
    for _ in range(2):
        press_button(page, "✕ 1")
    expect(hands.problems(page)).to_contain_text("no reading")
    press_button(page, "Put back")
    expect(hands.headline(page)).to_contain_text("Most probable (")


@pytest.mark.parametrize(
    "place", [ReadFrom.STOP, ReadFrom.INFINITY, ReadFrom.FILM_NEAR, ReadFrom.GATE]
)
def test_another_place_asks_for_its_own_figures(place: str, page: Page, bench_address: str) -> None:
    """Each place offers what it can be read with, and the other place's figures come back."""
    opened(page, bench_address)
    hands.choose(page, "1 read", place)
    expect(hands.field(page, REGISTER)).to_have_count(0)
    if place in (ReadFrom.STOP, ReadFrom.INFINITY):
        hands.choose(page, "1 by", "collimator's reticle shifted")
        expect(hands.field(page, "1 reticle moved")).to_be_visible()
    elif place == ReadFrom.GATE:
        expect(hands.field(page, "1 channel")).to_be_visible()
    else:
        expect(hands.field(page, "1 ring mark")).to_be_visible()
    hands.choose(page, "1 read", "register (depth gauge)")
    expect(hands.field(page, REGISTER)).to_have_value("28.803; 28.804; 28.802")


def test_nonsense_is_refused_and_kept(page: Page, bench_address: str) -> None:
    """Each text without a meaning is refused with the number of its row, and stays."""
    opened(page, bench_address)
    nonsense = {REGISTER: "1,200.5", SHARP_AT: "abc", "5 true distance": "3 m"}
    for label, text in nonsense.items():
        hands.type_into(page, label, text, delay=0)
    hands.wait_until_idle(page)
    expect(hands.headline(page)).to_contain_text("Still needed")
    expect(hands.problems(page)).to_have_count(len(nonsense))
    said = hands.problems(page).all_inner_texts()
    assert [words.partition(":")[0] for words in said] == ["Reading 1", "Reading 4", "Reading 5"]
    for label, text in nonsense.items():
        expect(hands.field(page, label)).to_have_value(text)


def test_what_if_moves_a_fault(page: Page, bench_address: str) -> None:
    """A fault moved by a typed amount shows what every reading would become."""
    opened(page, bench_address)
    hands.press(page.get_by_text("What if …"))
    hands.wait_until_idle(page)
    rows = page.get_by_test_id("stExpander").filter(has_text="What if").locator("tbody tr")
    expect(rows).to_have_count(6)
    hands.choose(page, "Part to move", "scale ring, farther out")
    hands.type_into(page, "By, mm", "0,2", delay=0)
    hands.wait_until_idle(page)
    expect(rows.first).to_contain_text("the same")
    expect(rows.nth(2)).to_contain_text("turned")
    hands.choose(page, "Part to move", "thread starts farther out")
    expect(rows.nth(3)).to_contain_text("too far out")


def test_suppositions_can_be_changed(page: Page, bench_address: str) -> None:
    """A cause held likelier than usual is found likelier, and the list says so."""
    opened(page, bench_address, CORVANE)
    hands.press(page.get_by_text("More about the bench"))
    hands.wait_until_idle(page, 0.6)  # it unfolds slowly
    hands.choose(page, "Suppose otherwise of", "shims under the lens seat")
    hands.type_into(page, "Of such cameras", "90", delay=0)
    hands.wait_until_idle(page)
    expect(hands.headline(page)).to_contain_text("shims under the lens seat")
    hands.press(page.get_by_text("Assumptions", exact=True))
    expect(page.locator(".answer details[open]")).to_contain_text(
        "Shims under the lens seat: 90 % of cameras"
    )


def test_ones_own_camera_starts_empty(page: Page, bench_address: str) -> None:
    """For one's own camera one empty row stands there, and what is needed is asked for."""
    opened(page, bench_address, OWN)
    said = hands.problems(page).all_inner_texts()
    assert said[0] == "Reading 1: Enter the register measured."
    assert "Enter the focal length." in said


@pytest.mark.parametrize("size", ["page", "phone_page"])
@pytest.mark.parametrize("camera", [OSTRIN, TARNBROOK])
def test_it_fits_its_window(
    camera: str, size: str, bench_address: str, request: pytest.FixtureRequest
) -> None:
    """At the bench and on a telephone nothing is wider than the window, nor a choice cut off."""
    window: Page = request.getfixturevalue(size)
    opened(window, bench_address, camera)
    assert window.evaluate("document.documentElement.scrollWidth <= innerWidth")
    wide = "document.querySelector('[data-testid=stMain]')"
    assert window.evaluate(f"{wide}.scrollWidth <= {wide}.clientWidth")
    cut = window.get_by_role("combobox").evaluate_all(
        "all => all.filter(e => e.scrollWidth > e.clientWidth).map(e => e.value)"
    )
    assert cut == []


def test_verdict_and_figure_are_on_one_screen(page: Page, bench_address: str) -> None:
    """At 1280 by 800 verdict, promise, figure and first cause are seen without scrolling."""
    opened(page, bench_address)
    for part in (".headline", ".verdict", ".expected", "table.told tr:first-child"):
        box = page.locator(part).first.bounding_box()
        assert box is not None
        assert box["y"] > 0
        assert box["y"] + box["height"] <= 800, part


def test_telephone_keeps_the_headline_in_sight(phone_page: Page, bench_address: str) -> None:
    """On a telephone the verdict stays in sight while one types, and leads to the plan."""
    opened(phone_page, bench_address)
    hands.field(phone_page, SHARP_AT).scroll_into_view_if_needed()
    expect(hands.headline(phone_page)).to_be_in_viewport(ratio=0.9)
    hands.press(phone_page.get_by_role("link", name="Plan"))
    expect(phone_page.get_by_role("heading", name="Plan")).to_be_in_viewport(ratio=1)


def test_it_asks_nothing_of_the_network(page: Page, bench_address: str) -> None:
    """Drawn and downloaded from, the page speaks to its own server alone, without fault."""
    reached, complaints = set[str](), list[str]()
    page.on("request", lambda request: reached.add(request.url))
    page.on("pageerror", lambda error: complaints.append(str(error)))
    opened(page, bench_address)
    hands.download(page, "Job file")
    hosts = {urlsplit(url).netloc for url in reached} - {""}
    assert hosts == {urlsplit(bench_address).netloc}
    assert complaints == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_rule_of_accessibility_is_broken(
    scheme: Literal["light", "dark"], page: Page, bench_address: str
) -> None:
    """By day and by night the open checker finds nothing amiss, folded or unfolded."""
    page.emulate_media(color_scheme=scheme)
    opened(page, bench_address, CORVANE)
    assert broken_rules(page) == []
    for title in ("What if …", "What was read", "Assumptions"):
        hands.press(page.get_by_text(title, exact=True))
        hands.wait_until_idle(page)
    press_button(page, "Add a reading")
    assert broken_rules(page) == []


def test_a_row_that_appears_takes_no_key_from_the_next_field(
    page: Page, bench_address: str
) -> None:
    """Typing on below, at once, after a row was added above, loses nothing."""
    opened(page, bench_address)
    hands.press(page.get_by_role("button", name="Add a reading", exact=True))
    hands.type_into(page, "Base", "42,5", delay=60)
    hands.wait_until_idle(page)
    expect(hands.field(page, "Base")).to_have_value("42,5")
    expect(hands.field(page, "6 measured")).to_be_visible()
