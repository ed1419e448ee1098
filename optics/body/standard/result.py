"""The lens standard as part of a result document; lengths in mm, angles in rad."""

from typing import Annotated

from pydantic import Field

from optics.body.standard import wording
from optics.body.standard.part import StandardAnswer
from optics.camera.mount import ScrewShim
from optics.typed.result_parts import Distance, FigureOut, Out

_ANGLE = Field(description="in rad, plus as its place says")
X = Annotated[float, Field(description="mm right of the middle, seen from the front")]
Y = Annotated[float, Field(description="mm above the middle, seen from the front")]


class ResidualOut(Out):
    """How far one reading stands out from the plane, plus farther from the film."""

    x: X
    y: Y
    deviation: FigureOut


class CornerOut(Out):
    """A corner of the frame: its focus error, the disc of a point there, and the verdict."""

    x: X
    y: Y
    words: str
    in_the_picture: str
    error: FigureOut
    blur: float
    verdict: str


class ScrewOut(Out):
    """What one screw gets, plus to add; `leaves` is null where no pack could be made up."""

    x: X
    y: Y
    words: str
    wanted: FigureOut
    change: float
    leaves: tuple[tuple[float, int], ...] | None

    @classmethod
    def of(cls, shim: ScrewShim) -> "ScrewOut":
        """The shim as JSON can hold it."""
        return cls.taken_from(
            shim,
            x=shim.screw.x,
            y=shim.screw.y,
            words=wording.said_shim(shim),
            leaves=None if shim.pack is None else shim.pack.leaves,
        )


class MountOut(Out):
    """The shims under all screws, what they leave, and how far the middle moves."""

    screws: tuple[ScrewOut, ...]
    lean_left: Annotated[FigureOut, _ANGLE]
    shift: FigureOut
    raised: float
    gap: float
    notes: tuple[str, ...]


class StandardOut(Out):
    """The plane of the standard, whether it is bent, the corners of the picture, the shims.

    `tilt` is plus where the top, `swing` where the right side stands farther from the film.
    """

    words: str
    lean: Annotated[FigureOut, _ANGLE]
    tilt: Annotated[FigureOut, _ANGLE]
    swing: Annotated[FigureOut, _ANGLE]
    mean: FigureOut
    middle: FigureOut
    bend: str
    bend_words: str
    residuals: tuple[ResidualOut, ...]
    largest_deviation: Annotated[FigureOut, Field(description="from the plane that makes it least")]
    subject: Distance
    f_number: float
    depth_of_focus: float
    corners: tuple[CornerOut, ...]
    mount: Annotated[MountOut | None, Field(description="null where no screws were given")]


def standard_out(answer: StandardAnswer | None) -> StandardOut | None:
    """The whole standard as JSON can hold it."""
    if answer is None:
        return None
    standard, view, plan = answer.standard, answer.view, answer.plan
    plane = standard.plane
    return StandardOut.taken_from(
        plane,
        words=wording.said_lean(plane),
        mean=standard.mean,
        bend=standard.flatness.bend,
        bend_words=wording.said_flatness(standard.flatness, answer.harmless),
        residuals=[
            ResidualOut.taken_from(reading, deviation=deviation)
            for reading, deviation in zip(standard.readings, standard.residuals, strict=True)
        ],
        largest_deviation=standard.minimax.worst,
        subject=view.view.film_distance,
        f_number=view.f_number,
        depth_of_focus=view.depth,
        corners=[
            CornerOut.taken_from(
                corner,
                words=wording.said_corner(corner, view),
                in_the_picture=corner.picture_name,
            )
            for corner in view.corners
        ],
        mount=None
        if plan is None
        else MountOut.taken_from(
            plan,
            screws=tuple(map(ScrewOut.of, plan.shims)),
            lean_left=plan.after.lean,
            notes=wording.plan_notes(plan),
        ),
    )
