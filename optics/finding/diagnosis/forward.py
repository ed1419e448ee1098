"""The one model of a faulty camera on the bench: what each kind of reading would show."""

from functools import partial

from optics.camera.camera import Camera
from optics.camera.true_lens import TrueLens
from optics.finding.causes import ALL
from optics.finding.diagnosis.faults import Faults
from optics.readings.readings import Meets, Reading


def offset(camera: Camera, faults: Faults, reading: Reading) -> float:
    """How far (mm at the film) the faults hold lens or seat off where the reading looks for it."""
    # Causes are added up: at their usual sizes what two do to each other is micrometres.
    added = (cause.held(camera, reading) for cause in ALL)
    return sum(each * faults[name] for adds in added for name, each in adds.items())


def coupled(camera: Camera, faults: Faults, distance: float) -> float:
    """How far (mm at the film) beyond its place the lens stands when the images meet."""
    return sum(
        each * faults[name]
        for cause in ALL
        for name, each in cause.couples(camera, distance).items()
    )


def predict(camera: Camera, faults: Faults, reading: Reading) -> float:
    """What a reading would show on a camera with these faults, in the reading's own unit.

    The reading says what was done and what with; its measured figure is not looked at. What the
    answer is, its kind tells (`Reading.foretold`).
    Errors: NoAnswer where nothing would be sharp. Limits: paraxial; a tilted standard counts
    by its slope at the place of the frame alone.
    """
    return reading.foretold(*as_it_stands(camera, faults, reading))


def as_it_stands(camera: Camera, faults: Faults, reading: Reading) -> tuple[float, TrueLens, Meets]:
    """What a reading meets on a camera with these faults: what it is off, its lens, its finder."""
    off, true = offset(camera, faults, reading), TrueLens(camera, faults["focal"])
    return off, true, partial(coupled, camera, faults)
