"""Figures as a shop types and says them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optics.errors import OutOfRange, Unreadable
from optics.relation import Quantity
from optics.teaching.classroom import shop
from optics.theory.depth import f_number
from optics.theory.helicoid import rotation, starts
from optics.theory.lens import film_distance, focus_error, hiatus, object_distance
from optics.theory.rangefinder import gain


@pytest.mark.parametrize(
    ("quantity", "text", "value"),
    [
        (film_distance, "1,5", 1500.0),
        (film_distance, "3 ft 6", 1066.8),
        (film_distance, "∞", math.inf),
        (object_distance, "−2 m", -2000.0),
        (focus_error, "2 thou", 0.0508),
        (rotation, "1/4 turn", math.pi / 2),
        (f_number, "f/5.6", 5.6),
        (starts, "6", 6.0),
        (gain, "0,0174 rad/mm", 0.0174),
        (gain, "0.0174", 0.0174),
    ],
)
def test_text_is_read_in_the_shops_unit(quantity: Quantity, text: str, value: float) -> None:
    """Subjects are in metres, other lengths in mm, angles in degrees."""
    assert shop.field_of(quantity).read(text).value == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("quantity", "text", "error"),
    [
        (film_distance, "0 m", OutOfRange),
        (film_distance, "1,200", Unreadable),
        (starts, "0", OutOfRange),
        (f_number, "wide", Unreadable),
        (gain, "0.02 rad", Unreadable),
    ],
)
def test_what_has_no_meaning_is_refused(
    quantity: Quantity, text: str, error: type[Exception]
) -> None:
    """Text outside the quantity's range, or without one meaning, is refused."""
    with pytest.raises(error):
        shop.field_of(quantity).read(text)


@pytest.mark.parametrize(
    ("quantity", "value", "text"),
    [
        (film_distance, 1500.0, "1.5 m"),
        (film_distance, math.inf, "∞"),
        # 0.063 mm over 0.0254 is 2.48 thousandths.
        (focus_error, -0.063, "−0.063 mm (−2.5 thou)"),
        (focus_error, 0.0000112, "0.0112 µm"),
        (focus_error, 0.0006, "0.0006 mm"),
        (rotation, math.radians(30), "30.0°"),
        (f_number, 2.8, "f/2.8"),
        (starts, 6.0, "6"),
    ],
)
def test_figure_is_said_in_shop_units(quantity: Quantity, value: float, text: str) -> None:
    """Small lengths bring their thousandths, angles are degrees, subjects metres."""
    assert shop.said(quantity, value) == text


@given(
    st.sampled_from(sorted(shop.QUANTITIES)),
    st.floats(1e-6, 1e6).flatmap(lambda v: st.sampled_from([v, -v])),
)
def test_typed_figure_reads_back(name: str, value: float) -> None:
    """A figure put into a field reads back as the same number to nine digits."""
    quantity = shop.QUANTITIES[name]
    try:
        quantity.check(value)
    except OutOfRange:
        return
    assert shop.field_of(quantity).read(shop.typed(quantity, value)).value == pytest.approx(
        value, rel=1e-8
    )


def test_range_is_said_in_words() -> None:
    """Each end of a range is said, with its unit; without ends any figure will do."""
    assert shop.range_of(film_distance) == "more than 0 mm"
    assert shop.range_of(starts) == "at least 1"
    assert shop.range_of(hiatus) == "at most 1000 m"
    assert shop.range_of(focus_error).startswith("any")
    assert shop.range_of(shop.QUANTITIES["eye_acuity"]) == "at least 0 rad, at most 5.73°"
