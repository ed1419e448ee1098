"""The answers of the exercises against sums made another way."""

import math
import re
from collections.abc import Callable

import pytest
from uncertainties import ufloat

from optics.teaching.exercises import KINDS, Exercise, ExerciseLevel, exercise
from optics.teaching.shelf import OSTRIN, TARNBROOK
from optics.units import read_distance

SEEDS = [str(n) for n in range(6)]
# GUM (JCGM 100:2008), table G.2, column 95 %, by degrees of freedom.
T95 = {2: 4.30, 3: 3.18, 4: 2.78, 5: 2.57, 6: 2.45, 7: 2.36}

# Dictionary of Optometry, table F1, to the places that √2 gives them: 4√2 and 8√2 between.
EXACT = {4.0: 4.0, 5.6: 5.656854, 8.0: 8.0, 11.0: 11.313708, 16.0: 16.0}


def figures(text: str, pattern: str) -> list[float]:
    """The figures that a pattern finds in a question."""
    found = re.search(pattern, text)
    assert found, text
    return [float(one.replace("−", "-")) for one in found.groups()]


def extension(distance: float, focal: float, hiatus: float) -> float:
    """Where a lens must stand, found by trial: film distance against extension, halving."""
    low, high = 1e-9, focal
    for _ in range(200):
        middle = (low + high) / 2
        image = focal + middle
        subject = 1 / (1 / focal - 1 / image)  # thin_lens the other way about
        low, high = (middle, high) if subject + hiatus + image > distance else (low, middle)
    return low


@pytest.mark.parametrize("seed", SEEDS)
def test_the_focus_error_is_the_extension_that_trial_finds(seed: str) -> None:
    """At the ∞ mark the error is the extension of the distance that is really sharp."""
    one = exercise("focus_error", ExerciseLevel.APPRENTICE, seed)
    (metres,) = figures(one.question, r"target ([\d.]+) m")
    lens = OSTRIN.lens
    wanted = extension(1000 * metres, lens.focal_length, lens.hiatus)
    assert one.answer.value == pytest.approx(wanted, rel=1e-6)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_shim_is_the_error_turned_round(seed: str) -> None:
    """The shim for a lens that is too far out is removed, and as thick as the error."""
    error = exercise("focus_error", ExerciseLevel.JOURNEYMAN, seed)
    shim = exercise("shim_to_add", ExerciseLevel.APPRENTICE, seed)
    assert error.answer.printed.split(" too")[1].strip() in ("far out", "far in")
    (metres,) = figures(shim.question, r"target ([\d.]+) m")
    lens = OSTRIN.lens
    wanted = extension(1000 * metres, lens.focal_length, lens.hiatus)
    assert shim.answer.value == pytest.approx(-wanted, rel=1e-6)
    assert shim.answer.printed.startswith("remove")


def blur(limit: float, one: Exercise) -> float:
    """The disc on the film (mm) of a point at a distance, by similar triangles at the lens."""
    camera = OSTRIN if OSTRIN.name in one.question else TARNBROOK
    focal, hiatus = camera.lens.focal_length, camera.lens.hiatus
    (distance, stop) = figures(
        one.question, r"focused at ([\d.]+) m and stopped down to f/([\d.]+)\."
    )
    stop = EXACT[stop]
    film = focal + extension(1000 * distance, focal, hiatus)
    subject = limit - hiatus - film
    image = 1 / (1 / focal - 1 / subject)
    return abs(film - image) / image * focal / stop


@pytest.mark.parametrize("kind", ["depth_near", "depth_far"])
@pytest.mark.parametrize("level", ExerciseLevel)
@pytest.mark.parametrize("seed", SEEDS[:3])
def test_at_the_limits_of_sharpness_the_disc_is_the_circle_of_confusion(
    kind: str, level: ExerciseLevel, seed: str
) -> None:
    """Traced through the lens, a point at either limit makes the disc that is still allowed."""
    one = exercise(kind, level, seed)
    camera = OSTRIN if OSTRIN.name in one.question else TARNBROOK
    assert blur(one.answer.value, one) == pytest.approx(camera.circle_of_confusion, rel=1e-6)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_turn_takes_the_lens_back(seed: str) -> None:
    """Turned by the answer on a lead of 18 mm, the lens moves by the error, the other way."""
    one = exercise("ring_turn", ExerciseLevel.APPRENTICE, seed)
    (error,) = figures(one.question, r"is ([\d.]+) mm too far")
    assert one.answer.size / math.tau * 18 == pytest.approx(error)
    # The helicoid extends counter-clockwise, so what stands too far out is turned clockwise.
    assert ("too far out" in one.question) == one.answer.printed.endswith(" clockwise")


