"""What a refusal at the practice bench gives away: nothing that is hidden."""

import re
from collections import defaultdict
from functools import cache

import pytest

from optics.errors import NoAnswer, ShimwrightError
from optics.readings.kinds.coincidence import CoincidenceReading
from optics.readings.practised import Offered
from optics.readings.readings import Moved
from optics.teaching.practice.levels import Level
from optics.teaching.practice.sight import glass_at, patch_at
from optics.teaching.practice.sitting import Action, Adjust, Read, Sitting
from optics.teaching.practice.stand import Stand
from optics.teaching.practice.unseen import instead_of
from tests.optics.teaching.practice.stands import OSTRIN, STANDS, TARNBROOK, sitting

SEEDS = range(25)
BEFORE: tuple[tuple[Action, ...], ...] = ((), (Adjust("shim the lens seat", 0.9),))
LOOKS = [(s, o) for s in STANDS for o in s.offered.values() if o.moved is not None]
# Where a look can be set: far out, near, about where it is sharp, and beyond what there is.
AMOUNTS = {
    Moved.RING: (-400.0, -5.0, -0.01, 0.0, 0.01, 5.0, 50.0, 400.0, 10_000.0),
    Moved.RETICLE: (-400.0, -41.0, 0.0, 39.0, 41.0, 10_000.0),
    Moved.TARGET: (-1.0, 0.0, 0.3, 0.42, 0.4215, 0.43, 2.5, 500.0),
    Moved.POINTER: (-5.0, -0.01, 0.0, 0.01, 5.0, 50.0, 400.0),
}


def refusal(done: Sitting) -> str:
    """Give the sentence in which a sitting is refused, empty where it is not."""
    try:
        done.entries  # noqa: B018
    except ShimwrightError as refused:
        return str(refused)
    return ""


@cache
def refused(stand_at: int, *before: Action) -> dict[str, dict[str, list[Sitting]]]:
    """Give each reading's refusals, and the sittings in which each was met."""
    stand = STANDS[stand_at]
    found: dict[str, dict[str, list[Sitting]]] = defaultdict(lambda: defaultdict(list))
    for level in Level:
        for seed in SEEDS:
            start = Sitting(stand, level, seed, before)
            for name in stand.offered:
                said = refusal(start.then(Read(name)))
                if said:
                    found[name][said].append(start)
    return found


def test_a_refused_reading_tells_no_figure() -> None:
    """The rangefinder at 10 m of level 3, seed 11, is refused without a figure of the camera."""
    with pytest.raises(NoAnswer) as refused:
        sitting(Read("rangefinder at 10 m"), level=Level.THREE, seed=11).entries  # noqa: B018
    said = str(refused.value)
    assert set(re.findall(r"\d+(?:\.\d+)? m", said)) == {"10 m", "1.2 m"}
    assert not re.search(r"\d", said.replace("10 m", "").replace("1.2 m", ""))
    assert "too far" not in said
    assert refused.value.value is None


@pytest.mark.parametrize(
    "before", [(), (Adjust("shim the lens seat", 0.9),)], ids=["found", "moved"]
)
@pytest.mark.parametrize("stand", STANDS, ids=lambda s: s.camera.name)
def test_a_refusal_is_the_same_whatever_is_hidden(stand: Stand, before: tuple[Action, ...]) -> None:
    """Of all cameras of which a reading is refused, as found or adjusted, all refuse alike."""
    found = refused(STANDS.index(stand), *before)
    assert all(len(sentences) == 1 for sentences in found.values()), found.keys()
    if stand is not STANDS[1] and not before:
        assert found


@pytest.mark.parametrize("stand", STANDS, ids=lambda s: s.camera.name)
def test_what_a_refusal_advises_can_be_read(stand: Stand) -> None:
    """Each refusal names readings that this camera gives then: one at least, the ∞ mark always."""
    for name, sentences in refused(STANDS.index(stand)).items():
        instead = instead_of(stand, stand.offered[name])
        for said, starts in sentences.items():
            assert all(other in said for other in instead)
            for start in starts:
                assert not refusal(start.then(Read(instead[-1])))


def test_a_nearer_target_is_advised_where_there_is_one() -> None:
    """The far rangefinder sends to the nearer one, the near one to the ∞ mark alone."""
    far, near = OSTRIN.offered["rangefinder at 10 m"], OSTRIN.offered["rangefinder at 1.2 m"]
    assert instead_of(OSTRIN, far) == ("rangefinder at 1.2 m", "∞ mark")
    assert instead_of(OSTRIN, near) == ("∞ mark",)
    assert instead_of(TARNBROOK, TARNBROOK.offered["∞ mark"]) == ("register",)


def test_what_was_adjusted_can_be_taken_back() -> None:
    """Refused after an adjustment, a reading is said to come back when that is undone."""
    thread = Adjust("enter the thread", -3.0)
    before, after = (
        refusal(sitting(*actions, Read("infinity stop"), seed=11))
        for actions in ((), (Adjust("turn the near screw", 0.125),))
    )
    assert "take back what was adjusted last" not in before
    assert "or take back what was adjusted last, and come back to it" in after
    assert "adjusted last" in refusal(sitting(thread, Read("infinity stop")))


@pytest.mark.parametrize(("stand", "offered"), LOOKS, ids=lambda v: getattr(v, "name", ""))
def test_a_look_tells_no_hidden_figure(stand: Stand, offered: Offered) -> None:
    """Wherever ring, reticle, target or pointer is set, looks that are refused refuse alike."""
    assert offered.moved is not None
    for amount in AMOUNTS[offered.moved]:
        judged, seen = set(), set()
        for seed in range(12):
            start = Sitting(stand, Level.THREE, seed)
            judged.add(refusal(start.then(Read(offered.name, amount))))
            seen.add(look_refused(start, offered, amount))
        assert len(judged - {""}) <= 1
        assert len(seen - {""}) <= 1


def look_refused(start: Sitting, offered: Offered, amount: float) -> str:
    """Give the sentence that the page shows in place of a view, empty where there is a view."""
    try:
        if isinstance(offered.reading, CoincidenceReading):
            patch_at(start.stand, start.state, offered, amount)
        else:
            glass_at(start.state, start.level, offered, amount)
    except ShimwrightError as refused:
        return str(refused)
    return ""


def test_a_ring_inside_its_infinity_mark_is_told_what_to_do() -> None:
    """A look with the ring 5° inside ∞ says so in degrees, and to set it farther out."""
    said = refusal(sitting(Read("rangefinder at 1.2 m", -5.0)))
    assert said.startswith("The scale has figures only short of its ∞ mark: got 5° inside it")
    assert "set the ring farther out" in said
