"""The cam as part of a result document; lengths in mm, places of the ring in rad from infinity."""

import math
from typing import Annotated

from pydantic import Field

from optics.rangefinder import cam_wording
from optics.rangefinder.cam_part import CamAnswer
from optics.rangefinder.stoning import StoningMap
from optics.typed.result_parts import Distance, FigureOut, Out

# As far apart as the rows on the page.
STEP = math.radians(5)


class LiftOut(Out):
    """What the cam must do at a place, and the lift error that uses up the tolerance there."""

    rotation: float
    sharp_at: Distance
    lift: float
    true_within: float


class CutOut(Out):
    """What was read at a place, the metal to come off, and the focus error now and after."""

    rotation: float
    lift_read: float
    lift_needed: float
    first_pass: float
    in_all: float
    focus_error_now: FigureOut
    focus_error_after: FigureOut


class StoningOut(Out):
    """What to stone off; `gain` is what to set the coupling to, as a part of its present gain."""

    words: tuple[str, ...]
    warnings: tuple[str, ...]
    verdict_now: str
    verdict_after: str
    datum_shift: float
    gain: float
    convergence_change: Annotated[
        float | None, Field(description="rad at the zero, plus: towards each other; null: unknown")
    ]
    cuts: tuple[CutOut, ...]


class CamOut(Out):
    """The lift the body needs all along the ring, and what to stone if lifts were read."""

    law: str
    table: tuple[LiftOut, ...]
    stoning: Annotated[StoningOut | None, Field(description="null where no lifts were read")]


def cam_out(answer: CamAnswer | None) -> CamOut | None:
    """The cam of a solution; None where the job has none."""
    if answer is None:
        return None
    table, found = answer.cam.table(STEP), answer.stoning
    columns = (table.rotation, table.film_distance, table.lift, table.tolerance)
    return CamOut(
        law=cam_wording.said_law(answer.cam.law),
        table=tuple(
            LiftOut(rotation=r, sharp_at=d, lift=y, true_within=t)
            for r, d, y, t in zip(*(column.tolist() for column in columns), strict=True)
        ),
        stoning=None
        if found is None
        else StoningOut.taken_from(
            found,
            words=cam_wording.lines(found),
            warnings=cam_wording.warnings(found),
            verdict_now=found.before.verdict,
            verdict_after=found.after.verdict,
            cuts=_cuts(found),
        ),
    )


def _cuts(found: StoningMap) -> tuple[CutOut, ...]:
    return tuple(
        CutOut(
            rotation=found.rotation[i],
            lift_read=found.measured[i] - found.measured[0],
            lift_needed=found.required[i] - found.required[0],
            first_pass=found.first_pass[i],
            in_all=found.cut[i],
            focus_error_now=FigureOut.of(found.before.focus_error[i]),
            focus_error_after=FigureOut.of(found.after.focus_error[i]),
        )
        for i in range(len(found.readings))
    )
