"""A lens as glass: faces at their places, scaled, its front cell moved, and what is near the axis.

Lengths in mm. The first face stands at 0 and light goes to plus. Near the axis a ray is a height
and a slope, and a lens is the matrix between its first and its last face.
"""

import math
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from optics.world.prescriptions import Prescription

Matrix = NDArray[np.float64]


@dataclass(frozen=True)
class Glass:
    """Faces from the subject on: curvature of each, the gap and the index behind it.

    The gap behind the last face is 0 and its index 1. The stop lies `stop_gap` behind the last
    of the `before_stop` faces.
    """

    curvatures: tuple[float, ...]
    gaps: tuple[float, ...]
    indices: tuple[float, ...]
    before_stop: int
    stop_gap: float
    front_faces: int

    @cached_property
    def matrix(self) -> Matrix:
        """The whole lens: [[A, B], [C, D]] on (height, slope), first face to last."""
        return self.part(len(self.curvatures))

    def part(self, faces: int) -> Matrix:
        """The first faces alone, up to the last of them."""
        found, before = np.eye(2), 1.0
        for i in range(faces):
            behind = self.indices[i]
            power = (behind - before) * self.curvatures[i]
            found = np.array([[1.0, 0.0], [-power / behind, before / behind]]) @ found
            if i + 1 < faces:
                found = np.array([[1.0, self.gaps[i]], [0.0, 1.0]]) @ found
            before = behind
        return found

    @property
    def length(self) -> float:
        """From the first face to the last."""
        return math.fsum(self.gaps)

    @property
    def focal_length(self) -> float:
        """The focal length near the axis, −1/C."""
        return float(-1.0 / self.matrix[1, 0])

    @property
    def back_focus(self) -> float:
        """From the last face to the focus near the axis, −A/C."""
        return float(-self.matrix[0, 0] / self.matrix[1, 0])

    @property
    def principal_planes(self) -> tuple[float, float]:
        """Front and rear principal plane, both behind the first face: (D − 1)/C, L + (1 − A)/C."""
        (a, _), (c, d) = self.matrix
        return float((d - 1) / c), float(self.length + (1 - a) / c)

    @property
    def hiatus(self) -> float:
        """Rear minus front principal plane."""
        front, rear = self.principal_planes
        return rear - front

    @property
    def cell_focal_length(self) -> float:
        """The focal length of the front cell alone, in air."""
        return float(-1.0 / self.part(self.front_faces)[1, 0])

    @property
    def cell_plane(self) -> float:
        """The front principal plane of the front cell, behind the first face."""
        _, (c, d) = self.part(self.front_faces)
        return float((d - 1) / c)

    @property
    def petzval_radius(self) -> float:
        """Radius of the field on which a lens free of astigmatism is sharp; minus is hollow.

        Equation: 1/R = −Σ (n′ − n)·c/(n·n′); source: any text on the third order.
        """
        before, total = 1.0, 0.0
        for curvature, behind in zip(self.curvatures, self.indices, strict=True):
            total -= (behind - before) * curvature / (before * behind)
            before = behind
        return 1.0 / total

    def scaled(self, focal_length: float) -> "Glass":
        """The same lens made larger or smaller to another focal length."""
        times = focal_length / self.focal_length
        return replace(
            self,
            curvatures=tuple(curvature / times for curvature in self.curvatures),
            gaps=tuple(gap * times for gap in self.gaps),
            stop_gap=self.stop_gap * times,
        )

    def unscrewed(self, forward: float) -> "Glass":
        """The lens with its front cell moved towards the subject; all behind it stands still."""
        gaps = list(self.gaps)
        gaps[self.front_faces - 1] += forward
        moves_off = self.before_stop == self.front_faces
        return replace(
            self, gaps=tuple(gaps), stop_gap=self.stop_gap + (forward if moves_off else 0.0)
        )


def glass_of(prescription: Prescription) -> Glass:
    """The lens as printed."""
    before_stop, stop_gap = prescription.stop
    return Glass(
        tuple(1.0 / radius for radius in prescription.radii),
        (*prescription.thicknesses, 0.0),
        prescription.indices,
        before_stop,
        stop_gap,
        prescription.front_faces,
    )
