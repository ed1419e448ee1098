"""How far each part of a camera is from where it should be, as one vector of figures."""

import numpy as np

from optics.finding.causes import AT, NAMES, Vector


class Faults:
    """How far each part is from where it should be; nothing is wrong when all are 0.

    One figure for each fault of each cause, given and asked for by its name: ``Faults(seat=0.1)``.
    In mm at the film, plus when the lens ends too far out for the film: `seat` (shims),
    `start` (a whole number of pitches), `ring` (scale ring against barrel), `stop`, `gate`
    (plus when the film lies farther from the lens than the ground glass). `focal` is the true
    less the marked focal length in mm, of the front group where that alone moves. `tilt_x`
    and `tilt_y` are slopes of the standard (rad), plus when it stands farther out to the right
    and at the top, seen from the front. `zero` (mm) and `gain` (a fraction of the extension)
    say how far out the lens stands beyond its place when the rangefinder's images meet.
    """

    def __init__(self, **amounts: float) -> None:
        self._vector = np.zeros(len(NAMES))
        for name, amount in amounts.items():
            self._vector[AT[name]] = amount

    @classmethod
    def of(cls, vector: Vector) -> "Faults":
        """The faults from an array in their order."""
        return cls(**dict(zip(NAMES, vector.tolist(), strict=True)))

    @property
    def vector(self) -> Vector:
        """The faults in their order, as an array (faults,): a copy, so that these stay."""
        return self._vector.copy()

    def __getitem__(self, name: str) -> float:
        return float(self._vector[AT[name]])

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Faults) and bool(np.array_equal(self._vector, other._vector))

    def __hash__(self) -> int:
        return hash(self._vector.tobytes())

    def __repr__(self) -> str:
        given = (f"{name}={self[name]:g}" for name in NAMES if self[name])
        return f"Faults({', '.join(given)})"
