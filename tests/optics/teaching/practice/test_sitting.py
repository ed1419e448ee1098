"""A sitting is replayed from level, seed and actions alone."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optics.errors import NoAnswer, OutOfRange, ShimwrightError, Unreadable
from optics.finding.diagnosis import Faults
from optics.readings.readings import Moved
from optics.teaching.practice.instruments import Habits, PracticeBench, film_per_unit
from optics.teaching.practice.levels import Level
from optics.teaching.practice.sitting import (
    MOST_ACTIONS,
    Action,
    Adjust,
    Finish,
    Read,
    Sitting,
    SittingEntry,
    eye_limit,
)
from optics.teaching.practice.stand import Stand
from tests.optics.teaching.practice.stands import OSTRIN, STANDS, TARNBROOK, sitting, state_of


def actions_on(stand: Stand) -> st.SearchStrategy[Action]:
    """Give any action that the bench offers."""
    names = list(sitting(stand=stand).controls)
    looks = [name for name, o in stand.offered.items() if o.moved is Moved.RETICLE]
    reads = st.builds(Read, st.sampled_from(list(stand.offered)))
    judged = st.builds(Read, st.sampled_from(looks), st.floats(-20, 20))
    adjusts = st.builds(Adjust, st.sampled_from(names), st.sampled_from([-2.0, -1.0, 1.0, 2.0]))
    return st.one_of(reads, judged, adjusts)


def told(done: Sitting) -> list[object]:
    """Give everything that a sitting's replay shows, or the refusal it ends in."""
    try:
        entries = done.entries
    except ShimwrightError as refusal:
        return [str(refusal)]
    return [[e.after.practice.hidden, e.after.height, e.round, e.by_eye, shown(e)] for e in entries]


def shown(entry: SittingEntry) -> object:
    """Give a reading's focus error and uncertainty."""
    if entry.reading is None:
        return None
    error = entry.reading.steps(entry.before.practice.camera)[-1].result
    return error.value, error.standard


@settings(max_examples=40, deadline=None)
@given(data=st.data(), seed=st.integers(0, 999_999))
def test_a_replay_is_the_same_sitting(data: st.DataObject, seed: int) -> None:
    """Replayed by itself, a sitting shows the same readings, misses and camera, or refusal."""
    stand = data.draw(st.sampled_from(STANDS))
    level = data.draw(st.sampled_from(list(Level)))
    actions = tuple(data.draw(st.lists(actions_on(stand), max_size=6)))
    first, again = (Sitting(stand, level, seed, actions) for _ in range(2))
    assert told(first) == told(again)


def test_what_was_done_is_not_changed_by_what_follows() -> None:
    """One more action leaves every earlier entry as it was."""
    short = sitting(Read("register"), Adjust("turn the barrel", 2.0), Read("∞ mark"))
    long = short.then(Adjust("turn the barrel", -1.0)).then(Read("∞ mark"))
    assert told(long)[:3] == told(short)


def test_noise_hangs_on_seed_level_and_place_in_the_sitting() -> None:
    """The same reading twice scatters, and another seed scatters otherwise."""
    twice = sitting(Read("∞ mark"), Read("∞ mark"))
    first, second = (shown(entry) for entry in twice.entries)
    assert first != second
    noises = []
    for seed in range(2):
        one = sitting(Read("infinity stop"), seed=seed)
        clean = one.found.practice.hidden
        value = shown(one.entries[0])
        assert isinstance(value, tuple)
        noises.append(value[0] - clean["seat"] - clean["start"] - clean["stop"])
    assert noises[0] != noises[1]


def test_the_gauge_keeps_its_error_all_day() -> None:
    """Twenty gaugings scatter by the gauge's spread, far less than its limit, about one error."""
    done = sitting(*[Read("register")] * 20)
    values = np.array([entry.reading.measured.value for entry in done.entries])  # type: ignore[union-attr]
    # Means of three repeats that scatter by 0.003 mm.
    assert values.std(ddof=1) == pytest.approx(0.003 / 3**0.5, rel=0.5)
    off = values.mean() - (OSTRIN.camera.lens.focal_length + done.found.practice.hidden["seat"])
    assert 0.002 < abs(off) <= 0.0155


