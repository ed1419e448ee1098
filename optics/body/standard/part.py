"""The lens standard as part of a job: depth readings, the picture, and the mount's screws."""

from dataclasses import dataclass
from typing import Annotated, ClassVar, Literal

from optics.body.standard import (
    Bend,
    Corner,
    DefocusMap,
    Frame,
    Standard,
    Tilted,
    View,
    defocus_map,
    depth_readings,
    measure_standard,
)
from optics.camera.camera import Camera
from optics.camera.mount import MountPlan, MountScrew, plan_shims
from optics.errors import NoAnswer
from optics.measure.uncertainty import exact
from optics.measure.verdict import Verdict, worst_of
from optics.moves.setting import near_enough
from optics.theory.certainty import half_width
from optics.theory.depth import f_number
from optics.theory.lens import film_distance
from optics.typed import fields, places
from optics.typed.ask import Ask
from optics.typed.part import Part, optional_value, value
from optics.units import Leaves, Understood

DEPTH = fields.readings(
    fields.figure("depth reading", "mm gauged", example="0.02 mm or 0.02 mm; 0.03 mm")
)
DEPTH_LIMIT = fields.of(half_width, "limit of a depth reading", "mm gauged", example="0.01 mm")
ZERO_LIMIT = fields.of(half_width, "limit of the gauge's zero", "mm gauged", example="0.01 mm")
NOMINAL_DEPTH = fields.figure("depth that is right in the middle", "mm gauged", example="0.41 mm")
FRAME = places.size("picture on the film", "84 × 56")
CORNERS = places.size("distance between the corners gauged", "80 × 52")
SCREWS_APART = places.size("distance between the screws", "50 × 40")
SUBJECT = fields.of(film_distance, "distance of the subject", example="1.2 m or 3 ft 6 in or inf")
APERTURE = fields.of(f_number, "aperture", example="f/8")


def _echo_depths(depths: tuple[Understood, ...]) -> str:
    return ", ".join(depth.echo for depth in depths)


DEPTHS = places.placed(DEPTH.read, _echo_depths, "depth readings", "top left = 0.02")
SCREWS = places.placed(
    places.read_leaves_now, places.echo_leaves, "screws of the mount", "top left = 0.2 + 0.05"
)


MIDDLE = {"keep": "keep the middle", "put right": "put the middle right too"}
_LEANS = Ask(
    "what leans",
    words={"lens": "the lens", "film": "the film"},
    note="the film counts once, a lens 1 + m",
    width=6,
)
_SCREWS = Ask(
    "screws, and the leaves under each now",
    "such as top = 0.2 + 0.05; −20, −15 = none; 20, −15 = ?",
    width=12,
)


class StandardPart(Part):
    """Depths from the film rails to the standard, places as seen from the front.

    Each place is ``x, y`` in mm from the middle of the frame, plus right and up, or a corner,
    side or the middle by name: the corners are `corners` apart, those of the screws
    `screws_apart`; both are the frame's where they are left out. `screws` gives the leaves
    under each screw now, or ``none``, or ``?`` where they are not known.
    """

    title: ClassVar[str] = "Lens standard"
    depths: Annotated[str, DEPTHS]
    limit: Annotated[str, DEPTH_LIMIT, Ask("each good to ±", starts="0.005")]
    zero_limit: Annotated[
        str, ZERO_LIMIT, Ask("its zero to ±", starts="0.02", hint="0 if empty")
    ] = "0 mm"
    frame: Annotated[str, FRAME, Ask("width × height")]
    corners: Annotated[str, CORNERS, Ask("corners apart", "if empty, the picture's")] | None = None
    nominal: (
        Annotated[
            str,
            NOMINAL_DEPTH,
            Ask("right on the lens axis", "depth; if empty, it is focused", width=6),
        ]
        | None
    ) = None
    subject: Annotated[str, SUBJECT, Ask("subject at", "∞ if empty", starts="∞")] = "inf"
    aperture: Annotated[str, APERTURE, Ask(hint="full aperture if empty")] | None = None
    leans: Annotated[Literal["lens", "film"], _LEANS] = "lens"
    screws: Annotated[str, SCREWS, _SCREWS] | None = None
    screws_apart: (
        Annotated[
            str, SCREWS_APART, Ask("screws apart", "corners by name; width × height", width=6)
        ]
        | None
    ) = None
    middle: Annotated[Literal["keep", "put right"], Ask("shims shall", words=MIDDLE, width=6)] = (
        "keep"
    )


