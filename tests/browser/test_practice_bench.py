"""The Practice bench under a person's hands: from the first look to the debrief."""

import statistics
from collections.abc import Iterator
from urllib.parse import urlsplit

import hands
import pytest
from playwright.sync_api import Browser, Locator, Page, expect
from test_correction_looks import broken_rules

from tests.benchmarks.bench_page import ANSWER_LIMIT
from tests.benchmarks.bench_sitting_page import racking_delay

AREA = "The sitting as text, one action a line"
FOLD = "The sitting as text, to copy or hand in"
HEAD = "Shimwright practice sitting, version 1\ncamera: {}\nlevel: {}\nseed: {}\n"
# A ring 0.126 mm too far out, found and put right: lead 18 mm, so 2.5° clockwise.
MENDED = (
    "read register\nread ∞ mark\nread 1.2 m mark\nread infinity stop\nread rangefinder at 1.2 m\n"
    "turn the barrel 2.5° clockwise\nread ∞ mark\nfinish\n"
)


@pytest.fixture(params=["page", "phone_page"])
def window(request: pytest.FixtureRequest) -> Page:
    """A window of either size."""
    found: Page = request.getfixturevalue(request.param)
    return found


@pytest.fixture(params=["light", "dark"])
def scheme_page(request: pytest.FixtureRequest, chromium: Browser) -> Iterator[Page]:
    """A window by day and by night."""
    context = chromium.new_context(viewport=hands.DESK, color_scheme=request.param)
    yield context.new_page()
    context.close()


def opened(page: Page, address: str) -> Page:
    """Open the page at its own address."""
    hands.open_at(page, f"{address}/practice_bench")
    expect(page.get_by_role("button", name="Finish and debrief")).to_be_visible()
    return page


def paste(page: Page, text: str) -> None:
    """Put a whole sitting into the text, as by pasting it."""
    area = page.get_by_role("textbox", name=AREA)
    if not area.is_visible():
        hands.press(page.get_by_text(FOLD))
    area.fill(text)
    area.press("Control+Enter")
    hands.wait_until_idle(page)


def click(page: Page, name: str) -> None:
    """Press a button and wait for the page."""
    hands.press(page.get_by_role("button", name=name))
    hands.wait_until_idle(page)


def log(page: Page) -> Locator:
    """Return the log's rows."""
    return page.locator(".answer table").last.locator("tbody tr")


def eye(page: Page) -> str:
    """Return what the loupe or the finder shows, in words."""
    return page.locator(".eye img").get_attribute("alt") or ""


def test_a_camera_is_read_put_right_and_talked_over(window: Page, bench_address: str) -> None:
    """An apprentice draws a camera, racks, reads, adjusts, verifies, and earns all the points."""
    opened(window, bench_address)
    click(window, "Draw this camera")
    hands.choose(window, "What to read", "∞ mark (by eye on the ground glass)")
    assert "up to 18" in eye(window)
    hands.type_into(window, "Ring at", "−2,5")
    hands.wait_until_idle(window)
    assert "up to 60" in eye(window)
    click(window, "Take this reading: 2.5° clockwise")
    expect(log(window).first).to_contain_text("0.125 mm too far out")
    for offer in ("Infinity stop (collimator, ground glass)", "Register (depth gauge)"):
        hands.choose(window, "What to read", offer)
        click(window, "Take the reading" if "gauge" in offer else "Read it for me: five tries")
    hands.choose(window, "What to read", "∞ mark (by eye on the ground glass)")
    hands.choose(window, "What to adjust", "Turn the barrel")
    hands.type_into(window, "By", "2,5")
    hands.wait_until_idle(window)
    click(window, "Do it")
    expect(log(window)).to_have_count(4)
    hands.type_into(window, "Ring at", "0")
    hands.wait_until_idle(window)
    assert "up to 60" in eye(window)
    click(window, "Read it for me: five tries")
    click(window, "Finish and debrief")
    expect(hands.headline(window)).to_contain_text("100 of 100 points")
    debrief = window.locator(".debrief")
    expect(debrief).to_contain_text("Slipped scale ring: 0.126 mm too far out.")
    expect(debrief).to_contain_text("turn the lens barrel")
    expect(window.get_by_role("button", name="Do it")).to_have_count(0)


def test_every_camera_and_reading_is_shown(window: Page, bench_address: str) -> None:
    """Each reading of each camera can be looked at or taken, and nothing is too wide."""
    opened(window, bench_address)
    for camera in ("Tarnbrook 6×9", "Corvane 6×6", "Ostrin 35"):
        hands.choose(window, "Practice camera (invented)", camera)
        hands.choose(window, "Level", "3: three faults, worn instruments")
        click(window, "Draw this camera")
        expect(hands.headline(window)).to_contain_text(f"{camera}, level 3, seed 1")
        hands.press(window.get_by_role("combobox", name="What to read"))
        offers = window.get_by_role("option").all_inner_texts()
        window.keyboard.press("Escape")
        for offer in offers:
            hands.choose(window, "What to read", offer)
            assert window.get_by_test_id("stException").count() == 0
            assert window.evaluate("document.documentElement.scrollWidth <= innerWidth")
            shown = window.locator(".eye img").count()
            assert shown == (0 if "gauge" in offer or "ruler" in offer else 1), offer


