"""The bench note's drawings: where the lens stands, how far that is, and which way to turn."""

import math

from optics.drawing.drawing import Ink, Point, on_circle
from optics.drawing.lettering import text_width
from optics.drawing.page import ACCENT, BLACK, DARK, MID, PALE, WHITE, Sheet
from optics.moves import Picture
from optics.readings import wording
from optics.readings.correction import Correction
from optics.readings.readings import Sense
from optics.readings.remedies import Remedy
from optics.units import format_length

FIGURE_HEIGHT = 37.0
_SMALL = 6.4
_LABEL = 7.4
# The exaggerated standing of the lens on paper: film to lens, its shift, its half height.
_BACK, _SHIFT, _HALF = 38.0, 11.0, 9.0
_BULGE = 2.6


def draw_standing(sheet: Sheet, corner: Point, correction: Correction) -> None:
    """Light from infinity, the lens where it is and should be, and the film; 94 mm wide.

    The subject is at the left and the film at the right, as in every drawing of the program.
    """
    x, y = corner
    start, film, axis = x + 4.0, x + 81.0, y + 21.0
    right = film - _BACK
    stands = right - correction.sense * _SHIFT
    sheet.line((start, axis), (x + 92, axis), ink=MID, dash=(3, 0.8, 0.6, 0.8))
    _draw_light(sheet, film, stands, axis, start)
    _draw_film(sheet, film, axis, y)
    if correction.sense is not Sense.RIGHT:
        _draw_lens(sheet, right, axis, fill=None, dash=(0.9, 0.7), ink=DARK)
    _draw_lens(sheet, stands, axis, fill=PALE)
    _draw_light(sheet, film, stands, axis, start, only_front=True)
    _draw_amount(sheet, right, stands, axis, y, correction)
    sheet.text(start, axis - _HALF + 0.6, "light from ∞", _SMALL, ink=DARK)


def _draw_film(sheet: Sheet, film: float, axis: float, y: float) -> None:
    top, bottom = axis - 13, axis + 13
    sheet.line((film + 0.35, top), (film + 0.35, bottom), width=0.7)
    for step in range(13):
        at = top + 2 * step
        sheet.line((film + 0.7, at), (film + 2.4, at + 1.7), ink=DARK)
    sheet.text(film + 0.35, y + FIGURE_HEIGHT - 0.6, "film plane", _LABEL, align="middle")


def _draw_lens(
    sheet: Sheet,
    x: float,
    axis: float,
    *,
    fill: Ink | None,
    dash: tuple[float, ...] = (),
    ink: Ink = BLACK,
) -> None:
    steps = [t / 12 for t in range(-12, 13)]
    face = [(_BULGE * (1 - t * t), axis + _HALF * t) for t in steps]
    outline = [(x + dx, at) for dx, at in face] + [(x - dx, at) for dx, at in reversed(face)]
    sheet.shape(outline, fill=fill, ink=ink, width=0.3, dash=dash)


def _draw_light(
    sheet: Sheet,
    film: float,
    lens: float,
    axis: float,
    start: float,
    *,
    only_front: bool = False,
) -> None:
    """Two rays from infinity through the rim of the lens, and the disc they leave on the film."""
    rim = _HALF * 0.8
    focus = lens + _BACK
    disc = rim * abs(film - focus) / _BACK
    for side in (1, -1):
        sheet.line((start, axis + side * rim), (lens, axis + side * rim), width=0.15, ink=DARK)
        if only_front:
            continue
        meets = axis + side * rim * (focus - film) / _BACK
        sheet.line((lens, axis + side * rim), (film, meets), width=0.15, ink=DARK)
        if focus > film:
            sheet.line((film, meets), (focus, axis), ink=MID, dash=(0.8, 0.6))
    if disc and not only_front:
        sheet.line((film - 0.25, axis - disc), (film - 0.25, axis + disc), width=0.5, ink=ACCENT)


