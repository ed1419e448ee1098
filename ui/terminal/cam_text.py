"""A cam's answer as lines of plain text."""

from collections.abc import Iterable

from optics.rangefinder import cam_wording
from optics.rangefinder.cam import Cam
from optics.rangefinder.cam_part import CamAnswer
from optics.rangefinder.cam_result import STEP
from optics.units import format_distance, format_length


def cam_blocks(answer: CamAnswer) -> list[list[str]]:
    """What to stone off and where, or the table of a new cam."""
    law = f"{cam_wording.said_law(answer.cam.law)}."
    if answer.stoning is None:
        return [[law, cam_wording.said_tolerance(answer.cam)], _table(answer.cam)]
    found = answer.stoning
    return [
        [law, *cam_wording.lines(found)],
        ["Metal to come off", *_items(cam_wording.cut_lines(found))],
        ["Take care", *_items(cam_wording.warnings(found)), f"- {cam_wording.ONE_WAY}"],
        [cam_wording.PRESUMED],
    ]


def _table(cam: Cam) -> list[str]:
    table = cam.table(STEP)
    rows = zip(table.rotation, table.film_distance, table.lift, strict=True)
    return [
        "Lift that the body needs",
        *(
            f"- {cam_wording.place(float(r))}, sharp at {format_distance(float(d))}: "
            f"{format_length(float(y), places=3)}"
            for r, d, y in rows
        ),
    ]


def _items(lines: Iterable[str]) -> list[str]:
    return [f"- {line}" for line in lines]
