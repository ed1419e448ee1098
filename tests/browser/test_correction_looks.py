"""The Correction page as it looks: on one screen, on a telephone, by day and by night."""

import io
from collections.abc import Iterator
from pathlib import Path

import axe_playwright_python
import hands
import pytest
from PIL import Image
from playwright.sync_api import Browser, Locator, Page, ViewportSize, expect

AXE = Path(axe_playwright_python.__file__).with_name("axe.min.js").read_text(encoding="utf-8")

# WCAG 2.2, success criterion 2.5.5: CSS pixels that a finger can hit.
FINGER = 44


@pytest.fixture(params=["light", "dark"])
def scheme(request: pytest.FixtureRequest) -> str:
    """By day and by night."""
    return str(request.param)


@pytest.fixture(params=[hands.DESK, hands.PHONE], ids=["desk", "phone"])
def window(request: pytest.FixtureRequest, scheme: str, chromium: Browser) -> Iterator[Page]:
    """A window of either size in either scheme."""
    size: ViewportSize = request.param
    context = chromium.new_context(
        viewport=size, color_scheme="dark" if scheme == "dark" else "light"
    )
    yield context.new_page()
    context.close()


def bottom(part: Locator) -> float:
    """Return how far down the window a part reaches."""
    box = part.bounding_box()
    assert box is not None
    return box["y"] + box["height"]


def test_the_whole_answer_is_on_one_screen(page: Page, bench_address: str) -> None:
    """At 1280 by 800 headline, drawing, sights and every remedy are seen without scrolling."""
    hands.open_correction(page, bench_address)
    cards = page.locator(".offer").all()
    assert len(cards) == 3
    for part in (
        hands.headline(page),
        page.locator(".pictures"),
        page.locator(".answer table").first,
    ):
        assert 0 < bottom(part) <= 800
    assert all(0 < bottom(card) <= 800 for card in cards)


def test_the_drawing_says_what_it_shows(page: Page, bench_address: str) -> None:
    """Who cannot see the drawing hears the headline; the turn is said with its sense."""
    hands.open_correction(page, bench_address)
    pictures = page.locator(".pictures img")
    assert hands.answered(page) in (pictures.first.get_attribute("alt") or "")
    expect(pictures.last).to_have_attribute("alt", "Turn 2.4° clockwise, seen from the front")


def test_no_rule_of_accessibility_is_broken(window: Page, bench_address: str) -> None:
    """The open checker finds nothing amiss in an answer, unfolded, nor in a refusal."""
    hands.open_correction(window, bench_address)
    for title in ("More about the lens", "Show the working", "As plain text, to copy"):
        hands.press(window.get_by_text(title))
    hands.wait_until_idle(window)
    assert broken_rules(window) == []
    hands.type_into(window, "Really sharp at", "abc")
    expect(hands.problems(window)).to_have_count(1)
    assert broken_rules(window) == []


def broken_rules(page: Page) -> list[str]:
    """Return each broken rule and where it is broken."""
    page.evaluate(f"{AXE};0")
    found = page.evaluate("async () => await axe.run()")
    assert len(found["passes"]) > 20, "the checker checked next to nothing"
    return [
        f"{rule['id']}: {node['html'][:200]}"
        for rule in found["violations"]
        for node in rule["nodes"]
    ]


def test_checker_finds_what_is_broken(page: Page, bench_address: str) -> None:
    """A picture without words and text too pale to read are found, so silence means something."""
    hands.open_correction(page, bench_address)
    page.evaluate(
        """() => {
            document.querySelector('.pictures img').removeAttribute('alt');
            document.querySelector('.advice').style.color = '#ddd';
        }"""
    )
    rules = {line.split(":")[0] for line in broken_rules(page)}
    assert {"image-alt", "color-contrast"} <= rules


def test_drawing_follows_the_scheme(window: Page, scheme: str, bench_address: str) -> None:
    """By night page and drawing are dark with light strokes, by day the other way round."""
    hands.open_correction(window, bench_address)
    drawing = window.locator(".pictures img").first
    drawing.scroll_into_view_if_needed()
    grey = Image.open(io.BytesIO(drawing.screenshot())).convert("L")
    tones = sorted(grey.get_flattened_data())
    middle, darkest, lightest = tones[len(tones) // 2], tones[0], tones[-1]
    if scheme == "dark":
        assert middle < 60
        assert lightest > 200
    else:
        assert middle > 200
        assert darkest < 60


def test_telephone_keeps_the_headline_in_sight(phone_page: Page, bench_address: str) -> None:
    """On a telephone nothing is wider than the window, and the answer never leaves it."""
    hands.open_correction(phone_page, bench_address)
    assert phone_page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    for place in ("Reading", "Shims in the drawer"):
        phone_page.get_by_label(place).last.scroll_into_view_if_needed()
        expect(hands.headline(phone_page)).to_be_in_viewport(ratio=1)
    hands.press(phone_page.get_by_role("link", name="What to do"))
    expect(phone_page.get_by_role("heading", name="What to do")).to_be_in_viewport(ratio=1)
    expect(hands.headline(phone_page)).to_be_in_viewport(ratio=1)


def test_telephone_does_not_jump_while_typing(phone_page: Page, bench_address: str) -> None:
    """Low on the page, an answer that becomes a question leaves the field under the thumb."""
    hands.open_correction(phone_page, bench_address)
    drawer = hands.field(phone_page, "Shims in the drawer")
    drawer.evaluate("field => field.scrollIntoView({block: 'start'})")
    drawer.focus()
    before = drawer.bounding_box()
    hands.type_into(phone_page, "Shims in the drawer", "1,200")
    expect(hands.headline(phone_page)).to_contain_text("Still needed")
    hands.wait_until_idle(phone_page)
    assert drawer.bounding_box() == before
    hands.press(phone_page.get_by_role("link", name="List"))
    expect(hands.problems(phone_page)).to_be_in_viewport(ratio=1)


def test_telephone_can_be_hit_with_a_finger(phone_page: Page, bench_address: str) -> None:
    """Fields, choices, buttons and folds are at least 44 pixels high on a telephone."""
    hands.open_correction(phone_page, bench_address)
    targets = phone_page.locator(
        "input:visible, [role=group]:has(input):visible, [data-testid=stDownloadButton] button,"
        " summary:visible, [data-testid=stMainMenuButton], .jump"
    )
    measured = """all => all.map(e => (
        e.closest('[data-testid=stTextInputRootElement], [role=group]') ?? e
    ).getBoundingClientRect().height)"""
    heights = hands.settled(phone_page, lambda: targets.evaluate_all(measured))
    assert len(heights) > 20
    assert min(heights) >= FINGER


@pytest.mark.parametrize("size", ["page", "phone_page"])
def test_choices_show_their_whole_meaning(
    size: str, bench_address: str, request: pytest.FixtureRequest
) -> None:
    """No choice that is made is cut off in its box, at the bench or on a telephone."""
    window: Page = request.getfixturevalue(size)
    hands.open_correction(window, bench_address)
    for reading in (
        "Rotation from the stop until sharp",
        "Register by depth gauge",
        "Collimator reticle shift",
        "Slanting ruler on film",
    ):
        hands.choose(window, "Reading", reading)
        cut = window.get_by_role("combobox").evaluate_all(
            "all => all.filter(e => e.scrollWidth > e.clientWidth).map(e => e.value)"
        )
        assert cut == []
