"""The plan in words."""

from dataclasses import replace

from optics.finding.diagnosis import Faults, diagnose
from optics.finding.plan import make_plan
from optics.finding.plan.wording import (
    NOTHING,
    alternative_line,
    further_lines,
    jumped_line,
    needs_line,
    nothing_line,
    promise_line,
    step_lines,
)
from tests.optics.teaching.bench_day import (
    AT_HAND,
    FULL_ROUND,
    HELICOID,
    INFINITY,
    NEAR,
    STOP,
    all_shown,
)


def planned(hidden: Faults, *readings: object, limit: float = 0.006) -> object:
    """Plan for a helicoid camera with these faults."""
    shown = all_shown(HELICOID, hidden, readings or FULL_ROUND, limit)
    return make_plan(diagnose(HELICOID, shown), AT_HAND, draws=20_000)


def test_a_step_says_what_with_what_and_what_then() -> None:
    """A step names its place in the order, the amount and sense, the tool and the outcome."""
    plan = planned(Faults(seat=-0.1))
    first, *rest = step_lines(plan.steps[0])  # type: ignore[attr-defined]
    assert first.startswith("1. Lens at infinity (step 3 of the bench's order). Fit ")
    assert "add 0.100 mm in all" in first
    assert rest[0].startswith("Tool: lens spanner")
    assert rest[-1].startswith("Then the least sure is the ")
    assert rest[-1].endswith("all inside with more than 99 %.")


def test_a_promise_names_where_and_how_probably() -> None:
    """The promise names every place, the tolerance and the probability."""
    said = promise_line(planned(Faults(seat=-0.1)))  # type: ignore[arg-type]
    assert said.startswith("When this is done it will conform: the register, the infinity stop")
    assert said.endswith("within ± 0.042 mm, with more than 99 % probability.")
    assert promise_line(planned(Faults())).startswith("It conforms: ")  # type: ignore[arg-type]


def test_what_is_needed_first_is_said() -> None:
    """Where nothing can be promised the best further reading is named with what it brings."""
    plan = planned(Faults(ring=0.2), STOP, INFINITY, NEAR, limit=0.05)
    assert promise_line(plan).startswith("Conformity cannot be promised")  # type: ignore[arg-type]
    assert needs_line(plan).startswith("Most would be told by ")  # type: ignore[arg-type]
    assert needs_line(planned(Faults())) == ""  # type: ignore[arg-type]


def test_no_reading_is_asked_for_that_would_tell_little() -> None:
    """Where nothing can be promised and no reading is worth it, that is said."""
    plan = planned(Faults(ring=-0.2), *FULL_ROUND, limit=0.006)
    close = replace(plan.final, all_inside=0.9)  # type: ignore[attr-defined]
    steps = (*plan.steps[:-1], replace(plan.steps[-1], after=close))  # type: ignore[attr-defined]
    short = replace(plan, steps=steps)  # type: ignore[type-var]
    assert not short.will_conform  # type: ignore[attr-defined]
    assert needs_line(short) == "No one further reading would tell much more."  # type: ignore[arg-type]


def test_a_blocked_step_is_what_is_needed() -> None:
    """A screw of unknown effect asks for its trial turn."""
    readings = all_shown(HELICOID, Faults(zero=0.2), FULL_ROUND)
    bare = replace(AT_HAND, zero_screw=None, gain_screw=None)
    assert "quarter turn" in needs_line(make_plan(diagnose(HELICOID, readings), bare, draws=2000))


def test_another_way_is_said_with_its_price() -> None:
    """The way round the seat is said with the register as its price."""
    plan = planned(Faults(seat=-0.1))
    said = [alternative_line(a) for a in plan.alternatives]  # type: ignore[attr-defined]
    assert said[0].startswith("Without removing the lens from its seat: ")
    assert said[0].endswith("Price: the register stays 0.100 mm too far in.")


def test_jumped_steps_are_said() -> None:
    """Steps that no reading checked are named as presumed right."""
    said = jumped_line(planned(Faults(ring=0.2), STOP, INFINITY))  # type: ignore[arg-type]
    assert said.startswith("Not checked, and presumed right: step 1 (film gate and pressure plate)")
    assert jumped_line(planned(Faults(ring=-0.2))) == ""  # type: ignore[arg-type]


def test_nothing_is_moved_only_with_what_was_read_outside_beside_it() -> None:
    """A plan without steps names what was read out of tolerance, why it stays, what to read."""
    plan = planned(Faults(ring=0.2), STOP, INFINITY, NEAR, limit=0.05)
    idle = replace(plan, steps=())  # type: ignore[type-var]
    said = nothing_line(idle)  # type: ignore[arg-type]
    assert said.startswith("Read out of tolerance: the ∞ mark, 0.2")
    assert "too far out (± 0." in said
    assert "The plan moves nothing, for " in said
    assert "Most would be told by " in said
    assert NOTHING not in said


def test_a_sound_camera_is_left_alone_in_so_many_words() -> None:
    """Where all was read inside and that is proved, nothing is to be moved and no more is said."""
    assert nothing_line(planned(Faults())) == NOTHING  # type: ignore[arg-type]
    assert nothing_line(planned(Faults(seat=-0.1))) == ""  # type: ignore[arg-type]


def test_a_gain_far_out_is_looked_into_before_the_screw_is_turned() -> None:
    """A gain fifteen hundredths out has its causes named before the near screw; three has not."""
    far, near = (planned(Faults(gain=gain)) for gain in (0.15, 0.03))
    (turn,) = (s for s in far.steps if "near screw" in s.adjustment.title)  # type: ignore[attr-defined]
    said = step_lines(turn)[0]
    assert said.index("no adjuster's job") < said.index("Turn the rangefinder's near screw")
    for cause in ("follower off its cam", "another lens's cam", "a moved lever pivot"):
        assert cause in said
    (turn,) = (s for s in near.steps if "near screw" in s.adjustment.title)  # type: ignore[attr-defined]
    assert "adjuster's job" not in step_lines(turn)[0]


def test_nothing_more_is_asked_for_where_all_is_told() -> None:
    """A plan sure of its causes asks for no further reading; one mark read alone asks for one."""
    told = further_lines(planned(Faults(seat=-0.1)))  # type: ignore[arg-type]
    assert not any(line.startswith("Most would be told") for line in told)
    alone = further_lines(planned(Faults(seat=0.03), INFINITY, limit=0.02))  # type: ignore[arg-type]
    assert alone[-1].startswith("Most would be told by ")
