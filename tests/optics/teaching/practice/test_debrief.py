"""Looking back: what the readings said, and whether that is what was hidden."""

import pytest

from optics.errors import ShimwrightError
from optics.finding.causes.ring import RING
from optics.teaching.practice.debrief import candidates, debrief
from optics.teaching.practice.levels import Level
from optics.teaching.practice.sitting import Adjust, Finish, Read, Sitting
from optics.teaching.practice.stand import Stand
from tests.optics.teaching.practice.stands import OSTRIN, STANDS, sitting


def full_round(start: Sitting) -> Sitting:
    """Take every reading of the bench that can be taken."""
    for name in start.stand.offered:
        more = start.then(Read(name))
        try:
            more.entries  # noqa: B018
        except ShimwrightError:
            continue
        start = more
    return start


@pytest.mark.parametrize("stand", STANDS, ids=lambda s: s.camera.name)
def test_a_full_round_finds_what_was_hidden(stand: Stand) -> None:
    """With every reading taken, the causes thought likeliest are nearly always the hidden ones."""
    right = 0
    for seed in range(8):
        start = sitting(stand=stand, level=Level.TWO, seed=seed)
        last = debrief(full_round(start)).remarks[-1]
        likely = {cause for cause, _ in last.causes[:2]}
        right += likely == start.found.practice.causes
    assert right >= 7


def test_the_plan_is_from_the_first_round() -> None:
    """The plan turns the slipped ring back, and readings after an adjustment do not change it."""
    start = full_round(sitting())
    plan = debrief(start).plan
    assert plan is not None
    (step,) = plan.steps
    assert step.adjustment.cause is RING
    more = debrief(start.then(Adjust("turn the barrel", -2.0)).then(Read("∞ mark"))).plan
    assert more is not None
    assert [s.adjustment.instruction for s in more.steps] == [step.adjustment.instruction]


def test_without_a_reading_there_is_no_plan() -> None:
    """Adjusted before anything was read, the sitting has nothing to plan from."""
    done = debrief(sitting(Adjust("turn the barrel", 1.0), Read("∞ mark"), Finish()))
    assert done.plan is None
    assert len(done.remarks) == 1


def test_diagnosis_begins_afresh_after_an_adjustment() -> None:
    """A first reading and the same one after the camera was changed are both judged alone."""
    turned = sitting(Read("∞ mark"), Adjust("turn the barrel", 8.0), Read("∞ mark"))
    first, second = debrief(turned).remarks
    assert first.number == 1
    assert second.number == 3
    alone = debrief(sitting(Adjust("turn the barrel", 8.0), Read("register"), Read("∞ mark")))
    assert dict(second.causes)[RING] != pytest.approx(dict(first.causes)[RING])
    assert len(alone.remarks) == 2


def test_the_best_next_reading_tells_something_new() -> None:
    """After the register twice, what is advised is not the register a third time."""
    remarks = debrief(sitting(Read("register"), Read("register"))).remarks
    for remark in remarks:
        assert remark.best_next is not None
        assert remark.best_next.candidate.words != "register"
        before, after = remark.best_next.wrong_cause
        assert after < before


def test_every_reading_of_the_bench_can_be_advised() -> None:
    """The candidates are the readings that the bench offers, each with an uncertainty."""
    found = candidates(sitting(), sitting(Read("register")).entries[0])
    assert [candidate.words for candidate in found] == list(OSTRIN.offered)
    assert all(candidate.standard > 0 for candidate in found)


@pytest.mark.parametrize("level", Level)
@pytest.mark.parametrize("stand", STANDS, ids=lambda s: s.camera.name)
def test_what_is_advised_can_be_read(stand: Stand, level: Level) -> None:
    """After every reading, before and after an adjustment, the bench takes what is advised."""
    move = next(name for name in sitting(stand=stand).controls if "lens seat" in name)
    steps = (Read("∞ mark"), Read("register"), Adjust(move, 0.1), Read("∞ mark"))
    for seed in range(12):
        done = sitting(*steps, stand=stand, level=level, seed=seed)
        for remark in debrief(done).remarks:
            assert remark.best_next is not None
            then = sitting(
                *steps[: remark.number],
                Read(remark.best_next.candidate.words),
                stand=stand,
                level=level,
                seed=seed,
            )
            assert len(then.entries) == remark.number + 1


def test_what_the_plan_would_have_read_first_can_be_read() -> None:
    """Where the plan asks for one more reading, it is the bench's own and can be taken."""
    asked = 0
    for seed in range(24):
        done = sitting(Read("∞ mark"), Read("register"), level=Level.THREE, seed=seed)
        plan = debrief(done).plan
        assert plan is not None
        gain = plan.diagnosis.worth_reading
        if gain is None:
            continue
        asked += 1
        name = gain.candidate.words.removeprefix("the ").removesuffix(" again")
        assert done.then(Read(name)).entries
    assert asked > 12


def test_the_own_eye_is_held_to_the_sharpest_place() -> None:
    """A judgement carries how far it was off; an instrument's reading carries nothing."""
    own, gauge = debrief(sitting(Read("∞ mark", 0.0), Read("register"))).remarks
    assert own.misjudged == pytest.approx(sitting().found.practice.hidden["ring"], abs=0.02)
    assert gauge.misjudged is None
    assert own.granted == pytest.approx(0.021)
