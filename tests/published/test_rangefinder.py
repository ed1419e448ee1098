"""The rangefinder, against printed numbers and against rays drawn step by step."""

import math

import numpy as np
import pytest

from optics.rangefinder.acuity import ARCSECOND, TRAINED
from optics.theory import CATALOGUE

SUPPLEMENT = "Scientific American Supplement 829 (1891): base angle 88°51′15″"
SMITH = "W. J. Smith, Modern Optical Engineering"
NAVAL = "Naval range-error table (navweaps tech-078), eye 10″, base 3 m, magnification 25"
MANUAL = "US Army TM 9-258 (1977), glossary"
CH_PATENT = "Patent CH 296355: rangefinder as 1/L, lens as 1/(L − 2f)"
BY_HAND = "worked by hand"
BASE_ANGLE = math.radians(90 - (88 + 51 / 60 + 15 / 3600))
TEN = 10 * ARCSECOND
PRISM = {"wedge_index": 1.517}
# Metres in the naval table.
SHIP = {"eye_acuity": TEN, "effective_base": 75_000}

# relation, unknown, inputs, value, half of the last printed digit, source; in mm and rad.
ROWS = [
    (
        "triangle",
        "film_distance",
        {"base": 100, "base_to_film": 0, "convergence": BASE_ANGLE},
        5000,
        50,
        SUPPLEMENT,
    ),
    (
        "isosceles_triangle",
        "film_distance",
        {"base": 100, "base_to_film": 0, "convergence": 2 * BASE_ANGLE},
        2500,
        50,
        SUPPLEMENT,
    ),
    (
        "turning_mirror",
        "mirror_turn",
        {"convergence": 0.02},
        0.01,
        1e-15,
        f"{SMITH}, 4e, p. 308: the mirror turns by half the angle",
    ),
    # A slope of 1 in 50 under 100 mm.
    (
        "swung_lens",
        "compensator_shift",
        {"compensator_focal_length": 100, "convergence": math.atan(0.02)},
        2,
        1e-12,
        BY_HAND,
    ),
    *(
        (
            "thin_wedge",
            "deviation",
            {**PRISM, "wedge_angle": math.radians(angle)},
            math.radians(value),
            math.radians(5e-4),
            f"{SMITH}, eq. 7.8a",
        )
        for angle, value in [(1, 0.517), (5, 2.585), (10, 5.170)]
    ),
    *(
        (
            "exact_wedge",
            "deviation",
            {**PRISM, "wedge_angle": math.radians(angle)},
            math.radians(value),
            math.radians(half),
            f"{SMITH}, eq. 7.6",
        )
        # At 10° the exact figure, 5.2733445, just rounds down; the printed one was rounded up.
        for angle, value, half in [(1, 0.51710, 5e-6), (5, 2.59762, 5e-6), (10, 5.27335, 6e-6)]
    ),
    # Turned by 30°, half of what both deviate together: 2 × 0.01 × 1/2.
    (
        "counter_wedges",
        "convergence",
        {"wedge_index": 1.5, "wedge_angle": 0.02, "wedge_turn": math.radians(30)},
        0.01,
        1e-15,
        BY_HAND,
    ),
    # 10 mm before the image a deviation of 0.02 shifts it by 0.2 mm, seen under 100 mm.
    (
        "sliding_wedge",
        "convergence",
        {"deviation": 0.02, "wedge_travel": 10, "compensator_focal_length": 100},
        0.002,
        1e-15,
        BY_HAND,
    ),
    (
        "virtual_base",
        "effective_base",
        {"base": 3000, "finder_magnification": 25},
        75_000,
        1e-9,
        f"{MANUAL}: virtual base = base times magnification",
    ),
    ("range_uncertainty", "range_error", {**SHIP, "range_distance": 2e6}, 2600, 50, NAVAL),
    ("range_uncertainty", "range_error", {**SHIP, "range_distance": 1e7}, 65_000, 500, NAVAL),
    (
        "range_uncertainty",
        "range_error",
        {"eye_acuity": math.radians(0.5 / 60), "effective_base": 65, "range_distance": 6000},
        80,
        5,
        "Article on stereo acuity: eyes 65 mm apart, 6 m, 0.5′",
    ),
    # 1/2000 ± 1/10000.
    (
        "range_near_limit",
        "range_near",
        {"range_distance": 2000, "eye_acuity": 0.001, "effective_base": 10},
        10_000 / 6,
        1e-9,
        BY_HAND,
    ),
    (
        "range_far_limit",
        "range_far",
        {"range_distance": 2000, "eye_acuity": 0.001, "effective_base": 10},
        2500,
        1e-9,
        BY_HAND,
    ),
    (
        "range_far_limit",
        "range_far",
        {"range_distance": 20_000, "eye_acuity": 0.001, "effective_base": 10},
        math.inf,
        0,
        BY_HAND,
    ),
    (
        "film_uncertainty",
        "focus_error",
        {"focal_length": 50, "eye_acuity": 0.0003, "effective_base": 25},
        0.03,
        1e-15,
        BY_HAND,
    ),
    (
        "needed_base",
        "effective_base",
        {"eye_acuity": 0.0003, "focal_length": 50, "f_number": 2, "circle_of_confusion": 0.03},
        12.5,
        1e-12,
        BY_HAND,
    ),
    (
        "straight_coupling",
        "convergence",
        {"zero_error": 0.001, "gain": 0.02, "extension": 1},
        0.021,
        1e-15,
        BY_HAND,
    ),
    # 0.02 × 2 + 0.001 × 2².
    (
        "curved_coupling",
        "coupled_extension",
        {"convergence": 0.044, "zero_error": 0, "gain": 0.02, "coupling_curvature": 0.001},
        2,
        1e-12,
        BY_HAND,
    ),
    # A base so short that its angle is 1/L to five digits; the gain is right for far subjects.
    (
        "coupling_error",
        "focus_error",
        {
            "film_distance": 1000,
            "base": 4,
            "base_to_film": 0,
            "zero_error": 0,
            "gain": 4 / 2500,
            "focal_length": 50,
            "hiatus": 0,
        },
        -0.286,
        5e-4,
        CH_PATENT,
    ),
    # The angle whose tangent is 0.05 is 0.05 − 0.05³/3 + 0.05⁵/5; the lens stands 10 mm out.
    (
        "coupling_error",
        "focus_error",
        {
            "film_distance": 1000,
            "base": 40,
            "base_to_film": 200,
            "zero_error": 0,
            "gain": 0.005,
            "focal_length": 90,
            "hiatus": 0,
        },
        -0.0083208,
        1e-7,
        BY_HAND,
    ),
    # The source's gain is how much of the true convergence the instrument makes: the lens is then
    # coupled by its inverse, the extension that belongs to each convergence.
    *(
        (
            "gain_error",
            "indicated_distance",
            {"range_distance": 1000, "gain_ratio": 1 / reads},
            1000 * (1 + percent / 100),
            0.005,
            "Gain wrong by a percentage, zero right at infinity",
        )
        for reads, percent in [(0.95, 5.263), (1.01, -0.990)]
    ),
    (
        "height_effect",
        "false_convergence",
        {"height_error": 0.001, "lean": math.radians(45)},
        0.001,
        1e-15,
        BY_HAND,
    ),
    # Half a millimetre narrower than a base of 40 mm, 2 m away: the lines meet at 160 m.
    (
        "infinity_lath",
        "false_infinity",
        {"base": 40, "lath_distance": 2000, "spacing_error": -0.5},
        160_000,
        1e-9,
        BY_HAND,
    ),
    (
        "prentice",
        "decentration",
        {"prism": 2, "lens_power": 4},
        5,
        1e-12,
        "Prentice's rule: 2 prism dioptres on +4 D are 5 mm",
    ),
]


