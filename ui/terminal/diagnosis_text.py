"""The whole camera's diagnosis and plan as lines of plain text."""

from collections.abc import Iterable

from optics.camera.cautions import LOCAL_RULES
from optics.finding.diagnosis import reading_wording as readings
from optics.finding.diagnosis import wording as said
from optics.finding.plan import Plan, Step
from optics.finding.plan import wording as plan_said
from optics.finding.whole import WholeCamera

ALONE = (
    "What each reading would ask for by itself is left out here: the plan allows for all of them."
)


def whole_camera_blocks(whole: WholeCamera) -> list[list[str]]:
    """Verdict, readings, causes, what cannot be told, the plan, other ways, suppositions."""
    found, plan = whole.diagnosis, whole.plan
    first = plan_said.first_line(plan)
    blocks = [
        [said.headline(found), plan_said.promise_line(plan), *([first] if first else [])],
        ["What was read", *_items(readings.read_lines(found)), *_items(whole.left_out), ALONE],
        ["Possible causes", *_items(said.chance_lines(found))],
        ["What cannot be told", *_items(plan_said.further_lines(plan))],
        ["Plan", *plan_lines(plan)],
        ["Alternatives", *_items(map(plan_said.alternative_line, plan.alternatives))],
        [
            "Assumptions",
            *said.assumption_lines(found),
            *_items(readings.supposed_lines(found.priors)),
        ],
        ["Take care", f"- {LOCAL_RULES}"],
    ]
    return [block for block in blocks if len(block) > 1]


def plan_lines(plan: Plan) -> list[str]:
    """The steps in their order, with what stands in the way and what comes last."""
    jumped = plan_said.jumped_line(plan)
    steps = [line for step in plan.steps for line in step_lines(step)]
    blocked = [f"- {one.reason}" for one in plan.blocked]
    return [
        *([jumped] if jumped else []),
        *(steps or [plan_said.nothing_line(plan)]),
        *blocked,
        plan_said.LAST,
    ]


def step_lines(step: Step) -> list[str]:
    """One step: its words, and below them tool, notes, cautions and what is left."""
    words, *rest = plan_said.step_lines(step)
    return [words, *(f"- {line}" for line in rest)]


def _items(lines: Iterable[str]) -> list[str]:
    return [f"- {line}" for line in lines]
