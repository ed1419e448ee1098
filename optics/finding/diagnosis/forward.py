"""The one model of a faulty camera on the bench: what each kind of reading would show."""

import math
from dataclasses import dataclass

from optics.camera.camera import Bed, Camera
from optics.errors import NoAnswer, OutOfRange
from optics.finding.diagnosis.evidence import Reading, disturbing, seen_at
from optics.finding.diagnosis.faults import Cause, Faults, film_factor, marked_focal
from optics.readings.readings import (
    CoincidenceReading,
    CollimatorReading,
    GateReading,
    MarkReading,
    RegisterReading,
    RotationReading,
    RulerReading,
)
from optics.theory import collimation, helicoid, lens

# So near to infinity focus (mm) it is the arithmetic that differs, not the lens.
_ROUNDING = 1e-9


@dataclass(frozen=True)
class TrueLens:
    """The lens as it is, whatever is engraved on it."""

    camera: Camera
    focal: float

    @property
    def constants(self) -> dict[str, float]:
        """The inputs of the focusing formula with the true focal length.

        A front group of another focal length is set farther out by as much when infinity is
        put right, for the groups behind it look for its image at the same place.
        """
        constants = dict(self.camera.constants)
        for name in constants:
            if name != "hiatus":
                constants[name] += self.focal
        return constants

    @property
    def stretch(self) -> float:
        """True over marked focal length of the whole lens."""
        return 1 + self.focal / marked_focal(self.camera)

    def needs(self, distance: float) -> float:
        """How far beyond infinity focus (mm at the film) a subject calls for."""
        moved = self.camera.focusing_formula.value(film_distance=distance, **self.constants)
        return film_factor(self.camera) * moved

    def sharp_at(self, stands: float) -> float:
        """The distance that is sharp with the lens so far (mm at the film) beyond infinity."""
        if abs(stands) < _ROUNDING:
            return math.inf
        if stands < 0:
            raise NoAnswer(
                f"Nothing is sharp with the lens inside its infinity focus: got {-stands:.3f} mm "
                "too far in; take a reading by rotation, collimator or gauge.",
                quantity="sharp_distance",
                value=stands,
                limit=0.0,
            )
        formula = self.camera.focusing_formula
        moved = {formula.form.unknown.name: stands / film_factor(self.camera)}
        return formula.relation.solve_for(lens.film_distance).value(**moved, **self.constants)


def offset(camera: Camera, faults: Faults, reading: Reading) -> float:
    """How far (mm at the film) the faults hold lens or seat off where the reading looks for it."""
    causes = disturbing(reading)
    single = (Cause.SEAT, Cause.START, Cause.RING, Cause.STOP, Cause.GATE)
    off = sum(float(getattr(faults, cause)) for cause in single if cause in causes)
    if Cause.TILT in causes:
        x, y = reading.taken.place
        off += tilt_factor(camera, reading) * (faults.tilt_x * x + faults.tilt_y * y)
    return off


def tilt_factor(camera: Camera, reading: Reading) -> float:
    """How much steeper than the standard the focus tilts: 1 + m for the lens, 1 for the gauge."""
    if isinstance(reading, RegisterReading):
        return 1.0
    return 1.0 + camera.magnification_at(seen_at(reading))


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
    true = TrueLens(camera, faults.focal)
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
    called_for = marked.needs(reading.target.value)
    return marked.sharp_at((1 + faults.gain) * called_for + faults.zero - off)
