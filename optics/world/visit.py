"""A visit to the bench: the camera is read, the job is solved by whoever claims to, and done.

The solver is handed in, for the world knows none: it takes a job document and gives its result.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import inf
from typing import Any, TypeAlias

import numpy as np

from optics.errors import ShimwrightError
from optics.world.bench import CAREFUL, USUAL, Bench
from optics.world.camera import TracedCamera
from optics.world.document import job
from optics.world.hands import Hands, carry_out
from optics.world.judge import errors_on_film, worst
from optics.world.typed import Typed, typed

Solver: TypeAlias = Callable[[dict[str, Any]], dict[str, Any]]


@dataclass(frozen=True)
class Visit:
    """One visit: the job, its result (None where the solver refused it), the camera after it.

    `figures` are those that were typed, which hands work by.
    """

    figures: Typed
    document: dict[str, Any]
    result: dict[str, Any] | None
    camera: TracedCamera
    errors: dict[str, float]

    @property
    def promised(self) -> bool:
        """Whether the result promises that the camera will conform."""
        return self.result is not None and bool(self.result["diagnosis"]["plan"]["will_conform"])

    @property
    def worst(self) -> float:
        """The largest focus error on film, at any place."""
        return abs(worst(self.errors)[1])

    def within(self, limit: float) -> bool:
        """Whether every place is inside, on film."""
        return self.worst <= limit


def visit(
    camera: TracedCamera, seed: tuple[int, int], solve: Solver, *, careful: bool, told: bool
) -> Visit:
    """Read a camera, solve the job, carry the plan out; `seed` is the camera's and the visit's."""
    reading, doing = (np.random.default_rng([*seed, i]) for i in (1, 2))
    # Figures and their doubts belong to the camera and stay the same on every visit.
    figures = typed(camera, told, np.random.default_rng([seed[0], 0]))
    bench = Bench(camera, CAREFUL if careful else USUAL, reading, figures.tape)
    document = job(bench, figures, careful)
    result = _solved(document, solve)
    after = camera
    if result is not None:
        after = carry_out(camera, result, figures, Hands(), doing)
    return Visit(
        figures, document, result, after, errors_on_film(after, (inf, *camera.build.marks))
    )


def _solved(document: dict[str, Any], solve: Solver) -> dict[str, Any] | None:
    """The result; None where the solver refuses the job in so many words."""
    try:
        return solve(document)
    except ShimwrightError:
        return None
