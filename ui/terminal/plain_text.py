"""A solution as plain text, for the terminal and for copying."""

from optics.finding.disagreement import disagreement_line
from optics.readings.correction import Correction
from optics.records.echoed_figures import understood
from optics.records.first import FirstSolution, told_of_all
from optics.records.solve import Solution
from ui.terminal.account_text import account_text, in_blocks, items, wrapped

WEIGH_TOGETHER = (
    'Several readings: each is answered as if it stood alone. With "diagnosis": {} in the job '
    "they are weighed together, and one plan allows for all of them."
)


def solution_text(solution: Solution | FirstSolution) -> str:
    """All that a job says, in words; with a diagnosis, one plan in place of many remedies.

    At the end stands how each figure was understood, so that a slip of a unit is seen.
    """
    title = " — ".join(t for t in (solution.job.title, solution.camera.name) if t)
    # What contradicts itself is told before the remedies that would follow from either.
    first = [disagreement_line(pair) for pair in solution.disagreements]
    is_weighed = isinstance(solution, Solution) and solution.whole is not None
    measured = sum(isinstance(answer, Correction) for answer in solution.answers)
    if measured > 1 and not is_weighed:
        first.append(WEIGH_TOGETHER)
    return "\n\n".join(
        (
            *([title] if title else []),
            *map(wrapped, first),
            *map(account_text, told_of_all(solution)),
            in_blocks([["Understood as", *items(understood(solution.job))]]),
        )
    )
