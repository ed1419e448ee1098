"""What the classroom says in words and begins with in figures, against the relations and rays."""

import math

import pytest

from optics.teaching.classroom import shop
from optics.teaching.classroom.section import Section
from optics.teaching.classroom.sections import CAM, COUPLING, SECTIONS
from optics.theory import CATALOGUE
from optics.theory.derivations import DERIVATIONS


def figure(section: Section, name: str) -> float:
    """What a section's field of a quantity begins with, in core units."""
    return float(shop.field_of(shop.QUANTITIES[name]).read(section.begins_with(name)).value)


def answer(section: Section, relation: str, unknown: str, **changed: float) -> float:
    """A relation's answer with the figures its section begins with, some of them changed."""
    formula = CATALOGUE[relation].solve_for(unknown)
    known = {q.name: figure(section, q.name) for q in formula.inputs}
    return formula.value(**{**known, **changed})


USING_A_GROUP = [
    section
    for section in SECTIONS
    if any(
        q.name == "group_focal_length"
        for name in section.relations
        for q in CATALOGUE[name].quantities
    )
]


@pytest.mark.parametrize("section", USING_A_GROUP, ids=lambda s: s.key)
def test_a_front_group_begins_shorter_than_its_lens(section: Section) -> None:
    """Wherever a front cell is shown, its group is shorter than the lens, as in a triplet."""
    # The triplet of a university lens-design course, traced: f₁ 34.419 of f 50 and K 60.857.
    lens, group = figure(section, "focal_length"), figure(section, "group_focal_length")
    assert group / lens == pytest.approx(34.419 / 50, rel=0.03)
    assert figure(section, "cell_to_film") / lens == pytest.approx(60.857 / 50, rel=0.03)


def test_an_infinity_target_begins_where_one_would_be_chosen() -> None:
    """The target that stands for infinity begins so far away that it is inside half N·c."""
    (section,) = (s for s in SECTIONS if "infinity_target" in s.relations)
    left = answer(section, "infinity_target", "focus_error")
    half = figure(section, "f_number") * figure(section, "circle_of_confusion") / 2
    assert 0 < left < half
    assert figure(section, "infinity_target_distance") >= 50_000


def test_a_hiatus_is_no_reason_for_another_cam() -> None:
    """Five millimetres of hiatus change a cam by microns, one of focal length by hundredths."""
    lift = answer(CAM, "cam_lift", "lift")
    hiatus, focal = figure(CAM, "hiatus"), figure(CAM, "focal_length")
    by_hiatus = abs(answer(CAM, "cam_lift", "lift", hiatus=hiatus + 5) - lift)
    by_focal = abs(answer(CAM, "cam_lift", "lift", focal_length=focal + 1) - lift)
    assert 0.001 < by_hiatus < 0.003
    assert 0.015 < by_focal < 0.025
    (said,) = (line for line in CAM.try_this if "hiatus" in line and "by 5 mm" in line)
    assert "two thousandths" in said
    assert "two hundredths" in said
    assert "That is why two lenses of one focal length" not in said


def test_the_near_mark_s_compromise_is_a_longer_distance() -> None:
    """The near setting that leaves the least error lies beyond the near mark, and is called so."""
    assert "farther out" not in COUPLING.trap
    assert "at a distance a little longer than the near mark's" in COUPLING.trap
    # The fixed base and lens of the trap: base 40 mm, k 20 mm, f 50, in use from 1 m.
    lens = {"focal_length": 50.0, "hiatus": 0.0, "base": 40.0, "base_to_film": 20.0}

    def worst(setting: float) -> float:
        gain = (
            CATALOGUE["coupling_error"]
            .solve_for("gain")
            .value(film_distance=setting, focus_error=0.0, zero_error=0.0, **lens)
        )
        errors = CATALOGUE["coupling_error"].solve_for("focus_error")
        places = [1000 * 1.05**i for i in range(80)]
        return max(
            abs(errors.value(film_distance=d, gain=gain, zero_error=0.0, **lens)) for d in places
        )

    best = min((1000 + 10 * i for i in range(100)), key=worst)
    assert best > 1050
    assert worst(best) < 0.75 * worst(1000.0)


def test_focal_lengths_are_said_to_act_by_their_ratio() -> None:
    """Nowhere is a shift or lift scaled by the square of focal lengths, but of their ratio."""
    told = [line.words for derivation in DERIVATIONS.values() for line in derivation.lines]
    told += [text for s in SECTIONS for text in (s.idea, s.shown, s.trap, *s.try_this)]
    assert not [
        text
        for text in told
        if "square of the focal lengths" in text.replace("’", "'")
        and "square of the focal lengths' ratio" not in text
    ]
    # By hand: doubling both focal lengths changes neither.
    twice = {"focal_length": 100.0, "collimator_focal_length": 600.0, "reticle_shift": 2.0}
    once = {"focal_length": 50.0, "collimator_focal_length": 300.0, "reticle_shift": 2.0}
    error = CATALOGUE["collimator_error"].solve_for("focus_error")
    assert error.value(**twice) == pytest.approx(error.value(**once), rel=1e-12)


def test_a_ray_along_the_subject_plane_leaves_along_the_sharp_plane() -> None:
    """Traced through a thin lens: it is bent where the planes meet, and runs through the images."""
    focal, lean, near = 50.0, 0.1, 200.0
    # Along the lens's axis u and up its plane w: the subject's plane cuts the lens's at height Y.
    meeting = near / math.tan(lean)
    inward = meeting / near
    outward = inward - meeting / focal  # a thin lens bends a ray at height w by w/f
    assert outward == pytest.approx(-3 * inward, rel=1e-12)
    for part in (0.0, 0.1, 0.5):
        away, height = near * (1 - part), meeting * part
        behind = 1 / (1 / focal - 1 / away)
        image = -height * behind / away
        assert meeting + outward * behind == pytest.approx(image, rel=1e-9, abs=1e-9)
    # The catalogue's sharp plane leans against the lens as that ray does.
    size = focal / (near - focal)
    tilt = CATALOGUE["lens_tilt"].solve_for("image_tilt").value(tilt=lean, magnification=size)
    assert 1 / math.tan(tilt - lean) == pytest.approx(-outward, rel=1e-12)
    told = [line.words for line in DERIVATIONS["standard.lens_tilt"].lines]
    assert not [words for words in told if "not bent" in words]
    assert any("leaves along the sharp plane" in words for words in told)


def test_one_glass_is_not_called_two() -> None:
    """The focal length of one thick glass is the glass's, wherever it is asked or told."""
    for name in ("thick_lens", "front_principal_plane", "rear_principal_plane"):
        assert not any("two" in q.meaning for q in CATALOGUE[name].quantities)
