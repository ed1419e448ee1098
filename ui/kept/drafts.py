"""What was typed, kept as it is typed: through a reload, another page and a new start.

Each browser has a name of its own in a cookie, and under it the store keeps the text of every
field that was changed in it. A field asks for its text before it is drawn and reports it after;
what has changed is written once the page has answered. Without a cookie, or where the store
refuses, everything works as long as the page stays open, and `trouble` says so.
"""

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field

import streamlit as st

from optics.errors import ShimwrightError
from optics.records.store import Store
from ui.kept.older_keys import lifted

BROWSER = "shimwright_browser"
_KEY = "what was typed"
_NAME = re.compile(r"[0-9a-f]{32}")


def is_browser_name(text: str) -> bool:
    """Whether a text is a name that the bench gives to browsers."""
    return _NAME.fullmatch(text) is not None


@dataclass
class Draft:
    """The texts that were typed in one browser, and those of them not yet in the store.

    `shown` are the keys of the fields drawn since the window's present page came up.
    """

    browser: str
    texts: dict[str, str] = field(default_factory=dict)
    unwritten: dict[str, str | None] = field(default_factory=dict)
    trouble: str = ""
    page: str = ""
    shown: set[str] = field(default_factory=set)

    def begin(self, page: str) -> None:
        """Take note of which page is drawn: on another than before no field stands there yet."""
        if page != self.page:
            self.page, self.shown = page, set()

    def change(self, key: str, text: str | None) -> None:
        """Give a field another text, or with None forget it."""
        if text is None:
            self.texts.pop(key, None)
        else:
            self.texts[key] = text
        self.unwritten[key] = text

    def change_all(self, texts: Mapping[str, str | None]) -> None:
        """Give several fields other texts."""
        for key, text in texts.items():
            self.change(key, text)

    def under(self, prefix: str) -> dict[str, str]:
        """The fields whose keys begin with a prefix, by the rest of their keys."""
        size = len(prefix)
        return {key[size:]: text for key, text in self.texts.items() if key.startswith(prefix)}

    def write(self) -> None:
        """Put what has changed in the store."""
        if not self.unwritten or not self.browser:
            return
        try:
            Store().merge_draft(self.browser, self.unwritten)
        except ShimwrightError as refusal:
            self.trouble = f"What is typed is not being kept: {refusal}"
        else:
            self.unwritten, self.trouble = {}, ""


def draft() -> Draft:
    """This browser's draft, read from the store when its page is opened."""
    found: Draft | None = st.session_state.get(_KEY)
    if found is None:
        found = st.session_state[_KEY] = _opened()
    return found


def _opened() -> Draft:
    browser = str(st.context.cookies.get(BROWSER, ""))
    if not is_browser_name(browser):
        return Draft("")
    try:
        mine = Draft(browser, Store().draft(browser) or {})
        mine.change_all(lifted(mine.texts))
        return mine
    except ShimwrightError as refusal:
        return Draft(browser, trouble=f"What was typed before cannot be shown: {refusal}")


@contextmanager
def kept_while_drawn(page: str) -> Iterator[None]:
    """Write what has changed once the page is drawn, also where drawing it was cut short."""
    mine = draft()
    mine.begin(page)
    try:
        yield
    finally:
        mine.write()


def recall(key: str) -> str | None:
    """Put the text back that a field had when the page was last open; that text, if any."""
    mine = draft()
    text = mine.texts.get(key)
    if key not in st.session_state:
        if text is not None:
            st.session_state[key] = text
    elif key not in mine.shown:
        # A field of two pages may be built anew by the browser when one follows the other, and
        # would begin with what it holds untouched and report that as typed: so it is told.
        st.session_state[key] = st.session_state[key]
    mine.shown.add(key)
    return text


def note(key: str, text: str, at_first: str) -> None:
    """Report a field's text as it is now; `at_first` is what stood there untouched."""
    mine = draft()
    if text != mine.texts.get(key, at_first):
        mine.change(key, text)


def put(key: str, text: str) -> None:
    """Fill a field in as if its text had been typed; before it is drawn, as in a callback."""
    draft().change(key, text)
    st.session_state[key] = text


def forget(prefix: str) -> None:
    """Forget what was typed in the fields whose keys begin with a prefix, once it is kept."""
    mine = draft()
    for rest in mine.under(prefix):
        mine.change(f"{prefix}{rest}", None)