def _draw_amount(
    sheet: Sheet, right: float, stands: float, axis: float, y: float, correction: Correction
) -> None:
    """The arrow from where the lens should be to where it is, and its words."""
    foot, words_at, arrow_at = y + FIGURE_HEIGHT - 0.6, y + 4.4, y + 7.4
    if correction.sense is Sense.RIGHT:
        sheet.text(right, words_at, "right", 10, bold=True, ink=ACCENT, align="middle")
        sheet.text(right, foot, "the lens, where it should be", _LABEL, align="middle")
        return
    for at in (right, stands):
        sheet.line((at, arrow_at - 1.6), (at, axis + _HALF + 2.4), ink=DARK, dash=(0.5, 0.5))
    sheet.arrow((right, arrow_at), (stands, arrow_at), width=0.6, ink=ACCENT)
    said = wording.said_error(correction.error)
    half = text_width(said, 10, is_bold=True) / 2
    # Kept clear of the film and of the end of the axis, however long the figure is.
    middle = min((right + stands) / 2, right + _BACK - half - 2)
    sheet.text(middle, words_at, said, 10, bold=True, ink=ACCENT, align="middle")
    is_out = correction.sense is Sense.TOO_FAR_OUT
    sheet.text(
        right - (1.2 if is_out else -1.2),
        foot,
        "should be here",
        _LABEL,
        ink=DARK,
        align="left" if is_out else "right",
    )
    sheet.text(
        stands + (1.2 if is_out else -1.2),
        foot,
        "is here",
        _LABEL,
        bold=True,
        align="right" if is_out else "left",
    )


def draw_gauge(sheet: Sheet, corner: Point, width: float, correction: Correction) -> None:
    """The error with its interval on a scale with the tolerance and the depth of focus.

    Too far out is at the left, nearer the subject, as beside it where the lens stands.
    """
    x, y = corner
    camera, error = correction.camera, correction.error
    span = 1.12 * max(
        abs(error.value) + error.expanded, camera.depth_of_focus, camera.allowed_error
    )
    middle, scale = x + width / 2, width / 2 / span
    line = y + 16.0
    _draw_band(sheet, (middle, line), camera.depth_of_focus * scale, WHITE, 5.0)
    _draw_band(sheet, (middle, line), camera.allowed_error * scale, PALE, 5.0)
    sheet.line((x, line), (x + width, line), width=0.2)
    sheet.line((middle, line - 6.2), (middle, line + 6.2), width=0.2)
    _draw_found(sheet, middle, line, scale, correction)
    sheet.text(x, y + 4.4, "← too far out", _LABEL)
    sheet.text(middle, y + 4.4, "right", _LABEL, align="middle")
    sheet.text(x + width, y + 4.4, "too far in →", _LABEL, align="right")
    _draw_key(sheet, (x, y + 27.0), correction)


def _draw_band(sheet: Sheet, at: Point, half: float, fill: Ink, half_height: float) -> None:
    corner = (at[0] - half, at[1] - half_height)
    sheet.box(corner, 2 * half, 2 * half_height, fill=fill, ink=DARK, line=0.15)


def _draw_found(
    sheet: Sheet, middle: float, line: float, scale: float, correction: Correction
) -> None:
    found, reach = (scale * f for f in (correction.error.value, correction.error.expanded))
    at = middle - found
    for end in (at - reach, at + reach):
        sheet.line((end, line - 1.6), (end, line + 1.6), width=0.3, ink=ACCENT)
    sheet.line((at - reach, line), (at + reach, line), width=0.7, ink=ACCENT)
    diamond = [(at, line - 2.1), (at + 1.4, line), (at, line + 2.1), (at - 1.4, line)]
    sheet.shape(diamond, fill=ACCENT, ink=WHITE, width=0.15)


def _draw_key(sheet: Sheet, corner: Point, correction: Correction) -> None:
    x, y = corner
    camera = correction.camera
    rows = (
        (PALE, f"tolerance ± {format_length(camera.allowed_error, places=3)}"),
        (WHITE, f"depth of focus ± {format_length(camera.depth_of_focus, places=3)}"),
    )
    for number, (fill, words) in enumerate(rows):
        at = y + 3.4 * number
        sheet.box((x, at - 1.9), 3.4, 2.2, fill=fill, ink=DARK, line=0.15)
        sheet.text(x + 5, at, words, _SMALL)
    at = y + 3.4 * len(rows) - 0.8
    diamond = [(x + 1.7, at - 1.3), (x + 2.6, at), (x + 1.7, at + 1.3), (x + 0.8, at)]
    sheet.shape(diamond, fill=ACCENT, ink=None)
    sheet.text(x + 5, at + 0.8, "found, with its 95 % interval", _SMALL)


