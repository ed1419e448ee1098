"""The whole camera's error budget as part of a job."""

from typing import Annotated, ClassVar, Literal, TypeAlias

from pydantic import Field

from optics.body.budget import NAMES, Budget, Term, whole_camera
from optics.body.gate import GateResult
from optics.body.standard.part import StandardAnswer
from optics.camera.camera import Camera
from optics.errors import NoAnswer
from optics.measure.uncertainty import Estimate
from optics.typed.ask import Ask
from optics.typed.fields import Typed, give_or_take
from optics.typed.part import Part
from optics.typed.part import give_or_take as estimate_of

TERMS: dict[str, Typed] = {key: give_or_take(f"error of the {name}") for key, name in NAMES.items()}
_TERM = give_or_take("error at the film", "0.02 mm ± 0.01 mm")
# No bench work takes the curl out of film.
_INCURABLE = "film_flatness"

# Invented figures for the cameras to learn from.
_EXAMPLES = (
    "0.025 ± 0.025",
    "± 0.03",
    "−0.01 ± 0.01",
    "0.04 ± 0.015",
    "0.01 ± 0.02",
    "−0.02 ± 0.025",
)
_ASKED = {
    key: (TERMS[key], Ask(name, "such as 0.02 ± 0.01", example=example, width=6))
    for (key, name), example in zip(NAMES.items(), _EXAMPLES, strict=True)
}

Key: TypeAlias = Literal["gate", "film_flatness", "standard", "register", "scale", "rangefinder"]


class BudgetPart(Part):
    """What each part of the camera adds at the film, ``0.02 ± 0.01`` in mm, plus too far out.

    A part that is left out is not counted; but gate and standard come from the job's own
    readings where it has them.
    """

    title: ClassVar[str] = "Error budget"
    terms: Annotated[
        dict[Key, Annotated[str, _TERM]], Field(default_factory=dict), Ask(each=_ASKED)
    ]


def solve_budget(
    part: BudgetPart, camera: Camera, gate: GateResult | None, standard: StandardAnswer | None
) -> Budget:
    """All terms together against the depth of focus at full aperture.

    Errors: NoAnswer for a budget without a term.
    """
    found: dict[str, Estimate] = {
        key: estimate_of(TERMS[key], text, NAMES[key]) for key, text in part.terms.items()
    }
    if gate is not None:
        found.setdefault("gate", gate.error)
    if standard is not None:
        found.setdefault("standard", standard.view.worst.error)
    if not found:
        raise NoAnswer(
            "A budget needs at least one part of the camera: got none; enter what a part adds "
            "at the film, such as 0.02 ± 0.01.",
            quantity="terms",
        )
    terms = [Term(key, found[key], key != _INCURABLE) for key in NAMES if key in found]
    return whole_camera(terms, camera.depth_of_focus)
