"""Several figures in one field, and shim stock as thicknesses with counts.

A semicolon, and nothing else, stands between two figures; a unit at the end rules all of them.
"""

import re
from collections.abc import Callable, Sequence
from typing import TypeAlias

from optics.errors import Unreadable
from optics.units.numerals import VULGAR, Question, quoted
from optics.units.printing import trimmed
from optics.units.reading import INFINITE, Understood, read_length

LONGEST_LIST = 1024
_MARKS = "".join(VULGAR)
_NUMERAL = re.compile(rf"[eE][+\-−]?[0-9]+|[0-9.,/⁄\s+\-−–{_MARKS}]")
_NUMBER_WORD = re.compile(rf"[0-9{_MARKS}∞]|inf", re.IGNORECASE)
_ENDING = re.compile(rf".*[0-9{_MARKS}]", re.DOTALL)
_LEAF = re.compile(r"(.*?)\s*[x×*]\s*([0-9]{1,4})", re.DOTALL | re.IGNORECASE)
_COMMA = re.compile(r"\s*,\s+")
_GROUPS = re.compile(r"([+\-−–]?[0-9]{1,3}(?:\s[0-9]{3})+)((?:[.,][0-9]+)?[^0-9]*)")
_ONLY_SEMICOLON = "only a semicolon stands between two figures, and spaces never group digits"


Leaves: TypeAlias = Sequence[tuple[float, int]]
"""Shim leaves: thickness in mm and how many of each."""


def read_list(
    text: str, reader: Callable[[str], Understood], *, words: str = "list of readings"
) -> tuple[Understood, ...]:
    """Read several values with one `reader`, in the order typed.

    A semicolon separates and nothing else does: what a comma, a space or a line end may or may
    not part (``18, 7``, ``3 500``) is refused with both ways of writing it. A unit is written on
    each value or once at the end (and is then in the text of each answer), never on some.
    """
    question = Question(text, words, "0.12; 0.13; 0.11")
    pieces = _with_units(question, _pieces(question))
    return tuple(_one(question, reader, piece) for piece in pieces)


def with_unit_at_end(text: str, parts: Sequence[str], words: str, example: str) -> tuple[str, ...]:
    """The parts of a text (``84 × 56 mm``, ``0.02 ± 0.01 in``) each with the unit at its end.

    Errors: Unreadable where a unit is written on some of the parts and not at the end.
    """
    return tuple(_with_units(Question(text, words, example), parts))


def read_leaves(
    text: str, *, words: str = "shim stock", between: str = ";"
) -> tuple[tuple[float, int], ...]:
    """Read shim stock as (thickness in mm, number of leaves), in the order typed.

    ``0.05 x 4; 0.02 × 2``, ``0.05 mm × 4; 0.0015 in × 3``. No unit means mm and no count means
    one; another unit than mm is written on every leaf or on none. Thicknesses are greater than
    zero, counts from 1 to 9999. `between` holds the signs that part two leaves.
    """
    question = Question(text, words, "0.05 × 4; 0.02 × 2 or 0.05 mm × 4; 0.0015 in × 3")
    leaves = [_leaf(question, piece) for piece in _pieces(question, between)]
    units = {_unit(size) for size, _ in leaves}
    if "" in units and units - {"", "mm"}:
        why = "a unit is written on some of the leaves only"
        raise question.refuse(why, "0.05 mm × 4; 0.0015 in × 3")
    return tuple(_thickness(question, size, number) for size, number in leaves)


def format_leaves(leaves: tuple[tuple[float, int], ...]) -> str:
    """Print shim stock, thicknesses in mm to the nanometre, as `read_leaves` takes it."""
    counts = (f" × {count}" if count != 1 else "" for _, count in leaves)
    sizes = (f"{trimmed(mm, 6)} mm" for mm, _ in leaves)
    return "; ".join(size + count for size, count in zip(sizes, counts, strict=True))


