"""Rounds of readings as documents that the bench takes as they are."""

import json
import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from optics.readings.correction import Correction
from optics.records.files import read_job
from optics.records.solve import Solution, solve
from optics.world.bench import STEADY, Bench, Habits
from optics.world.build import Unmodelled
from optics.world.camera import TracedCamera
from optics.world.document import job
from optics.world.draw import BUILDS, draw
from optics.world.typed import exactly, typed


def read(document: dict[str, Any]) -> Solution:
    """Solve a document as a file would be."""
    return solve(read_job(json.dumps(document).encode()))


def sound(index: int) -> TracedCamera:
    """A build without faults and with a cam, of which everything is known."""
    build = BUILDS[index]
    if build.coupling is not None:
        build = replace(build, coupling=replace(build.coupling, joined="cam"))
    return TracedCamera(build, unmodelled=Unmodelled(collimator=300.0))


# A narrow stop, so that rays are those of which the bench's equations speak.
@pytest.mark.parametrize("index", range(len(BUILDS)))
def test_a_sound_camera_reads_no_error(index: int) -> None:
    """With nothing wrong and nothing unknown every reading of a round is right to its rounding."""
    camera = sound(index)
    camera = replace(camera, build=replace(camera.build, f_number=64.0))
    habits = replace(STEADY, tries=2)
    bench = Bench(camera, habits, np.random.default_rng(1))
    document = job(bench, exactly(camera), careful=True)
    # Readings free of all doubt are not weighed together, but each is answered.
    del document["diagnosis"]
    answers = read(document).answers
    assert len(answers) == 11
    for answer in answers:
        assert isinstance(answer, Correction)
        # Distances are typed to a millimetre, lengths to a micrometre.
        assert answer.error.value == pytest.approx(0.0, abs=0.003)


def test_a_sound_finder_reads_its_targets() -> None:
    """The finder of such a camera shows every target where it is."""
    camera = sound(0)
    document = job(Bench(camera, STEADY, np.random.default_rng(1)), exactly(camera), careful=True)
    far, *near = document["rangefinder"]["pairs"].split("; ")
    assert near == ["3.000 m = 3.000 m", "1.000 m = 1.000 m"]
    # The target called infinitely far stands 1.5 km off.
    assert far in ("inf = 1500.00 m", "inf = inf")


@pytest.mark.parametrize("careful", [True, False])
@pytest.mark.parametrize("seed", range(7))
def test_every_round_is_a_job(seed: int, careful: bool) -> None:
    """What is typed of a drawn camera is understood and weighed, and is the same each time."""
    camera = draw(seed)

    def once() -> dict[str, Any]:
        figures = typed(camera, False, np.random.default_rng(seed))
        return job(Bench(camera, Habits(), np.random.default_rng(seed)), figures, careful)

    document = once()
    assert document == once()
    assert read(document).whole is not None


def test_a_usual_round_has_no_film_test() -> None:
    """A careful round reads corners, film and both marks; a usual one does without."""
    camera = draw(2)
    rounds = {}
    for careful in (True, False):
        bench = Bench(camera, Habits(), np.random.default_rng(2))
        rounds[careful] = job(bench, exactly(camera), careful)["readings"]
    kinds = [one["kind"] for one in rounds[False]]
    assert kinds == ["register", "collimator", "collimator", "mark"]
    assert sum("judged" in one or one["kind"] == "ruler" for one in rounds[True]) == 2
    assert sum(one["kind"] == "register" for one in rounds[True]) == 5
    assert sum(one["kind"] == "mark" for one in rounds[True]) == 2


def test_some_look_into_the_corners_too() -> None:
    """A bench that looks aside reads two corners on the glass, where the field is curved."""
    camera = sound(0)
    hidden = replace(camera.unmodelled, hollow=0.05, looks_aside=True)
    camera = replace(camera, unmodelled=hidden)
    readings = job(Bench(camera, STEADY, np.random.default_rng(1)), exactly(camera), True)
    corners = [
        one
        for one in readings["readings"]
        if one["kind"] == "collimator" and one.get("place") in ("13, 8", "-13, -8")
    ]
    assert len(corners) == 2
    # 5 % of the sag at 15.3 mm, 233/(2·123): 0.047 mm at the film, times (310/50)².
    for one in corners:
        assert float(one["shift"].removesuffix(" mm")) == pytest.approx(1.83, rel=0.1)


def test_what_is_not_told_is_not_in_the_document() -> None:
    """The collimator's place stands in a job only where it is told."""
    camera = draw(2)
    for told in (True, False):
        figures = typed(camera, told, np.random.default_rng(2))
        document = job(Bench(camera, Habits(), np.random.default_rng(2)), figures, True)
        told_so = ["to_lens" in one for one in document["readings"] if one["kind"] == "collimator"]
        assert all(told_so) if told else not any(told_so)


def test_a_lens_a_start_out_is_read_by_turning() -> None:
    """Beyond the reticle's reach stop and mark are read by the ring, and film is left out."""
    camera = sound(0).with_faults(starts=-1)
    readings = job(Bench(camera, Habits(), np.random.default_rng(2)), exactly(camera), True)
    kinds = [one["kind"] for one in readings["readings"]]
    assert kinds.count("rotation") == 2
    assert "collimator" not in kinds
    turned = float(readings["readings"][5]["turned"].split(";")[0])
    # A sixth of a lead of 18 mm, and as much of a turn.
    assert turned == pytest.approx(60.0, abs=1.5)
    assert math.isfinite(turned)
