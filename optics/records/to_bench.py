"""From a job document, where everything is text, to the bench's cameras and readings."""

import math
from collections.abc import Sequence

from optics.camera.camera import Bed, Camera, Focusing, FrontCell, Helicoid, Lens
from optics.camera.instruments import INSTRUMENTS
from optics.camera.supposed import group_of, place_of
from optics.errors import OutOfRange, Unreadable
from optics.measure.uncertainty import Estimate, exact, from_distances, from_repeats
from optics.moves import Workshop
from optics.readings.correction import MeasuredReading
from optics.readings.first_answer import Missing, Told, said_names
from optics.readings.readings import (
    CollimatorReading,
    MarkReading,
    ParallaxReading,
    RegisterReading,
    RotationReading,
    RulerReading,
    turned,
)
from optics.records.job import (
    BedPart,
    CameraPart,
    CollimatorPart,
    FocusingPart,
    FrontCellPart,
    HelicoidPart,
    JobDocument,
    MarkPart,
    ParallaxPart,
    ReadingPart,
    RegisterPart,
    RotationPart,
    RulerPart,
    ScalePart,
    WorkshopPart,
)
from optics.scales.ring_marks import Along, DepthMark, ScaleMark, measure_depth, measure_scale
from optics.typed import fields
from optics.typed.fields import Typed
from optics.typed.part import optional_value, value


def _values(field: Typed, text: str) -> list[float]:
    return [one.value for one in field.read(text)]


def _repeated(field: Typed, text: str, limit_field: Typed, limit: str) -> Estimate:
    return from_repeats(_values(field, text), value(limit_field, limit), field.words)


def _given(field: Typed, text: str) -> Estimate:
    return exact(value(field, text))


def camera_of(part: CameraPart) -> Camera:
    """The camera with its figures as numbers.

    Errors: Unreadable, naming them, where figures that it cannot be reckoned with without are
    not told yet.
    """
    told = told_of(part)
    if told.missing:
        names = said_names(told.missing)
        raise Unreadable(
            f"The camera's {names} {'are' if len(told.missing) > 1 else 'is'} not told yet: "
            "enter what is missing; only single readings are answered as far as they go without.",
            quantity=told.missing[0],
        )
    return told.camera


def told_of(part: CameraPart) -> Told:
    """The camera as far as it is told, 1 in the place of each figure that is missing."""
    lens, focusing = part.lens, part.focusing
    given: dict[Missing, tuple[Typed, str | None]] = {
        Missing.FOCAL_LENGTH: (fields.FOCAL_LENGTH, lens.focal_length),
        Missing.FULL_APERTURE: (fields.FULL_APERTURE, lens.full_aperture),
        Missing.CONFUSION: (fields.CIRCLE_OF_CONFUSION, part.circle_of_confusion),
    }
    if not isinstance(focusing, BedPart):
        given[Missing.LEAD] = (fields.LEAD, focusing.lead)
    figures = {
        name: 1.0 if text is None else value(field, text) for name, (field, text) in given.items()
    }
    focal_length = figures[Missing.FOCAL_LENGTH]
    camera = Camera(
        name=part.name,
        lens=Lens(
            focal_length,
            figures[Missing.FULL_APERTURE],
            value(fields.HIATUS, lens.hiatus),
            value(fields.PUPIL_MAGNIFICATION, lens.pupil_magnification),
        ),
        focusing=_focusing_of(focusing, focal_length, figures.get(Missing.LEAD, 1.0)),
        circle_of_confusion=figures[Missing.CONFUSION],
        tolerance=optional_value(fields.TOLERANCE, part.tolerance),
    )
    return Told(camera, tuple(name for name, (_, text) in given.items() if text is None))


def _focusing_of(part: FocusingPart, focal_length: float, lead: float) -> Focusing:
    match part:
        case BedPart():
            return Bed()
        case FrontCellPart():
            return _front_cell_of(part, focal_length, lead)
        case HelicoidPart():
            return Helicoid(
                lead,
                int(value(fields.STARTS, part.starts)),
                part.extends,
                optional_value(fields.RING_DIAMETER, part.ring_diameter),
            )


def _front_cell_of(part: FrontCellPart, focal_length: float, lead: float) -> FrontCell:
    """The front cell; what is not told of it is supposed from the lens, with its limits."""
    group = optional_value(fields.GROUP_FOCAL_LENGTH, part.group_focal_length)
    place = optional_value(fields.CELL_TO_FILM, part.cell_to_film)
    group, group_limit = group_of(focal_length) if group is None else (group, 0.0)
    place, place_limit = place_of(focal_length) if place is None else (place, 0.0)
    return FrontCell(
        group,
        lead,
        part.extends,
        place,
        optional_value(fields.RING_DIAMETER, part.ring_diameter),
        group_limit,
        place_limit,
    )


def workshop_of(part: WorkshopPart) -> Workshop:
    """The shim leaves as numbers; what is not stated stays unknown."""
    drawer: Sequence[tuple[float, int]] = fields.DRAWER.read(part.drawer) if part.drawer else ()
    fitted = None if part.fitted is None else fields.FITTED.read(part.fitted)
    return Workshop(drawer, fitted)


