"""A solution as plain text, for the terminal and for copying."""

import textwrap
from collections.abc import Iterable

from optics.camera.cautions import LOCAL_RULES
from optics.camera.supposed import supposed_lines
from optics.finding.disagreement import disagreement_line
from optics.finding.part import DiagnosisPart
from optics.rangefinder.cam_part import CamPart
from optics.rangefinder.part import RangefinderPart
from optics.readings import wording
from optics.readings.correction import Correction
from optics.readings.directions import Direction
from optics.readings.remedies import NotApplicable, Offer
from optics.records.job import ScalePart
from optics.records.solve import Answer, Solution
from optics.records.understood import understood
from optics.scales import scale_wording
from optics.scales.scale_check import ScaleCheck
from ui.terminal.bench_text import bench_blocks
from ui.terminal.cam_text import cam_blocks
from ui.terminal.diagnosis_text import whole_camera_blocks
from ui.terminal.rangefinder_text import rangefinder_blocks

WEIGH_TOGETHER = (
    'Several readings: each is answered as if it stood alone. With "diagnosis": {} in the job '
    "they are weighed together, and one plan allows for all of them."
)
_WIDTH = 76


def solution_text(solution: Solution) -> str:
    """All answers of a job, in words; with a diagnosis, one plan in place of many remedies.

    At the end stands how each figure was understood, so that a slip of a unit is seen.
    """
    title = " — ".join(t for t in (solution.job.title, solution.camera.name) if t)
    parts = [title] if title else []
    if solution.whole is not None:
        blocks = whole_camera_blocks(solution.whole)
        parts.append(f"{DiagnosisPart.title}\n{in_blocks(blocks)}")
    else:
        parts += _one_by_one(solution)
    if solution.scale is not None:
        parts.append(f"{ScalePart.title}\n{_scale_text(solution, solution.scale)}")
    parts += [f"{title}\n{in_blocks(blocks)}" for title, blocks in bench_blocks(solution)]
    if solution.rangefinder is not None:
        lines = rangefinder_blocks(solution.rangefinder, solution.set_up, solution.lens_out)
        parts.append(f"{RangefinderPart.title}\n{in_blocks(lines)}")
    if solution.cam is not None:
        parts.append(f"{CamPart.title}\n{in_blocks(cam_blocks(solution.cam))}")
    figures = (f"- {line}" for line in understood(solution.job))
    parts.append(in_blocks([["Understood as", *figures]]))
    return "\n\n".join(parts)


def _one_by_one(solution: Solution) -> list[str]:
    pairs = zip(solution.job.readings, solution.answers, strict=True)
    # What contradicts itself is told before the remedies that would follow from either.
    said = [_wrapped(disagreement_line(pair)) for pair in solution.disagreements]
    said += [f"{_wrapped(part.said_in_full)}\n{_answer_text(answer)}" for part, answer in pairs]
    measured = sum(isinstance(answer, Correction) for answer in solution.answers)
    return [*said, _wrapped(WEIGH_TOGETHER)] if measured > 1 else said


def _answer_text(answer: Answer) -> str:
    if isinstance(answer, Direction):
        return _wrapped(answer.advice)
    return correction_text(answer)


def correction_text(correction: Correction) -> str:
    """One answer: the error, what it looks like, every remedy, the working, the cautions."""
    working = [line for step in correction.steps for line in step.working_text()]
    blocks = [
        [
            wording.headline(correction),
            wording.tolerance_line(correction),
            *supposed_lines(correction.camera),
        ],
        ["What you would see", *(f"- {wording.sight_line(s)}" for s in correction.sights)],
        ["What to do", wording.advice(correction), *map(_offer_text, correction.offers)],
        ["Working", *working],
        ["Take care", *(f"- {c.text}" for c in correction.cautions), f"- {LOCAL_RULES}"],
    ]
    return in_blocks(blocks)


def _scale_text(solution: Solution, check: ScaleCheck) -> str:
    """The scale check: the verdict, what could explain it, the marks, the maker's circle."""
    causes = (scale_wording.explanation_line(check, e) for e in check.explanations)
    marks = map(scale_wording.mark_line, check.as_it_stands.marks)
    blocks = [
        [scale_wording.scale_headline(check)],
        [scale_wording.EXPLANATIONS, *(f"- {line}" for line in causes)],
        [scale_wording.MARKS, *(f"- {line}" for line in marks)],
        [scale_wording.FITTED, *(f"- {line}" for line in scale_wording.fitted_lines(check))],
    ]
    found = solution.confusion
    if found is not None:
        maker = scale_wording.confusion_line(found, solution.conventions)
        pairs = (f"- {scale_wording.depth_mark_line(mark)}" for mark in found.marks)
        blocks.append([scale_wording.DEPTH_MARKS, maker, *pairs])
    return in_blocks(blocks)


def in_blocks(blocks: Iterable[Iterable[str]]) -> str:
    """Blocks of lines, wrapped, a free line between blocks."""
    return "\n\n".join("\n".join(_wrapped(line) for line in block) for block in blocks)


def _offer_text(offer: Offer) -> str:
    if isinstance(offer, NotApplicable):
        return f"- {offer.title}: {offer.reason}"
    said = [offer.instruction, wording.residual_line(offer), *offer.notes]
    return f"- {offer.title}: {' '.join(said)}"


def _wrapped(line: str) -> str:
    indent = "  " if line.startswith("- ") else ""
    # A sense broken at its hyphen would end a line in "counter-".
    return textwrap.fill(
        line, _WIDTH, subsequent_indent=indent, break_on_hyphens=False, break_long_words=False
    )
