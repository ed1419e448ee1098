"""The shell as the user's browser and network see it."""

import socket
import subprocess
import sys
import time
from pathlib import Path
from urllib.parse import urlsplit

import hands
import pytest
from playwright.sync_api import Browser, Locator, Page, expect

LISTENING = "0A"  # proc_pid_net(5): the state column of /proc/net/tcp
LOOPBACK = "0100007F"  # 127.0.0.1 as the same table writes it
START_LIMIT = 40.0  # s on a busy machine; tests/benchmarks holds a quiet one to 6


def listening_addresses(port: int) -> set[str]:
    """Return the local addresses, as the kernel writes them, that listen on a port."""
    rows = [
        line.split()
        for table in ("tcp", "tcp6")
        for line in Path("/proc/net", table).read_text(encoding="ascii").splitlines()[1:]
    ]
    local = [row[1].split(":") for row in rows if row[3] == LISTENING]
    return {address for address, hex_port in local if int(hex_port, 16) == port}


@pytest.mark.skipif(not Path("/proc/net/tcp").exists(), reason="needs Linux's /proc")
def test_server_listens_on_loopback_only(bench_address: str) -> None:
    """No other machine can reach the bench: the kernel lists one listener, on loopback."""
    port = urlsplit(bench_address).port
    assert port is not None
    assert listening_addresses(port) == {LOOPBACK}


def test_foreign_host_name_is_refused(bench_address: str) -> None:
    """A web page elsewhere cannot reach the bench by pointing its own name at loopback."""
    port = urlsplit(bench_address).port
    assert "403" in first_line_of_upgrade(port, "elsewhere.example")
    assert "101" in first_line_of_upgrade(port, f"127.0.0.1:{port}")


def first_line_of_upgrade(port: int | None, host: str) -> str:
    """Return the status line the server gives a websocket upgrade for ``host``."""
    request = (
        f"GET /_stcore/stream HTTP/1.1\r\nHost: {host}\r\nUpgrade: websocket\r\n"
        "Connection: Upgrade\r\nSec-WebSocket-Version: 13\r\n"
        "Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==\r\n\r\n"
    )
    with socket.create_connection(("127.0.0.1", port), timeout=5) as line:
        line.sendall(request.encode("ascii"))
        return line.recv(64).decode("ascii").splitlines()[0]


def test_page_speaks_to_its_own_server_only(page: Page, bench_address: str) -> None:
    """Loading and using the page makes no request and opens no socket to anywhere else."""
    reached = {"http": set[str](), "ws": set[str]()}
    page.on("request", lambda request: reached["http"].add(request.url))
    page.on("websocket", lambda websocket: reached["ws"].add(websocket.url))
    hands.open_at(page, bench_address)
    page.get_by_test_id("stMainMenuButton").click()
    page.keyboard.press("Escape")
    page.wait_for_timeout(1000)
    hosts = {urlsplit(url).netloc for urls in reached.values() for url in urls}
    assert reached["ws"], "the page opened no websocket: the recorder is not recording"
    assert hosts - {""} == {urlsplit(bench_address).netloc}


def test_browser_is_forbidden_to_reach_out(page: Page, bench_address: str) -> None:
    """Even a script that tries is stopped by the content policy, before the network."""
    hands.open_at(page, bench_address)
    violation = page.evaluate(
        """() => new Promise(done => {
            document.addEventListener('securitypolicyviolation', e => done(e.blockedURI));
            fetch('http://192.0.2.1/').catch(() => {});
        })"""
    )
    assert violation.startswith("http://192.0.2.1")


def test_console_stays_clean(page: Page, bench_address: str) -> None:
    """Opening the bench puts no error, warning or exception on the browser's console."""
    complaints: list[str] = []
    page.on("pageerror", lambda error: complaints.append(str(error)))
    page.on(
        "console",
        lambda entry: entry.type in {"error", "warning"} and complaints.append(entry.text),
    )
    hands.open_at(page, bench_address)
    assert complaints == []


def test_page_has_its_title_and_language(page: Page, bench_address: str) -> None:
    """The tab says which page of which program it is, and screen readers know the language."""
    hands.open_at(page, bench_address)
    expect(page).to_have_title("Correction · Shimwright")
    assert page.locator("html").get_attribute("lang") == "en"


@pytest.mark.parametrize("name", ["correction", "no_such_page"])
def test_what_is_typed_stays_however_the_bench_was_opened(
    name: str, page: Page, bench_address: str
) -> None:
    """Opened by the opening page's own name, or one that no page has, the page keeps every key."""
    hands.open_correction(page, f"{bench_address}/{name}")
    hands.type_into(page, "Really sharp at", "12")
    hands.wait_until_idle(page)
    expect(hands.field(page, "Really sharp at")).to_have_value("12")
    assert page.url == f"{bench_address}/"


