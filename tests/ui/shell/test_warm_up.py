"""What is ready before the first key is pressed."""

import subprocess
import sys

import pytest

# A process of its own: in this one, other tests have compiled most formulas already.
COUNT = """
from optics.camera.camera import Turn
from optics.readings.kinds.mark import MarkPart
from optics.readings.kinds.rotation import RotationPart
from optics.records.job import JobDocument
from optics.records.lantern_street import CAMERAS, WORKSHOP
from optics.records.solve import solve
from optics.relation import formula
from ui.terminal.plain_text import solution_text
from ui.shell.warm_up import warm_up

compiled, original = [], formula.compile_function
formula.compile_function = lambda *what: compiled.append(what) or original(*what)
if {warm}:
    warm_up()
warm = len(compiled)
turn = RotationPart(turned="7", sense=Turn.COUNTER_CLOCKWISE, limit="1")
for camera in CAMERAS:
    readings = (MarkPart(sharp_at="12 m", limit="1 m"), turn)
    count = 1 if camera.focusing.kind == "bed" else 2
    solution_text(solve(JobDocument(camera=camera, workshop=WORKSHOP, readings=readings[:count])))
print(len(compiled) - warm)
"""


@pytest.mark.parametrize("warm", [True, False])
def test_usual_answers_compile_nothing_after_the_warm_up(warm: bool) -> None:
    """Once warm, the usual readings of every camera are answered without compiling a formula."""
    code = COUNT.format(warm=warm)
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert (int(done.stdout) == 0) is warm
