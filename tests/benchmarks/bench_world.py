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
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import pytest

from optics.records.files import read_job
from optics.records.result import result_of
from optics.records.solve import solve
from optics.world import draw, visit

ACCEPTANCE = 1_000_000
COUNT = int(os.environ.get("SHIMWRIGHT_WORLD", "120"))
FIRST = ACCEPTANCE if "SHIMWRIGHT_ACCEPTANCE" in os.environ else 0
VISITS = 2
# Two-sided 95 % of a normal distribution.
_Z = 1.959964


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
        return f"{100 * self.hits / self.of:.0f} % ({100 * low:.0f}–{100 * high:.0f})"

    @property
    def bounds(self) -> tuple[float, float]:
        """The two shares that the count speaks against no more than once in twenty."""
        share, n = self.hits / self.of, self.of
        middle = (share + _Z**2 / (2 * n)) / (1 + _Z**2 / n)
        half = _Z / (1 + _Z**2 / n) * math.sqrt(share * (1 - share) / n + _Z**2 / (4 * n**2))
        return middle - half, middle + half


@dataclass(frozen=True)
class Done:
    """What came of one camera after one visit, in half depths of focus."""

    promised: bool
    worst: float
    place: str
    new_scale: bool
    refused: bool


def solved(document: dict[str, Any]) -> dict[str, Any]:
    """What `shimwright solve --json` prints."""
    job = read_job(json.dumps(document).encode())
    found: dict[str, Any] = result_of(solve(job)).model_dump(mode="json")
    return found


def visits(seed: int, *, careful: bool, told: bool) -> list[Done]:
    """Visit after visit of one camera, each weighed by itself."""
    camera, done = draw(seed), []
    tolerance = camera.build.tolerance
    for number in range(VISITS):
        found = visit(camera, (seed, number), solved, careful=careful, told=told)
        steps = found.result["diagnosis"]["plan"]["steps"] if found.result else []
        place = max(found.errors, key=lambda name: abs(found.errors[name]))
        done.append(
            Done(
                promised=found.promised,
                worst=found.worst / tolerance,
                place=_kind(place),
                new_scale=any("focal" in step["changes"] for step in steps),
                refused=found.result is None,
            )
        )
        camera = found.camera
    return done


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


def rows(done: Sequence[Done]) -> list[str]:
    """The figures of one column."""
    promised = [one for one in done if one.promised]
    broken = Counter(one.place for one in promised if one.worst > 1)
    return [
        str(count([one.promised for one in done])),
        str(count([one.worst <= 1 for one in promised])),
        str(count([one.worst <= 1 for one in done])),
        str(count([one.worst <= 2 for one in done])),
        str(count([one.new_scale for one in done])),
        str(count([one.refused for one in done])),
        ", ".join(f"{place} {times}" for place, times in broken.most_common()) or "—",
    ]


LABELS = (
    "promised at 95 %",
    "… and kept on film, at every place",
    "inside half N·c, on film, at every place",
    "inside N·c",
    "a new scale ordered",
    "no plan, the job refused",
    "worst place of a broken promise",
)


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
    for label, *cells in zip(LABELS, *columns, strict=True):
        print(f"| {label} | {' | '.join(cells)} |")
    assert len(found) == COUNT