def _pieces(question: Question, between: str = ";") -> list[str]:
    """Split at the semicolons, or the signs given; one may end the list."""
    question.tidied(LONGEST_LIST)
    pieces = [piece.strip() for piece in re.split(f"[{between}]", question.text.strip())]
    if not pieces[-1]:
        pieces.pop()
    if not all(pieces):
        raise question.refuse("a value is missing beside a separator")
    return pieces


def _one(question: Question, reader: Callable[[str], Understood], piece: str) -> Understood:
    try:
        return reader(piece)
    except Unreadable:
        ways = _apart(piece)
        if not ways:
            raise
    raise question.refuse(_ONLY_SEMICOLON, ways)


def _apart(piece: str) -> str:
    """How a figure that may be several could be written: ``18.7 or 18; 7``; empty if it is one."""
    grouped = _GROUPS.fullmatch(piece)
    if grouped:
        parts = grouped[1].split()
        return f"{''.join(parts)}{grouped[2]} or {'; '.join(parts)}{grouped[2]}"
    parts = _COMMA.split(piece)
    if len(parts) > 1 and all(map(_NUMBER_WORD.search, parts)):
        listed = "; ".join(parts)
        is_one = len(parts) == 2 and re.fullmatch("[+\\-−–]?[0-9]+", parts[0])
        return f"{'.'.join(parts)} or {listed}" if is_one and parts[1].isdigit() else listed
    parts = piece.split(",")
    if len(parts) > 1 and all(re.search(r"\.[0-9]", part) for part in parts):
        return "; ".join(parts)
    return _spaced(piece)


def _spaced(piece: str) -> str:
    """Several numbers with spaces between, each with the unit behind it; not feet or fractions."""
    parts: list[str] = []
    for word in piece.split():
        if parts and not _NUMBER_WORD.search(word):
            parts[-1] += f" {word}"
        else:
            parts.append(word)
    is_plain = not re.search(rf"[0-9]\s*[/⁄]\s*[0-9]|[{_MARKS}]", piece)
    *before, last = map(_unit, parts)
    is_one_unit = set(before) in ({""}, {last})
    return "; ".join(parts) if len(parts) > 1 and is_plain and is_one_unit else ""


def _with_units(question: Question, pieces: Sequence[str]) -> list[str]:
    """Give a unit written once, at the end, to every value; infinity needs none."""
    units = [_unit(piece) for piece in pieces]
    needed = [unit for piece, unit in zip(pieces, units, strict=True) if not _is_infinite(piece)]
    if all(needed) or not any(needed):
        return list(pieces)
    ending = _ENDING.sub("", pieces[-1]).strip()
    if any(units[:-1]) or _unit(ending) != units[-1]:
        raise question.refuse("a unit is written on some of the values only")
    bare = [piece if _is_infinite(piece) else f"{piece} {ending}" for piece in pieces[:-1]]
    return [*bare, pieces[-1]]


def _is_infinite(piece: str) -> bool:
    return piece.strip().lower() in INFINITE


def _unit(piece: str) -> str:
    """Return what a piece holds besides its numerals, as one word."""
    return "" if _is_infinite(piece) else _NUMERAL.sub("", piece).lower()


def _leaf(question: Question, piece: str) -> tuple[str, str]:
    """A leaf's thickness and number, as typed."""
    parts = _COMMA.split(piece)
    if len(parts) > 1:
        raise question.refuse(_ONLY_SEMICOLON, "; ".join(parts))
    match = _LEAF.fullmatch(piece)
    if match is None and re.search("[x×*]", piece, re.IGNORECASE):
        raise question.refuse(f"{quoted(piece)} is not a thickness, ×, and up to 9999 leaves")
    return (match[1], match[2]) if match else (piece, "1")


def _thickness(question: Question, size: str, number: str) -> tuple[float, int]:
    thickness = read_length(size, words=f"thickness in {question.words}").value
    if thickness <= 0 or int(number) == 0:
        raise question.outside("must have thicknesses and numbers of leaves greater than 0")
    return thickness, int(number)
