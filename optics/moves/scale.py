"""The focusing scale replaced by one for the lens that is in the camera."""

from optics.camera.camera import Bed, Camera, FrontCell
from optics.camera.true_lens import MOST_FOCAL, TrueLens, film_factor, marked_focal
from optics.measure.uncertainty import within
from optics.moves.record import Case, Control, Move, Outcome
from optics.moves.setting import FEELER
from optics.moves.turning import rotation, said_degrees
from optics.units import format_distance, format_length

_SCALE = Control(
    "make the scale",
    "made the scale",
    "mm",
    ("longer", "shorter"),
    {"focal": -1.0},
    FEELER / 2,
    "Engraved for a lens longer or shorter by so much; the lens stays.",
    engraves=1.0,
)


def _make(case: Case) -> Outcome:
    """A scale for the true focal length; the lens itself cannot be changed."""
    camera = case.camera
    focal = round(marked_focal(camera) - case.change, 2)
    change = marked_focal(camera) - focal
    if not round(change, 2):
        return case.refused("The scale fits the lens within 0.01 mm of focal length.")
    if abs(change) > MOST_FOCAL * marked_focal(camera):
        return case.refused(
            f"The readings would ask for a lens of {focal:.2f} mm, which cannot be: they "
            "contradict each other, so take them again."
        )
    what = "front group" if isinstance(camera.focusing, FrontCell) else "lens"
    marks = ", ".join(_new_marks(camera, -change))
    return case.made(
        f"Make a new focusing scale for a {what} of {focal:.2f} mm; from ∞: {marks}.",
        -change,
        within(change, FEELER / 2, "focal length of the scale"),
        amounts=(("Focal length", f"{focal:.2f} mm"),),
    )


def _new_marks(camera: Camera, focal: float) -> list[str]:
    true, focusing = TrueLens(camera, focal), camera.focusing
    times = (100.0, 60.0, 30.0)
    said = []
    for distance in (round(t * camera.lens.focal_length, -3) or 1000.0 for t in times):
        moved = true.needs(distance) / film_factor(camera)
        place = format_length(moved)
        if not isinstance(focusing, Bed):
            place = said_degrees(rotation.value(travel=moved, lead=focusing.lead))
        said.append(f"{format_distance(distance)} at {place}")
    return said


SCALE = Move(
    name="scale",
    title="Focusing scale",
    order=70,
    puts_right=("focal",),
    tool="dividing head or a printed scale",
    controls=(_SCALE,),
    make=_make,
    smallest=FEELER,
)
