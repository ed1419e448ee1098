"""Whoever knows a camera's every fault, and has but hands: what the world lets anybody reach."""

import math
from typing import Any

import numpy as np

from optics.world.camera import TracedCamera
from optics.world.hands import Hands, carry_out
from optics.world.judge import errors_on_film
from optics.world.scale import NewCellScale, NewScale
from optics.world.typed import exactly


def put_right(camera: TracedCamera, chance: np.random.Generator) -> TracedCamera:
    """The camera after hands have done what its faults ask for, in the order of the bench."""
    faults, small = camera.faults, camera.build.tolerance / 8
    film = {"gate": -faults.gate, "start": -faults.starts * camera.build.pitch}
    lean = {"tilt_x": -faults.tilt[0], "tilt_y": -faults.tilt[1]}
    if camera.at_the_film["tilt"] > 2 * small:
        camera = _done(camera, lean, chance)
    steps = {name: by for name, by in film.items() if abs(by) > small}
    if abs(camera.faults.seat) > small:
        steps["seat"] = -camera.faults.seat
    if abs(camera.at_the_film["focal"]) > 3 * small:
        steps["focal"] = _fitting(camera)
    camera = _done(camera, steps, chance)
    for name, stand in (("stop", camera.at_stop()), ("ring", camera.at_mark(math.inf))):
        error = camera.on_film(math.inf, stand)
        if abs(error) > small:
            camera = _done(camera, {name: -error}, chance)
    return _finder_set(camera, chance)


def _fitting(camera: TracedCamera) -> float:
    """The change of a scale's focal length that puts the near mark right: the way goes as f²."""
    near, typed = camera.build.marks[1], exactly(camera)
    usual = (
        NewCellScale(typed.cell, typed.cell_to_film)
        if camera.lens.front_cell
        else NewScale(typed.focal_length, typed.hiatus)
    )
    return usual.focal_length * (1 - math.sqrt(camera.lens.needs(near) / usual.out(near)))


def _finder_set(camera: TracedCamera, chance: np.random.Generator) -> TracedCamera:
    """Near and far in turn, each by a screw that is tried before it is relied upon."""
    if camera.build.coupling is None:
        return camera
    met = (math.inf, *camera.build.marks)
    for _ in range(4):
        for name, unit in (("gain", camera.build.works.needs(met[2])), ("zero", 1.0)):
            far, between, near = list(errors_on_film(camera, met).values())[-3:]
            off = near - far if name == "gain" else (max(far, between, near) + min(far, near)) / 2
            if abs(off) > camera.build.tolerance / 16:
                camera = _done(camera, {name: -off / unit}, chance)
    return camera


def _done(
    camera: TracedCamera, changes: dict[str, float], chance: np.random.Generator
) -> TracedCamera:
    steps = [{"changes": {name: {"value": by} for name, by in changes.items()}}]
    result: dict[str, Any] = {"diagnosis": {"plan": {"steps": steps if changes else []}}}
    return carry_out(camera, result, exactly(camera), Hands(), chance)
