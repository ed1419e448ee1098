"""What a person does at the page, for the tests: open, type, wait, look."""

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, Locator, Page, ViewportSize, expect, sync_playwright

SHOTS = Path(__file__).parents[2] / "build" / "shots"
NAMES = ("chromium", "chromium-browser", "google-chrome", "chrome")
DESK: ViewportSize = {"width": 1280, "height": 800}
PHONE: ViewportSize = {"width": 390, "height": 844}

# Nothing that Chromium does for itself may look like a request of the page.
FLAGS = (
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


def chromium_path() -> str | None:
    """Return the browser named by SHIMWRIGHT_CHROMIUM, or the first one installed."""
    named = os.environ.get("SHIMWRIGHT_CHROMIUM")
    return named or next((path for name in NAMES if (path := shutil.which(name))), None)


@contextmanager
def running_chromium(path: str) -> Iterator[Browser]:
    """Run the browser found at a path."""
    as_root = ("--no-sandbox",) if hasattr(os, "geteuid") and os.geteuid() == 0 else ()
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=[*FLAGS, *as_root])
        yield browser
        browser.close()


def free_port() -> int:
    """Return a port that the system says is free."""
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@contextmanager
def running_bench(script: Path | None = None) -> Iterator[str]:
    """Run the real server in a process of its own and yield its address."""
    port = free_port()
    process = started_bench(port, f", script=Path({str(script)!r})" if script else "")
    try:
        yield f"http://127.0.0.1:{port}"
    finally:
        process.terminate()
        process.wait(timeout=10)


def started_bench(port: int, more: str = "") -> subprocess.Popen[str]:
    """Start the real server in a process of its own; return it once it answers."""
    code = (
        "from pathlib import Path; from ui.shell.serve import open_bench; "
        f"open_bench({port}, browser=False{more})"
    )
    process = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True)
    wait_until_answering(f"http://127.0.0.1:{port}", process)
    return process


def wait_until_answering(address: str, process: subprocess.Popen[str], limit: float = 60) -> None:
    """Return when the server answers; fail if it stops or takes longer than ``limit`` s."""
    end = time.monotonic() + limit
    while time.monotonic() < end:
        assert process.poll() is None, "the server stopped before it answered"
        try:
            urllib.request.urlopen(address, timeout=1).close()
        except urllib.error.HTTPError:
            return
        except OSError:  # refused, reset, or no answer within the second
            time.sleep(0.02)
        else:
            return
    raise AssertionError(f"no answer at {address} in {limit} s")


def open_at(page: Page, address: str) -> None:
    """Go to the address and wait until the page stands there, ready."""
    page.goto(address)
    expect(page.get_by_role("heading", level=1)).to_be_visible(timeout=20_000)
    wait_until_idle(page)


def open_correction(page: Page, address: str) -> None:
    """Open the Correction page and wait until its last part stands there."""
    open_at(page, address)
    expect(page.get_by_text("As plain text, to copy")).to_be_visible(timeout=20_000)
    wait_until_idle(page)


def wait_until_idle(page: Page, still: float = 0.15) -> None:
    """Return when the page has been connected and not running for ``still`` seconds.

    The pause covers the wait after the last key, during which nothing runs yet.
    """
    page.wait_for_function(
        """still => {
            const app = document.querySelector('[data-testid=stApp]');
            const idle = app?.dataset.testScriptState === 'notRunning'
                && app.dataset.testConnectionState === 'CONNECTED';
            if (!idle) { window.idleSince = undefined; return false; }
            window.idleSince ??= performance.now();
            return performance.now() - window.idleSince > still * 1000;
        }""",
        arg=still,
    )
    page.evaluate("window.idleSince = undefined")


def field(page: Page, label: str) -> Locator:
    """Return the text field with this label."""
    return page.get_by_role("textbox", name=label)


def type_into(page: Page, label: str, text: str, delay: float = 30) -> None:
    """Replace a field's text key by key, ``delay`` ms apart, as a person would."""
    field(page, label).focus()
    page.keyboard.press("Control+A")
    page.keyboard.press("Delete")
    page.keyboard.type(text, delay=delay)


