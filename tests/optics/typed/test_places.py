"""Places, sizes and leaves as they are typed."""

import pytest

from optics.body.standard.part import DEPTHS, SCREWS
from optics.body.witness.part import MARKS
from optics.errors import OutOfRange, ShimwrightError, Unreadable
from optics.typed import fields
from optics.typed.places import read_leaves_now, read_place, size

FRAME = size("picture on the film", "84 × 56")


@pytest.mark.parametrize(
    ("text", "x", "y"),
    [
        ("top left", -30, 25),
        ("Right  Bottom", 30, -25),
        ("upper left", -30, 25),
        ("lower right", 30, -25),
        ("top", 0, 25),
        ("centre", 0, 0),
        ("−30, 25", -30, 25),
        ("1,5; −0,05", 1.5, -0.05),
        ("1.5, −0.05", 1.5, -0.05),
        ("1 in; 2 in", 25.4, 50.8),
    ],
)
def test_place_is_a_corner_or_two_figures(text: str, x: float, y: float) -> None:
    """A place is taken by name or by x and y, with either decimal mark and a real minus."""
    assert read_place(text).within((60, 50)) == pytest.approx((x, y))


@pytest.mark.parametrize("older", ["upper right", "Upper  Right"])
def test_an_older_word_for_a_corner_is_echoed_in_the_one_word(older: str) -> None:
    """Whoever writes upper right, as older job files may, is told that it is the top right."""
    assert read_place(older).echo == "top right"
    assert read_place(older).text == older


@pytest.mark.parametrize(
    "text",
    [
        "upper top",
        "1,5",
        "−0.05",
        "topleft",
        "top bottom",
        "top top",
        "left right",
        "1, 2, 3",
        "−3 25",
        "1.5,2.5",
        "",
    ],
)
def test_place_without_one_meaning_is_refused(text: str) -> None:
    """One figure, three, or words that are no corner are refused with an example."""
    with pytest.raises(Unreadable, match="such as −30, 25"):
        read_place(text)


def test_repeats_and_places_share_the_semicolon() -> None:
    """A semicolon before a further place parts places, any other parts repeats."""
    found = DEPTHS.read("top left = 0.020; 0,021; −30, 25 = 1;right= −0.05;")
    assert [place.echo for place, _ in found] == ["top left", "−30, 25 mm", "right"]
    assert [[depth.value for depth in depths] for _, depths in found] == [
        [0.02, 0.021],
        [1.0],
        [-0.05],
    ]


@pytest.mark.parametrize("text", ["0.02", "top left 0.02", "= 0.02", "top left =", ""])
def test_reading_without_its_place_is_refused(text: str) -> None:
    """A depth that does not say where it was taken is refused with an example."""
    with pytest.raises(Unreadable, match=r"such as top left = 0\.02"):
        DEPTHS.read(text)


def test_leaves_under_a_screw_are_added_up_or_unknown() -> None:
    """Leaves are written with a plus; none and not known are two things."""
    assert read_leaves_now("0.2 + 0,05 × 2") == ((0.2, 1), (0.05, 2))
    assert read_leaves_now(" none") == ()
    assert read_leaves_now("?") is None
    found = SCREWS.read("top = 0.2 + 0.05; bottom left = none; 20, −15 = ?")
    assert SCREWS.echo(found) == (
        "3 places: top: 0.2 mm + 0.05 mm; bottom left: no shim; 20, −15 mm: not known"
    )


def test_leaves_that_are_refused_are_quoted_as_typed() -> None:
    """The sentence names 0.2 + 0.05 in, with the sign that was typed."""
    with pytest.raises(Unreadable, match=r"“0\.2 \+ 0\.05 in” cannot be understood"):
        read_leaves_now("0.2 + 0.05 in")


def test_marks_are_echoed_by_name() -> None:
    """Candidate marks are said with their angles; one without is refused with an example."""
    assert MARKS.echo(MARKS.read("A = 0; left one = −14")) == "2 marks: A at 0°; left one at −14°"
    with pytest.raises(Unreadable, match="such as B = 10"):
        MARKS.read("A = 0; 10")


@pytest.mark.parametrize(
    ("text", "width", "height"),
    [("84 × 56", 84, 56), ("6x9 cm", 60, 90), ("36,5 * 24", 36.5, 24), ("1 in × 2 in", 25.4, 50.8)],
)
def test_size_is_width_and_height(text: str, width: float, height: float) -> None:
    """A unit once at the end counts for both figures."""
    across, up = FRAME.read(text)
    assert (across.value, up.value) == pytest.approx((width, height))


@pytest.mark.parametrize(
    ("text", "kind"), [("84", Unreadable), ("1 × 2 × 3", Unreadable), ("0 × 5", OutOfRange)]
)
def test_size_without_two_lengths_is_refused(text: str, kind: type[ShimwrightError]) -> None:
    """One figure, three, and nothing at all are no size."""
    with pytest.raises(kind, match="picture on the film"):
        FRAME.read(text)


@pytest.mark.parametrize(
    ("text", "value", "limit"),
    [
        ("0.02 ± 0.01", 0.02, 0.01),
        ("−0,05 +/- 0,01 mm", -0.05, 0.01),
        ("± 1 thou", 0, 0.0254),
        ("0.02 +- 0.01", 0.02, 0.01),
        ("−0.05", -0.05, None),
    ],
)
def test_give_or_take_is_a_figure_and_its_limit(
    text: str, value: float, limit: float | None
) -> None:
    """A figure may carry its limit, stand alone, or be left out for nothing."""
    figure, known = fields.give_or_take("error").read(text)
    assert figure.value == pytest.approx(value)
    assert (known and known.value) == (limit and pytest.approx(limit))


@pytest.mark.parametrize("text", ["", "±", "0.02 ±", "0.02 ± −0.01", "0.02 ± 0.01 ± 0.01", "abc"])
def test_give_or_take_refuses_what_it_cannot_read(text: str) -> None:
    """A missing or negative limit is refused, never guessed."""
    with pytest.raises(ShimwrightError):
        fields.give_or_take("error").read(text)
