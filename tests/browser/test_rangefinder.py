"""The Rangefinder page under a person's hands, task by task, at the bench and on a telephone."""

import io
import json
import re
from pathlib import Path
from typing import Literal
from urllib.parse import urlsplit

import hands
import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader
from test_correction_looks import broken_rules

from optics.records.lantern_street import CAMERAS
from ui.asking.camera_form import OWN
from ui.command import main
from ui.pages.rangefinder import BASE, CAM, NEAR, SET_UP, SHEETS
from ui.rangefinder.rangefinder_sheets import LATH, TARGET

CAMERA, TASK = "Camera (examples, invented)", "Task"
PAIRS = "True distance = lens scale"
OSTRIN, CORVANE, TARNBROOK = (camera.name for camera in CAMERAS)
TASKS = (SET_UP, NEAR, BASE, CAM, SHEETS)
# A rangefinder that is right leads the lens right, whatever its figures: no sum is needed.
RIGHT = "∞ = ∞; 1 m = 1"


def opened(page: Page, address: str, task: str = SET_UP, camera: str = OSTRIN) -> Page:
    """Open the page by its own address, at a task and a camera."""
    hands.open_at(page, f"{address}/rangefinder")
    hands.choose(page, CAMERA, camera)
    hands.choose(page, TASK, task)
    return page


def type_all(page: Page, **texts: str) -> None:
    """Fill fields in, by the first words of their labels with underscores for spaces."""
    for label, text in texts.items():
        hands.type_into(page, label.replace("_", " "), text, delay=0)
    hands.wait_until_idle(page)


def test_the_page_has_its_own_address(page: Page, bench_address: str) -> None:
    """The page opens by its address and by its name at the top, under its own title."""
    hands.open_at(page, f"{bench_address}/rangefinder")
    expect(page).to_have_title("Rangefinder · Shimwright")
    expect(page.get_by_role("heading", level=1)).to_have_text("Rangefinder")
    hands.open_at(page, bench_address)
    hands.press(page.get_by_role("link", name="Rangefinder"))
    expect(page).to_have_title("Rangefinder · Shimwright")


@pytest.mark.parametrize("pairs", [RIGHT, "∞ = inf; 3 ft 6 = 3 ft 6", "∞ = ∞; 1,5 = 1.5; 1.5"])
def test_pairs_are_understood_as_people_write_them(
    pairs: str, page: Page, bench_address: str
) -> None:
    """Feet, commas and ∞ are understood: images that meet where the scale says are right."""
    opened(page, bench_address)
    type_all(page, **{PAIRS: pairs})
    expect(hands.headline(page).locator("strong")).to_have_text([re.compile("^right ±")] * 2)
    expect(page.locator(".steps")).to_contain_text("Lock both adjusters")
    expect(hands.field(page, PAIRS)).to_have_value(pairs)


NONSENSE = {
    PAIRS: "3 m",
    "Base": "0",
    "Rangefinder to film": "abc",
    "Magnification": "0",
    "Near end used": "1,200",
}


def test_nonsense_is_refused_and_kept(page: Page, bench_address: str) -> None:
    """Each text without a meaning is refused at its field and in the answer, and stays."""
    opened(page, bench_address)
    type_all(page, **NONSENSE)
    expect(hands.headline(page)).to_contain_text("Still needed")
    expect(hands.problems(page)).to_have_count(len(NONSENSE))
    for label, text in NONSENSE.items():
        expect(hands.echo_of(page, label)).to_contain_text("✕ The")
        expect(hands.field(page, label)).to_have_value(text)


def test_a_round_that_is_half_filled_is_asked_for(page: Page, bench_address: str) -> None:
    """A turn without the readings after it is no round yet, and says which one is missing."""
    opened(page, bench_address)
    type_all(page, **{"1 ∞ adjuster": "1/4 cw"})
    expect(hands.problems(page)).to_have_text(
        [
            "Round 1: Enter the lens scale on the far target.",
            "Round 1: Enter the lens scale on the near target.",
        ]
    )


