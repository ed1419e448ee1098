"""Hands that do what a plan asks for, and not quite exactly."""

import math
from dataclasses import dataclass

import numpy as np

from optics.errors import Unreadable
from optics.moves import Made
from optics.teaching.practice.camera import PracticeCamera
from optics.teaching.practice.controls import moved


@dataclass(frozen=True)
class Hands:
    """A pair of hands; every setting misses by anything within half the step it is read to."""

    chance: np.random.Generator

    def carry_out(self, practice: PracticeCamera, made: Made) -> PracticeCamera:
        """Set every control as is asked, then miss each fault within the limits that were stated.

        Errors: Unreadable for a move that sets nothing.
        """
        if not made.settings:
            raise Unreadable(
                f"No hand would know what to do: got {made.instruction!r}; say what to move, "
                "by how much and which way.",
                quantity="instruction",
                value=made.instruction,
            )
        for control, amount in made.settings:
            practice = moved(practice, control, amount)
        for name, change in made.changes.items():
            miss = math.sqrt(3) * change.standard * self.chance.uniform(-1, 1)
            practice = practice.with_fault(name, float(miss))
        return practice
