"""Jobs with a standard, a gate, starts and a budget, as documents to read and to spoil."""

from typing import Any

from optics.records.job import CameraPart, JobDocument
from optics.records.lantern_street import OSTRIN, TARNBROOK
from optics.records.solve import Solution, solve

# The standard of worked_examples/standard_put_square.md, where it is worked by hand.
STANDARD = {
    "depths": (
        "top left = 0.020; top right = 0,413; 30, −25 = 0.347; bottom left = −0.044; middle = 0.185"
    ),
    "limit": "0.005",
    "zero_limit": "0.02",
    "frame": "84 × 56",
    "corners": "60 × 50",
    "screws": "top left = 0.2; top right = 0.2; bottom right = 0.1 + 0.05 × 2; bottom left = 0.2",
    "screws_apart": "48 × 40",
}
# That of worked_examples/which_start_which_mark.md.
WITNESS = {
    "marks": "A = 0; B = 10; C = −14",
    "present": "A",
    "error": "6.47; 6.49; 6,48; 6.48",
    "limit": "0.015",
}
# From memory of a magazine article on film gates, 1997: film of 0.15 mm in a channel of 0.200 mm.
GATE = {"film": "perforated", "channel": "0.200"}
BUDGET = {"terms": {"register": "0.04 ± 0.015", "film_flatness": "± 0.03", "scale": "−0.01"}}


def solved(camera: CameraPart = TARNBROOK, **parts: Any) -> Solution:
    """Solve a job of a camera with some parts, given as documents."""
    document = {"camera": camera.model_dump(mode="json", exclude_none=True)} | parts
    return solve(JobDocument.model_validate(document))


def spoilt(part: dict[str, Any], **changes: Any) -> dict[str, Any]:
    """A part with some fields changed; None takes a field out."""
    return {name: text for name, text in (part | changes).items() if text is not None}


def everything() -> Solution:
    """One job with all four parts."""
    return solved(OSTRIN, standard=STANDARD, gate=GATE, witness=WITNESS, budget=BUDGET)