def test_rounds_appear_as_they_are_needed_and_are_never_lost(
    page: Page, bench_address: str
) -> None:
    """A row filled in brings the next, and every row is there after other tasks and cameras."""
    opened(page, bench_address)
    expect(hands.field(page, "2 far reads")).to_have_count(0)
    typed = {
        "1 ∞ adjuster": "1/4 clockwise",
        "1 far reads": "40",
        "1 near reads": "0,995",
        "2 near adjuster": "1/4 ccw",
        "2 far reads": "∞",
        "2 near reads": "3 ft 3",
    }
    for label, text in typed.items():
        type_all(page, **{label: text})
    expect(hands.field(page, "3 far reads")).to_be_visible()
    expect(page.locator("tbody tr")).to_have_count(3)
    expect(hands.echo_of(page, "1 ∞ adjuster")).to_have_text("= ↻ 1/4 turn clockwise")
    expect(hands.echo_of(page, "2 near adjuster")).to_have_text("= ↺ 1/4 turn counter-clockwise")
    hands.choose(page, TASK, SHEETS)
    hands.choose(page, CAMERA, TARNBROOK)
    hands.choose(page, CAMERA, OSTRIN)
    hands.choose(page, TASK, SET_UP)
    for label, text in typed.items():
        expect(hands.field(page, label)).to_have_value(text)


def test_a_row_emptied_in_the_middle_loses_nothing_after_it(page: Page, bench_address: str) -> None:
    """An emptied row is no round, and the rows after it stay and count."""
    opened(page, bench_address)
    for row in ("1", "2"):
        type_all(page, **{f"{row} far reads": "40", f"{row} near reads": "1"})
    type_all(page, **{"1 far reads": "", "1 near reads": ""})
    expect(hands.field(page, "2 far reads")).to_have_value("40")
    expect(page.locator("tbody tr")).to_have_count(2)


def test_the_next_turn_is_said_and_drawn(page: Page, bench_address: str) -> None:
    """The advice names the adjuster, the eighths and the way round, and the picture agrees."""
    opened(page, bench_address)
    expect(page.locator(".steps")).to_contain_text("infinity adjuster 1/4 turn clockwise")
    expect(page.locator(".pictures.turn img")).to_have_attribute(
        "alt", "Turn the infinity adjuster 1/4 turn clockwise, as you look at its head"
    )


def test_the_drawing_moves_with_what_is_typed(page: Page, bench_address: str) -> None:
    """Another base or reading draws another triangle."""
    opened(page, bench_address)
    pictures = page.locator(".pictures:not(.turn) img")
    before = [picture.get_attribute("src") for picture in pictures.all()]
    assert len(before) == 3
    type_all(page, Base="80", **{PAIRS: "∞ = 30; 1 m = 1.05"})
    after = [picture.get_attribute("src") for picture in pictures.all()]
    assert all(old != new for old, new in zip(before, after, strict=True))


