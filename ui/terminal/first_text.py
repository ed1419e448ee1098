"""First answers as plain text, for the terminal and for copying."""

from collections.abc import Iterable

from optics.camera.cautions import LOCAL_RULES, SUN
from optics.finding.disagreement import disagreement_line
from optics.readings import first_wording as wording
from optics.readings.directions import Direction
from optics.readings.kinds.register import RegisterReading
from optics.records.first import FirstOrDirection, FirstSolution
from optics.records.understood import understood
from ui.terminal.plain_text import in_blocks


def first_text(solution: FirstSolution) -> str:
    """All first answers of a job, in words, and how each figure was understood."""
    title = " — ".join(t for t in (solution.job.title, solution.told.camera.name) if t)
    pairs = zip(solution.job.readings, solution.answers, strict=True)
    parts = [
        *([title] if title else []),
        # What contradicts itself is told before what either would ask for.
        *(in_blocks([[disagreement_line(pair)]]) for pair in solution.disagreements),
        *(in_blocks([[part.said_in_full], *_blocks(answer)]) for part, answer in pairs),
        in_blocks([["Understood as", *(f"- {line}" for line in understood(solution.job))]]),
    ]
    return "\n\n".join(parts)


def _blocks(answer: FirstOrDirection) -> Iterable[list[str]]:
    if isinstance(answer, Direction):
        return [[answer.advice]]
    gauged = isinstance(answer.reading, RegisterReading)
    cautions = ([] if gauged else [SUN.text]) + [LOCAL_RULES]
    blocks = [
        [wording.headline(answer), wording.verdict_line(answer)],
        [
            "What to do",
            *filter(None, [wording.advice(answer)]),
            *(f"- {title}: {words}" for title, words in answer.to_do),
        ],
        [wording.STILL_NEEDED, *(f"- {wording.wait_line(wait)}" for wait in answer.waits)],
        ["Supposed", *(f"- {line}" for line in wording.supposed_lines(answer))],
        ["Take care", *(f"- {text}" for text in cautions)],
    ]
    return [block for block in blocks if len(block) > 1]
