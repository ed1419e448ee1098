"""The standard's words say which side, which way and how far."""

import pytest

from optics.body.standard import (
    Frame,
    Standard,
    Tilted,
    View,
    defocus_map,
    depth_readings,
    measure_standard,
    wording,
)
from optics.body.standard.cautions import CAUTIONS
from optics.camera.camera import Bed, Camera, Lens
from optics.camera.mount import MountScrew, plan_shims
from optics.camera.plane import Plane
from optics.measure.uncertainty import exact

PLACES = [(-18, -12), (18, -12), (-18, 12), (18, 12), (0, 0)]
CAMERA = Camera("Tarnbrook", Lens(105.0, 3.5), Bed(), 0.06)


def gauged(*heights: float, limit: float = 0.002) -> Standard:
    """A standard gauged at the corners and in the middle."""
    places = PLACES[: len(heights)]
    return measure_standard(depth_readings(places, [[z] for z in heights], limit))


@pytest.mark.parametrize(
    ("across", "up", "where"),
    [
        (1, 0, "right side"),
        (1, 1, "top right"),
        (0, 1, "top"),
        (-1, 1, "top left"),
        (-1, 0, "left side"),
        (-1, -1, "bottom left"),
        (0, -1, "bottom"),
        (1, -1, "bottom right"),
        (1, 0.3, "right side"),
        (0.3, 1, "top"),
    ],
)
def test_the_side_farthest_out_is_named(across: float, up: float, where: str) -> None:
    """The side named is the one towards which the height rises."""
    lean = Plane(exact(0.0), exact(across / 1000), exact(up / 1000))
    assert wording.farthest_out(lean) == where


def test_a_lean_is_said_with_its_direction() -> None:
    """A clear lean is said in minutes with the corner that is farthest from the film."""
    assert wording.said_lean(gauged(0, 0.03, 0.01, 0.04).plane) == (
        "The standard leans 3.2′ ± 0.2′ at 95 %: its top right, seen from the front, stands "
        "farthest from the film."
    )
    tilt, swing = wording.said_ways(gauged(0, 0.03, 0.01, 0.04).plane)
    assert tilt == "Tilt: 1.4′ ± 0.3′, top farther from the film."
    assert swing == "Swing: 2.9′ ± 0.2′, right side farther from the film."


def test_a_lean_within_its_uncertainty_has_no_direction() -> None:
    """Where the readings cannot tell, no side is named."""
    said = wording.said_lean(gauged(0, 0.001, 0, 0.001, limit=0.02).plane)
    assert said.startswith("No lean can be told from these readings")
    assert not any(side in said for side in ("right", "left", "top"))


def test_large_leans_are_in_degrees() -> None:
    """From one degree on, leans are said in degrees."""
    lean = Plane(exact(0.0), exact(0.1), exact(0.0))
    assert wording.said_angle(lean.lean) == "5.71° ± 0.00°"


def test_every_finding_on_flatness_has_its_words() -> None:
    """Bent, flat, three readings and no limit stated each say something else."""
    said = [
        wording.said_flatness(one.flatness)
        for one in (
            gauged(0, 0, 0, 0, 0.03),
            gauged(0, 0.03, 0.01, 0.04, 0.02),
            gauged(0, 0.03, 0.01),
            gauged(0, 0, 0, 0, 0.03, limit=0.0),
        )
    ]
    assert "Bent rather than tilted: the middle stands 0.024 mm ± 0.002 mm out" in said[0]
    assert said[1].startswith("No sign of a bend")
    assert wording.said_flatness(gauged(0, 0, 0, 0, 0.03).flatness, 0.025) == (
        "Slightly bent, too little to matter here: the middle stands 0.024 mm ± 0.002 mm out."
    )
    assert "take a fourth" in said[2]
    assert "state the gauge's limit" in said[3]


def test_planes_are_said_beside_each_other() -> None:
    """The largest deviations from both planes, and the mean, are said."""
    found = gauged(0, 0, 0, 0, 0.03)
    assert wording.said_minimax(found) == (
        "Largest deviation: 0.024 mm from the least-squares plane, 0.015 mm from the plane that "
        "makes it least."
    )
    assert wording.said_mean(found).startswith("Mean of the readings 0.006 mm ± 0.001 mm")