@pytest.mark.parametrize(
    ("kind", "pattern", "sum_"),
    [
        (
            "wrong_start",
            r"lead ([\d.]+) mm with (\d+) starts is put together one",
            lambda a, b: a / b,
        ),
        (
            "effective_base",
            r"base of ([\d.]+) mm and its finder magnifies ([\d.]+)",
            lambda a, b: a * b,
        ),
        (
            "depth_of_focus",
            r"to f/([\d.]+); its circle of confusion is ([\d.]+)",
            lambda a, b: EXACT[a] * b,
        ),
        ("film_in_gate", r"channel is ([\d.]+) mm.*film ([\d.]+) mm", lambda a, b: a - b),
        ("depth_gauge", r"reads ([\d.]+) mm.*register is ([\d.]+) mm", lambda a, b: abs(a - b)),
        ("corner", r"over ([\d.]+) mm, a standard stands ([\d.]+) mm", lambda a, b: b / 2),
    ],
)
def test_plain_exercises_come_out_as_in_the_head(
    kind: str, pattern: str, sum_: Callable[[float, float], float]
) -> None:
    """What an apprentice can do in the head comes to the same from the question's own figures."""
    done = 0
    for seed in range(8):
        one = exercise(kind, ExerciseLevel.APPRENTICE, str(seed))
        if re.search(pattern, one.question):
            done += 1
            assert one.answer.size == pytest.approx(sum_(*figures(one.question, pattern)))
    assert done > 2


def image_of(subject: float, focal: float) -> float:
    """Where a thin lens puts the image of a subject (minus: a virtual subject)."""
    return 1 / (1 / focal - 1 / subject)


@pytest.mark.parametrize("level", ExerciseLevel)
@pytest.mark.parametrize("seed", SEEDS)
def test_a_collimators_shift_reaches_the_film_as_two_lenses_carry_it(
    level: ExerciseLevel, seed: str
) -> None:
    """Traced through collimator and lens, focal points together, the reticle lands at the error."""
    one = exercise("collimator", level, seed)
    focal, long, moved = figures(
        one.question, r"\(f ([\d.]+) mm\).*collimator of ([\d.]+) mm.*moved ([\d.]+) mm"
    )
    shift = moved if "inside" in one.question else -moved
    behind = image_of(long - shift, long)
    image = image_of(long + focal - behind, focal)
    # Nearer than infinity images farther behind, where the lens must have been standing.
    assert one.answer.value == pytest.approx(image - focal, rel=1e-6)


@pytest.mark.parametrize("level", [ExerciseLevel.APPRENTICE, ExerciseLevel.JOURNEYMAN])
@pytest.mark.parametrize("seed", SEEDS)
def test_the_front_cell_turned_by_the_answer_puts_the_image_on_the_film(
    level: ExerciseLevel, seed: str
) -> None:
    """In a lens of two thin groups the turn found takes the image back by the error."""
    one = exercise("front_cell_turn", level, seed)
    focal, front, error, lead = figures(
        one.question,
        r"\(f ([\d.]+) mm, front group ([\d.]+) mm\) is ([\d.]+) mm.*lead ([\d.]+) mm",
    )
    apart = 12.0  # any spacing will do
    rear = (1 - apart / front) / (1 / focal - 1 / front)

    def film(out: float) -> float:
        return image_of(-(front - apart - out), rear)

    # The extending way is counter-clockwise, minus here. Too far out, the image lies before the
    # film and has to go back, away from the lens.
    moved = -one.answer.value / math.tau * lead
    sign = 1 if "too far out" in one.question else -1
    carried = film(moved) - film(0)
    assert carried == pytest.approx(sign * error, rel=0.03)  # small shifts, as film_effect says


@pytest.mark.parametrize("seed", SEEDS)
def test_a_mirror_turned_by_the_answer_looks_at_the_subject(seed: str) -> None:
    """A beam turned by twice the mirror's turn has gone one base aside where the subject stands."""
    one = exercise("mirror_angle", ExerciseLevel.JOURNEYMAN, seed)
    base, before, metres = figures(
        one.question, r"base of ([\d.]+) mm, ([\d.]+) mm in front.*subject ([\d.]+) m"
    )
    assert math.tan(2 * one.answer.value) * (1000 * metres - before) == pytest.approx(base)


