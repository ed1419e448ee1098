"""A picture of every page as it opens, for the guide: python3 start.py screenshots.

The pages are those of the bench's own list, so that there is no second one to grow stale. The
bench is started with an empty folder for its records: nobody's jobs come into a picture.
"""

import io
import os
import sys
import tempfile
from pathlib import Path

import hands
from PIL import Image

from ui.pages import PAGES

FOLDER = Path(__file__).resolve().parents[2] / ".screenshots"
LARGEST = 150_000
"""Bytes that a picture may take, so that the guide opens at once."""

_COLOURS = (256, 128, 64, 32)


def small_png(data: bytes, largest: int = LARGEST) -> bytes:
    """The picture with as many colours as fit into so many bytes; fewest if none do."""
    whole = Image.open(io.BytesIO(data)).convert("RGB")
    small = b""
    for colours in _COLOURS:
        file = io.BytesIO()
        drawn = whole.quantize(colours, dither=Image.Dither.NONE)
        drawn.save(file, "PNG", optimize=True)
        small = file.getvalue()
        if len(small) <= largest:
            break
    return small


def file_name(title: str) -> str:
    """A page's title as the name of its picture."""
    return f"{title.lower().replace(' ', '_')}.png"


def take(folder: Path, chromium: str) -> list[Path]:
    """Take every page by day at 1280 pixels' width; the files written."""
    folder.mkdir(exist_ok=True)
    written = []
    with hands.running_chromium(chromium) as browser, hands.running_bench() as address:
        page = browser.new_context(viewport=hands.DESK, color_scheme="light").new_page()
        for title, place in PAGES.items():
            hands.open_at(page, f"{address}/{place}")
            # Plots draw themselves after the page has come to rest.
            hands.wait_until_idle(page, still=1.5)
            path = folder / file_name(title)
            path.write_bytes(small_png(page.screenshot()))
            written.append(path)
    return written


def main() -> int:
    """Take the pictures and say where they are; 1 where there is no Chromium."""
    chromium = hands.chromium_path()
    if chromium is None:
        sys.stderr.write("No Chromium found: install it or name it in SHIMWRIGHT_CHROMIUM.\n")
        return 1
    with tempfile.TemporaryDirectory() as records:
        os.environ["SHIMWRIGHT_DATA"] = records
        for path in take(FOLDER, chromium):
            sys.stdout.write(f"{path.name}: {path.stat().st_size / 1000:.0f} kB\n")
    sys.stdout.write(f"All in {FOLDER.name}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