@pytest.mark.parametrize("path", ["/", "/rangefinder"])
def test_loading_page_never_shows_another_name(path: str, bench_address: str, page: Page) -> None:
    """The name in the tab is ours from the first byte, at every page's own address."""
    served = page.request.get(f"{bench_address}{path}").text()
    assert "<title>Shimwright</title>" in served
    assert "Streamlit</title>" not in served


def test_menu_offers_no_developer_entries(page: Page, bench_address: str) -> None:
    """The menu offers what a repairer can use, and nothing for program authors."""
    hands.open_at(page, bench_address)
    page.get_by_test_id("stMainMenuButton").click()
    menu = page.get_by_test_id("stMainMenuPopover").inner_text().lower()
    assert "about" in menu
    assert not [word for word in ("deploy", "rerun", "cache", "streamlit") if word in menu]


@pytest.mark.parametrize("size", ["page", "phone_page"])
def test_page_never_scrolls_sideways(
    size: str, bench_address: str, request: pytest.FixtureRequest
) -> None:
    """At the bench's screen and on a telephone nothing is wider than the window."""
    window: Page = request.getfixturevalue(size)
    hands.open_at(window, bench_address)
    wide = "document.querySelector('[data-testid=stMain]')"
    assert window.evaluate(f"{wide}.scrollWidth <= {wide}.clientWidth")
    assert window.evaluate("document.documentElement.scrollWidth <= innerWidth")
    menu = window.get_by_test_id("stMainMenuButton").bounding_box()
    assert menu is not None
    assert menu["x"] + menu["width"] <= window.evaluate("innerWidth")


def test_cold_start_is_short(chromium: Browser) -> None:
    """From the command to a page that stands ready takes seconds, not minutes."""
    context = chromium.new_context()
    started = time.monotonic()
    with hands.running_bench() as address:
        hands.open_at(context.new_page(), address)
        seconds = time.monotonic() - started
    context.close()
    print(f"cold start to first usable page: {seconds:.2f} s")
    assert seconds <= START_LIMIT


def test_bench_prints_one_plain_line(tmp_path: Path) -> None:
    """The terminal shows the address, and nothing else, in one line."""
    port = hands.free_port()
    with (tmp_path / "said").open("w+") as said:
        code = f"from ui.shell.serve import open_bench; open_bench({port}, browser=False)"
        process = subprocess.Popen([sys.executable, "-c", code], stdout=said, stderr=said)
        hands.wait_until_answering(f"http://127.0.0.1:{port}", process)
        process.terminate()
        process.wait(timeout=10)
        said.seek(0)
        assert said.read() == (
            f"Shimwright is open at http://127.0.0.1:{port} (Ctrl+C closes it).\n"
        )


def list_of_pages(page: Page) -> Locator:
    """Return the list of pages that lies over a narrow page, if it is open."""
    return page.locator('[data-testid="stSidebar"][data-collapsed="false"]')


def test_on_a_telephone_the_menu_closes_on_choosing_a_page(
    phone_page: Page, bench_address: str
) -> None:
    """A page chosen from the menu is what one then sees, its heading free of the menu."""
    hands.open_at(phone_page, bench_address)
    for title in ("Rangefinder", "Whole camera", "Whole camera"):
        phone_page.get_by_test_id("stExpandSidebarButton").click()
        expect(list_of_pages(phone_page)).to_have_count(1)
        list_of_pages(phone_page).get_by_role("link", name=title, exact=True).click()
        expect(list_of_pages(phone_page)).to_have_count(0)
        heading = phone_page.get_by_role("heading", level=1, name=title, exact=True)
        expect(heading).to_be_in_viewport(ratio=1)
        hands.wait_until_idle(phone_page)
        expect(list_of_pages(phone_page)).to_have_count(0)


def test_on_a_telephone_the_menu_is_closed_after_a_reload(
    phone_page: Page, bench_address: str
) -> None:
    """Even a menu that was open when the page was loaded anew does not come up over it."""
    hands.open_at(phone_page, bench_address)
    phone_page.get_by_test_id("stExpandSidebarButton").click()
    expect(list_of_pages(phone_page)).to_have_count(1)
    phone_page.reload()
    expect(phone_page.get_by_role("heading", level=1)).to_be_in_viewport(ratio=1, timeout=20_000)
    hands.wait_until_idle(phone_page)
    expect(list_of_pages(phone_page)).to_have_count(0)


def test_on_a_desk_the_pages_stay_in_the_bar(page: Page, bench_address: str) -> None:
    """On a wide screen every page stands in the bar at the top, before and after a choice."""
    hands.open_at(page, bench_address)
    for title in ("Rangefinder", "Correction"):
        hands.go(page, title)
        expect(page.get_by_test_id("stTopNavLink").first).to_be_visible()
        expect(list_of_pages(page)).to_have_count(0)
