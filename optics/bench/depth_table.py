"""Depth-of-field tables for a camera: many apertures by many distances at once."""

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike

from optics.bench.camera import Camera, FrontCell
from optics.errors import ShimwrightError
from optics.relation import Array, Given, Relation
from optics.theory import depth, front_cell, lens


class MeasuredFrom(StrEnum):
    """Where distances to the subject begin."""

    FILM = "film"
    LENS = "lens"


@dataclass(frozen=True, eq=False)
class DepthTable:
    """Depth of field of one camera, apertures down and distances across; mm, infinity `inf`.

    `near`, `far`, `hyperfocal` and `near_at_hyperfocal` begin where `measured_from` says.
    """

    camera: Camera
    circle_of_confusion: float
    measured_from: MeasuredFrom
    f_numbers: Array
    distances: Array
    object_distances: Array
    magnification: Array
    near: Array
    far: Array
    hyperfocal: Array
    near_at_hyperfocal: Array

    @property
    def total(self) -> Array:
        """Depth of field from near to far limit; infinite where it reaches infinity."""
        return self.far - self.near

    @cached_property
    def depth_each_way(self) -> Array:
        """Depth of focus each way at the film, N·c·(1 + m/p)."""
        return depth.depth_of_focus.solve_for(depth.depth_each_way).value(
            f_number=self.f_numbers[:, None],
            circle_of_confusion=self.circle_of_confusion,
            magnification=self.magnification,
            pupil_magnification=self.camera.lens.pupil_magnification,
        )


def depth_table(
    camera: Camera,
    f_numbers: ArrayLike,
    distances: ArrayLike,
    *,
    from_: str = MeasuredFrom.FILM,
    circle_of_confusion: float | None = None,
) -> DepthTable:
    """Near and far limits for every aperture and every distance focused on.

    Equations: the lens's extension x from the distance, the magnification m from x, the
    distance s = f(1 + 1/m) from the front principal plane, then `depth_near` and `depth_far`
    in the general pupil form, brought back to the film at the same extension.
    Takes f-numbers (as they are to be used, exact or marked) and distances in mm, each a
    number or a one-dimensional array; `circle_of_confusion` replaces the camera's.
    Errors: OutOfRange where the lens cannot focus so near, or a figure has no meaning.
    Limits: geometric blur; for a front cell the change of focal length is left out.
    """
    begin = _begin(from_)
    stops, subjects = (np.atleast_1d(np.asarray(a, np.float64)) for a in (f_numbers, distances))
    blur = float(camera.circle_of_confusion if circle_of_confusion is None else circle_of_confusion)
    moved, seen = _focused(camera, subjects, begin)
    far_focus = _hyperfocal(camera, stops, blur)
    far_focus_moved = _moved(camera, _size(camera, far_focus))
    near, far = _limits(camera, seen, stops[:, None], blur)
    near_at_far_focus, _ = _limits(camera, far_focus, stops, blur)
    if begin is MeasuredFrom.FILM:
        near, far = (_from_film(camera, limit, moved) for limit in (near, far))
        far_focus, near_at_far_focus = (
            _from_film(camera, limit, far_focus_moved) for limit in (far_focus, near_at_far_focus)
        )
    return DepthTable(
        camera=camera,
        circle_of_confusion=blur,
        measured_from=begin,
        f_numbers=stops,
        distances=subjects,
        object_distances=seen,
        magnification=_size(camera, seen),
        near=near,
        far=far,
        hyperfocal=far_focus,
        near_at_hyperfocal=near_at_far_focus,
    )


def _begin(from_: str) -> MeasuredFrom:
    if from_ in tuple(MeasuredFrom):
        return MeasuredFrom(from_)
    raise ShimwrightError(
        f"Distances are measured from 'film' or from 'lens': got {from_!r}; choose one of the two.",
        quantity="from_",
        value=from_,
    )


def _lens_of(camera: Camera) -> dict[str, float]:
    return {
        "focal_length": camera.lens.focal_length,
        "pupil_magnification": camera.lens.pupil_magnification,
    }


def _focused(camera: Camera, subjects: Array, begin: MeasuredFrom) -> tuple[Array, Array]:
    """How far lens or cell has moved out, and the subjects from the front principal plane."""
    if begin is MeasuredFrom.LENS:
        return _moved(camera, _size(camera, subjects)), subjects
    moved = camera.focusing_formula.value(film_distance=subjects, **camera.constants)
    relation, known = _to_film(camera, moved)
    return moved, relation.solve_for(depth.limit_from_lens).value(limit_from_film=subjects, **known)


def _from_film(camera: Camera, from_lens: Array, moved: Array) -> Array:
    relation, known = _to_film(camera, moved)
    return relation.solve_for(depth.limit_from_film).value(limit_from_lens=from_lens, **known)


def _to_film(camera: Camera, moved: Array) -> tuple[Relation, dict[str, Given]]:
    """The relation of distances from film and lens, and all it needs besides these two."""
    known: dict[str, Given] = {"focal_length": camera.lens.focal_length}
    if isinstance(camera.focusing, FrontCell):
        return depth.film_from_cell_lens, known | camera.constants | {"movement": moved}
    return depth.film_from_lens, known | camera.constants | {"extension": moved}


def _size(camera: Camera, from_lens: Array) -> Array:
    return lens.magnification_from_distance.solve_for(lens.magnification).value(
        object_distance=from_lens, focal_length=camera.lens.focal_length
    )


def _moved(camera: Camera, size: Array) -> Array:
    f = camera.lens.focal_length
    if isinstance(camera.focusing, FrontCell):
        return front_cell.cell_magnification.solve_for(front_cell.movement).value(
            magnification=size,
            focal_length=f,
            group_focal_length=camera.focusing.group_focal_length,
        )
    return lens.magnification_from_extension.solve_for(lens.extension).value(
        magnification=size, focal_length=f
    )


def _hyperfocal(camera: Camera, stops: Array, blur: float) -> Array:
    return depth.hyperfocal_distance.solve_for(depth.hyperfocal).value(
        focal_length=camera.lens.focal_length, f_number=stops, circle_of_confusion=blur
    )


def _limits(camera: Camera, seen: Array, stops: Array, blur: float) -> tuple[Array, Array]:
    known: dict[str, Given] = {"object_distance": seen, "f_number": stops}
    known |= {"circle_of_confusion": blur, **_lens_of(camera)}
    near = depth.depth_near.solve_for(depth.near_limit).value(**known)
    return near, depth.depth_far.solve_for(depth.far_limit).value(**known)
