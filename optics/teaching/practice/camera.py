"""A camera that exists in numbers only, with hidden faults, for practice and for proof."""

from dataclasses import dataclass, replace

import numpy as np

from optics.camera.camera import Camera, FrontCell
from optics.finding.causes import AT, AtHand, Cause
from optics.finding.causes.start import START
from optics.finding.diagnosis.faults import Faults
from optics.finding.diagnosis.priors import Priors


@dataclass(frozen=True)
class PracticeCamera:
    """What is engraved on the camera, what is hidden in it, and what lies on the bench."""

    camera: Camera
    hidden: Faults
    at_hand: AtHand
    causes: frozenset[Cause] = frozenset()

    def with_fault(self, name: str, change: float) -> "PracticeCamera":
        """The camera with something added to one of its faults."""
        vector = self.hidden.vector
        vector[AT[name]] += change
        return replace(self, hidden=Faults.of(vector))

    def engraved_for(self, focal: float) -> "PracticeCamera":
        """The camera with a scale for another focal length (mm) of what moves."""
        camera, focusing = self.camera, self.camera.focusing
        if isinstance(focusing, FrontCell):
            focusing = replace(focusing, group_focal_length=focal)
            return replace(self, camera=replace(camera, focusing=focusing))
        return replace(self, camera=replace(camera, lens=replace(camera.lens, focal_length=focal)))


def draw_camera(
    camera: Camera, at_hand: AtHand, priors: Priors, chance: np.random.Generator
) -> PracticeCamera:
    """A camera with one to three causes at work, drawn as the priors suppose.

    One, two or three are equally likely; which, by the priors' odds; how much, normal with
    their deviations, sound parts too; a start by one of its pitches.
    """
    causes = list(priors.by_cause)
    odds = np.array([p.chance / (1 - p.chance) for p in priors.by_cause.values()])
    count = int(chance.integers(1, priors.most_causes + 1))
    drawn = chance.choice(len(causes), count, replace=False, p=odds / odds.sum())
    chosen = frozenset(causes[i] for i in drawn)
    faults = chance.standard_normal(len(AT)) * priors.spread(chosen)
    if START in chosen:
        faults[AT["start"]] = priors.pitch * chance.choice(priors.starts)
    return PracticeCamera(camera, Faults.of(faults), at_hand, chosen)