def choose(page: Page, label: str, option: str) -> None:
    """Choose an option by its words, and wait for the page to answer."""
    box = page.get_by_role("combobox", name=label)
    if box.input_value() != option:
        press(box)
        press(page.get_by_role("option", name=option, exact=True))
    expect(box).to_have_value(option)
    wait_until_idle(page)


def headline(page: Page) -> Locator:
    """Return the one line that answers."""
    return page.locator(".answer .headline")


def answered(page: Page) -> str:
    """What the headline says large, without its sign, as it stands on paper and in a terminal."""
    return headline(page).locator("strong").first.inner_text().replace("\u00a0", " ").lstrip("✓✕? ")


def problems(page: Page) -> Locator:
    """Return what is still needed, a list item each."""
    return page.locator(".answer.waiting li")


def download(page: Page, button: str) -> bytes:
    """Press a button that gives a file and return what is in it."""
    with page.expect_download() as waited:
        press(page.get_by_role("button", name=button))
    return waited.value.path().read_bytes()


def go(page: Page, title: str) -> None:
    """Go to another page by its name in the top line, and wait until it stands there."""
    press(page.get_by_test_id("stHeader").get_by_role("link", name=title, exact=True))
    expect(page).to_have_title(f"{title} · Shimwright")
    wait_until_idle(page, 0.3)


def click(page: Page, button: str) -> None:
    """Press a button by its exact name, and wait for the page to answer."""
    press(page.get_by_role("button", name=button, exact=True))
    wait_until_idle(page, 0.3)


def write(page: Page, label: str, text: str) -> None:
    """Put a text into the field with exactly this label, and wait for the page to answer."""
    page.get_by_role("textbox", name=label, exact=True).fill(text)
    wait_until_idle(page, 0.3)


def tab_to(page: Page, name: str) -> None:
    """Walk with the tabulator until the control with this name has the keyboard."""
    for _ in range(60):
        page.keyboard.press("Tab")
        focused = page.evaluate(
            """() => {
                const e = document.activeElement;
                // The scrolling part of the page holds the words of everything in it.
                if (e.matches('main, body')) return '';
                return e.getAttribute('aria-label') ?? e.innerText ?? '';
            }"""
        )
        if name in focused:
            return
    raise AssertionError(f"the tabulator never reached {name!r}")


def choose_by_keys(page: Page, option: str) -> None:
    """Open the choice that has the keyboard, and go down its list to an option."""
    page.keyboard.press("ArrowDown")
    marked = """() => {
        const id = document.activeElement.getAttribute('aria-activedescendant');
        return id ? document.getElementById(id).innerText : '';
    }"""
    for _ in range(20):
        if page.evaluate(marked).strip() == option:
            page.keyboard.press("Enter")
            wait_until_idle(page)
            return
        page.keyboard.press("ArrowDown")
    raise AssertionError(f"the arrows never reached {option!r}")


def press(target: Locator) -> None:
    """Click as a finger does: a press lasts some tens of milliseconds."""
    target.click(delay=40)


def echo_of(page: Page, label: str) -> Locator:
    """Return the line under the field with this label."""
    whole = page.locator("[class*='st-key-field_']").filter(has=field(page, label))
    return whole.locator(".echo")


def shot(page: Page, name: str) -> Path:
    """Save a picture of the page under build/shots and return its path."""
    SHOTS.mkdir(parents=True, exist_ok=True)
    path = SHOTS / f"{name}.png"
    page.screenshot(path=path)
    return path


def settled(page: Page, read: Callable[[], list[float]]) -> list[float]:
    """What is read of a page once it reads the same twice, a fifth of a second apart.

    On a busy machine the rules of the page's looks may come after its first drawing.
    """
    before = read()
    for _ in range(25):
        page.wait_for_timeout(200)
        now = read()
        if now == before:
            break
        before = now
    return before
