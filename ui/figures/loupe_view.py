"""What the eye sees on the practice bench: ground glass under a loupe, and the finder's patch.

Both are pictures of light, so they look the same by day and by night.
"""

import math

from optics.teaching.practice.sight import BARS, Glass, Patch
from optics.teaching.practice.wording import glass_words, patch_words
from ui.figures import svg

SIZE = 336.0
FIELD = 1.5
"""How much of the ground glass (mm) the loupe's picture shows across."""
PX_PER_MM = SIZE / FIELD
PX_PER_MINUTE = 4.0
"""How large the finder's picture draws a minute of arc at the eye."""
_MIDDLE = SIZE / 2
_RIM = _MIDDLE - 4
# Beyond this the picture is grey all over (px), and a wider blur only slower.
_MOST_BLUR = 80.0
# An even disc of diameter d scatters by d/4 along an axis, as a normal blur of that deviation.
_DISC = 0.25
# An eye's own blur in the finder (minutes of arc): two lines 1′ apart are just told apart.
_EYE_BLUR = 0.3
# How many bars in each group, so that each is wide enough to be found; and its middle.
_GROUPS = dict(
    zip(
        BARS,
        (
            (3, (-64, -72)),
            (3, (64, -72)),
            (4, (-84, 10)),
            (5, (0, 10)),
            (7, (78, 10)),
            (9, (-36, 88)),
            (11, (40, 88)),
        ),
        strict=True,
    )
)
_TALL = 44.0
_MAST = 14.0


def loupe_view(glass: Glass, is_coarse: bool) -> str:
    """The target's bars with their blur at true scale, the glass's grain and pencil cross."""
    deviation = min(_DISC * glass.blur * PX_PER_MM, _MOST_BLUR)
    defs = svg.tag("defs", _round_window() + _blur(deviation) + _grain(is_coarse))
    image = svg.tag("g", _paper() + "".join(map(_group, BARS)), filter="url(#blur)")
    grain = svg.tag(
        "rect",
        width=SIZE,
        height=SIZE,
        filter="url(#grain)",
        stroke="none",
        opacity=0.34 if is_coarse else 0.18,
    )
    seen = svg.tag("g", image + grain + _pencil_cross(), clip_path="url(#window)")
    return svg.picture((SIZE, SIZE), glass_words(glass), [defs, seen, _rim()])


def finder_view(patch: Patch) -> str:
    """The finder's field with the moving image in its patch, both at the eye's own sharpness."""
    across, up = (60 * math.degrees(a) * PX_PER_MINUTE for a in (patch.across, patch.up))
    defs = svg.tag("defs", _round_window() + _blur(_EYE_BLUR * PX_PER_MINUTE) + _patch_window())
    fixed = svg.tag("g", _paper(0.8) + _scene(), filter="url(#blur)")
    moving = svg.tag("g", _scene(), transform=f"translate({across:.1f} {-up:.1f})", opacity=0.55)
    tint = _patch(class_="tint")
    in_patch = svg.tag(
        "g", tint + svg.tag("g", moving, filter="url(#blur)"), clip_path="url(#patch)"
    )
    frame = _patch(stroke_opacity=0.4)
    seen = svg.tag("g", fixed + in_patch + frame, clip_path="url(#window)")
    return svg.picture((SIZE, SIZE), patch_words(patch), [_TINT, defs, seen, _rim()])


_TINT = svg.tag("style", ".tint {fill: #f0c860; fill-opacity: 0.35; stroke: none}")


def _round_window() -> str:
    return svg.tag("clipPath", svg.tag("circle", cx=_MIDDLE, cy=_MIDDLE, r=_RIM), id="window")


def _patch(class_: str | None = None, stroke_opacity: float | None = None) -> str:
    return svg.tag(
        "rect", x=83, y=103, width=170, height=130, class_=class_, stroke_opacity=stroke_opacity
    )


def _patch_window() -> str:
    return svg.tag("clipPath", _patch(), id="patch")


def _blur(deviation: float) -> str:
    blur = svg.tag("feGaussianBlur", stdDeviation=f"{deviation:.2f}")
    return svg.tag(
        "filter", blur, id="blur", x=0, y=0, width=SIZE, height=SIZE, filterUnits="userSpaceOnUse"
    )


def _grain(is_coarse: bool) -> str:
    noise = svg.tag(
        "feTurbulence",
        type="fractalNoise",
        baseFrequency=0.35 if is_coarse else 0.8,
        numOctaves=2,
        seed=3,
    )
    grey = svg.tag("feColorMatrix", type="saturate", values=0)
    return svg.tag(
        "filter",
        noise + grey,
        id="grain",
        x=0,
        y=0,
        width=SIZE,
        height=SIZE,
        filterUnits="userSpaceOnUse",
    )


def _paper(grey: float = 1.0) -> str:
    # Wider than the window, so that a wide blur brings no dark rim in.
    return svg.tag(
        "rect",
        x=-SIZE,
        y=-SIZE,
        width=3 * SIZE,
        height=3 * SIZE,
        stroke="none",
        style=f"fill: var(--paper); fill-opacity: {grey}; stroke: none",
    )


def _bar(x: float, y: float, width: float, height: float) -> str:
    return svg.tag(
        "rect",
        x=f"{x:.2f}",
        y=f"{y:.2f}",
        width=f"{width:.2f}",
        height=f"{height:.2f}",
        style="fill: black; stroke: none",
    )


def _group(pairs: int) -> str:
    """One group of bars, so many line pairs to the mm, with its number over it."""
    count, (x, y) = _GROUPS[pairs]
    pitch = PX_PER_MM / pairs
    left, top = _MIDDLE + x - pitch * (count - 0.5) / 2, _MIDDLE + y - _TALL / 2
    bars = (_bar(left + i * pitch, top, pitch / 2, _TALL) for i in range(count))
    name = svg.tag(
        "text",
        str(pairs),
        x=_MIDDLE + x,
        y=top - 5,
        text_anchor="middle",
        style="fill: black; font: 11px sans-serif",
    )
    return "".join(bars) + name


def _pencil_cross() -> str:
    level, far = _MIDDLE - 40, SIZE - 12
    ends = (
        ((_MIDDLE, 12), (_MIDDLE, 58)),
        ((_MIDDLE, SIZE - 52), (_MIDDLE, far)),
        ((12, level), (60, level)),
        ((SIZE - 60, level), (far, level)),
    )
    return "".join(
        svg.tag(
            "line",
            x1=a[0],
            y1=a[1],
            x2=b[0],
            y2=b[1],
            style="stroke: black; stroke-opacity: 0.35; stroke-width: 1",
        )
        for a, b in ends
    )


def _rim() -> str:
    return svg.tag("circle", cx=_MIDDLE, cy=_MIDDLE, r=_RIM, style="stroke-width: 4")


def _scene() -> str:
    """A mast with its yards before a roof: upright edges for distance, level ones for height."""
    mast = _bar(_MIDDLE - _MAST / 2, 20, _MAST, 300)
    yards = "".join(_bar(_MIDDLE - w / 2, y, w, 5) for y, w in ((138, 70), (193, 110), (78, 50)))
    stays = svg.tag(
        "path",
        d=f"M{_MIDDLE} 28 L28 318 M{_MIDDLE} 28 L308 318",
        style="stroke: black; stroke-width: 1.5",
    )
    return mast + yards + stays
