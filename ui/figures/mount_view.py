"""The mount seen from the front, with what each screw gets."""

from optics.camera.mount import MountPlan, ScrewShim
from ui.figures import svg
from ui.figures.frame_map import signed

_WIDTH, _HEIGHT = 230.0, 278.0
_MIDDLE = (115.0, 147.0)
_BOX = (120.0, 130.0)


def mount_view(plan: MountPlan) -> str:
    """Every screw at its place, with its change of shim."""
    reach = [max(abs(v) for v in axis) or 1.0 for axis in zip(*_places(plan), strict=True)]
    scale = min(box / 2 / far for box, far in zip(_BOX, reach, strict=True))
    width, height = (2 * scale * far + 44 for far in reach)
    x, y = _MIDDLE
    parts = [
        svg.tag(
            "rect",
            x=round(x - width / 2, 1),
            y=round(y - height / 2, 1),
            width=round(width, 1),
            height=round(height, 1),
            rx=8,
            class_="plate",
        ),
        svg.tag("circle", cx=x, cy=y, r=round(0.42 * scale * min(reach), 1), class_="glass"),
        svg.text((x, 14), "shims under the screws", kind="quiet"),
        *(part for shim in plan.shims for part in _screw(shim, scale)),
    ]
    words = "; ".join(f"{s.screw.name} {signed(s.change)}" for s in plan.shims)
    return svg.picture((_WIDTH, _HEIGHT), f"Shims under the screws: {words}", parts)


def _places(plan: MountPlan) -> list[svg.Point]:
    return [(shim.screw.x, shim.screw.y) for shim in plan.shims]


def _screw(shim: ScrewShim, scale: float) -> list[str]:
    x, y = _MIDDLE[0] + scale * shim.screw.x, _MIDDLE[1] - scale * shim.screw.y
    words = "leave" if abs(shim.change) < 0.0005 else signed(shim.change)
    above = -36 if shim.screw.y > 0 else 42
    return [
        svg.tag("circle", cx=round(x, 2), cy=round(y, 2), r=8, class_="screw"),
        svg.line((x - 5, y - 4), (x + 5, y + 4), "screw"),
        svg.text((x, y + above), words, kind="strong"),
    ]
