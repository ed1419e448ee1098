"""A sheet's pages as PDF. The same marks give the same bytes."""

import io
import threading
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from reportlab.pdfgen.canvas import Canvas

from optics.drawing.drawing import Box, Mark, Outline, Pen, Point, StraightLine, Words
from optics.drawing.lettering import MM_PER_POINT, REPLACEMENT, face

# A face is read from one place in memory, by one sheet at a time.
_ONE_AT_A_TIME = threading.Lock()


@dataclass(frozen=True)
class Description:
    """What a document says of itself; the date is the caller's, never the clock's."""

    title: str
    author: str
    creator: str
    made: date


def as_pdf(
    pages: Sequence[Sequence[Mark]], size: Point, said: Description, stretch: Point = (1.0, 1.0)
) -> bytes:
    """The pages as one document, its fonts inside, that asks to be printed unscaled.

    All is drawn so many times larger, across and up, about the middle of the page.
    """
    file = io.BytesIO()
    canvas = Canvas(
        file,
        pagesize=(_points(size[0]), _points(size[1])),
        pageCompression=1,
        invariant=1,
        initialFontName=face(False),
    )
    _describe(canvas, said)
    writer = _Writer(canvas, size[1])
    for page in pages:
        if stretch != (1.0, 1.0):
            canvas.translate(
                *(_points(s * (1 - k) / 2) for s, k in zip(size, stretch, strict=True))
            )
            canvas.scale(*stretch)
        for mark in page:
            writer.draw(mark)
        canvas.showPage()
    with _ONE_AT_A_TIME:
        canvas.save()
    return file.getvalue()


def _describe(canvas: Canvas, said: Description) -> None:
    canvas.setTitle(_storable(said.title))
    canvas.setAuthor(_storable(said.author))
    canvas.setCreator(said.creator)
    canvas.setSubject("Camera focus")
    canvas.setCatalogEntry("Lang", "en")
    canvas.setDateFormatter(lambda *_: f"D:{said.made:%Y%m%d}000000Z")
    # A printer that fits the page to its paper would spoil every length on it.
    canvas.setViewerPreference("PrintScaling", "None")


class _Writer:
    """Draws marks on a canvas whose origin is at the bottom left."""

    def __init__(self, canvas: Canvas, height: float) -> None:
        self._canvas = canvas
        self._height = height

    def draw(self, mark: Mark) -> None:
        if isinstance(mark, StraightLine):
            self._pen(mark.pen)
            self._canvas.line(*self._at(mark.start), *self._at(mark.end))
        elif isinstance(mark, Words):
            self._words(mark)
        elif isinstance(mark, Box):
            self._box(mark)
        else:
            self._outline(mark)

    def _box(self, box: Box) -> None:
        self._pen(box.pen)
        if box.fill:
            self._canvas.setFillColorRGB(*box.fill)
        x, y = self._at((box.corner[0], box.corner[1] + box.height))
        sides = (_points(box.width), _points(box.height))
        self._canvas.rect(x, y, *sides, **_painted(box))

    def _outline(self, outline: Outline) -> None:
        self._pen(outline.pen)
        path = self._canvas.beginPath()
        path.moveTo(*self._at(outline.start))
        for step in outline.steps:
            places = [value for point in step for value in self._at(point)]
            (path.lineTo if len(step) == 1 else path.curveTo)(*places)
        if outline.closed:
            path.close()
        if outline.fill:
            self._canvas.setFillColorRGB(*outline.fill)
        self._canvas.drawPath(path, **_painted(outline))

    def _words(self, words: Words) -> None:
        canvas = self._canvas
        canvas.saveState()
        canvas.setFont(face(words.bold), words.size)
        canvas.setFillColorRGB(*words.ink)
        canvas.translate(*self._at(words.at))
        if words.mirrored:
            canvas.scale(-1, 1)
        if words.turned:
            canvas.rotate(words.turned)
        canvas.drawString(-_points(words.back), 0, words.text)
        canvas.restoreState()

    def _at(self, point: Point) -> Point:
        return _points(point[0]), _points(self._height - point[1])

    def _pen(self, pen: Pen) -> None:
        self._canvas.setLineWidth(_points(pen.width))
        self._canvas.setStrokeColorRGB(*(pen.ink or (0, 0, 0)))
        self._canvas.setDash([_points(d) for d in pen.dash])


def _painted(mark: Box | Outline) -> dict[str, int]:
    return {"stroke": int(mark.pen.ink is not None), "fill": int(mark.fill is not None)}


def _points(mm: float) -> float:
    return mm / MM_PER_POINT


def _storable(text: str) -> str:
    """A title as a document's description can hold it: no control characters or half pairs."""
    return "".join(c if c.isprintable() else REPLACEMENT for c in text)[:500]