@pytest.mark.parametrize(("relation", "unknown", "inputs", "value", "half", "source"), ROWS)
def test_rangefinder_numbers(
    relation: str, unknown: str, inputs: dict[str, float], value: float, half: float, source: str
) -> None:
    """A printed number is met to half its last digit."""
    assert CATALOGUE[relation].solve_for(unknown).value(**inputs) == pytest.approx(value, abs=half)


def test_the_unit_of_error() -> None:
    """The trained observer's 12″ is 5.8178e-5 rad (US Army TM 9-258, 1977)."""
    assert TRAINED.angle == pytest.approx(5.8178e-5, abs=5e-10)


def test_proportional_coupling_is_several_depths_of_focus_out() -> None:
    """At 1 m the proportional coupling of CH 296355 errs by 4.8 N·c at f/2 with c 0.03 mm."""
    error = (
        CATALOGUE["coupling_error"]
        .solve_for("focus_error")
        .value(
            film_distance=1000.0,
            base=4.0,
            base_to_film=0.0,
            zero_error=0.0,
            gain=4 / 2500,
            focal_length=50.0,
            hiatus=0.0,
        )
    )
    assert abs(error) / (2 * 0.03) == pytest.approx(4.8, abs=0.05)


# DE 643177: with a fixed base, what is coupled in proportion cannot fit at every distance.
@pytest.mark.parametrize("focal_length", [35.0, 50.0, 90.0])
@pytest.mark.parametrize("base", [25.0, 41.0, 70.0])
def test_a_proportional_coupling_cannot_fit_everywhere(focal_length: float, base: float) -> None:
    """Set exact at infinity and at 1 m, a coupling in proportion is wrong at 2 m (DE 643177)."""

    def stands(distance: float) -> float:
        return float(np.roots([1, 2 * focal_length - distance, focal_length**2]).min())

    gain = math.atan2(base, 980) / stands(1000)
    known = {
        "base": base,
        "base_to_film": 20.0,
        "zero_error": 0.0,
        "gain": gain,
        "focal_length": focal_length,
        "hiatus": 0.0,
    }
    error = CATALOGUE["coupling_error"].solve_for("focus_error")
    assert error.value(film_distance=1000.0, **known) == pytest.approx(0, abs=1e-9)
    assert error.value(film_distance=math.inf, **known) == 0
    between = error.value(film_distance=2000.0, **known)
    assert between == pytest.approx(math.atan2(base, 1980) / gain - stands(2000), abs=1e-9)
    # f 35 is left 0.018 mm out, more than a fine lens may be; longer lenses more.
    assert between > 0.01


