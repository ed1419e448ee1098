"""Depth of field of lenses with unequal pupils, against two rays from the rim of the pupil.

The lens is two thin groups with a stop between them, nothing but matrices: no formula of depth
of field, and no pupil magnification, goes into finding the limits.
"""

from dataclasses import dataclass

import numpy as np
import pytest
from scipy.optimize import brentq

from optics.theory import CATALOGUE

Matrix = np.ndarray


def gap(length: float) -> Matrix:
    """A stretch of air."""
    return np.array([[1.0, length], [0.0, 1.0]])


def group(focal_length: float) -> Matrix:
    """A thin group."""
    return np.array([[1.0, 0.0], [-1 / focal_length, 1.0]])


@dataclass(frozen=True)
class Lens:
    """Two thin groups and a stop between them; every figure in mm."""

    first: float
    to_stop: float
    to_second: float
    second: float

    @property
    def whole(self) -> Matrix:
        """From the first group to the second."""
        return group(self.second) @ gap(self.to_second) @ gap(self.to_stop) @ group(self.first)

    @property
    def focal_length(self) -> float:
        """Minus one over the power."""
        return float(-1 / self.whole[1, 0])

    @property
    def front_plane(self) -> float:
        """The front principal plane behind the first group."""
        return float((self.whole[1, 1] - 1) / self.whole[1, 0])

    @property
    def entrance(self) -> tuple[float, float]:
        """The entrance pupil behind the first group, and its size for a stop of one."""
        to_stop = gap(self.to_stop) @ group(self.first)
        behind = float(to_stop[0, 1] / to_stop[0, 0])
        return behind, float(1 / to_stop[0, 0])

    @property
    def exit_size(self) -> float:
        """The exit pupil's size for a stop of one."""
        backwards = gap(self.to_second) @ group(self.second)
        return float(1 / backwards[0, 0])

    @property
    def pupil_magnification(self) -> float:
        """Exit pupil over entrance pupil."""
        return self.exit_size / self.entrance[1]

    def image(self, subject: float) -> float:
        """Where a point before the first group is imaged behind the second."""
        a = self.whole @ gap(subject)
        return float(-a[0, 1] / a[1, 1])

    def blur(self, subject: float, film: float, f_number: float) -> float:
        """How far apart two rays from the pupil's rim land on the film, + for a subject nearer."""
        behind, _ = self.entrance
        rim = self.focal_length / f_number / 2
        landed = []
        for height in (rim, -rim):
            angle = height / (subject + behind)
            landed.append((gap(film) @ self.whole @ np.array([angle * subject, angle]))[0])
        return float(landed[0] - landed[1])


# Chosen for pupil magnifications 0.7, 1 and 1.5: a near-telephoto, a symmetrical lens whose stop
# is in the middle, and a retrofocus one.
LENSES = {
    0.7: Lens(60.0, 16.2, 120 * (0.73 / 0.7 - 1), -120.0),
    1.0: Lens(90.0, 6.0, 6.0, 90.0),
    1.5: Lens(-150.0, 5.0, 14.0, 45.0),
}
SUBJECTS = (900.0, 3000.0)


@pytest.fixture(params=sorted(LENSES), ids=lambda p: f"p{p}")
def named(request: pytest.FixtureRequest) -> tuple[float, Lens]:
    """Each lens with the pupil magnification it was chosen for."""
    return request.param, LENSES[request.param]


def known(lens: Lens, subject: float) -> dict[str, float]:
    """What the relations are told of the lens, all of it from the matrices."""
    return {
        "focal_length": lens.focal_length,
        "pupil_magnification": lens.pupil_magnification,
        "f_number": 5.6,
        "object_distance": subject + lens.front_plane,
        "circle_of_confusion": 0.03,
    }


def test_lenses_have_the_pupils_they_were_chosen_for(named: tuple[float, Lens]) -> None:
    """The lenses cover pupils of 0.7, equal pupils and pupils of 1.5."""
    wanted, lens = named
    assert lens.pupil_magnification == pytest.approx(wanted, rel=1e-12)


def test_entrance_pupil_is_where_rays_put_it(named: tuple[float, Lens]) -> None:
    """The entrance pupil of the matrices lies f/p − f behind the front principal plane."""
    _, lens = named
    behind, _ = lens.entrance
    offset = (
        CATALOGUE["entrance_pupil_offset"]
        .solve_for("pupil_offset")
        .value(focal_length=lens.focal_length, pupil_magnification=lens.pupil_magnification)
    )
    assert offset == pytest.approx(behind - lens.front_plane, abs=1e-9)


@pytest.mark.parametrize("subject", SUBJECTS)
@pytest.mark.parametrize(("limit", "sign"), [("near", 1), ("far", -1)])
def test_limits_are_where_rays_part_by_the_circle_of_confusion(
    named: tuple[float, Lens], subject: float, limit: str, sign: int
) -> None:
    """At the limits of the depth of field two rays from the pupil's rim land c apart."""
    _, lens = named
    film = lens.image(subject)
    bracket = (300.0, subject) if limit == "near" else (subject, 1e7)
    traced = brentq(lambda s: abs(lens.blur(s, film, 5.6)) - 0.03, *bracket, xtol=1e-10, rtol=1e-14)
    answer = CATALOGUE[f"depth_{limit}"].solve_for(f"{limit}_limit").value(**known(lens, subject))
    assert sign * (subject - traced) > 0
    assert answer == pytest.approx(traced + lens.front_plane, rel=1e-9)


@pytest.mark.parametrize("subject", SUBJECTS)
def test_depth_of_focus_is_where_rays_part_by_the_circle_of_confusion(
    named: tuple[float, Lens], subject: float
) -> None:
    """With the film out by the depth of focus, either way, two rays land c apart."""
    _, lens = named
    film = lens.image(subject)
    given = known(lens, subject)
    size = lens.focal_length / (given.pop("object_distance") - lens.focal_length)
    del given["focal_length"]
    each_way = (
        CATALOGUE["depth_of_focus"].solve_for("depth_each_way").value(magnification=size, **given)
    )
    for side in (1, -1):
        assert abs(lens.blur(subject, film + side * each_way, 5.6)) == pytest.approx(0.03, rel=1e-9)
