"""The rangefinder as part of a result document; angles in rad, lengths in mm."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from optics.rangefinder import set_up_wording as words
from optics.rangefinder.acuity import film_uncertainty, service
from optics.rangefinder.adjusters import AdjusterStep, Advice, Done, Stuck, Trial
from optics.rangefinder.cam_part import CamAnswer
from optics.rangefinder.cam_result import CamOut, cam_out
from optics.rangefinder.set_up import CoupledCamera, SetUp, near_advice, next_turns
from optics.rangefinder.wording import near_lines
from optics.typed.result_parts import Distance, FigureOut, Out

Film = Annotated[float, Field(description="mm at the film; plus is too far out")]
Turns = Annotated[float, Field(description="whole turns; plus is clockwise")]

Kind: TypeAlias = Literal["done", "trial", "step", "stuck"]
_KINDS: dict[type[Advice], Kind] = {
    Done: "done",
    Trial: "trial",
    AdjusterStep: "step",
    Stuck: "stuck",
}


class StateOut(Out):
    """The focus error at the far and at the near target when the images meet."""

    far: Film
    near: Film


class NextOut(Out):
    """What to do next: done, trial, step or stuck, with the turns it asks for."""

    kind: Kind
    words: tuple[str, ...]
    infinity_turns: Turns = 0.0
    near_turns: Turns = 0.0
    foretold: StateOut | None = None

    @classmethod
    def of(cls, found: SetUp, advice: Advice) -> "NextOut":
        """The advice as JSON can hold it."""
        zero, gain = next_turns(advice)
        return cls(
            kind=_KINDS[type(advice)],
            words=words.next_lines(found),
            infinity_turns=zero,
            near_turns=gain,
            foretold=StateOut.taken_from(advice.foretold)
            if isinstance(advice, AdjusterStep)
            else None,
        )


class SetUpOut(Out):
    """Zero, gain and curvature as they stand, what is to change, and what to turn next.

    `zero_change` (rad) and `gain_change` (a part of the wanted gain) make the coupling exact at
    `far_target` and `near_target`; `states` begin with what was found.
    """

    words: str
    verdict: str
    far_target: Distance
    near_target: Distance
    far_error: FigureOut
    near_error: FigureOut
    zero: Annotated[FigureOut, Field(description="rad")]
    gain: Annotated[FigureOut, Field(description="rad for each mm of extension")]
    curvature: Annotated[FigureOut, Field(description="rad for each mm² of extension")]
    correlation: Annotated[float, Field(description="of zero and gain")]
    scatter: Annotated[float, Field(description="times what eye and tape account for; 0: unknown")]
    missing: tuple[str, ...]
    zero_change: Annotated[FigureOut, Field(description="rad")]
    gain_change: Annotated[FigureOut, Field(description="parts of the wanted gain")]
    near_angle_change: Annotated[FigureOut, Field(description="rad, at the near target")]
    states: tuple[StateOut, ...]
    next: NextOut | None

    @classmethod
    def of(cls, found: SetUp) -> "SetUpOut":
        """The set-up as JSON can hold it."""
        change = found.correction
        return cls.taken_from(
            found.now,
            words=words.headline(found),
            verdict=words.verdict(found),
            far_target=found.far,
            near_target=found.near,
            far_error=change.far,
            near_error=change.near,
            missing=found.found.missing,
            zero_change=change.zero,
            gain_change=change.gain_ratio,
            near_angle_change=change.near_angle,
            states=found.states,
            next=None if found.advice is None else NextOut.of(found, found.advice),
        )


class SettingOut(Out):
    """A way of setting the coupling: where it is exact, and the worst error it leaves."""

    exact_at: tuple[Distance, ...]
    worst: Annotated[float, Field(description="mm at the film, without sign")]
    worst_at: Distance


class EyeOut(Out):
    """What one eye leaves at the film, the same at every distance."""

    acuity: Annotated[float, Field(description="rad")]
    name: str
    source: str
    error: Annotated[float, Field(description="mm at the film, either way")]


class RangefinderOut(Out):
    """What the base can tell, where to set near, and the set-up if it was read."""

    goal: Annotated[float, Field(description="mm at the film, either way")]
    goal_reason: str
    effective_base: float
    needed_base: float
    eyes: tuple[EyeOut, ...]
    near_end: float
    usual: SettingOut
    best_near: SettingOut
    best_pair: SettingOut
    near_words: tuple[str, ...]
    set_up: Annotated[SetUpOut | None, Field(description="null where nothing was read")]
    cam: Annotated[CamOut | None, Field(description="null where the job has no cam")]


def rangefinder_out(
    bench: CoupledCamera | None, found: SetUp | None, cam: CamAnswer | None
) -> RangefinderOut | None:
    """The rangefinder, what its readings showed and its cam; None where the job has none."""
    if bench is None:
        return None
    near = near_advice(bench) if found is None else found.where
    base = service(bench.camera, bench.rangefinder, bench.acuity)
    return RangefinderOut.taken_from(
        near,
        goal=bench.goal.error,
        goal_reason=bench.goal.reason,
        effective_base=base.effective_base,
        needed_base=base.needed_base,
        eyes=[
            EyeOut.taken_from(
                eye,
                acuity=eye.angle,
                error=film_uncertainty(bench.camera, bench.rangefinder, eye),
            )
            for eye in words.eyes(bench.acuity)
        ],
        near_end=bench.near_end,
        near_words=near_lines(near),
        set_up=None if found is None else SetUpOut.of(found),
        cam=cam_out(cam),
    )
