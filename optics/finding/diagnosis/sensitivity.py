"""How strongly each fault bears on each reading's focus error: the model made straight."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from optics.camera.camera import Camera
from optics.camera.true_lens import MOST_FOCAL, TrueLens, film_factor, marked_focal
from optics.finding.causes import ALL, AT, NAMES, Vector
from optics.readings.readings import Reading

Matrix = NDArray[np.float64]


def direct_row(camera: Camera, reading: Reading) -> Vector:
    """What 1 mm (or 1 rad, or a gain of 1) of each fault adds, focal length aside; (faults,)."""
    row = np.zeros(len(NAMES))
    # What holds the lens out makes the rangefinder meet at a setting as much farther in.
    sign = 1.0 if reading.meets_at is None else -1.0
    for cause in ALL:
        for name, each in cause.held(camera, reading).items():
            row[AT[name]] = sign * each
    if reading.meets_at is not None:
        row += coupled_row(camera, reading.meets_at)
    return row


def coupled_row(camera: Camera, distance: float) -> Vector:
    """What each fault adds to where the lens stands when the images meet on a target."""
    row = np.zeros(len(NAMES))
    for cause in ALL:
        for name, each in cause.couples(camera, distance).items():
            row[AT[name]] = each
    return row


@dataclass(frozen=True)
class Straight:
    """The readings' focus errors as sums of the faults, with the focal length's slight bend.

    Equation: e = row·faults − [x(D; f + δ) − x(D; f)], the bracket for the target D that was
    sharp. A collimator's reading, worked out with the engraved focal length, shows what the
    faults make, w, as w·f²/(f′² + w·(f′ − f)), f′ the true one: its distance drops out. Both are
    exact, so the only thing that is not straight is the focal length's own part. Shapes: `rows`
    (readings, faults), `targets` and `shrinks` (readings,).
    """

    camera: Camera
    rows: Matrix
    targets: Vector
    shrinks: NDArray[np.bool_]

    @classmethod
    def of(cls, camera: Camera, readings: Sequence[Reading]) -> "Straight":
        """The model for these readings."""
        return cls(
            camera,
            np.array([direct_row(camera, reading) for reading in readings]),
            np.array([reading.sharp_target for reading in readings]),
            np.array([reading.shrinks for reading in readings]),
        )

    def errors(self, faults: Vector) -> Vector:
        """The focus error (mm) that each reading shows with these faults."""
        plain = self.rows @ faults
        focal = self._focal(faults)
        # With the engraved focal length nothing is bent.
        if not focal:
            return plain
        shown = plain * self._shrink(plain, focal)
        return np.where(self.shrinks, shown, plain - self._more(focal))

    def slopes(self, faults: Vector) -> Matrix:
        """The partial derivatives of the errors, a row for each reading."""
        focal = self._focal(faults)
        true = TrueLens(self.camera, focal)
        plain, engraved = self.rows @ faults, self.camera.lens.focal_length
        shrink = self._shrink(plain, focal)
        # The slopes of w·f²/(f′² + w·(f′ − f)), to w and to f′.
        by_w = np.where(self.shrinks, (shrink * true.stretch) ** 2, 1.0)
        by_f = -plain * shrink**2 * (2 * true.stretch + plain / engraved)
        # The focal length at fault may be a front group's; the whole lens goes in proportion.
        by_f /= marked_focal(self.camera)
        slopes = self.rows * by_w[:, None]
        slopes[:, AT["focal"]] = np.where(self.shrinks, by_f, -self._more_per_mm(true))
        return slopes

    def _shrink(self, plain: Vector, focal: float) -> Vector:
        """By how much less a collimator shows what the faults make, for the true focal length."""
        stretch = TrueLens(self.camera, focal).stretch
        part: Vector = plain * (stretch - 1) / self.camera.lens.focal_length
        return 1 / (stretch**2 + part)

    def _focal(self, faults: Vector) -> float:
        """The focal length's fault, held to a fifth of the lens.

        Readings that ask for more contradict each other, and no lens would come of it.
        """
        most = MOST_FOCAL * marked_focal(self.camera)
        return float(np.clip(faults[AT["focal"]], -most, most))

    def _more(self, focal: float) -> Vector:
        """What the true lens needs beyond the marked one to be sharp at the targets."""
        needs = (self._needs(TrueLens(self.camera, delta)) for delta in (focal, 0.0))
        return next(needs) - next(needs)

    def _needs(self, true: TrueLens) -> Vector:
        formula = self.camera.focusing_formula
        moved = formula.value(film_distance=self.targets, **true.constants)
        return film_factor(self.camera) * moved

    def _more_per_mm(self, true: TrueLens) -> Vector:
        formula = self.camera.focusing_formula
        _, partials = formula.value_and_partials(film_distance=self.targets, **true.constants)
        # A longer front group also stands farther out by as much.
        names = [name for name in true.constants if name != "hiatus"]
        return film_factor(self.camera) * sum((partials[n] for n in names), np.zeros(1))
