"""Type: the two embedded faces, what they can show, how wide it runs and where lines break.

The fonts lie beside this module (DejaVu Sans 2.37, licence with them), so that a sheet looks
the same wherever it is made. Type sizes are in points, every length on paper in mm.
"""

import re
import unicodedata
from functools import cache
from pathlib import Path
from typing import Any

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

MM_PER_POINT = 25.4 / 72
REPLACEMENT = "�"
_FONTS = Path(__file__).with_name("fonts")
_FACES = {False: "DejaVuSans", True: "DejaVuSans-Bold"}
# What binds to its neighbour: a sign to its number, a number to its unit.
_BOUND = re.compile(r"(?<=[±⌀×<=]) (?=[\d.])|(?<=\d) (?=(?:mm|cm|km|m|in|ft)\b)")
_HYPHEN = re.compile(r"(?<=[^\W\d]-)(?=[^\W\d])")


def face(is_bold: bool) -> str:
    """The registered name of a face."""
    return str(font_of(is_bold).fontName)


@cache
def font_of(is_bold: bool) -> Any:
    """A face with its tables, loaded at first use."""
    name = f"Shimwright {_FACES[is_bold]}"
    font = TTFont(name, str(_FONTS / f"{_FACES[is_bold]}.ttf"))
    pdfmetrics.registerFont(font)
    return font


def shown(text: str) -> str:
    """The text as the faces can print it: what they cannot print becomes a visible �.

    Line breaks and tabs become spaces, for the sheet breaks lines itself.
    """
    composed = unicodedata.normalize("NFC", text)
    return "".join(map(_shown_character, composed))


@cache
def _shown_character(character: str) -> str:
    category = unicodedata.category(character)
    if character in "\t\n\r\v\f" or category in ("Zl", "Zp"):
        return " "
    # Control and format characters have no shape of their own, or one of no width.
    is_printable = category[0] != "C" and ord(character) in font_of(False).face.charToGlyph
    return character if is_printable else REPLACEMENT


def text_width(text: str, size: float, is_bold: bool = False) -> float:
    """How wide shown text runs, in mm, at a size in points."""
    return float(font_of(is_bold).stringWidth(text, size)) * MM_PER_POINT


def wrapped(
    text: str, width: float, size: float, is_bold: bool = False, most: int | None = None
) -> list[str]:
    """Shown text broken into lines no wider than `width` mm; at most `most`, the last with …"""
    lines: list[str] = []
    line = ""
    for word in _BOUND.sub("\u00a0", shown(text)).split(" "):
        for piece in _pieces(word, width, size, is_bold):
            # A piece of a word that was cut goes on without a space.
            joined = f"{line} {piece[0]}" if line and piece[1] else line + piece[0]
            if line and text_width(joined, size, is_bold) > width:
                lines.append(line)
                joined = piece[0]
            line = joined
        # A long text is not measured to its end for a line or two.
        if most is not None and len(lines) > most:
            break
    lines.append(line)
    if most is None or len(lines) <= most:
        return lines
    return [*lines[: most - 1], _clipped(" ".join(lines[most - 1 :]), width, size, is_bold)]


def _pieces(word: str, width: float, size: float, is_bold: bool) -> list[tuple[str, bool]]:
    """A word in pieces no wider than the line, each with whether a space goes before it."""
    if text_width(word, size, is_bold) <= width:
        return [(word, True)]
    pieces = [cut for part in _HYPHEN.split(word) for cut in _cut(part, width, size, is_bold)]
    return [(piece, number == 0) for number, piece in enumerate(pieces)]


def _cut(word: str, width: float, size: float, is_bold: bool) -> list[str]:
    pieces = []
    while word:
        fits = _fitting(word, width, size, is_bold)
        pieces.append(word[:fits])
        word = word[fits:]
    return pieces


def _fitting(text: str, width: float, size: float, is_bold: bool) -> int:
    """How many characters from the start fit a width; at least one."""
    font, used = font_of(is_bold), 0.0
    for count, character in enumerate(text):
        used += font.stringWidth(character, size) * MM_PER_POINT
        if used > width:
            return max(count, 1)
    return len(text)


def _clipped(line: str, width: float, size: float, is_bold: bool) -> str:
    fits = _fitting(line, width - text_width("…", size, is_bold), size, is_bold)
    return line[:fits].rstrip() + "…"


def in_visual_order(line: str) -> str:
    """A line with its right-to-left runs turned round, as they are read on paper.

    Limits: letters keep their separate forms; the line as a whole runs left to right.
    """
    return _RIGHT_TO_LEFT.sub(_turned_round, line) if _RIGHT_TO_LEFT.search(line) else line


def _turned_round(run: re.Match[str]) -> str:
    return "".join(_MIRRORED.get(c, c) for c in reversed(run.group()))


_LETTER = r"\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufeff"
_RIGHT_TO_LEFT = re.compile(rf"[{_LETTER}](?:[{_LETTER} .,'()\[\]\"-]*[{_LETTER}])?")
_MIRRORED = dict(zip("()[]", ")(][", strict=True))
