"""Depth-of-field tables for a camera: many apertures by many distances at once."""

from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

import numpy as np
from numpy.typing import ArrayLike

from optics.camera.camera import Camera, FrontCell
from optics.errors import ShimwrightError
from optics.relation import Array, Formula, Given, Relation
from optics.theory import depth, front_cell, lens


class MeasuredFrom(StrEnum):
    """Where distances to the subject begin."""

    FILM = "film"
    LENS = "lens"


@dataclass(frozen=True, eq=False)
class DepthTable:
    """Depth of field of one camera, apertures down and distances across; mm, infinity `inf`.

    `near`, `far`, `hyperfocal` and `near_at_hyperfocal` begin where `measured_from` says;
    `moved` is how far lens or front cell stands out for each distance.
    """

    camera: Camera
    circle_of_confusion: float
    measured_from: MeasuredFrom
    f_numbers: Array
    distances: Array
    object_distances: Array
    moved: Array
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
        """Depth of focus each way at the film: N·c·(1 + m/p), of a front cell N·c."""
        formula, cone = self.camera.depth_of_focus_formula(depth.depth_each_way, self.magnification)
        each_way = formula.value(
            f_number=self.f_numbers[:, None], circle_of_confusion=self.circle_of_confusion, **cone
        )
        return np.array(np.broadcast_to(each_way, self.near.shape))


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
    in the general pupil form, brought back to the film at the same extension. For a front cell
    its movement from the distance, then `cell_depth_near` and `cell_depth_far`.
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
    near, far = _limits(camera, (seen, moved), stops[:, None], blur, begin)
    near_at_far_focus, _ = _limits(camera, (far_focus, far_focus_moved), stops, blur, begin)
    if begin is MeasuredFrom.FILM:
        far_focus = _from_film(camera, far_focus, far_focus_moved)
    return DepthTable(
        camera=camera,
        circle_of_confusion=blur,
        measured_from=begin,
        f_numbers=stops,
        distances=subjects,
        object_distances=seen,
        moved=moved,
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


def _focused(camera: Camera, subjects: Array, begin: MeasuredFrom) -> tuple[Array, Array]:
    """How far lens or cell has moved out, and the subjects from the front principal plane."""
    if begin is MeasuredFrom.LENS:
        return _moved(camera, _size(camera, subjects)), subjects
    moved = camera.focusing_formula.value(film_distance=subjects, **camera.constants)
    return moved, _from_lens(camera, subjects, moved)


def _from_lens(camera: Camera, from_film: Array, moved: Array) -> Array:
    relation, known = _to_film(camera, moved)
    return relation.solve_for(depth.limit_from_lens).value(limit_from_film=from_film, **known)


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


def _limits(
    camera: Camera,
    focused: tuple[Array, Array],
    stops: Array,
    blur: float,
    begin: MeasuredFrom,
) -> tuple[Array, Array]:
    """Near and far limit, counted from where the table begins.

    `focused`: the distance focused on from the front principal plane, and how far lens or cell
    stands out for it. All broadcast, apertures down and distances across.
    """
    seen, moved = focused
    known: dict[str, Given] = {
        **camera.constants,
        "focal_length": camera.lens.focal_length,
        "pupil_magnification": camera.lens.pupil_magnification,
        "object_distance": seen,
        "movement": moved,
        "f_number": stops,
        "circle_of_confusion": blur,
    }
    near, far = (
        _counted_from(begin, formula, formula.value(**_inputs(formula, known)), camera, moved)
        for formula in camera.depth_of_field_formulas
    )
    return near, far


def _inputs(formula: Formula, known: dict[str, Given]) -> dict[str, Given]:
    return {quantity.name: known[quantity.name] for quantity in formula.inputs}


def _counted_from(
    begin: MeasuredFrom, formula: Formula, limit: Array, camera: Camera, moved: Array
) -> Array:
    """A limit brought from where its own relation counts to where the table does."""
    takes = {quantity.name for quantity in formula.inputs}
    own = MeasuredFrom.FILM if "movement" in takes else MeasuredFrom.LENS
    if own is begin:
        return limit
    convert = _from_film if begin is MeasuredFrom.FILM else _from_lens
    return convert(camera, limit, moved)
