"""The palettes against the published contrast rules, and the style sheet against them."""

import re
from itertools import product

import pytest

from ui.theme import DAY, NIGHT, STYLES, Palette, style_sheet, theme_settings

# WCAG 2.1, success criteria 1.4.3 (text, level AA) and 1.4.11 (edges of controls).
TEXT, EDGE = 4.5, 3.0

WRITING = ("text", "quiet", "accent", "refusal", "caution", "good")


def luminance(colour: str) -> float:
    """Relative luminance of sRGB as WCAG 2.1 defines it."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio as WCAG 2.1 defines it."""
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize(
    ("one", "other", "published"),
    [("#000000", "#ffffff", 21.0), ("#777777", "#ffffff", 4.48), ("#767676", "#ffffff", 4.54)],
)
def test_contrast_agrees_with_known_pairs(one: str, other: str, published: float) -> None:
    """The measure used below gives the known ratios (WCAG: 21; the two greys from memory)."""
    assert contrast(one, other) == pytest.approx(published, abs=0.005)


@pytest.mark.parametrize("palette", [DAY, NIGHT], ids=["day", "night"])
@pytest.mark.parametrize(("ink", "paper"), [*product(WRITING, ("ground", "field"))])
def test_writing_is_readable(palette: Palette, ink: str, paper: str) -> None:
    """Every colour used for text reaches level AA on both grounds of its theme."""
    assert contrast(getattr(palette, ink), getattr(palette, paper)) >= TEXT


@pytest.mark.parametrize("palette", [DAY, NIGHT], ids=["day", "night"])
def test_controls_stand_out(palette: Palette) -> None:
    """Edges of fields can be made out, and text on the accent can be read."""
    assert contrast(palette.line, palette.ground) >= EDGE
    assert contrast(palette.line, palette.field) >= EDGE
    assert contrast(palette.on_accent, palette.accent) >= TEXT


def test_every_sheet_of_rules_is_used() -> None:
    """Each file of rules is part of the style sheet that the page gets."""
    whole = style_sheet()
    files = sorted(STYLES.glob("*.css"))
    assert len(files) > 5
    assert all(file.read_text(encoding="utf-8") in whole for file in files)


def test_style_sheet_has_no_colours_of_its_own() -> None:
    """Every colour comes from a palette, so none escapes the checks above."""
    _, _, sheet = style_sheet().partition("}")
    assert re.findall(r"#[0-9a-fA-F]{3,8}\b|rgba?\(|hsla?\(", sheet) == []
    assert set(re.findall(r"var\(--([a-z-]+)", sheet)) <= {
        name.replace("_", "-") for name in vars(DAY)
    }


def test_style_sheet_and_theme_load_nothing() -> None:
    """No font, picture or sheet is fetched for the look."""
    looks = style_sheet() + str(theme_settings())
    assert re.findall(r"https?:|//|@import|url\(", looks) == []
