"""Several readings in one field, and shim stock as thicknesses with counts."""

import re
from collections.abc import Callable

from optics.errors import Unreadable
from optics.units.numerals import VULGAR, Question, quoted
from optics.units.printing import trimmed
from optics.units.reading import INFINITE, Understood, read_length

LONGEST_LIST = 1024
_MARKS = "".join(VULGAR)
_FRACTION = re.compile(rf"[0-9]\s*[/⁄]\s*[0-9]|[{_MARKS}]")
_NUMERAL = re.compile(rf"[eE][+\-−]?[0-9]+|[0-9.,/⁄\s+\-−–{_MARKS}]")
_NUMBER_WORD = re.compile(rf"[0-9{_MARKS}∞]|inf", re.IGNORECASE)
_ENDING = re.compile(rf".*[0-9{_MARKS}]", re.DOTALL)
_LEAF = re.compile(r"(.*?)\s*[x×*]\s*([0-9]{1,4})", re.DOTALL | re.IGNORECASE)


def read_list(
    text: str, reader: Callable[[str], Understood], *, words: str = "list of readings"
) -> tuple[Understood, ...]:
    """Read several values with one `reader`, in the order typed.

    Semicolons, line ends, a comma followed by a space, or spaces separate; a comma between
    digits is a decimal comma unless every piece has its own decimal point (``0.12,0.13``). A
    unit is written on each value or once at the end (and is then in the text of each answer),
    never on some. Where only spaces separate, fractions and feet with inches are refused.
    """
    question = Question(text, words, "0.12; 0.13; 0.11")
    pieces = _pieces(question)
    if len(pieces) > 1:
        return tuple(reader(piece) for piece in _with_units(question, pieces))
    try:
        return (reader(pieces[0]),)
    except Unreadable:
        pieces = _spaced(question)
        if len(pieces) == 1:
            raise
    return tuple(reader(piece) for piece in _with_units(question, pieces))


def read_leaves(text: str, *, words: str = "shim stock") -> tuple[tuple[float, int], ...]:
    """Read shim stock as (thickness in mm, number of leaves), in the order typed.

    ``0.05 x 4; 0.02 × 2; 0.0015 in × 3``. Each leaf stands alone: no unit means mm and no
    count means one. Thicknesses are greater than zero, counts from 1 to 9999.
    """
    question = Question(text, words, "0.05 × 4; 0.02 × 2; 0.0015 in × 3")
    return tuple(_leaf(question, piece) for piece in _pieces(question))


def format_leaves(leaves: tuple[tuple[float, int], ...]) -> str:
    """Print shim stock, thicknesses in mm to the nanometre, as `read_leaves` takes it."""
    counts = (f" × {count}" if count != 1 else "" for _, count in leaves)
    sizes = (f"{trimmed(mm, 6)} mm" for mm, _ in leaves)
    return "; ".join(size + count for size, count in zip(sizes, counts, strict=True))


def _pieces(question: Question) -> list[str]:
    """Split at the strongest separator present; one separator may end the list."""
    question.tidied(LONGEST_LIST)
    pieces = _split(question.text.strip())
    if not pieces[-1]:
        pieces.pop()
    if not all(pieces):
        raise question.refuse("a value is missing beside a separator")
    return pieces


def _split(text: str) -> list[str]:
    if re.search(r"[;\n]", text):
        return re.split(r"\s*[;\n]\s*", text)
    if re.search(r",(?:\s|$)", text):
        return re.split(r"\s*,(?:\s+|$)", text)
    pointed = text.split(",")
    return pointed if all(re.search(r"\.[0-9]", piece) for piece in pointed) else [text]


def _spaced(question: Question) -> list[str]:
    """Split at spaces, keeping each unit with the number before it."""
    pieces: list[str] = []
    for word in question.text.split():
        if pieces and not _NUMBER_WORD.search(word):
            pieces[-1] += f" {word}"
        else:
            pieces.append(word)
    units = {_unit(piece) for piece in pieces} - {""}
    if len(pieces) > 1 and (len(units) > 1 or _FRACTION.search(question.text)):
        raise question.refuse("spaces alone do not show where each value ends")
    return pieces


def _with_units(question: Question, pieces: list[str]) -> list[str]:
    """Give a unit written once, at the end, to every value; infinity needs none."""
    units = [_unit(piece) for piece in pieces]
    needed = [unit for piece, unit in zip(pieces, units, strict=True) if not _is_infinite(piece)]
    if all(needed) or not any(needed):
        return pieces
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


def _leaf(question: Question, piece: str) -> tuple[float, int]:
    match = _LEAF.fullmatch(piece)
    if match is None and re.search("[x×*]", piece, re.IGNORECASE):
        raise question.refuse(f"{quoted(piece)} is not a thickness, ×, and up to 9999 leaves")
    size, number = match.groups() if match else (piece, "1")
    thickness = read_length(size, words=f"thickness in {question.words}").value
    if thickness <= 0 or int(number) == 0:
        raise question.outside("must have thicknesses and numbers of leaves greater than 0")
    return thickness, int(number)
