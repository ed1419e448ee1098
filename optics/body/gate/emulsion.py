"""Where the emulsion lies behind the rails, and what that does to a lens set on ground glass."""

import math
from dataclasses import dataclass
from enum import StrEnum

from optics.errors import NoAnswer, OutOfRange
from optics.measure.uncertainty import Estimate, exact, within
from optics.measure.verdict import Verdict, judge
from optics.readings.readings import Step
from optics.theory import gate, lens

_play = gate.film_play.solve_for(gate.play)
_error = gate.emulsion_error.solve_for(lens.focus_error)
_ON_THE_RAILS = exact(0.0)


class Plate(StrEnum):
    """What stands behind the film."""

    SPRUNG = "sprung plate, touching the film"
    STOPS = "plate on its stops"
    NONE = "no plate, or one that does not reach"


@dataclass(frozen=True)
class Gate:
    """A film gate: channel depth, thickness of film and backing paper in mm, and its plate.

    `bow` is how far film without a plate can bow back from the rails; `channel` is not needed
    for a sprung plate or none.
    """

    film: Estimate
    plate: Plate
    channel: Estimate | None = None
    paper: Estimate = _ON_THE_RAILS
    bow: Estimate | None = None


@dataclass(frozen=True)
class GateResult:
    """Play, place of the emulsion and focus error, in mm; `steps` show the working.

    `depth` is how far behind the rails the emulsion lies, `error` how far a lens that was
    right on the ground glass is out for the film (plus: too far out).
    """

    gate: Gate
    reference: Estimate
    play: Estimate
    depth: Estimate
    error: Estimate
    steps: tuple[Step, ...]

    @property
    def half_range(self) -> float:
        """How far either way from its mean the emulsion can lie within the play, in mm."""
        return self.play.value / 2

    @property
    def largest(self) -> float:
        """The largest focus error that the play allows, whichever way."""
        return abs(self.error.value) + self.half_range

    def tolerance_left(self, allowed: float) -> float:
        """What of a tolerance (mm) the gate leaves to everything else; minus: less than none."""
        return allowed - self.largest

    def verdict(self, allowed: float) -> Verdict:
        """How the error stands to a tolerance, allowing for its uncertainty.

        A gate whose play alone can use the tolerance up is never inside it.
        """
        found = judge(self.error, allowed)
        is_used_up = found is Verdict.INSIDE and self.tolerance_left(allowed) <= 0
        return Verdict.UNSURE if is_used_up else found


def measure_gate(gate: Gate, reference: Estimate = _ON_THE_RAILS) -> GateResult:
    """Where the emulsion lies, and the focus error against a ground glass at `reference`.

    Every place within the play is equally likely (rectangular). `reference` is the depth of
    the ground side behind the rails: 0 laid on them; see `against_plate` and `in_back`.
    Errors: NoAnswer for a figure that this plate needs and that is missing; OutOfRange where
    film and paper are thicker than the channel.
    Limits: flat film; curl and damp add to this.
    """
    steps = _play_steps(gate)
    play = steps[0].result if steps else _free_play(gate)
    is_loose = gate.plate is not Plate.SPRUNG
    rest = within(0.5, 0.5, "where the film lies in its play") if is_loose else exact(0.0)
    step = Step.of(_error, rest=rest, play=play, reference_depth=reference)
    return GateResult(
        gate=gate,
        reference=reference,
        play=play,
        depth=step.result.plus(reference),
        error=step.result,
        steps=(*steps, step),
    )


def _play_steps(gate: Gate) -> tuple[Step, ...]:
    if gate.plate is not Plate.STOPS:
        return ()
    if gate.channel is None:
        raise NoAnswer(
            "A plate on its stops needs the depth of the film channel: got none; gauge from the "
            "film rails to the plate.",
            quantity="channel",
        )
    return (Step.of(_play, channel=gate.channel, film_thickness=gate.film.plus(gate.paper)),)


def _free_play(gate: Gate) -> Estimate:
    if gate.plate is Plate.SPRUNG:
        return exact(0.0)
    if gate.bow is None:
        raise NoAnswer(
            "Film without a plate needs how far it can bow back from the rails: got none; gauge "
            "a strip of film in the gate, or enter your estimate.",
            quantity="bow",
        )
    if not 0 <= gate.bow.value < math.inf:
        raise OutOfRange(
            f"The bow of the film must be 0 mm or more and finite: got {gate.bow.value:g} mm; "
            "enter how far it can bow back from the rails.",
            quantity="bow",
            value=gate.bow.value,
            limit=0.0,
        )
    return gate.bow


def against_plate(channel: Estimate, glass: Estimate) -> Estimate:
    """Depth of the ground side behind the rails for a thin glass laid against the plate.

    Errors: OutOfRange for a glass thicker than the channel, which lies on the rails instead.
    """
    if glass.value > channel.value:
        raise OutOfRange(
            f"A ground glass against the plate must be at most {channel.value:.3f} mm thick, the "
            f"depth of the channel: got {glass.value:.3f} mm; lay it on the rails instead.",
            quantity="glass_thickness",
            value=glass.value,
            limit=channel.value,
        )
    return channel.plus(glass, -1.0)


def in_back(glass_depth: Estimate, holder_depth: Estimate, slot: Estimate) -> Estimate:
    """Depth of the ground side behind the lips of a sheet-film holder.

    `glass_depth` and `holder_depth` are gauged from the face that meets the camera, to the
    ground side and to the back of the holder's `slot`. The slot is then the film's channel.
    """
    return glass_depth.plus(holder_depth, -1.0).plus(slot)