# ---- rays drawn step by step -------------------------------------------------------------

Ray = np.ndarray


def direction(angle: float) -> Ray:
    """Return a unit vector at an angle from the axis."""
    return np.array([math.cos(angle), math.sin(angle)])


def angle_of(ray: Ray) -> float:
    """Return the angle of a ray from the axis."""
    return math.atan2(ray[1], ray[0])


def refracted(ray: Ray, normal: Ray, before: float, after: float) -> Ray:
    """Bend a ray at a face by Snell's law in vectors; the normal points with the ray."""
    cosine = float(ray @ normal)
    along = ray - cosine * normal
    bent = along * before / after
    return bent + math.sqrt(1 - float(bent @ bent)) * normal


@pytest.mark.parametrize("degrees", [0.1, 1, 5, 10, 20])
@pytest.mark.parametrize("index", [1.46, 1.517, 1.62])
def test_a_ray_through_a_wedge(index: float, degrees: float) -> None:
    """A ray bent at both faces by Snell's law leaves a wedge by its exact deviation."""
    tilt = math.radians(degrees)
    inside = refracted(direction(0), direction(0), 1, index)
    outside = refracted(inside, direction(tilt), index, 1)
    formula = CATALOGUE["exact_wedge"].solve_for("deviation")
    found = formula.value(wedge_index=index, wedge_angle=tilt)
    assert abs(angle_of(outside)) == pytest.approx(found, abs=1e-13)


@pytest.mark.parametrize(("degrees", "short"), [(5, 0.005), (10, 0.02)])
def test_a_thin_wedge_is_short(degrees: float, short: float) -> None:
    """The thin rule falls short of the exact deviation by 0.5 per cent at 5° and 2 at 10°."""
    inputs = {"wedge_index": 1.517, "wedge_angle": math.radians(degrees)}
    thin, exact = (
        CATALOGUE[name].solve_for("deviation").value(**inputs)
        for name in ("thin_wedge", "exact_wedge")
    )
    assert 1 - thin / exact == pytest.approx(short, abs=0.001)