def marks_of(job: JobDocument) -> tuple[float, ...] | None:
    """The ring marks at which the sight is to be described, beside infinity; None: the usual."""
    if job.marks == JobDocument.model_fields["marks"].default:
        return None
    found = (value(fields.RING_MARK, text) for text in job.marks)
    return tuple(mark for mark in found if not math.isinf(mark))


def reading_of(part: ReadingPart, camera: Camera) -> MeasuredReading | ParallaxReading:
    """The reading with its uncertainty; the camera tells which sense of turning extends."""
    match part:
        case MarkPart():
            return MarkReading(
                mark=_given(fields.RING_MARK, part.mark),
                sharp_at=from_distances(
                    _values(fields.sharp_at(part.mark), part.sharp_at),
                    value(fields.DISTANCE_LIMIT, part.limit),
                    fields.SHARP_AT.words,
                ),
            )
        case RotationPart():
            return _rotation_of(part, camera)
        case RegisterPart():
            return RegisterReading(
                measured=from_repeats(
                    _values(fields.register_against(part.nominal), part.measured),
                    gauge_limit(part),
                    fields.MEASURED_REGISTER.words,
                ),
                nominal=_given(fields.NOMINAL_REGISTER, part.nominal),
            )
        case CollimatorPart():
            shift = _repeated(fields.RETICLE_SHIFT, part.shift, fields.RETICLE_LIMIT, part.limit)
            return CollimatorReading(
                shift=shift if part.towards == "its lens" else exact(0.0).plus(shift, -1),
                collimator_focal_length=_given(fields.COLLIMATOR, part.collimator_focal_length),
                to_lens=None
                if part.to_lens is None
                else _given(fields.COLLIMATOR_TO_LENS, part.to_lens),
            )
        case RulerPart():
            offset = _repeated(fields.RULER_OFFSET, part.offset, fields.RULER_LIMIT, part.limit)
            return RulerReading(
                aim=_given(fields.RULER_AIM, part.aim),
                offset=offset if part.side == "nearer" else exact(0.0).plus(offset, -1),
                slope=_given(fields.RULER_SLOPE, part.slope),
                mark=_given(fields.RING_MARK, part.mark),
            )
        case ParallaxPart():
            return _parallax_of(part)


def _rotation_of(part: RotationPart, camera: Camera) -> RotationReading:
    limit = value(fields.ANGLE_LIMIT, part.limit)
    signed = [turned(camera, a, part.sense) for a in _values(fields.TURNED, part.turned)]
    return RotationReading(
        rotation=from_repeats(signed, limit, fields.TURNED.words),
        target=_given(fields.TARGET, part.target),
        mark=_given(fields.RING_MARK, part.mark),
    )


def _parallax_of(part: ParallaxPart) -> ParallaxReading:
    moves: dict[str, bool | None] = {"with the eye": True, "against the eye": False}
    return ParallaxReading(moves.get(part.image_moves))


def gauge_limit(part: RegisterPart) -> float:
    """The limit typed, else the instrument's own; a sentence where neither is known."""
    instrument = INSTRUMENTS.get(part.instrument)
    if instrument is None:
        known = ", ".join(INSTRUMENTS)
        raise Unreadable(
            f"The instrument {part.instrument!r} is not known: choose one of {known}.",
            quantity="instrument",
            value=part.instrument,
        )
    if part.limit is not None:
        return value(fields.GAUGE_LIMIT, part.limit)
    if instrument.limit is None:
        # The last of the list is no instrument's name but a request: "Other: state its limit".
        named = "instrument" if instrument.key == "other" else instrument.name.lower()
        raise OutOfRange(
            f"The limit of the {named} is not known: enter how far either "
            "way it may be out, in mm.",
            quantity="limit",
        )
    return instrument.limit


def ring_diameter_of(camera: Camera) -> Estimate | None:
    """The ring's diameter, where the camera has a ring and it was given."""
    diameter = getattr(camera.focusing, "ring_diameter", None)
    return None if diameter is None else exact(diameter)


def scale_marks_of(part: ScalePart, camera: Camera) -> tuple[ScaleMark, ...]:
    """The measured distance marks."""
    marks, _, limit = part.typed
    found = marks.read(part.marks)
    return measure_scale(
        [mark.value for mark, _ in found],
        [[one.value for one in readings] for _, readings in found],
        value(limit, part.limit),
        Along(part.along),
        ring_diameter_of(camera),
    )


def depth_marks_of(part: ScalePart, camera: Camera) -> tuple[DepthMark, ...]:
    """The measured depth marks; none if there are none."""
    if part.depth_marks is None:
        return ()
    _, depth_marks, limit = part.typed
    found = depth_marks.read(part.depth_marks)
    return measure_depth(
        [mark.value for mark, _ in found],
        [[one.value for one in readings] for _, readings in found],
        value(limit, part.limit),
        Along(part.along),
        ring_diameter_of(camera),
        across=part.across,
    )