def test_corners_say_where_and_which_way() -> None:
    """A corner is named on the film and in the picture, with its error and the depth of focus."""
    lean = Plane(exact(0.0), exact(0.001), exact(0.002))
    view = defocus_map(lean, Frame(90, 60), CAMERA)
    assert wording.said_corner(view.corners[1], view) == (
        "Top right, seen from the front (bottom right of the picture): 0.105 mm too far out; "
        "inside the depth of focus, ± 0.210 mm at f/3.5 as engraved."
    )
    assert "From bottom left to top right, seen from the front, the lens goes 0.210 mm" in (
        wording.said_map(view)
    )
    assert wording.said_map(view).endswith("a leaning lens counts once here (1 + m).")
    near = defocus_map(lean, Frame(90, 60), CAMERA, View(420.0))
    assert wording.said_map(near).endswith("a leaning lens counts 2 times here (1 + m).")
    near = defocus_map(lean, Frame(90, 60), CAMERA, View(525.0, tilted=Tilted.FILM))
    assert "a leaning film counts once" in wording.said_map(near)
    flat = defocus_map(Plane(exact(0.0), exact(0.0), exact(0.0)), Frame(90, 60), CAMERA)
    assert wording.said_map(flat) == "The focus is the same over the whole frame."


def test_a_plan_says_what_each_screw_gets_and_what_is_left() -> None:
    """Every screw has its pack or amount, and what cannot come out is said."""
    places = [(-20, 15), (20, 15), (20, -15), (-20, -15)]
    lean = Plane(exact(40.0), exact(0.001), exact(0.0))
    plan = plan_shims(
        lean,
        [MountScrew(x, y) for x, y in places],
        drawer=((0.02, 4), (0.04, 2)),
        near_enough=0.002,
    )
    said = [wording.said_shim(s) for s in plan.shims]
    assert said[0] == "Screw at the top left: fit 0.04 mm, add 0.040 mm in all."
    assert said[1] == "Screw at the top right: leave it as it is."
    notes = " ".join(wording.plan_notes(plan))
    assert "the whole mount is raised by 0.020 mm; take that out again under the lens seat" in notes
    assert "the mount goes 0.020 mm away from the film" in notes
    few = plan_shims(
        lean, [MountScrew(x, y) for x, y in places], drawer=((0.1, 1),), near_enough=0.002
    )
    assert "do not come near enough at: top left, bottom left" in " ".join(wording.plan_notes(few))
    unknown = plan_shims(lean, [MountScrew(x, y, None) for x, y in places], near_enough=0.002)
    assert wording.said_shim(unknown.shims[1]) == (
        "Screw at the top right: remove 0.020 mm of shim, only if that much is fitted."
    )
    assert "Enter the leaves you have" in " ".join(wording.plan_notes(unknown))


def test_all_leaves_out_is_said() -> None:
    """A screw that loses all its shim is told to have none."""
    places = [(-20, 15), (20, 15), (20, -15), (-20, -15)]
    lean = Plane(exact(40.0), exact(0.001), exact(0.0))
    fitted = [MountScrew(x, y, ((0.02, 1),), "north") for x, y in places]
    plan = plan_shims(lean, fitted, drawer=((0.04, 2),), near_enough=0.002)
    assert wording.said_shim(plan.shims[1]) == (
        "Screw at the north: fit no shim, remove 0.020 mm in all."
    )


def test_four_screws_that_disagree_are_told_of() -> None:
    """A fourth screw that stands clear is said, with how to tighten."""
    places = [(-20, 15), (20, 15), (20, -15), (-20, -15)]
    lean = Plane(exact(40.0), exact(0.001), exact(0.0))
    plan = plan_shims(
        lean,
        [MountScrew(x, y) for x, y in places],
        drawer=((0.03, 1), (0.05, 1)),
        near_enough=0.002,
    )
    assert any("the fourth stands 0.020 mm clear" in note for note in wording.plan_notes(plan))


def test_cautions_name_springs_and_adhesives() -> None:
    """Taking a standard off comes with the care for springs and for adhesives."""
    text = " ".join(caution.text for caution in CAUTIONS)
    assert "eye protection" in text
    assert "adhesive" in text


def test_a_sharp_picture_may_still_take_more_than_its_tolerance() -> None:
    """Corners inside the depth of focus are left alone, unless they leave little to all else."""
    lean = Plane(exact(0.0), exact(1e-3), exact(0.0))
    view = defocus_map(lean, Frame(90, 60), CAMERA)
    worst = max(abs(corner.error.value) for corner in view.corners)
    assert "may stay as it is" in wording.said_sharp(view, worst * 1.01)
    said = wording.said_sharp(view, worst * 0.9)
    assert f"up to {worst:.3f} mm out" in said
    assert "put it right if the camera is open" in said
    assert "with these" not in said  # Leaves are shown only where the mount's screws are known.
