"""What the camera does on film, place by place: the only judge of a plan and its promise."""

from optics.world.camera import TracedCamera


def errors_on_film(camera: TracedCamera, met: tuple[float, ...] = ()) -> dict[str, float]:
    """The focus error on film (mm, plus is too far out) everywhere it must be right.

    At the stop and the ∞ mark, at every near mark, in the corners, and where the rangefinder
    sets the lens for the subjects `met`.
    """
    inf = float("inf")
    found = {"stop": camera.on_film(inf, camera.at_stop())}
    home = camera.at_mark(inf)
    found["∞ mark"] = camera.on_film(inf, home)
    for mark in camera.build.marks:
        found[f"{mark / 1000:g} m mark"] = camera.on_film(mark, camera.at_mark(mark))
    for name, place in camera.build.corners.items():
        found[name] = camera.on_film(inf, home, place)
    for distance in met:
        stand = camera.meeting(distance)
        if stand is not None:
            found[f"rangefinder, {distance / 1000:g} m"] = camera.on_film(distance, stand)
    return found


def worst(errors: dict[str, float]) -> tuple[str, float]:
    """The place that is most out, and by how much."""
    place = max(errors, key=lambda name: abs(errors[name]))
    return place, errors[place]