def test_page_and_command_line_say_the_same(
    page: Page,
    bench_address: str,
    tmp_path_factory: pytest.TempPathFactory,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The job file saved from the page, solved at the command line, gives the page's words."""
    opened(page, bench_address)
    type_all(page, **{"1 ∞ adjuster": "1/4 cw", "1 far reads": "40", "1 near reads": "0.995"})
    job = hands.download(page, "Job file")
    assert json.loads(job)["rangefinder"]["rounds"][0]["infinity_turned"] == "1/4 cw"
    file = tmp_path_factory.mktemp("job") / "job.json"
    file.write_bytes(job)
    assert main(["solve", str(file)]) == 0
    hands.press(page.get_by_text("As plain text, to copy"))
    shown = page.get_by_test_id("stCode").locator("code").inner_text()
    assert shown.strip() == capsys.readouterr().out.strip()


def test_where_to_set_near_is_plotted(page: Page, bench_address: str) -> None:
    """The better near mark is named, and every setting is a line with its name in the plot."""
    opened(page, bench_address, NEAR)
    expect(hands.headline(page)).to_contain_text("Set far at ∞ and near at 1.07 m")
    legend = page.locator(".js-plotly-plot .legendtext")
    names = ["depth of focus", "as found", "usual", "best near mark", "best pair"]
    expect(legend).to_have_text(names)
    type_all(page, **{"1 far reads": "∞", "1 near reads": "1"})
    expect(legend).to_have_text([*names[:2], "now", *names[2:]])
    type_all(page, **{PAIRS: ""})
    expect(legend).to_have_text([names[0], *names[2:]])


def test_what_the_base_can_tell_is_told(page: Page, bench_address: str) -> None:
    """Film error, service, limits, the far target and the height error are all answered."""
    opened(page, bench_address, BASE)
    type_all(page, Tell_apart="1,5 m; 3 ft 6; ∞", Far_target="300 ft", Height_error="5", Edge="0")
    answer = page.locator(".answer")
    expect(answer.locator("tbody th")).to_have_text(["1.5 m", "1.067 m", "∞"])
    expect(answer).to_contain_text("A target at 91.44 m is")
    expect(answer).to_contain_text("Upright edges show no height error")
    type_all(page, Edge_leans_by="20")
    expect(answer).to_contain_text("On an edge leaning 20.0°")


def test_the_sun_is_warned_of_where_one_looks_out(page: Page, bench_address: str) -> None:
    """Where a far target is looked at through the finder the Sun is warned of."""
    opened(page, bench_address)
    for task in (SET_UP, BASE):
        hands.choose(page, TASK, task)
        expect(page.locator(".care")).to_contain_text("Never look at the Sun")


def test_a_cam_is_mapped_and_printed(page: Page, bench_address: str) -> None:
    """Lifts read give cuts, a plot and a sheet; without them there is the table of a new cam."""
    opened(page, bench_address, CAM)
    expect(page.locator(".answer")).to_contain_text("Take off at most")
    expect(page.locator(".js-plotly-plot .legendtext")).to_have_text(["first pass", "in all"])
    expect(page.locator("img.sheet").first).to_be_visible()
    text = pdf_text(hands.download(page, "Sheet (PDF)"))
    assert "Cam sheet" in text
    assert "Take off at most" in text
    type_all(page, Lifts_read="0 = 0; 20 = 1,3")
    expect(page.locator(".answer tbody tr")).to_have_count(2)
    type_all(page, Lifts_read="")
    expect(hands.headline(page)).to_contain_text("Body cut for a lens of 50 mm")
    expect(page.locator(".js-plotly-plot")).to_have_count(0)
    hands.choose(page, "The body expects", "a straight follower")
    expect(hands.headline(page)).to_contain_text("straight follower")


def test_a_cam_is_in_the_job(
    page: Page, bench_address: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The cam's job file is solved in the page's words, gain and way of cutting with it."""
    opened(page, bench_address, CAM)
    hands.press(page.get_by_text("More about the coupling"))
    type_all(page, **{"Gain may drop": "10"})
    expect(page.locator(".answer").first).to_contain_text("less sensitive")
    job = tmp_path / "job.json"
    job.write_bytes(hands.download(page, "Job file"))
    assert main(["solve", str(job)]) == 0
    hands.press(page.get_by_text("As plain text, to copy"))
    shown = page.get_by_test_id("stCode").locator("code")
    expect(shown).to_be_visible()
    assert shown.inner_text().strip() == capsys.readouterr().out.strip()


def test_images_apart_at_the_stop_are_enough(page: Page, bench_address: str) -> None:
    """Nothing meets at the ∞ stop: the gap and the way the ring would go give the error there."""
    opened(page, bench_address)
    type_all(page, **{PAIRS: ""})
    expect(hands.problems(page)).to_contain_text("Enter the coincidence readings")
    hands.press(page.get_by_text("Images that stand apart"))
    type_all(page, **{"1 target at": "∞", "1 lens at": "∞"})
    expect(hands.problems(page)).to_contain_text("Images apart 1: Enter the angle")
    type_all(page, **{"1 apart by": "4"})
    expect(hands.headline(page)).to_contain_text("too far in at ∞")
    hands.choose(page, "1 ring would go", "towards nearer")
    expect(hands.headline(page)).to_contain_text("too far out at ∞")
    expect(page.get_by_role("textbox", name="2 target at")).to_be_visible()


def test_the_compensators_travel_is_told(page: Page, bench_address: str) -> None:
    """Each kind asks for what it needs and says how far it goes, or that it cannot."""
    opened(page, bench_address)
    expect(page.locator(".answer")).to_contain_text("The turning mirror turns")
    hands.press(page.get_by_text("More about the eye"))
    hands.wait_until_idle(page)
    hands.choose(page, "The sight is turned by", "swung lens")
    expect(page.locator(".answer")).to_contain_text("The swung lens travels")
    hands.choose(page, "The sight is turned by", "counter-turning wedges")
    type_all(page, **{"Angle of each wedge": "0.5"})
    expect(page.locator(".answer")).to_contain_text("does not serve this base")


def test_a_bed_has_no_cam(page: Page, bench_address: str) -> None:
    """A camera without a helicoid is refused a cam with the reason."""
    opened(page, bench_address, CAM, TARNBROOK)
    expect(hands.problems(page)).to_contain_text("on a helicoid")


@pytest.mark.parametrize("sheet", [LATH, TARGET])
def test_sheets_are_seen_and_downloaded(sheet: str, page: Page, bench_address: str) -> None:
    """Lath and target are previewed and come as PDF, on the paper chosen."""
    opened(page, bench_address, SHEETS)
    hands.choose(page, "Sheet", sheet)
    hands.choose(page, "Paper", "Letter")
    expect(page.locator("img.sheet")).to_have_count(1)
    data = hands.download(page, "Sheet (PDF)")
    assert sheet in pdf_text(data)
    # US Letter is 8½ in by 11 in, 72 points to the inch.
    assert [float(x) for x in PdfReader(io.BytesIO(data)).pages[0].mediabox[2:]] == pytest.approx(
        [612, 792], abs=1
    )


def pdf_text(data: bytes) -> str:
    """Return all words of a PDF."""
    return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages)


def test_ones_own_camera_starts_empty(page: Page, bench_address: str) -> None:
    """For one's own camera nothing is filled in, and what is needed is asked for."""
    opened(page, bench_address, camera=OWN)
    said = hands.problems(page).all_inner_texts()
    assert "Enter the coincidence readings." in said
    assert "Enter the rangefinder base." in said


@pytest.mark.parametrize("size", ["page", "phone_page"])
def test_every_task_fits_its_window(
    size: str, bench_address: str, request: pytest.FixtureRequest
) -> None:
    """At the bench and on a telephone no task is wider than the window, nor cuts a choice off."""
    window: Page = request.getfixturevalue(size)
    opened(window, bench_address)
    for task in TASKS:
        hands.choose(window, TASK, task)
        assert window.evaluate("document.documentElement.scrollWidth <= innerWidth"), task
        wide = "document.querySelector('[data-testid=stMain]')"
        assert window.evaluate(f"{wide}.scrollWidth <= {wide}.clientWidth"), task
        cut = window.get_by_role("combobox").evaluate_all(
            "all => all.filter(e => e.scrollWidth > e.clientWidth).map(e => e.value)"
        )
        assert cut == []


def test_the_set_up_is_on_one_screen(page: Page, bench_address: str) -> None:
    """At 1280 by 800 headline, drawings, next turn and figures are seen without scrolling."""
    opened(page, bench_address)
    for part in (".headline", ".pictures.even", ".steps", ".answer ul", ".care"):
        box = page.locator(part).bounding_box()
        assert box is not None
        assert box["y"] > 0
        assert box["y"] + box["height"] <= 800, part


def test_telephone_keeps_the_headline_in_sight(phone_page: Page, bench_address: str) -> None:
    """On a telephone the answer stays in sight while one types, and leads to the next turn."""
    opened(phone_page, bench_address)
    for label in (PAIRS, "Lead"):
        hands.field(phone_page, label).scroll_into_view_if_needed()
        expect(hands.headline(phone_page)).to_be_in_viewport(ratio=1)
    hands.press(phone_page.get_by_role("link", name="Next"))
    expect(phone_page.get_by_role("heading", name="Next")).to_be_in_viewport(ratio=1)


def test_no_task_asks_anything_of_the_network(page: Page, bench_address: str) -> None:
    """All five tasks, drawn and downloaded from, speak to their own server alone, without fault."""
    reached, complaints = set[str](), list[str]()
    page.on("request", lambda request: reached.add(request.url))
    page.on("websocket", lambda websocket: reached.add(websocket.url))
    page.on("pageerror", lambda error: complaints.append(str(error)))
    opened(page, bench_address)
    for task in TASKS:
        hands.choose(page, TASK, task)
    hands.download(page, "Sheet (PDF)")
    hosts = {urlsplit(url).netloc for url in reached} - {""}
    assert hosts == {urlsplit(bench_address).netloc}
    assert complaints == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_rule_of_accessibility_is_broken(
    scheme: Literal["light", "dark"], page: Page, bench_address: str
) -> None:
    """By day and by night the open checker finds nothing amiss in any task."""
    page.emulate_media(color_scheme=scheme)
    opened(page, bench_address)
    type_all(page, **{"1 far reads": "40", "1 near reads": "1"})
    for task in TASKS:
        hands.choose(page, TASK, task)
        assert broken_rules(page) == [], task


def test_a_row_that_appears_takes_no_key_from_the_next_field(
    page: Page, bench_address: str
) -> None:
    """Typing on below, at once, while a new row appears above, loses nothing."""
    opened(page, bench_address)
    for number, base in (("1", "42,5"), ("2", "43,5"), ("3", "44,5")):
        hands.type_into(page, f"{number} near reads", "1", delay=0)
        hands.type_into(page, "Base", base, delay=60)
        hands.wait_until_idle(page)
        expect(hands.field(page, "Base")).to_have_value(base)
        expect(hands.field(page, f"{int(number) + 1} near reads")).to_be_visible()
