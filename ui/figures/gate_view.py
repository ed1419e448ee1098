"""The film gate cut through along the lens axis: rails, film, plate, and the ground side."""

from optics.body.gate import GateResult, Plate
from optics.units import format_length
from ui.figures import svg

_WIDTH, _HEIGHT = 430.0, 200.0
_RAILS = 110.0
_ROOM = 230.0
_TOP, _BOTTOM = 40.0, 140.0
_THINNEST = 1.5


def gate_view(found: GateResult) -> str:
    """Depths are true to each other; the emulsion's room is an arrow with its size."""
    gate = found.gate
    film = gate.film.value + gate.paper.value
    behind = film + found.play.value
    ground = found.reference.value
    scale = _ROOM / max(behind, ground, 1e-6)

    def at(depth: float) -> float:
        return _RAILS + scale * depth

    play = found.play.value
    parts = [
        svg.text((4, 14), "← lens", "start", "quiet"),
        svg.text((_WIDTH - 4, 14), "depths true to each other", "end", "quiet"),
        *_film(at(0), max(scale * film, _THINNEST)),
        _pushed_back(at(play), max(scale * film, _THINNEST)) if play else "",
        *_rails(),
        *_plate(gate.plate, at(behind)),
        *_ground(at(ground)),
        *_play(at(0), at(play), play),
    ]
    words = f"Film gate: {format_length(play, places=3)} of play"
    return svg.picture((_WIDTH, _HEIGHT), words, parts)


def _rails() -> list[str]:
    ends = ((_TOP - 14, _TOP + 8), (_BOTTOM - 8, _BOTTOM + 14))
    bars = [svg.line((_RAILS - 3, a), (_RAILS - 3, b), "film") for a, b in ends]
    return [*bars, svg.text((_RAILS - 10, _TOP - 2), "rails", "end", "quiet")]


def _film(left: float, width: float) -> list[str]:
    height = _BOTTOM - _TOP - 16
    return [
        svg.tag(
            "rect",
            x=round(left, 1),
            y=_TOP + 8,
            width=round(width, 1),
            height=height,
            class_="glass",
        ),
        svg.line((left, _TOP + 8), (left, _BOTTOM - 8), "error"),
        svg.text((left + width / 2, (_TOP + _BOTTOM) / 2 + 4), "film"),
    ]


def _pushed_back(left: float, width: float) -> str:
    """The film where it lies farthest from the rails, dashed."""
    return svg.tag(
        "rect",
        x=round(left, 1),
        y=_TOP + 14,
        width=round(width, 1),
        height=_BOTTOM - _TOP - 28,
        class_="ghost",
    )


def _plate(plate: Plate, x: float) -> list[str]:
    if plate is Plate.NONE:
        return [svg.text((x + 6, (_TOP + _BOTTOM) / 2), "no plate", "start", "quiet")]
    return [
        svg.line((x + 2, _TOP - 10), (x + 2, _BOTTOM + 10), "film"),
        svg.text((x + 10, _TOP), "plate", "start", "quiet"),
    ]


def _ground(x: float) -> list[str]:
    return [
        svg.line((x, _TOP - 16), (x, _BOTTOM + 10), "axis"),
        svg.text((x - 6, _BOTTOM + 26), "ground side", "end", "quiet"),
    ]


def _play(start: float, end: float, play: float) -> list[str]:
    below = _BOTTOM + 36
    words = f"emulsion: {format_length(play, places=3)} of play"
    if not play:
        return [svg.text((start, below + 18), "the emulsion lies on the rails", kind="strong")]
    return [
        svg.line((start, _BOTTOM - 6), (start, below + 4), "tick"),
        svg.line((end, _BOTTOM - 6), (end, below + 4), "tick"),
        svg.arrow((start, below), (end, below), "error"),
        svg.text((end + 10, below + 5), words, "start", "strong"),
    ]