def test_a_sitting_in_text_is_replayed(page: Page, bench_address: str) -> None:
    """A pasted sitting is taken up whole, and its last line is the debrief."""
    opened(page, bench_address)
    paste(page, HEAD.format("Ostrin 35", 1, 1) + MENDED)
    expect(hands.headline(page)).to_contain_text("100 of 100 points")
    expect(log(page)).to_have_count(8)
    assert hands.download(page, "Sitting (text file)").decode().endswith("finish\n")
    paste(page, "# Handed in on Tuesday\n" + HEAD.format("Corvane 6×6", 2, 5) + "read register\n")
    expect(hands.headline(page)).to_contain_text("Corvane 6×6, level 2, seed 5")
    hands.choose(page, "What to read", "Register (depth gauge)")
    click(page, "Take the reading")
    expect(page.get_by_role("textbox", name=AREA)).to_have_value(
        "# Handed in on Tuesday\n" + HEAD.format("Corvane 6×6", 2, 5) + "read register\n" * 2
    )


def test_text_that_is_no_sitting_is_refused_and_stays(page: Page, bench_address: str) -> None:
    """A line that cannot be understood is named by its number, and not a letter is lost."""
    opened(page, bench_address)
    wrong = HEAD.format("Ostrin 35", 1, 1) + "turn the barrel a little\n"
    paste(page, wrong)
    expect(hands.problems(page)).to_contain_text(["Line 5 of the sitting"])
    expect(page.get_by_role("textbox", name=AREA)).to_have_value(wrong)
    paste(page, HEAD.format("Ostrin 35", 1, 1))
    expect(hands.problems(page)).to_have_count(0)


def test_what_cannot_be_done_is_said_and_not_logged(page: Page, bench_address: str) -> None:
    """Shims that are not there cannot come out: the page says so and the log stays."""
    opened(page, bench_address)
    hands.choose(page, "What to adjust", "Shim the lens seat")
    expect(page.get_by_text("There now: 0.40 mm of shim.")).to_be_visible()
    hands.type_into(page, "By", "0.5")
    hands.wait_until_idle(page)
    hands.choose(page, "Which way", "thinner")
    click(page, "Do it")
    expect(page.get_by_role("alert")).to_contain_text("No more shim can come out than is there")
    expect(page.get_by_text("Nothing has been read or moved yet.")).to_be_visible()
    click(page, "Read it for me: five tries")
    expect(page.get_by_role("alert")).to_have_count(0)


def test_a_look_that_cannot_be_is_said_where_it_would_be_seen(
    window: Page, bench_address: str
) -> None:
    """With the ring at ∞ no distance is on the scale: the page says so, and the log stays."""
    opened(window, bench_address)
    hands.choose(window, "What to read", "Rangefinder at 10 m (by eye in the finder)")
    hands.type_into(window, "Ring at", "0")
    hands.wait_until_idle(window)
    expect(window.get_by_role("alert")).to_contain_text("take another reading")
    expect(window.get_by_role("button", name="Take this reading")).to_have_count(0)
    expect(hands.headline(window)).to_contain_text("0 readings")


def test_sitting_survives_another_page_and_another_camera(page: Page, bench_address: str) -> None:
    """A sitting is there on coming back to the page, and can be taken up after a new camera."""
    opened(page, bench_address)
    click(page, "Read it for me: five tries")
    hands.press(page.get_by_role("link", name="Correction"))
    expect(page).to_have_title("Correction · Shimwright")
    hands.wait_until_idle(page)
    hands.press(page.get_by_role("link", name="Practice bench"))
    expect(log(page)).to_have_count(1)
    hands.type_into(page, "Seed", "42")
    hands.wait_until_idle(page)
    click(page, "Draw this camera")
    expect(hands.headline(page)).to_contain_text("seed 42")
    click(page, "Take up the sitting before")
    expect(hands.headline(page)).to_contain_text("seed 1")
    expect(log(page)).to_have_count(1)


def test_slider_racks_by_keys(page: Page, bench_address: str) -> None:
    """One arrow key racks the ring by a tenth of a degree, and the button says where it stands."""
    opened(page, bench_address)
    hands.choose(page, "What to read", "3 m mark (by eye on the ground glass)")
    slider = page.get_by_role("slider", name="And rack it by")
    slider.focus()
    for _ in range(3):
        page.keyboard.press("ArrowRight")
    hands.wait_until_idle(page)
    expect(page.get_by_role("button", name="0.3° counter-clockwise")).to_be_visible()


