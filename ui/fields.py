"""Input fields that say what they understood.

Each field is a line of text read by ``optics.units``. What was understood stands
right under it; what was not is refused there in words, and the typed text stays as
it was typed: through refusals, reruns and page changes.

Every field takes ``words``, the quantity as it stands in a sentence ("ring mark");
``key``, under which its text lives for the session; ``typed``, the text in it at
first; and ``hint``, shown under it while it is empty. A field that is empty or
refused answers None. Three fields in a row leave a refusal room for its sentence.
"""

from collections.abc import Callable
from functools import partial
from html import escape
from typing import TypedDict, TypeVar, Unpack

import streamlit as st

from optics import units
from optics.errors import ShimwrightError
from optics.units import Understood

T = TypeVar("T")

# The pause after the last key before the page answers: short enough to feel
# immediate, long enough that quick typing is answered once and not at every key.
PAUSE = "80ms"

Leaves = tuple[tuple[float, int], ...]


class Look(TypedDict, total=False):
    """What a field shows before anything is typed."""

    typed: str
    hint: str


def distance_field(
    words: str, key: str, *, unit: str = "m", **look: Unpack[Look]
) -> Understood | None:
    """Ask for a distance to the subject, infinity included; the value is in mm."""
    return _single(words, key, partial(units.read_distance, unit=unit, words=words), unit, look)


def length_field(
    words: str, key: str, *, unit: str = "mm", **look: Unpack[Look]
) -> Understood | None:
    """Ask for a signed length; the value is in mm."""
    return _single(words, key, partial(units.read_length, unit=unit, words=words), unit, look)


def angle_field(
    words: str, key: str, *, unit: str = "deg", **look: Unpack[Look]
) -> Understood | None:
    """Ask for a signed angle; the value is in radians."""
    shown = "°" if unit == "deg" else unit
    return _single(words, key, partial(units.read_angle, unit=unit, words=words), shown, look)


def number_field(words: str, key: str, **look: Unpack[Look]) -> Understood | None:
    """Ask for a plain number."""
    return _single(words, key, partial(units.read_number, words=words), "", look)


def count_field(words: str, key: str, **look: Unpack[Look]) -> Understood | None:
    """Ask for a whole number of things."""
    return _single(words, key, partial(units.read_count, words=words), "", look)


def f_number_field(words: str, key: str, **look: Unpack[Look]) -> Understood | None:
    """Ask for an f-number."""
    return _single(words, key, partial(units.read_f_number, words=words), "", look)


def lengths_field(
    words: str, key: str, *, unit: str = "mm", **look: Unpack[Look]
) -> tuple[Understood, ...] | None:
    """Ask for several lengths, such as repeated readings; the values are in mm."""
    one = partial(units.read_length, unit=unit, words=words)
    return field(words, key, partial(units.read_list, reader=one, words=words), _echoes, unit, look)


def leaves_field(words: str, key: str, **look: Unpack[Look]) -> Leaves | None:
    """Ask for the shim stock at hand, as thickness in mm and number of leaves."""
    return field(
        words, key, partial(units.read_leaves, words=words), units.format_leaves, "mm", look
    )


def field(
    words: str,
    key: str,
    read: Callable[[str], T],
    echo: Callable[[T], str],
    unit: str,
    look: Look,
) -> T | None:
    """Draw one field, and under it what ``read`` understood, as ``echo`` words it."""
    with st.container(key=f"field_{key}", gap=None):
        text = st.text_input(
            _label(words, unit), look.get("typed", ""), key=key, live=PAUSE, persist_state="session"
        )
        answered = answer(text or "", read, echo, look.get("hint", ""))
        st.html(answered[1])
    return answered[0]


def answer(
    text: str, read: Callable[[str], T], echo: Callable[[T], str], hint: str = ""
) -> tuple[T | None, str]:
    """Return what ``read`` made of ``text``, and the line to show under the field."""
    if not text.strip():
        return None, _line(hint)
    try:
        understood = read(text)
    except ShimwrightError as refusal:
        return None, _line(f"✕ {refusal}", "echo refusal")
    return understood, _line(f"= {echo(understood)}")


def _single(
    words: str, key: str, read: Callable[[str], Understood], unit: str, look: Look
) -> Understood | None:
    return field(words, key, read, lambda understood: understood.echo, unit, look)


def _echoes(several: tuple[Understood, ...]) -> str:
    return "; ".join(one.echo for one in several)


def _label(words: str, unit: str) -> str:
    return words[:1].upper() + words[1:] + (f", {unit}" if unit else "")


def _line(text: str, kind: str = "echo") -> str:
    """A status line, so that a screen reader says it when it changes."""
    return f'<div class="{kind}" role="status">{escape(text)}</div>'
