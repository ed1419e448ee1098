"""The look of the bench: two palettes, the server's theme settings and the style sheet.

Warm paper grey by day, warm charcoal by night, one accent. Colour never carries a
meaning alone: every mark comes with a sign and a word. The style sheet holds no
colours of its own; it is filled from the palettes, so that the contrast check in
the tests sees every colour that reaches the screen.
"""

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import streamlit as st

STYLES = Path(__file__).with_name("styles")
# Joined in this order: what all pages share, then what one page adds to it.
_SHEETS = (
    "shell",
    "fields",
    "answer",
    "standard",
    "telephone",
    "exercises",
    "practice",
    "classroom",
    "whole_camera",
    "jobs",
)

# A ring with its index mark: the one drawing that stands for the whole trade.
MARK = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32" width="32" height="32">'
    '<circle cx="16" cy="18" r="11" fill="#f6f3ec" stroke="#1d5654" stroke-width="5"/>'
    '<path d="M16 17 V1" stroke="#26241f" stroke-width="3"/></svg>'
)


ABOUT = (
    "**Shimwright** turns readings at the bench into the focus error at the film, "
    "and the error into what to change. It runs on this machine only and sends nothing out."
)


@dataclass(frozen=True)
class Palette:
    """Every colour of one theme, as ``#rrggbb``."""

    ground: str
    field: str
    line: str
    text: str
    quiet: str
    accent: str
    on_accent: str
    refusal: str
    caution: str
    good: str
    paper: str


DAY = Palette(
    ground="#ebe8e0",
    field="#f8f6f0",
    line="#878172",
    text="#26241f",
    quiet="#575348",
    accent="#1d5654",
    on_accent="#ffffff",
    refusal="#8a2b12",
    caution="#6b4a00",
    good="#2b5a26",
    paper="#ffffff",
)

NIGHT = Palette(
    ground="#1c1b19",
    field="#282622",
    line="#7d776a",
    text="#ebe6da",
    quiet="#b5af9f",
    accent="#7cc0b8",
    on_accent="#14211f",
    refusal="#f2a78f",
    caution="#e3bd6e",
    good="#a3cf98",
    paper="#ffffff",
)


def theme_settings() -> dict[str, Any]:
    """Return the server settings for both themes; which one shows follows the system."""
    shared = {
        "theme.font": "sans-serif",
        "theme.headingFont": "serif",
        "theme.baseFontSize": 15,
        "theme.headingFontSizes": ["1.5rem", "1.2rem", "1.05rem", "1rem", "1rem", "1rem"],
        "theme.headingFontWeights": 600,
        "theme.baseRadius": "3px",
        "theme.showWidgetBorder": True,
        "theme.linkUnderline": True,
        "theme.paddingTop": "0.6rem",
        "theme.paddingBottom": "1rem",
    }
    return shared | _settings("light", DAY) | _settings("dark", NIGHT)


def _settings(name: str, palette: Palette) -> dict[str, Any]:
    colours = {
        "primaryColor": palette.accent,
        "backgroundColor": palette.ground,
        "secondaryBackgroundColor": palette.field,
        "textColor": palette.text,
        "linkColor": palette.accent,
        "borderColor": palette.line,
        "grayTextColor": palette.quiet,
        "redTextColor": palette.refusal,
        "orangeTextColor": palette.caution,
        "greenTextColor": palette.good,
        "codeTextColor": palette.text,
        "codeBackgroundColor": palette.field,
    }
    return {f"theme.{name}.{option}": colour for option, colour in colours.items()}


def palette_in_use() -> Palette:
    """The palette of the theme that the browser shows now, for plots."""
    return NIGHT if st.context.theme.type == "dark" else DAY


@cache
def style_sheet() -> str:
    """Return the style sheet with each palette colour as a custom property.

    ``light-dark()`` follows the theme in use, also when it was chosen from the menu.
    """
    properties = "".join(
        f"--{name.replace('_', '-')}: light-dark({day}, {getattr(NIGHT, name)});"
        for name, day in vars(DAY).items()
    )
    rules = (STYLES.joinpath(f"{name}.css").read_text(encoding="utf-8") for name in _SHEETS)
    return "\n".join((f".stApp {{{properties}}}", *rules))


def dress_page(title: str) -> None:
    """Give the page its title, mark, width and style sheet; call it once, before the page."""
    st.set_page_config(
        page_title=f"{title} · Shimwright",
        page_icon=MARK,
        layout="wide",
        menu_items={"About": ABOUT},
    )
    st.html(f"<style>{style_sheet()}</style>")
