"""From a job document, where everything is text, to the bench's cameras and readings."""

import math
from collections.abc import Sequence

from optics.camera.camera import Bed, Camera, Focusing, FrontCell, Helicoid, Lens
from optics.camera.supposed import group_of, place_of
from optics.errors import Unreadable
from optics.measure.uncertainty import Estimate, exact
from optics.readings.first_answer import Told, said_names
from optics.readings.missing import Missing
from optics.readings.remedies import Workshop
from optics.records.job import (
    BedPart,
    CameraPart,
    FocusingPart,
    FrontCellPart,
    HelicoidPart,
    JobDocument,
    ScalePart,
    WorkshopPart,
)
from optics.scales.ring_marks import Along, DepthMark, ScaleMark, measure_depth, measure_scale
from optics.typed import fields
from optics.typed.fields import Typed
from optics.typed.part import optional_value, value


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