@dataclass(frozen=True)
class StandardAnswer:
    """The standard, what it does to the picture, and its shims where screws were given.

    `harmless` (mm) is a bend too small to matter, `allowed` the camera's tolerance.
    """

    standard: Standard
    view: DefocusMap
    plan: MountPlan | None
    harmless: float
    allowed: float

    @property
    def is_bent(self) -> bool:
        """Whether it is bent by more than does no harm."""
        found = self.standard.flatness
        return found.bend is Bend.BENT and abs(found.deviation.value) > self.harmless

    @property
    def bend(self) -> Verdict:
        """Whether it may be shimmed as if it were not bent."""
        if self.is_bent:
            return Verdict.OUTSIDE
        is_told = self.standard.flatness.bend in (Bend.BENT, Bend.FLAT)
        return Verdict.INSIDE if is_told else Verdict.UNSURE

    @property
    def may_stay(self) -> bool:
        """Whether every corner is sharp and nothing is bent."""
        return self.view.is_sharp and not self.is_bent

    @property
    def worst_corner(self) -> Corner:
        """Of the corners that are judged worst, the one farthest out."""
        verdict = worst_of(corner.verdict for corner in self.view.corners)
        worst_off = [corner for corner in self.view.corners if corner.verdict is verdict]
        return max(worst_off, key=lambda corner: abs(corner.error.value))


def solve_standard(part: StandardPart, camera: Camera, drawer: Leaves) -> StandardAnswer:
    """Work the standard out.

    Errors: OutOfRange for readings or screws that fix no plane; NoAnswer where the middle is to
    be put right and the depth that is right there was not given.
    """
    found = DEPTHS.read(part.depths)
    readings = depth_readings(
        list(places.points(found, _apart(part, part.corners, CORNERS))),
        [[depth.value for depth in depths] for _, depths in found],
        value(DEPTH_LIMIT, part.limit),
        value(ZERO_LIMIT, part.zero_limit),
    )
    standard = measure_standard(readings)
    view = _view(part, standard, camera)
    plan = _plan(part, standard, view, camera, drawer)
    return StandardAnswer(standard, view, plan, near_enough(camera), camera.allowed_error)


def _apart(part: StandardPart, text: str | None, field: fields.Typed) -> tuple[float, float]:
    return places.size_of(field, part.frame if text is None else text)


def _view(part: StandardPart, standard: Standard, camera: Camera) -> DefocusMap:
    nominal = optional_value(NOMINAL_DEPTH, part.nominal)
    return defocus_map(
        standard.plane,
        Frame(*places.size_of(FRAME, part.frame)),
        camera,
        View(
            value(SUBJECT, part.subject),
            optional_value(APERTURE, part.aperture),
            Tilted(part.leans),
        ),
        nominal=None if nominal is None else exact(nominal),
    )


def _plan(
    part: StandardPart, standard: Standard, view: DefocusMap, camera: Camera, drawer: Leaves
) -> MountPlan | None:
    if part.screws is None:
        return None
    found = SCREWS.read(part.screws)
    at = places.points(found, _apart(part, part.screws_apart, SCREWS_APART))
    return plan_shims(
        standard.plane,
        [MountScrew(*point, leaves) for point, (_, leaves) in zip(at, found, strict=True)],
        moved=_move(part, view),
        drawer=drawer,
        near_enough=near_enough(camera),
    )


def _move(part: StandardPart, view: DefocusMap) -> float:
    if part.middle == "keep":
        return 0.0
    if part.nominal is None:
        raise NoAnswer(
            "To put the middle right, the depth that is right there is needed: got none; enter "
            "it, counted as the readings are, or keep the middle.",
            quantity=NOMINAL_DEPTH.words,
        )
    return -view.middle.value


# Boxes for single places read depths as the whole text does.
def depth_at(place: str) -> fields.Typed:
    """How the depth at one place is read."""
    return fields.readings(fields.figure(f"depth at the {place}", "mm gauged"))
