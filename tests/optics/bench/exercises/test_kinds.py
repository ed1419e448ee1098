"""The answers of the exercises against sums made another way."""

import math
import re
from collections.abc import Callable

import pytest

from optics.bench.exercises import KINDS, Exercise, Level, exercise
from optics.bench.shelf import OSTRIN, TARNBROOK

SEEDS = [str(n) for n in range(6)]
# GUM (JCGM 100:2008), table G.2, column 95 %, by degrees of freedom.
T95 = {2: 4.30, 3: 3.18, 4: 2.78, 5: 2.57, 6: 2.45, 7: 2.36}


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
    one = exercise("focus_error", Level.APPRENTICE, seed)
    (metres,) = figures(one.question, r"target ([\d.]+) m")
    lens = OSTRIN.lens
    wanted = extension(1000 * metres, lens.focal_length, lens.hiatus)
    assert one.answer.value == pytest.approx(wanted, rel=1e-6)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_shim_is_the_error_turned_round(seed: str) -> None:
    """The shim for a lens that is too far out is removed, and as thick as the error."""
    error = exercise("focus_error", Level.JOURNEYMAN, seed)
    shim = exercise("shim_to_add", Level.APPRENTICE, seed)
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
    film = focal + extension(1000 * distance, focal, hiatus)
    subject = limit - hiatus - film
    image = 1 / (1 / focal - 1 / subject)
    return abs(film - image) / image * focal / stop


@pytest.mark.parametrize("kind", ["depth_near", "depth_far"])
@pytest.mark.parametrize("level", Level)
@pytest.mark.parametrize("seed", SEEDS[:3])
def test_at_the_limits_of_sharpness_the_disc_is_the_circle_of_confusion(
    kind: str, level: Level, seed: str
) -> None:
    """Traced through the lens, a point at either limit makes the disc that is still allowed."""
    one = exercise(kind, level, seed)
    camera = OSTRIN if OSTRIN.name in one.question else TARNBROOK
    assert blur(one.answer.value, one) == pytest.approx(camera.circle_of_confusion, rel=1e-6)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_turn_takes_the_lens_back(seed: str) -> None:
    """Turned by the answer on a lead of 18 mm, the lens moves by the error, the other way."""
    one = exercise("ring_turn", Level.APPRENTICE, seed)
    (error,) = figures(one.question, r"is ([\d.]+) mm too far")
    assert one.answer.size / math.tau * 18 == pytest.approx(error)
    # The helicoid extends counter-clockwise, so what stands too far out is turned clockwise.
    assert ("too far out" in one.question) == one.answer.printed.endswith(" clockwise")


@pytest.mark.parametrize(
    ("kind", "pattern", "sum_"),
    [
        ("wrong_start", r"lead ([\d.]+) mm with (\d+) starts is put together one",
         lambda a, b: a / b),
        ("effective_base", r"base of ([\d.]+) mm and its finder magnifies ([\d.]+)",
         lambda a, b: a * b),
        ("depth_of_focus", r"to f/([\d.]+); its circle of confusion is ([\d.]+)",
         lambda a, b: a * b),
        ("film_in_gate", r"channel is ([\d.]+) mm.*film ([\d.]+) mm", lambda a, b: a - b),
        ("depth_gauge", r"reads ([\d.]+) mm.*register is ([\d.]+) mm", lambda a, b: abs(a - b)),
        ("corner", r"over ([\d.]+) mm, a standard stands ([\d.]+) mm", lambda a, b: b / 2),
    ],
)  # fmt: skip
def test_plain_exercises_come_out_as_in_the_head(
    kind: str, pattern: str, sum_: Callable[[float, float], float]
) -> None:
    """What an apprentice can do in the head comes to the same from the question's own figures."""
    done = 0
    for seed in range(8):
        one = exercise(kind, Level.APPRENTICE, str(seed))
        if re.search(pattern, one.question):
            done += 1
            assert one.answer.size == pytest.approx(sum_(*figures(one.question, pattern)))
    assert done > 2


@pytest.mark.parametrize("seed", SEEDS)
def test_few_readings_take_the_factor_of_the_published_table(seed: str) -> None:
    """The factor k is Student's t as the GUM prints it for n − 1 degrees of freedom."""
    one = exercise("few_readings", Level.JOURNEYMAN, seed)
    (count,) = figures(one.question, r"repeated (\d+) times")
    assert one.answer.printed == f"{T95[round(count) - 1]:.2f}"


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("level", Level)
def test_every_line_can_be_printed_and_says_its_figures(kind: str, level: Level) -> None:
    """Hints and questions hold only characters that the sheets have, and no bare code names."""
    from optics.sheets.lettering import REPLACEMENT, shown

    one = exercise(kind, level, "3")
    for text in (one.question, *(line for hint in one.hints for line in hint.lines)):
        assert REPLACEMENT not in shown(text)
        assert "None" not in text
        assert "_answer" not in text