def test_a_whole_sitting_by_keys_alone(page: Page, bench_address: str) -> None:
    """With no mouse at all a reading is taken, a control is set, and the work is laid down."""
    opened(page, bench_address)
    page.keyboard.press("Tab")
    hands.tab_to(page, "What to read")
    hands.choose_by_keys(page, "3 m mark (by eye on the ground glass)")
    hands.tab_to(page, "And rack it by")
    page.keyboard.press("ArrowLeft")
    hands.wait_until_idle(page)
    hands.tab_to(page, "Take this reading")
    page.keyboard.press("Enter")
    hands.wait_until_idle(page)
    expect(log(page)).to_have_count(1)
    expect(log(page)).to_contain_text("3 m mark")
    hands.tab_to(page, "Do it")
    page.keyboard.press("Enter")
    hands.wait_until_idle(page)
    expect(log(page)).to_have_count(2)
    hands.tab_to(page, "Finish and debrief")
    page.keyboard.press("Enter")
    hands.wait_until_idle(page)
    expect(hands.headline(page)).to_contain_text("of 100 points")


def test_no_rule_of_access_is_broken(scheme_page: Page, bench_address: str) -> None:
    """The checker finds nothing wrong with loupe, finder, log, text, refusal and debrief."""
    opened(scheme_page, bench_address)
    click(scheme_page, "Take this reading")
    hands.press(scheme_page.get_by_text(FOLD))
    hands.press(scheme_page.get_by_text("The bench: instruments, eye, old lines"))
    hands.choose(scheme_page, "What to read", "Rangefinder at 1.2 m (by eye in the finder)")
    assert broken_rules(scheme_page) == []
    hands.choose(scheme_page, "What to adjust", "Shim the standard, top left screw,")
    hands.choose(scheme_page, "Which way", "thinner")
    click(scheme_page, "Do it")
    expect(scheme_page.get_by_role("alert")).to_be_visible()
    assert broken_rules(scheme_page) == []
    click(scheme_page, "Finish and debrief")
    assert broken_rules(scheme_page) == []


def test_choices_show_their_whole_meaning(window: Page, bench_address: str) -> None:
    """No choice that is made is cut off in its box, whichever camera and control."""
    opened(window, bench_address)
    hands.choose(window, "Level", "3: three faults, worn instruments")
    for camera in ("Ostrin 35", "Tarnbrook 6×9"):
        hands.choose(window, "Practice camera (invented)", camera)
        click(window, "Draw this camera")
        hands.press(window.get_by_role("combobox", name="What to adjust"))
        offers = window.get_by_role("option").all_inner_texts()
        window.keyboard.press("Escape")
        for offer in offers:
            hands.choose(window, "What to adjust", offer)
            cut = window.get_by_role("combobox").evaluate_all(
                "all => all.filter(e => e.scrollWidth > e.clientWidth).map(e => e.value)"
            )
            assert cut == []


def test_telephone_can_be_hit_with_a_finger(phone_page: Page, bench_address: str) -> None:
    """Buttons are at least 44 pixels high on a telephone."""
    opened(phone_page, bench_address)
    buttons = phone_page.get_by_test_id("stButton").locator("button")
    buttons.nth(4).wait_for()
    heights = hands.settled(
        phone_page,
        lambda: buttons.evaluate_all("all => all.map(e => e.getBoundingClientRect().height)"),
    )
    assert len(heights) == 5
    assert min(heights) >= 44


def test_page_speaks_to_its_own_server_only(page: Page, bench_address: str) -> None:
    """Using the page makes no request and opens no socket to anywhere else."""
    reached: set[str] = set()
    page.on("request", lambda request: reached.add(request.url))
    page.on("websocket", lambda websocket: reached.add(websocket.url))
    opened(page, bench_address)
    click(page, "Take this reading")
    click(page, "Finish and debrief")
    hosts = {urlsplit(url).netloc for url in reached}
    assert hosts - {""} == {urlsplit(bench_address).netloc}


def test_racking_is_seen_at_once(page: Page, bench_address: str) -> None:
    """From a key on the slider to the new picture it takes a fraction of a second."""
    opened(page, bench_address)
    paste(page, HEAD.format("Ostrin 35", 2, 3) + MENDED.removesuffix("finish\n"))
    page.get_by_role("slider", name="And rack it by").focus()
    delays = []
    # Held loosely, for the machine may be busy; the benchmark holds a quiet one to its limit.
    for _ in range(9):
        delays.append(racking_delay(page))
        hands.wait_until_idle(page, 0.3)
    print(f"racking: median {statistics.median(delays):.0f}, slowest {max(delays):.0f} ms")
    assert statistics.median(delays[1:]) <= 4 * ANSWER_LIMIT


def test_the_debrief_needs_no_scrolling_sideways(page: Page, bench_address: str) -> None:
    """On a desk's screen every column of what the readings said is in sight."""
    hands.open_at(page, f"{bench_address}/practice_bench")
    hands.choose(page, "Level", "3: three faults, worn instruments")
    hands.write(page, "Seed", "11")
    click(page, "Draw this camera")
    hands.choose(page, "What to read", "∞ mark (by eye on the ground glass)")
    click(page, "Read it for me: five tries")
    click(page, "Finish and debrief")
    table = page.locator(".remarks .wide")
    expect(table).to_contain_text("wrong thread start")
    assert table.evaluate("e => e.scrollWidth <= e.clientWidth")
