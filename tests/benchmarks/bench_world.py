"""Cameras of the world, traced through published glass: is a plan's promise kept on film?

    SHIMWRIGHT_WORLD=200 python3 start.py benchmarks tests/benchmarks/bench_world.py

The cameras are the judge and know nothing of the diagnosis. Whatever is set by hand, such as the
spread of an unknown, is tuned on seeds below 1,000,000 and on no other; those from 1,000,000 on
are for acceptance, drawn when SHIMWRIGHT_ACCEPTANCE is set, and nobody looks at one of them.
"""

import json
import math
import os
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest

from optics import units
from optics.records.files import read_job
from optics.records.result import result_of
from optics.records.solve import solve
from optics.world import TracedCamera, Visit, carry_out, draw, visit
from optics.world.hands import STEADY
from optics.world.judge import worst

ACCEPTANCE = 1_000_000
COUNT = int(os.environ.get("SHIMWRIGHT_WORLD", "120"))
FIRST = ACCEPTANCE if "SHIMWRIGHT_ACCEPTANCE" in os.environ else 0
VISITS = 2
# Two-sided 95 % of a normal distribution.
_Z = 1.959964
# A lens within this part of its works' focal length has its own scale.
_OWN_SCALE = 0.004
# What a right part may show at the film: less is no fault to be named (mm).
_NO_FAULT = {
    "shims": ("seat", 0.02),
    "start": ("start", 0.01),
    "ring": ("ring", 0.04),
    "stop": ("stop", 0.04),
    "focal length": ("focal", 0.02),
    "standard": ("tilt", 0.02),
    "gate": ("gate", 0.02),
    "rangefinder zero": ("zero", 0.04),
    "rangefinder gain": ("gain", 0.025),
}
_CLAIMED = 0.95


@dataclass(frozen=True)
class Count:
    """How many of how many, with the bounds of Wilson (J. Am. Stat. Assoc. 22, 1927) at 95 %."""

    hits: int
    of: int

    def __str__(self) -> str:
        """Per cent, and its bounds."""
        if not self.of:
            return "—"
        low, high = self.bounds
        return f"{100 * self.hits / self.of:.1f} % ({100 * low:.0f}–{100 * high:.0f})"

    @property
    def bounds(self) -> tuple[float, float]:
        """The two shares that the count speaks against no more than once in twenty."""
        share, n = self.hits / self.of, self.of
        middle = (share + _Z**2 / (2 * n)) / (1 + _Z**2 / n)
        half = _Z / (1 + _Z**2 / n) * math.sqrt(share * (1 - share) / n + _Z**2 / (4 * n**2))
        return max(middle - half, 0.0), min(middle + half, 1.0)


@dataclass(frozen=True)
class Done:
    """What came of one camera after one visit, in half depths of focus.

    `held` says of each place as left whether its 95 % interval holds it, `claims` of each cause
    named at 95 % whether it is there.
    """

    promised: bool
    worst: float
    place: str
    held: tuple[bool, ...]
    claims: tuple[bool, ...]
    carried_away: bool
    sound_scale_replaced: bool
    refused: bool


def solved(document: dict[str, Any]) -> dict[str, Any]:
    """What `shimwright solve --json` prints."""
    job = read_job(json.dumps(document).encode())
    found: dict[str, Any] = result_of(solve(job)).model_dump(mode="json")
    return found


def visits(seed: int, *, careful: bool, told: bool) -> list[Done]:
    """Visit after visit of one camera, each weighed by itself."""
    camera, done = draw(seed), []
    for number in range(VISITS):
        found = visit(camera, (seed, number), solved, careful=careful, told=told)
        done.append(outcome(camera, found))
        camera = found.camera
    return done


def outcome(before: TracedCamera, found: Visit) -> Done:
    """What came of a visit, by the camera before it and after."""
    tolerance = before.build.tolerance
    result = found.result
    is_new = found.camera.new_scale is not before.new_scale
    return Done(
        promised=found.promised,
        worst=found.worst / tolerance,
        place=_kind(worst(found.errors)[0]),
        held=tuple(_held(result, found)) if result else (),
        claims=tuple(_claims(result, before)) if result else (),
        carried_away=result is not None and _is_carried_away(before, found, result),
        sound_scale_replaced=is_new
        and before.new_scale is None
        and abs(before.faults.focal) < _OWN_SCALE,
        refused=result is None,
    )


