"""A printed page read back in millimetres."""

import io
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

import pdfplumber
import pypdf
import pytest

MM = 25.4 / 72


@dataclass
class ReadBack:
    """A document as other programs read it; every place in mm from the top left."""

    data: bytes
    pages: list[Any] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Open it with the reader that knows places."""
        self.pages = pdfplumber.open(io.BytesIO(self.data)).pages

    @property
    def reader(self) -> pypdf.PdfReader:
        """The reader that knows the document's objects."""
        return pypdf.PdfReader(io.BytesIO(self.data))

    @property
    def text(self) -> str:
        """All text in the order of drawing, with every run of white space made one space."""
        return " ".join(" ".join(p.extract_text() for p in self.reader.pages).split())

    def lines(self, page: int = 0) -> list[tuple[float, float, float, float]]:
        """Straight lines as (x from, y from, x to, y to)."""
        return [self._ends(one) for one in self.pages[page].lines]

    def _ends(self, one: dict[str, Any]) -> tuple[float, float, float, float]:
        return (one["x0"] * MM, one["top"] * MM, one["x1"] * MM, one["bottom"] * MM)

    def words(self, page: int = 0) -> list[tuple[str, float, float, float, float]]:
        """Words with their boxes (left, top, right, bottom)."""
        found = self.pages[page].extract_words(use_text_flow=True)
        return [(w["text"], *self._ends(w)) for w in found]

    def extent(self, page: int = 0) -> tuple[float, float, float, float]:
        """The box around everything that is drawn (left, top, right, bottom)."""
        drawn = self.pages[page]
        boxes = [
            self._ends(one)
            for kind in (drawn.chars, drawn.lines, drawn.rects, drawn.curves)
            for one in kind
        ]
        lows, highs = [b[:2] for b in boxes], [b[2:] for b in boxes]
        return (
            min(b[0] for b in lows),
            min(b[1] for b in lows),
            max(b[0] for b in highs),
            max(b[1] for b in highs),
        )

    def font_files(self) -> dict[str, bool]:
        """Each font's name, and whether its outlines are in the document."""
        found: dict[str, bool] = {}
        for page in self.reader.pages:
            resources: Any = page["/Resources"]
            for reference in resources.get("/Font", {}).values():
                font = reference.get_object()
                described = font.get("/FontDescriptor")
                is_inside = described is not None and "/FontFile2" in described.get_object()
                found[font["/BaseFont"]] = is_inside
        return found


@pytest.fixture
def read_back() -> Callable[[bytes], ReadBack]:
    """Reads a document's bytes back."""
    return ReadBack
