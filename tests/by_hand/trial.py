"""The usual way for comparison: put one thing right by eye, look at the next, begin again."""

from dataclasses import dataclass

import numpy as np

from optics.camera.true_lens import TrueLens, pitch_of
from optics.finding.causes import owner_of
from optics.finding.diagnosis.faults import Faults
from optics.teaching.practice.camera import PracticeCamera
from optics.teaching.practice.instruments import Habits

MOST_ROUNDS = 10
_FAR, _NEAR = 6000.0, 25.0


@dataclass(frozen=True)
class Tried:
    """The camera as it was left, after so many rounds."""

    practice: PracticeCamera
    rounds: int


def trial_and_error(
    practice: PracticeCamera, chance: np.random.Generator, habits: Habits | None = None
) -> Tried:
    """Adjust by eye, round after round, until everything looked at looks right, or ten rounds.

    Each round: a target at 6000 focal lengths on the ground glass with the ring at ∞, the ring
    (or the thread start, when the lens is off by more than half a pitch) set by what is seen;
    the stop set to it; a target at 25 focal lengths at its mark, and if it is soft the ring
    moved by half of what is seen, to share it out; then the rangefinder's infinity screw on the
    far target and its near screw on the near one. A look is one judgement by eye, with the same
    eye, the same loupe and the same steps of adjustment as the plan's readings and hands.
    (The author's account of common practice, no source.)
    """
    worker = _Worker(practice, chance, habits or Habits())
    for number in range(1, MOST_ROUNDS + 1):
        if not worker.round():
            return Tried(worker.practice, number)
    return Tried(worker.practice, MOST_ROUNDS)


class _Worker:
    def __init__(
        self, practice: PracticeCamera, chance: np.random.Generator, habits: Habits
    ) -> None:
        self.practice, self.chance = practice, chance
        camera = practice.camera
        self.seen_blur = habits.eye_part * camera.depth_of_focus
        acuity = camera.lens.focal_length**2 * habits.acuity / habits.base
        self.seen_split = acuity

    @property
    def hidden(self) -> Faults:
        return self.practice.hidden

    def round(self) -> bool:
        """One round; whether anything had to be moved."""
        looks = (self._infinity, self._stop, self._near, self._zero, self._gain)
        moved = [look() for look in looks]
        return any(moved)

    def _judged(self, error: float, blur: float) -> float:
        return error + self.chance.uniform(-blur, blur)

    def _set(self, name: str, seen: float, least: float, per: float = 1.0) -> bool:
        """Move a fault against what is seen, shared by `per`; whether there was more than least.

        By an amount rounded to what a hand can set, and missed by half a step.
        """
        if abs(seen) <= least:
            return False
        wanted = -seen / per
        step = owner_of(name).smallest(self.practice.camera, self.practice.at_hand) or 0.01
        amount = round(wanted / step) * step + step / 2 * self.chance.uniform(-1, 1)
        self.practice = self.practice.with_fault(name, float(amount))
        return True

    def _on_marks(self, distance: float, true_distance: float) -> float:
        camera, hidden = self.practice.camera, self.hidden
        stands = (
            TrueLens(camera, 0.0).needs(distance)
            + hidden["seat"]
            + hidden["start"]
            + hidden["ring"]
        )
        return stands - TrueLens(camera, hidden["focal"]).needs(true_distance)

    def _infinity(self) -> bool:
        camera = self.practice.camera
        far = _FAR * camera.lens.focal_length
        seen = self._judged(self._on_marks(float("inf"), far), self.seen_blur)
        pitch = pitch_of(camera)
        if pitch and abs(seen) > pitch / 2:
            self.practice = self.practice.with_fault("start", -round(seen / pitch) * pitch)
            return True
        return self._set("ring", seen, self.seen_blur)

    def _stop(self) -> bool:
        hidden = self.hidden
        seen = self._judged(hidden["seat"] + hidden["start"] + hidden["stop"], self.seen_blur)
        return self._set("stop", seen, self.seen_blur)

    def _near(self) -> bool:
        near = _NEAR * self.practice.camera.lens.focal_length
        seen = self._judged(self._on_marks(near, near), self.seen_blur)
        return self._set("ring", seen, self.seen_blur, 2.0)

    def _meeting(self, distance: float) -> float:
        hidden = self.hidden
        off = hidden["seat"] + hidden["start"] + hidden["ring"]
        extension = TrueLens(self.practice.camera, 0.0).needs(distance)
        split = hidden["zero"] + hidden["gain"] * extension - off
        return self._judged(split, self.seen_split)

    def _zero(self) -> bool:
        seen = self._meeting(400 * self.practice.camera.lens.focal_length)
        return self._set("zero", seen, self.seen_split)

    def _gain(self) -> bool:
        near = _NEAR * self.practice.camera.lens.focal_length
        seen = self._meeting(near)
        extension = TrueLens(self.practice.camera, 0.0).needs(near)
        return self._set("gain", seen, self.seen_split, extension)