@pytest.mark.parametrize("seed", SEEDS)
def test_what_the_eye_leaves_is_the_images_shift_of_what_it_cannot_tell(seed: str) -> None:
    """Two far subjects that look one to the eye have images as far apart as the answer."""
    one = exercise("eye_at_film", ExerciseLevel.BENCH, seed)
    focal, base, magnified, seconds = figures(
        one.question,
        r"f ([\d.]+) mm.*base of ([\d.]+) mm.*magnifies ([\d.]+) times.*tells (\d+)″",
    )
    far = 1e7
    angle = base / far + math.radians(seconds / 3600) / magnified
    images = [image_of(distance, focal) for distance in (base / angle, far)]
    assert images[0] - images[1] == pytest.approx(one.answer.value, rel=0.01)


@pytest.mark.parametrize("level", ExerciseLevel)
@pytest.mark.parametrize("seed", SEEDS)
def test_the_follower_moves_as_the_bodys_own_lens_would(level: ExerciseLevel, seed: str) -> None:
    """The lift is the extension that trial finds for the body's lens at the same distance."""
    one = exercise("cam_lift", level, seed)
    body, metres = figures(one.question, r"lens of ([\d.]+) mm without.*focused at ([\d.]+) m")
    assert one.answer.value == pytest.approx(extension(1000 * metres, body, 0.0), rel=1e-6)


@pytest.mark.parametrize("level", ExerciseLevel)
def test_focused_at_the_hyperfocal_distance_infinity_makes_the_disc_still_allowed(
    level: ExerciseLevel,
) -> None:
    """By similar triangles behind the lens, a point at infinity has the circle of confusion."""
    one = exercise("hyperfocal", level, "2")
    focal, confusion, stop = figures(
        one.question, r"f ([\d.]+) mm, circle of confusion ([\d.]+) mm.*to f/([\d.]+)\."
    )
    film = image_of(one.answer.value, focal)
    assert (film - focal) / focal * focal / EXACT[stop] == pytest.approx(confusion)


@pytest.mark.parametrize("level", [ExerciseLevel.APPRENTICE, ExerciseLevel.JOURNEYMAN])
def test_a_target_too_near_for_infinity_leaves_its_images_distance(level: ExerciseLevel) -> None:
    """The error left is how far behind the focal point a thin lens images the target."""
    one = exercise("false_infinity", level, "2")
    metres, focal = figures(one.question, r"chimney ([\d.]+) m.*\(f ([\d.]+) mm\)")
    assert one.answer.value == pytest.approx(image_of(1000 * metres, focal) - focal, rel=1e-6)


@pytest.mark.parametrize("level", [ExerciseLevel.APPRENTICE, ExerciseLevel.JOURNEYMAN])
@pytest.mark.parametrize("seed", SEEDS)
def test_a_tape_in_feet_is_what_the_pages_understand(level: ExerciseLevel, seed: str) -> None:
    """Typed into any distance field, the tape's reading is understood as the answer."""
    one = exercise("tape", level, seed)
    said = one.question.split(" reads ")[1].split(". ")[0]
    assert one.answer.value == pytest.approx(read_distance(said).value)


def test_limits_combine_as_an_independent_calculator_has_them() -> None:
    """Two rectangular limits, given to the uncertainties package, come to the same."""
    one = exercise("combined", ExerciseLevel.APPRENTICE, "1")
    gauge, edge = figures(one.question, r"± ([\d.]+) mm and.*± ([\d.]+) mm")
    total = ufloat(0, gauge / 3**0.5) + ufloat(0, edge / 3**0.5)
    assert one.answer.value == pytest.approx(total.std_dev)


@pytest.mark.parametrize("seed", SEEDS)
def test_few_readings_take_the_factor_of_the_published_table(seed: str) -> None:
    """The factor k is Student's t as the GUM prints it for n − 1 degrees of freedom."""
    one = exercise("few_readings", ExerciseLevel.JOURNEYMAN, seed)
    (count,) = figures(one.question, r"repeated (\d+) times")
    assert one.answer.printed == f"{T95[round(count) - 1]:.2f}"


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("level", ExerciseLevel)
def test_every_line_can_be_printed_and_says_its_figures(kind: str, level: ExerciseLevel) -> None:
    """Hints and questions hold only characters that the sheets have, and no bare code names."""
    from optics.drawing.lettering import REPLACEMENT, shown

    one = exercise(kind, level, "3")
    for text in (one.question, *(line for hint in one.hints for line in hint.lines)):
        assert REPLACEMENT not in shown(text)
        assert "None" not in text
        assert "_answer" not in text