def draw_remedy(sheet: Sheet, top: Point, remedy: Remedy) -> float:
    """A small picture of what to do, hanging from its top middle; where it ends."""
    if remedy.move.picture is None:
        return top[1]
    ((_, amount),) = remedy.settings
    return _PICTURES[remedy.move.picture](sheet, top, amount > 0)


def _draw_turn(sheet: Sheet, top: Point, is_clockwise: bool) -> float:
    """A ring seen from the front, with an arrow in the sense to turn it."""
    radius = 3.9
    x, y = centre = (top[0], top[1] + radius + 2.4)
    way = 1 if is_clockwise else -1
    sheet.circle(centre, radius, width=0.2)
    sheet.circle(centre, radius * 0.6, width=0.2)
    sheet.line((x, y - radius), (x, y - radius * 0.68), width=0.4)
    outside = radius + 1.7
    sheet.arc(
        centre, outside, way * math.radians(-38), way * math.radians(70), width=0.5, ink=ACCENT
    )
    tail = on_circle(centre, outside, way * math.radians(32))
    tip = on_circle(centre, outside - 0.15, way * math.radians(54))
    sheet.arrow(tail, tip, width=0.5, ink=ACCENT)
    sheet.text(x, y + radius + 2.4, "front", 5.8, ink=DARK, align="middle")
    return y + radius + 3


def _draw_shim(sheet: Sheet, top: Point, is_added: bool) -> float:
    """Lens on its seat, flange and film, with a leaf between seat and flange, put in or out."""
    x, y = top[0], top[1] + 5.2
    _draw_small_lens(sheet, (x - 3.9, y + 2.4))
    for left in (x - 2.3, x + 0.7):
        sheet.box((left, y), 1.6, 4.8, fill=PALE, line=0.15)
    sheet.box((x - 0.5, y - 0.4), 1.0, 5.2, fill=ACCENT, ink=None)
    sheet.line((x + 5.2, y), (x + 5.2, y + 4.8), width=0.6)
    ends = ((x, y - 4.6), (x, y - 1.0))
    sheet.arrow(*(ends if is_added else ends[::-1]), width=0.5, ink=ACCENT)
    word = "add" if is_added else "remove"
    sheet.text(x, y + 7.4, word, 5.8, ink=DARK, align="middle")
    return y + 8.0


def _draw_small_lens(sheet: Sheet, middle: Point) -> None:
    steps = [t / 6 for t in range(-6, 7)]
    side = [(1.1 * (1 - t * t), middle[1] + 2.4 * t) for t in steps]
    outline = [(middle[0] + dx, at) for dx, at in side]
    outline += [(middle[0] - dx, at) for dx, at in reversed(side)]
    sheet.shape(outline, fill=WHITE, width=0.15)


def _draw_stop(sheet: Sheet, top: Point, is_away: bool) -> float:
    """A bed with its stop, the film plane at the right, and an arrow away from it or towards it."""
    film, y = top[0] + 5, top[1] + 1.2
    sheet.line((film, y), (film, y + 6.4), width=0.6)
    sheet.line((film, y + 6), (film - 10.6, y + 6), width=0.3)
    sheet.box((film - 6.2, y + 3.4), 1.8, 2.5, fill=PALE, line=0.15)
    ends = ((film - 3.4, y + 1.8), (film - 7.4, y + 1.8))
    sheet.arrow(*(ends if is_away else ends[::-1]), width=0.5, ink=ACCENT)
    sheet.text(film + 0.5, y + 8.8, "film", 5.8, ink=DARK, align="right")
    return y + 9.4


_PICTURES = {Picture.TURN: _draw_turn, Picture.LEAF: _draw_shim, Picture.STOP: _draw_stop}
