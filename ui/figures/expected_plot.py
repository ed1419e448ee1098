"""Every reading as it was taken, and as the causes foretell it: a line for each, drawn to scale.

Circles are readings with their 95 % ends, diamonds what is foretold, and the shaded band is the
tolerance; shapes and words carry the meaning, colour none.
"""

import math
from collections.abc import Iterator, Sequence

from optics.finding.diagnosis import Diagnosis
from optics.finding.diagnosis.reading_wording import placed_words
from optics.readings.wording import said_offset
from optics.units import format_length
from ui.figures import svg

_WIDTH, _LEFT, _RIGHT = 440.0, 156.0, 12.0
_TOP, _ROW, _FOOT = 26.0, 24.0, 40.0
# The scale is the smallest round one that holds every reading.
_ROUND = (1.0, 2.0, 5.0)
_LEGEND = "○ read, ends 95 % · ◇ expected · shaded: tolerance"


def expected_plot(found: Diagnosis) -> str:
    """The readings beside what the leading causes make of them."""
    seen = found.seen
    errors = [(e.value, e.expanded) for e in seen.errors]
    told = [float(v) for v in found.foretold]
    reach = _round_up(
        max(abs(v) for v in (*(e for e, _ in errors), *told, found.camera.allowed_error))
    )
    height = _TOP + _ROW * len(errors) + _FOOT
    parts = [
        *_ground(found.camera.allowed_error, reach, height),
        *(
            part
            for row, (reading, error, foretold) in enumerate(
                zip(seen.readings, errors, told, strict=True)
            )
            for part in _line(row, placed_words(reading), error, foretold, reach)
        ),
        svg.text((_WIDTH / 2, height - 4), _LEGEND, kind="quiet"),
    ]
    return svg.picture((_WIDTH, height), _said(found, told), parts)


def _said(found: Diagnosis, told: Sequence[float]) -> str:
    """What the picture shows, for who cannot see it."""
    rows = zip(found.seen.readings, found.seen.errors, told, strict=True)
    return "; ".join(
        f"{placed_words(reading)} read {said_offset(error.value)}, expected {said_offset(other)}"
        for reading, error, other in rows
    )


def _round_up(size: float) -> float:
    """The least of 1, 2 and 5 with noughts that is not less."""
    size *= 1.15
    power = 10.0 ** math.floor(math.log10(size))
    return next(power * step for step in (*_ROUND, 10.0) if power * step >= size)


def _across(mm: float, reach: float) -> float:
    middle, half = (_LEFT + _WIDTH - _RIGHT) / 2, (_WIDTH - _RIGHT - _LEFT) / 2
    return middle + half * max(-1.0, min(1.0, mm / reach))


def _ground(tolerance: float, reach: float, height: float) -> Iterator[str]:
    """Tolerance, zero and the scale with its senses."""
    bottom = height - _FOOT
    left, right = _across(-tolerance, reach), _across(tolerance, reach)
    yield svg.tag(
        "rect",
        x=f"{left:.1f}",
        y=_TOP - 8,
        width=f"{right - left:.1f}",
        height=f"{bottom - _TOP + 12:.1f}",
        class_="band",
    )
    middle = _across(0.0, reach)
    yield svg.line((middle, _TOP - 8), (middle, bottom + 4), "axis")
    for end, anchor in ((-reach, "start"), (reach, "end")):
        sign = "−" if end < 0 else "+"
        x = _across(end, reach)
        yield svg.line((x, bottom), (x, bottom + 4), "ghost")
        yield svg.text(
            (x, bottom + 17),
            f"{sign}{format_length(reach, places=_places(reach))}",
            anchor,
            "quiet",
        )
    yield svg.text((middle, bottom + 17), "0", kind="quiet")
    yield svg.text((_LEFT, 12), "← too far in", "start", "quiet")
    yield svg.text((_WIDTH - _RIGHT, 12), "too far out →", "end", "quiet")


def _places(reach: float) -> int:
    return max(0, -math.floor(math.log10(reach)))


def _line(
    row: int, words: str, error: tuple[float, float], told: float, reach: float
) -> Iterator[str]:
    y = _TOP + _ROW * row + 8
    value, half = error
    x, low, high = (_across(v, reach) for v in (value, value - half, value + half))
    yield svg.text((_LEFT - 12, y + 4), _short(words), "end")
    yield svg.line((low, y), (high, y), "error")
    for end in (low, high):
        yield svg.line((end, y - 4), (end, y + 4), "error")
    yield svg.tag("circle", cx=f"{x:.1f}", cy=f"{y:.1f}", r=4.5, class_="error glass")
    at = _across(told, reach)
    diamond = ((at, y - 7), (at + 6, y), (at, y + 7), (at - 6, y))
    points = " ".join(f"{a:.1f},{b:.1f}" for a, b in diamond)
    yield svg.tag("polygon", points=points)


def _short(words: str) -> str:
    """A reading's name as the margin holds it."""
    bare = words.removeprefix("the ")
    return bare if len(bare) <= 24 else f"{bare[:23]}…"
