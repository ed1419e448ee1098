"""The one model of a faulty camera on the bench: what each kind of reading would show."""

import math

from optics.camera.camera import Bed, Camera
from optics.camera.true_lens import TrueLens, film_factor
from optics.errors import NoAnswer, OutOfRange
from optics.finding.causes import ALL
from optics.finding.diagnosis.faults import Faults
from optics.readings.readings import (
    CoincidenceReading,
    CollimatorReading,
    GateReading,
    MarkReading,
    RegisterReading,
    RotationReading,
    RulerReading,
)
from optics.readings.spots import Reading
from optics.theory import collimation, helicoid


def offset(camera: Camera, faults: Faults, reading: Reading) -> float:
    """How far (mm at the film) the faults hold lens or seat off where the reading looks for it."""
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

    The reading says what was done and what with; its measured figure is not looked at. The
    answer is the sharp distance from the film (mm), the rotation (rad), the register (mm), the
    reticle's shift (mm), the offset along the ruler (mm), the ring's setting (mm) at which the
    rangefinder's images meet, or how far the film lies behind the ground glass (mm).
    Errors: NoAnswer where nothing would be sharp. Limits: paraxial; a tilted standard counts
    by its slope at the place of the frame alone.
    """
    off = offset(camera, faults, reading)
    true = TrueLens(camera, faults["focal"])
    match reading:
        case RegisterReading():
            return _register(off, reading)
        case CollimatorReading():
            return _reticle(off, true, reading)
        case RotationReading():
            return _rotation(off, true, reading)
        case RulerReading():
            return _along_ruler(_sharp(off, true, reading), reading)
        case CoincidenceReading():
            return _meeting(off, faults, camera, reading)
        case GateReading():
            return off
        case MarkReading():
            return _sharp(off, true, reading)


def _set_to(reading: MarkReading | RulerReading | RotationReading, camera: Camera) -> float:
    """How far the ring's mark sets the lens beyond infinity, by the scale as engraved."""
    mark = math.inf if reading.taken.at_stop else reading.mark.value
    return TrueLens(camera, 0.0).needs(mark)


def _sharp(off: float, true: TrueLens, reading: MarkReading | RulerReading) -> float:
    return true.sharp_at(_set_to(reading, true.camera) + off)


def _register(off: float, reading: RegisterReading) -> float:
    formula = collimation.register_error.solve_for(collimation.measured_register)
    return formula.value(focus_error=off, nominal_register=reading.nominal.value)


def _reticle(off: float, true: TrueLens, reading: CollimatorReading) -> float:
    try:
        return _shift(off, true, reading)
    except OutOfRange:
        # What the relation says of it would name the errors that the reading is to find.
        raise NoAnswer(
            "No place of the reticle is sharp: got a lens too far off for this collimator; read "
            "by turning the ring, or gauge.",
            quantity="shift",
        ) from None


def _shift(off: float, true: TrueLens, reading: CollimatorReading) -> float:
    return collimation.collimator_conjugates.solve_for(collimation.reticle_shift).value(
        focus_error=off,
        focal_length=true.stretch * true.camera.lens.focal_length,
        collimator_focal_length=reading.collimator_focal_length.value,
        collimator_to_lens=reading.apart(true.camera).value,
    )


def _rotation(off: float, true: TrueLens, reading: RotationReading) -> float:
    camera = true.camera
    if isinstance(camera.focusing, Bed):
        raise NoAnswer(
            "A lens that slides on a bed or struts has no ring to turn: got a rotation reading; "
            "take a ring mark, register or collimator reading.",
            quantity="rotation",
        )
    wanted = true.needs(reading.target.value) - _set_to(reading, camera) - off
    return helicoid.ring_rotation.solve_for(helicoid.rotation).value(
        travel=wanted / film_factor(camera), lead=camera.focusing.lead
    )


def _along_ruler(sharp: float, reading: RulerReading) -> float:
    return collimation.tilted_ruler.solve_for(collimation.ruler_offset).value(
        sharp_distance=sharp, aim_distance=reading.aim.value, ruler_slope=reading.slope.value
    )


def _meeting(off: float, faults: Faults, camera: Camera, reading: CoincidenceReading) -> float:
    # The follower rides on the lens: the images meet at one place of the lens, whatever the
    # ring says there, so an error of ring, start or seat shows in the ring's setting alone.
    marked = TrueLens(camera, 0.0)
    target = reading.target.value
    return marked.sharp_at(marked.needs(target) + coupled(camera, faults, target) - off)