def _is_carried_away(before: TracedCamera, found: Visit, result: dict[str, Any]) -> bool:
    """Whether the plan, done by hands that never miss, takes a part farther from its true place."""
    done = carry_out(before, result, found.figures, STEADY, np.random.default_rng(0))
    was, becomes = before.at_the_film, done.at_the_film
    return any(abs(becomes[n]) > abs(was[n]) + before.build.tolerance / 4 for n in was)


def _held(result: dict[str, Any], found: Visit) -> Iterator[bool]:
    """Of every place that the plan foretells, whether the interval holds what is on film."""
    plan = result["diagnosis"]["plan"]
    left = plan["steps"][-1]["after"] if plan["steps"] else plan["as_found"]
    for one in left["expected"]:
        true = _on_film(one["words"], found)
        if true is not None:
            yield one["low"] <= true <= one["high"]


def _on_film(words: str, found: Visit) -> float | None:
    """The error on film at a place by the words of a plan; None for what is on no film."""
    name = words.removeprefix("the ").removesuffix(" corner")
    _, finder, target = name.partition("rangefinder at ")
    if finder:
        distance = units.read_distance(target).value
        stand = found.camera.meeting(distance)
        return None if stand is None else found.camera.on_film(distance, stand)
    return found.errors.get({"infinity stop": "stop"}.get(name, name))


def _claims(result: dict[str, Any], before: TracedCamera) -> Iterator[bool]:
    """Of every cause named, whether that part stands off its place."""
    true = before.at_the_film
    for one in result["diagnosis"]["causes"]:
        if one["probability"] >= _CLAIMED and one["cause"] in _NO_FAULT:
            name, least = _NO_FAULT[one["cause"]]
            yield abs(true[name]) > least


def _kind(place: str) -> str:
    """What kind of place it is, whatever its distance."""
    if place.startswith("rangefinder"):
        return "rangefinder"
    if place.endswith("m mark"):
        return "near mark"
    return place if place in ("stop", "∞ mark") else "corner"


def count(flags: Sequence[bool]) -> Count:
    """How many are true."""
    return Count(sum(flags), len(flags))


def rows(done: Sequence[Done]) -> dict[str, str]:
    """The figures of one column."""
    promised = [one for one in done if one.promised]
    broken = Counter(one.place for one in promised if one.worst > 1)
    shares = {
        "promised at 95 %": [one.promised for one in done],
        "… and kept on film, at every place": [one.worst <= 1 for one in promised],
        "inside half N·c, on film, at every place": [one.worst <= 1 for one in done],
        "inside N·c": [one.worst <= 2 for one in done],
        "95 % interval of a place as left holds": [flag for one in done for flag in one.held],
        "causes named at 95 % that are there": [flag for one in done for flag in one.claims],
        "a part carried off by a quarter of the tolerance": [one.carried_away for one in done],
        "a sound scale replaced": [one.sound_scale_replaced for one in done],
        "no plan, the job refused": [one.refused for one in done],
    }
    places = ", ".join(f"{place} {times}" for place, times in broken.most_common())
    return {label: str(count(flags)) for label, flags in shares.items()} | {
        "worst place of a broken promise": places or "—"
    }


@pytest.mark.parametrize("told", [False, True], ids=["nothing told", "told"])
@pytest.mark.parametrize("careful", [True, False], ids=["careful", "usual"])
def test_the_world_judges_the_plan(careful: bool, told: bool) -> None:
    """Each camera of the world is read, planned and mended twice, and the shares are printed."""
    seeds = range(FIRST, FIRST + COUNT)
    found = [visits(seed, careful=careful, told=told) for seed in seeds]
    title = f"{'careful' if careful else 'usual'} round, {'facts' if told else 'nothing'} told"
    print(f"\n\n{title}, {COUNT} cameras from seed {FIRST}\n")
    columns = [rows([done[i] for done in found]) for i in range(VISITS)]
    print("| | one plan | two visits |", "|---|---|---|", sep="\n")
    for label in columns[0]:
        print(f"| {label} | {' | '.join(column[label] for column in columns)} |")
    assert len(found) == COUNT
