"""Input fields that say what they understood.

A field is a line of text read by its `Typed`, the same that reads job files. What was
understood stands right under it; what was not is refused there in words, and the typed text
stays as it was typed: through refusals, reruns and page changes.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

import streamlit as st

from optics.errors import ShimwrightError
from optics.typed.fields import Typed
from ui.kept.drafts import draft, recall
from ui.kept.drafts import note as noted
from ui.kept.older_words import word_of_today

# The pause after the last key before the page answers: short enough to feel
# immediate, long enough that quick typing is answered once and not at every key.
PAUSE = "80ms"


@dataclass(frozen=True)
class FieldEntry:
    """What a field holds: its quantity, the text, and the refusal if it has no meaning."""

    quantity: Typed
    text: str
    refusal: str = ""

    @property
    def is_good(self) -> bool:
        """Whether there is text and it was understood."""
        return bool(self.text.strip()) and not self.refusal


def field(
    quantity: Typed, key: str, *, typed: str = "", hint: str = "", label: str = ""
) -> FieldEntry:
    """Ask for one quantity; `typed` is the text at first, `hint` shows while it is empty."""
    recall(key)
    with st.container(key=f"field_{key}", gap=None):
        text = st.text_input(
            _label(label or quantity.words, quantity.unit),
            typed,
            key=key,
            live=PAUSE,
            persist_state="session",
        )
        entry, line = answer(text or "", quantity, hint)
        st.html(line)
    noted(key, entry.text, typed)
    return entry


def choice(
    words: str, options: Sequence[str], key: str, first: int = 0, note: str | None = None
) -> str:
    """Ask for one of a few words; `first` is the place of the one shown until it is changed.

    `note` stands under it where a field has its echo; empty, it only keeps that space.
    """
    recall(key)
    now = standing(key, options[first], options)
    if st.session_state.get(key, now) != now:
        st.session_state[key] = now
    with st.container(key=f"choice_{key}", gap=None):
        chosen = st.selectbox(
            _label(words, ""), options, first, key=key, persist_state="session", filter_mode=None
        )
        if note is not None:
            st.html(f'<div class="echo">{escape(note)}</div>')
    noted(key, str(chosen), options[first])
    return str(chosen)


def standing(key: str, first: str, options: Sequence[str] = ()) -> str:
    """What stands in a field now, drawn or not; `first` where nothing was typed or chosen.

    What was chosen may have other words now, or be gone: a job was closed, an item renamed.
    """
    held = st.session_state.get(key)
    text = str((draft().texts.get(key, first) if held is None else held) or "")
    if not options or text in options:
        return text
    today = word_of_today(text)
    return today if today in options else first


def name_field(words: str, key: str, hint: str | None = "", typed: str = "") -> str:
    """Ask for a name: text that stands for nothing but itself, at most 200 characters."""
    return plain_field(words, key, typed=typed, hint=hint, longest=200).strip()


def plain_field(
    words: str, key: str, *, typed: str = "", hint: str | None = "", longest: int = 4000
) -> str:
    """Ask for text that stands for nothing but itself; `hint` None leaves no line under it."""
    before = recall(key)
    with st.container(key=f"field_{key}", gap=None):
        if "\n" in (before or typed):
            # A line of text would run its lines together without a word.
            text = st.text_area(_label(words, ""), typed, key=key, persist_state="session")
        else:
            text = st.text_input(
                _label(words, ""),
                typed,
                key=key,
                max_chars=longest,
                live=PAUSE,
                persist_state="session",
            )
        if hint is not None:
            st.html(_line(hint))
    noted(key, text or "", typed)
    return text or ""


def answer(text: str, quantity: Typed, hint: str = "") -> tuple[FieldEntry, str]:
    """What was made of the text, and the line to show under the field."""
    if not text.strip():
        return FieldEntry(quantity, text), _line(hint)
    try:
        understood = quantity.read(text)
    except ShimwrightError as refusal:
        return FieldEntry(quantity, text, str(refusal)), _line(f"✕ {refusal}", "echo refusal")
    return FieldEntry(quantity, text), _line(f"= {quantity.echo(understood)}")


def _label(words: str, unit: str) -> str:
    return words[:1].upper() + words[1:] + (f", {unit}" if unit else "")


def _line(text: str, kind: str = "echo") -> str:
    """A status line, so that a screen reader says it when it changes."""
    return f'<div class="{kind}" role="status">{escape(text)}</div>'
