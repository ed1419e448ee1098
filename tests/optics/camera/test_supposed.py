"""A front cell whose focal length or place is not told: what is taken, and what that costs."""

from dataclasses import replace
from typing import Any

import pytest

from optics.camera.camera import FrontCell
from optics.camera.supposed import group_of, place_of, supposed_lines
from optics.errors import NoAnswer
from optics.readings.correction import Correction
from optics.readings.remedies import Remedy
from optics.records.job import JobDocument
from optics.records.solve import Solution, solve
from optics.scales.engraving import ScaleUnit
from optics.scales.scale_layout import scale_row

# The triplet of a university lens-design course, traced: focal length 50, front group 34.419,
# and 1.3113 mm of the front group for a subject at 1000 mm (own trace of a published lens).
FOCAL, GROUP, SHIFT, SUBJECT = 50.0, 34.419, 1.3113, 1000.0
# Newton's equation for the front group, D = K + t + f₁ + f₁²/t, gives its place.
PLACE = SUBJECT - SHIFT - GROUP - GROUP**2 / SHIFT
LEAD = 6.0


def solved(reading: dict[str, Any], **cell: str) -> Solution:
    """Work one reading of a camera with that triplet out, told of the cell or not."""
    focusing = {"kind": "front cell", "lead": f"{LEAD} mm", "extends": "clockwise", **cell}
    lens = {"focal_length": "50 mm", "full_aperture": "3.5"}
    camera = {"lens": lens, "focusing": focusing, "circle_of_confusion": "0.03 mm"}
    return solve(JobDocument.model_validate({"camera": camera, "readings": [reading]}))


def answer(reading: dict[str, Any], **cell: str) -> Correction:
    """The answer to that reading."""
    (found,) = solved(reading, **cell).answers
    assert isinstance(found, Correction)
    return found


def turn_of(found: Correction) -> Remedy:
    """The turn of the front cell."""
    return next(remedy for remedy in found.remedies if remedy.kind == "front_cell")


TOLD = {"group_focal_length": f"{GROUP} mm", "cell_to_film": f"{PLACE:.4f} mm"}
NEAR = {"kind": "mark", "mark": "1 m", "sharp_at": "0.95 m", "limit": "1 mm"}
TURNED = {"kind": "rotation", "turned": "20°", "sense": "clockwise", "limit": "0.2°"}
GAUGED = {"kind": "register", "measured": "28.7", "nominal": "28.8", "limit": "0.001 mm"}


def test_a_traced_triplet_lies_within_what_is_supposed() -> None:
    """The front group of a published triplet, and its place, are within what is usual."""
    group, group_limit = group_of(FOCAL)
    place, place_limit = place_of(FOCAL)
    assert group - group_limit < GROUP < group + group_limit
    assert place - place_limit < PLACE < place + place_limit
    # Its back focus, 41.24, and the thicknesses before it lie behind the first surface.
    assert pytest.approx(41.24 + 4.831 + 5.86 + 0.975 + 4.822 + 3.127, abs=0.02) == PLACE


@pytest.mark.parametrize("reading", [NEAR, TURNED, GAUGED])
def test_the_truth_lies_within_the_stated_uncertainty(reading: dict[str, Any]) -> None:
    """Error and turn without the cell's figures hold those with the true ones in their ±."""
    with_it, without = answer(reading, **TOLD), answer(reading)
    assert abs(with_it.error.value - without.error.value) <= without.error.expanded
    true, guessed = turn_of(with_it), turn_of(without)
    # The true cell moves the film by (f/f₁)² for each mm: 2.1103 with f₁ 34.419.
    turned = float(guessed.figures["rotation"]) / 6.283185 * LEAD * 2.1103
    left = with_it.error.value + turned
    assert abs(left) <= guessed.residual.expanded + 0.002, (true.figures, guessed.figures)


def test_a_register_is_as_well_known_without_the_cell() -> None:
    """A register's error does not hang on the cell, but the turn that mends it does."""
    without = answer(GAUGED)
    assert without.error.expanded == answer(GAUGED, **TOLD).error.expanded
    # 0.1 mm, f₁ known to ± 11 %, so the turn to ± 22 %: u = 0.022/√3, U = 1.96·u = 0.025 mm.
    assert turn_of(without).residual.expanded == pytest.approx(0.025, abs=0.001)


def test_a_turn_is_turned_back_as_surely_without_the_cell() -> None:
    """What a turn did a turn undoes: the cell is in the error, not in what is left."""
    # 20° of a lead of 6 mm is 0.333 mm; ± 22 % of 0.73 mm at the film: U = 1.96·0.163/√3 = 0.184.
    # Tried once it has the eye's blur too, N·c/4 = 0.026 mm: U = 1.96·√(0.0941² + 0.0152²).
    without = answer(TURNED)
    assert without.error.expanded == pytest.approx(0.187, abs=0.0005)
    # What stays is the eye's blur, 1.96·0.0152 = 0.030, and what the protractor leaves.
    assert turn_of(without).residual.expanded < 0.032


def test_what_is_not_told_is_said_with_its_cost() -> None:
    """Each figure that is only supposed is named, with what is taken and what that costs."""
    group, place = supposed_lines(solved(NEAR).camera)
    assert "30 mm to 37.5 mm is usual (common practice, no source)" in group
    assert "21 % less or 23 % more" in group
    # (0.6/0.675)² = 0.790 and (0.75/0.675)² = 1.235.
    assert "60 mm ± 5 mm" in place
    assert "At infinity that costs nothing" in place
    assert "at 1.5 m" in place
    assert supposed_lines(solved(NEAR, **TOLD).camera) == ()


def test_the_cost_of_the_place_is_what_the_formula_makes_it() -> None:
    """At 1.5 m the place of the cell, 60 ± 5 mm, is worth 0.006 mm at the film."""
    # The film goes by f²/(D − K − f₁ − t) = 2500/1405, so by 2500·5/1405² = 0.0063 for 5 mm.
    _, place = supposed_lines(solved(NEAR).camera)
    assert "0.006 mm at 1.5 m" in place


def test_no_scale_is_drawn_from_a_guess() -> None:
    """Marks go with the square of the group's focal length, so none are made without it."""
    camera = solved(NEAR).camera
    with pytest.raises(NoAnswer, match=r"focal length: got none, and 30 to 37\.5 mm"):
        scale_row(camera, ScaleUnit.METRES, 40.0)
    assert isinstance(camera.focusing, FrontCell)
    told = replace(camera, focusing=replace(camera.focusing, group_limit=0.0))
    assert scale_row(told, ScaleUnit.METRES, 40.0).marks


def test_a_file_that_tells_all_reads_as_before() -> None:
    """With the cell's figures told nothing is supposed and no doubt is added."""
    camera = solved(TURNED, **TOLD).camera
    assert all(not estimate.parts for estimate in camera.estimates(camera.constants).values())
