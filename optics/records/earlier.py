"""Documents kept while commas, spaces and line ends parted figures too, written as now.

Only the records read so (kept jobs and items, backups, zips), never what is typed nor a job file
that is to be solved: there the figures were understood, echoed and kept in this very meaning.
What stands between them is written anew, and a unit that was only understood is written out; no
figure changes, and the kept revision stays as it was typed.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from typing import Any

from pydantic import ValidationError

from optics import units
from optics.errors import ShimwrightError
from optics.typed.fields import named_pieces

_SIZES = {"frame", "corners", "screws_apart", "picture", "standard_screws"}
_PLACED = {"depths", "screws"}
_MARKS = ("marks", "depth_marks")
_LEAVES = {"drawer", "fitted", "leaves", "added", "removed"}
_READERS: tuple[Callable[[str], object], ...] = (
    units.read_length,
    units.read_angle,
    units.read_f_number,
)
_GIVE_OR_TAKE = re.compile(r"\s*(±|\+/?[-−])\s*")
_LETTER = re.compile(r"[^\W\d_]|[\"'°′″]")
_HAS_NUMBER = re.compile(r"[0-9½⅓⅔¼¾⅛⅜⅝⅞∞]|inf", re.IGNORECASE)


def write_as_now(document: Any, wrong: ValidationError) -> bool:
    """Write the texts that are refused as they are written now; whether any changed.

    `document` is the parsed JSON, changed in place.
    """
    changed = False
    for holder, key, name in (t for e in wrong.errors() for t in _texts(document, e["loc"])):
        new = _as_now(name, holder[key])
        changed, holder[key] = changed or new != holder[key], new
    return changed


def _texts(document: Any, steps: Sequence[int | str]) -> Iterator[tuple[Any, Any, str]]:
    """The text that an error's place leads to, or the marks of the part there, with its name."""
    holder, key, node, name, told = None, None, document, "", None
    for step in steps:
        if isinstance(node, dict) and node.get("kind") == step and node is not told:
            told = node  # The step names the kind of the part, which is no place in the file.
        elif _holds(node, step):
            holder, key, node = node, step, node[step]
            name = step if isinstance(step, str) else name
    if isinstance(node, str):
        yield holder, key, name
    elif isinstance(node, dict):
        yield from ((node, name, name) for name in _MARKS if isinstance(node.get(name), str))


def _holds(node: Any, step: int | str) -> bool:
    if isinstance(node, dict):
        return step in node
    return isinstance(node, list) and isinstance(step, int) and step < len(node)


def _as_now(name: str, text: str) -> str:
    if "=" in text:
        return "; ".join(_named(name, piece) for piece in named_pieces(text))
    if _GIVE_OR_TAKE.search(text):
        return _with_unit_written(text)
    if name in _LEAVES:
        return "; ".join(_in_mm(_pieces(text)))
    between = " × " if name in _SIZES else ", " if name == "place" else "; "
    return between.join(_pieces(text))


def _named(name: str, piece: str) -> str:
    mark, _, rest = piece.partition("=")
    mark = ", ".join(_pieces(mark)) if name in _PLACED else mark.strip()
    if name == "screws":
        return f"{mark} = " + " + ".join(_in_mm(re.split(r"\s*\+\s*", rest.strip())))
    return f"{mark} = " + "; ".join(_pieces(rest))


def _pieces(text: str) -> list[str]:
    """The figures of a text, parted at the strongest thing between them."""
    body = text.strip()
    if re.search(r"[;\n]", body):
        pieces = re.split(r"\s*[;\n]\s*", body)
    elif re.search(r",(?:\s|$)", body):
        pieces = re.split(r"\s*,(?:\s+|$)", body)
    elif all(re.search(r"\.[0-9]", part) for part in body.split(",")):
        pieces = body.split(",")
    else:
        pieces = [body]
    found = [piece for piece in pieces if piece]
    return _at_spaces(body) if len(found) == 1 else found


def _at_spaces(text: str) -> list[str]:
    """Figures with nothing but spaces between, unless they are one; a bare one was in metres."""
    if any(_reads(reader, text) for reader in _READERS):
        return [f"{text} m"] if re.fullmatch("[0-9]{4,}", text) else [text]
    pieces: list[str] = []
    for word in text.split():
        if pieces and not _HAS_NUMBER.search(word):
            pieces[-1] += f" {word}"
        else:
            pieces.append(word)
    return pieces


def _reads(reader: Callable[[str], object], text: str) -> bool:
    try:
        reader(text)
    except ShimwrightError:
        return False
    return True


def _in_mm(leaves: Sequence[str]) -> list[str]:
    """Leaves each with a unit, where some have one: a bare thickness was in mm."""
    sizes = [re.split(r"\s*[x×*]\s*", leaf, maxsplit=1, flags=re.IGNORECASE) for leaf in leaves]
    if not any(_LETTER.search(size) for size, *_ in sizes):
        return list(leaves)
    united = ([s if _LETTER.search(s) else f"{s} mm", *count] for s, *count in sizes)
    return [" × ".join(parts) for parts in united]


def _with_unit_written(text: str) -> str:
    """A limit that stood without a unit beside a figure with one: it was in mm."""
    figure, sign, limit = _GIVE_OR_TAKE.split(text, maxsplit=1)
    is_mixed = bool(_LETTER.search(figure)) and not _LETTER.search(limit)
    return f"{figure} {sign} {limit.strip()} mm" if is_mixed else text
