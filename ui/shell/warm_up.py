"""Has the usual formulas compiled before the first key is pressed."""

from optics.camera.camera import Turn
from optics.finding.part import DiagnosisPart
from optics.readings.kinds.mark import MarkPart
from optics.readings.kinds.rotation import RotationPart
from optics.readings.reading_part import ReadingPart
from optics.records.job import JobDocument
from optics.records.lantern_street import CAMERAS, RANGEFINDERS, WORKSHOP
from optics.records.solve import solve
from ui.terminal.plain_text import solution_text


def warm_up() -> None:
    """Work readings out on each kind of camera, alone and together; the answers are thrown away.

    Saying an answer shows its working, whose single steps are compiled apart.
    """
    mark = MarkPart(sharp_at="20 m", limit="1 m")
    turn = RotationPart(turned="5", sense=Turn.CLOCKWISE, limit="0.5")
    for camera in CAMERAS:
        has_thread = camera.focusing.kind != "bed"
        readings: tuple[ReadingPart, ...] = (mark, turn) if has_thread else (mark,)
        solution_text(solve(JobDocument(camera=camera, workshop=WORKSHOP, readings=readings)))
        finder = RANGEFINDERS.get(camera.name)
        if finder is not None:
            solution_text(solve(JobDocument(camera=camera, rangefinder=finder)))
        whole = DiagnosisPart()
        solution_text(
            solve(
                JobDocument(camera=camera, readings=readings, rangefinder=finder, diagnosis=whole)
            )
        )