def test_own_judgement_is_taken_as_it_is() -> None:
    """A reading judged at 4.5° says 4.5°, good to what an eye just sees at the film."""
    (entry,) = sitting(Read("3 m mark", 4.5)).entries
    assert entry.reading is not None
    assert np.degrees(entry.reading.rotation.value) == pytest.approx(4.5)  # type: ignore[union-attr]
    error = entry.reading.steps(OSTRIN.camera)[-1].result
    # A quarter of N·c, 0.25 · 2.8 · 0.03 = 0.021 mm, evenly either way.
    assert error.standard == pytest.approx(0.021 / 3**0.5)
    # 4.5° of a lead of 18 mm are 0.225 mm.
    assert error.value == pytest.approx(-0.225, abs=1e-9)
    assert eye_limit(sitting(), OSTRIN.offered["3 m mark"]) == pytest.approx(0.021)


def test_how_far_the_own_eye_was_off_is_kept() -> None:
    """Judged 1° out of the sharpest place, the eye was 0.05 mm off at the film."""
    done = sitting(seed=7)
    hidden = done.found.practice.hidden
    sharp = -(hidden["seat"] + hidden["start"] + hidden["ring"]) / 0.05
    (entry,) = done.then(Read("∞ mark", sharp + 1.0)).entries
    assert entry.by_eye == pytest.approx(0.05)


def test_rounds_are_spells_of_adjusting() -> None:
    """Two adjustments in a row are one round; a reading between makes the next one another."""
    turn = Adjust("turn the barrel", 1.0)
    done = sitting(Read("∞ mark"), turn, turn, Read("∞ mark"), turn, Finish())
    assert [entry.round for entry in done.entries] == [0, 1, 1, 1, 2, 2]
    assert done.is_finished
    assert not sitting().is_finished
    assert sitting().state == sitting().found


@pytest.mark.parametrize(
    ("actions", "refusal", "words"),
    [
        ([Read("the moon")], Unreadable, "no such reading on this bench: got 'the moon'"),
        ([Adjust("the moon", 1.0)], Unreadable, "nothing of the kind on this camera"),
        ([Adjust("turn the barrel", 0.0)], OutOfRange, "takes an amount other than 0 °: got 0"),
        ([Adjust("enter the thread", 1.5)], OutOfRange, "whole number of starts farther: got 1.5"),
        ([Adjust("shim the lens seat", -0.5)], OutOfRange, r"got 0\.50 mm of 0\.40 mm"),
        ([Read("register", 47.0)], Unreadable, "read off an instrument, not judged by eye"),
        ([Read("infinity stop", 50.0)], NoAnswer, "slide reaches 40 mm either way"),
        ([Finish(), Read("register")], Unreadable, "after the work is laid down"),
        ([Read("register")] * (MOST_ACTIONS + 1), OutOfRange, "at most 200 actions: got 201"),
    ],
)
def test_what_cannot_be_done_is_refused(
    actions: list[Action], refusal: type[ShimwrightError], words: str
) -> None:
    """Every action that no bench could do is refused in one sentence that says why."""
    with pytest.raises(refusal, match=words):
        sitting(*actions).entries  # noqa: B018


def test_shims_that_were_added_can_come_out_again() -> None:
    """What was added to the seat, and what lay there, can come out, and no leaf more."""
    added = sitting(Adjust("shim the lens seat", 0.2), Adjust("shim the lens seat", -0.6))
    assert len(added.entries) == 2
    with pytest.raises(OutOfRange, match=r"got 0\.10 mm of 0\.00 mm"):
        added.then(Adjust("shim the lens seat", -0.1)).entries  # noqa: B018
    with pytest.raises(OutOfRange):
        sitting(Adjust("shim the standard, top left screw,", -0.05)).entries  # noqa: B018


def test_eye_limit_in_the_finder_is_what_its_base_makes_of_the_eye() -> None:
    """30″ at 105 mm and bM 25 mm are 105² · 1.4544e-4 / 25 = 0.0641 mm at the film."""
    pair = TARNBROOK.offered["rangefinder at 2.5 m"]
    limit = eye_limit(sitting(stand=TARNBROOK), pair)
    assert limit == pytest.approx(0.0641, abs=0.0001)
    assert film_per_unit(TARNBROOK.camera, pair.reading) > 0


def test_a_lens_far_off_is_refused_in_the_collimator_without_its_figures() -> None:
    """A lens too far off for any place of the reticle is refused, its faults kept to itself."""
    state = state_of(OSTRIN, Faults(start=9.0, ring=0.123))
    bench = PracticeBench(Habits(), np.random.default_rng(1))
    with pytest.raises(NoAnswer, match="turning the ring, or gauge") as refusal:
        bench.take(state.practice, OSTRIN.offered["infinity stop"].reading)
    assert not set("0123456789") & set(str(refusal.value))
    assert refusal.value.value is None
