"""What a depth-of-field table is to hold, as it is typed."""

from typing import Annotated, Literal

from pydantic import Field

from optics.camera.camera import Camera
from optics.camera.confusion import ACUITIES, FORMATS, Format, Print, by_print, conventions
from optics.camera.stops import Stops, set_stop
from optics.scales.depth_table import DepthTable, MeasuredFrom, depth_table
from optics.typed import fields
from optics.typed.ask import Ask
from optics.typed.part import Line, Part, value

OWN, PRINT = "own", "print"
_BEGIN = {"film": "the film", "lens": "the lens"}
_STOPS = {"exact": "exact (f/11 is 11.31)", "marked": "as marked"}
_UNITS = {"metric": "metres", "imperial": "feet and inches"}


class DepthPart(Part):
    """Apertures, distances and the blur allowed.

    `blur` is the camera's `own`, that of a `print` looked at, or one of the negative's
    conventions by its key.
    """

    apertures: Annotated[
        str, fields.APERTURES, Ask(starts="2.8; 4; 5.6; 8; 11; 16", width=12, needed=True)
    ]
    distances: Annotated[
        str, fields.FOCUSED_AT, Ask(starts="1; 1.5; 2; 3; 5; 10; ∞", width=12, needed=True)
    ]
    measured_from: Annotated[MeasuredFrom, Ask("measured from", words=_BEGIN)] = MeasuredFrom.FILM
    stops: Annotated[Stops, Ask("apertures are", words=_STOPS)] = Stops.EXACT
    units: Annotated[Literal["metric", "imperial"], Ask("shown in", words=_UNITS)] = "metric"
    negative: Annotated[str, Field(max_length=20)] = "24x36"
    blur: Line = OWN
    diagonal: Annotated[str, fields.PRINT_DIAGONAL, Ask(starts="30 cm", needed=True)] = "30 cm"
    viewing: Annotated[str, fields.VIEWING_DISTANCE, Ask(starts="30 cm", needed=True)] = "30 cm"
    acuity: Annotated[str, Ask("the eye tells apart", words={name: name for name in ACUITIES})] = (
        next(iter(ACUITIES))
    )

    @property
    def marked(self) -> list[float]:
        """The apertures as they are engraved."""
        return [one.value for one in fields.APERTURES.read(self.apertures)]

    @property
    def stop_names(self) -> list[str]:
        """The apertures by their names."""
        return [f"f/{marked:.3g}" for marked in self.marked]


def blurs(size: Format) -> dict[str, str]:
    """By what the blur may be allowed with a negative, and what each is called."""
    rules = {c.key: f"{c.value:.3f} mm" for c in conventions(size)}
    # The print has fields of its own.
    named = {
        key: said if key.startswith("fixed") else f"{key}: {said}"
        for key, said in rules.items()
        if key != PRINT
    }
    return {OWN: "the camera's own", PRINT: "a print looked at"} | named


def table_of(part: DepthPart, camera: Camera) -> DepthTable:
    """The table for a camera. Errors: as `depth_table`."""
    return depth_table(
        camera,
        [set_stop(m, camera.lens.full_aperture, part.stops) for m in part.marked],
        [one.value for one in fields.FOCUSED_AT.read(part.distances)],
        from_=part.measured_from,
        circle_of_confusion=_blur(part, camera),
    )


def _blur(part: DepthPart, camera: Camera) -> float:
    size = FORMATS[part.negative]
    if part.blur == OWN:
        return camera.circle_of_confusion
    if part.blur != PRINT:
        return next(c.value for c in conventions(size) if c.key == part.blur)
    seen = Print(
        value(fields.PRINT_DIAGONAL, part.diagonal),
        value(fields.VIEWING_DISTANCE, part.viewing),
        ACUITIES[part.acuity][0],
    )
    return by_print(size, seen)