@pytest.mark.parametrize("distance", [700, 1000, 3000, 20_000])
def test_a_ray_over_a_turned_mirror(distance: float) -> None:
    """A ray from the subject, mirrored by a turned mirror, comes out along the base line."""
    base, back = 40.0, 20.0
    convergence = (
        CATALOGUE["triangle"]
        .solve_for("convergence")
        .value(base=base, base_to_film=back, film_distance=float(distance))
    )
    turn = CATALOGUE["turning_mirror"].solve_for("mirror_turn").value(convergence=convergence)
    # The subject stands before the straight window; the mirror is a base to its side, and
    # unturned, at 45°, it sends a ray along the axis into the base line.
    arriving = np.array([-(distance - back), base])
    arriving /= np.linalg.norm(arriving)
    across = direction(math.radians(45) - turn)
    normal = np.array([-across[1], across[0]])
    leaving = arriving - 2 * float(arriving @ normal) * normal
    assert abs(leaving[0]) == pytest.approx(0, abs=1e-14)
    assert abs(leaving[1]) == pytest.approx(1, abs=1e-14)


@pytest.mark.parametrize("shift", [-3.0, 0.5, 2.0])
def test_a_ray_through_a_swung_lens(shift: float) -> None:
    """A ray through a lens and its opposite is turned by what the shift of one calls for."""
    power = 1 / 120
    heights = (-1.0, 0.0, 1.5)
    # Each thin lens bends a ray by its height above the lens's own axis.
    slopes = [0.0 - (y - shift) * power + y * power for y in heights]
    assert slopes == pytest.approx([slopes[0]] * 3, abs=1e-15)
    convergence = math.atan(slopes[0])
    formula = CATALOGUE["swung_lens"].solve_for("compensator_shift")
    found = formula.value(compensator_focal_length=120.0, convergence=convergence)
    assert found == pytest.approx(shift, rel=1e-12)


@pytest.mark.parametrize("turn", [-60.0, -10.0, 5.0, 30.0, 80.0])
def test_a_ray_through_counter_turned_wedges(turn: float) -> None:
    """A ray bent at all four faces of two counter-turned wedges turns sideways as foretold."""
    index, wedge = 1.517, math.radians(1)
    ray = np.array([1.0, 0.0, 0.0])
    for sense in (1, -1):
        # The wedges' thick ends point up and down where they cancel.
        roll = sense * math.radians(turn) + (0 if sense > 0 else math.pi)
        ray = refracted(ray, np.array([1.0, 0.0, 0.0]), 1, index)
        lean = math.sin(wedge) * np.array([0.0, math.sin(roll), math.cos(roll)])
        ray = refracted(ray, np.array([math.cos(wedge), 0, 0]) + lean, index, 1)
    sideways, up = math.atan2(ray[1], ray[0]), math.atan2(ray[2], ray[0])
    found = (
        CATALOGUE["counter_wedges"]
        .solve_for("convergence")
        .value(wedge_index=index, wedge_angle=wedge, wedge_turn=math.radians(turn))
    )
    # Thin wedges are short by the square of their angle: here 3 parts in 10⁴.
    assert abs(sideways) == pytest.approx(abs(found), rel=5e-4)
    # What is left upwards is of the third order in the wedge's angle of 0.017 rad.
    assert up == pytest.approx(0, abs=2e-6)


@pytest.mark.parametrize("travel", [2.0, 10.0, 35.0])
def test_a_ray_through_a_sliding_wedge(travel: float) -> None:
    """The image that a sliding wedge shifts is seen under the convergence it gives."""
    lens, bend = 100.0, 0.01
    # A ray through the middle of the lens runs along the axis until the wedge bends it.
    height, slope = 0.0, 0.0
    height, slope = height + slope * (lens - travel), slope + bend
    height += slope * travel
    found = (
        CATALOGUE["sliding_wedge"]
        .solve_for("convergence")
        .value(deviation=bend, wedge_travel=travel, compensator_focal_length=lens)
    )
    assert math.tan(found) == pytest.approx(height / lens, rel=1e-5)
