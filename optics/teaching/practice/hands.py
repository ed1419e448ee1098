"""Hands that do what an instruction says: by its words alone, and not quite exactly."""

import math
import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from optics.camera.camera import Bed, Camera, Turn
from optics.camera.true_lens import film_factor, marked_focal, pitch_of
from optics.errors import Unreadable
from optics.finding.causes import Adjustment
from optics.measure.places import CORNERS
from optics.teaching.practice.camera import PracticeCamera

_SENSE = r"(clockwise|counter-clockwise)"
_TURN = rf"([\d.]+)° {_SENSE}, seen from the front"
_LENGTH = r"([\d.]+) mm"


@dataclass(frozen=True)
class Hands:
    """A pair of hands; every setting misses by anything within half the step it is read to."""

    chance: np.random.Generator

    def carry_out(self, practice: PracticeCamera, adjustment: Adjustment) -> PracticeCamera:
        """Do what is said.

        Errors: Unreadable for an instruction that no hand would know how to follow.
        """
        for pattern, act in _ACTS:
            found = re.search(pattern, adjustment.instruction)
            if found:
                done = act(practice, *found.groups())
                return self._unsteady(done, adjustment)
        raise Unreadable(
            f"No hand would know what to do: got {adjustment.instruction!r}; say what to move, "
            "by how much and which way.",
            quantity="instruction",
            value=adjustment.instruction,
        )

    def _unsteady(self, practice: PracticeCamera, adjustment: Adjustment) -> PracticeCamera:
        for name, change in adjustment.changes.items():
            miss = math.sqrt(3) * change.standard * self.chance.uniform(-1, 1)
            practice = practice.with_fault(name, float(miss))
        return practice


def _per_degree(camera: Camera) -> float:
    """Movement at the film (mm) for one degree in the extending sense."""
    thread = camera.focusing
    assert not isinstance(thread, Bed)
    return film_factor(camera) * thread.lead / 360


def _outward(camera: Camera, sense: str) -> float:
    thread = camera.focusing
    assert not isinstance(thread, Bed)
    return 1.0 if Turn(sense) is thread.extends else -1.0


def _turn(practice: PracticeCamera, degrees: str, sense: str) -> PracticeCamera:
    camera = practice.camera
    moved = float(degrees) * _outward(camera, sense) * _per_degree(camera)
    return practice.with_fault("ring", moved)


def _set_stop(practice: PracticeCamera, degrees: str, sense: str) -> PracticeCamera:
    camera = practice.camera
    moved = float(degrees) * _outward(camera, sense) * _per_degree(camera)
    return practice.with_fault("stop", moved)


def _enter(practice: PracticeCamera, count: str, sense: str) -> PracticeCamera:
    # Entered farther on in the extending sense, the thread has less far to go out.
    moved = -int(count) * _outward(practice.camera, sense) * pitch_of(practice.camera)
    return practice.with_fault("start", moved)


def _shim(practice: PracticeCamera, verb: str, amount: str) -> PracticeCamera:
    return practice.with_fault("seat", float(amount) * (1 if verb.lower() == "add" else -1))


def _added(practice: PracticeCamera, amount: str) -> PracticeCamera:
    return practice.with_fault("seat", float(amount))


def _slide_stops(practice: PracticeCamera, amount: str, way: str) -> PracticeCamera:
    return practice.with_fault("stop", float(amount) * (-1 if way == "towards" else 1))


def _pointer(practice: PracticeCamera, amount: str, way: str) -> PracticeCamera:
    # A pointer nearer the film meets the same mark only with the standard farther out.
    return practice.with_fault("ring", float(amount) * (1 if way == "towards" else -1))


def _film(practice: PracticeCamera, amount: str, way: str) -> PracticeCamera:
    return practice.with_fault("gate", float(amount) * (-1 if way == "nearer" else 1))


def _standard(practice: PracticeCamera, words: str) -> PracticeCamera:
    """Raise the standard at its corners: the plane through the four is what it then does."""
    leaves = dict.fromkeys(CORNERS, 0.0)
    for amount, corner in re.findall(rf"{_LENGTH} at the (\w+ \w+)", words):
        leaves[corner] = float(amount)
    side, up = practice.at_hand.standard_screws
    points = np.array([[1.0, x * side, y * up] for x, y in CORNERS.values()])
    plane, *_ = np.linalg.lstsq(points, np.array(list(leaves.values())), rcond=None)
    for name, change in zip(("seat", "tilt_x", "tilt_y"), plane, strict=True):
        practice = practice.with_fault(name, float(change))
    return practice


def _new_scale(practice: PracticeCamera, focal: str) -> PracticeCamera:
    change = float(focal) - marked_focal(practice.camera)
    return practice.engraved_for(float(focal)).with_fault("focal", -change)


def _screw(practice: PracticeCamera, name: str, amount: str, sense: str) -> PracticeCamera:
    at_hand = practice.at_hand
    screw = at_hand.zero_screw if name == "infinity" else at_hand.gain_screw
    assert screw is not None
    turns = float(sum(Fraction(part) for part in amount.split()))
    change = turns * (1 if sense == "clockwise" else -1) * screw.per_turn
    return practice.with_fault("zero" if name == "infinity" else "gain", change)


_ACTS: tuple[tuple[str, Callable[..., PracticeCamera]], ...] = (
    (rf"hold (?:it|the ring) on its mark; turn the lens barrel {_TURN}", _turn),
    (rf"hold the ring on its mark; turn the front cell {_TURN}", _turn),
    (rf"^Loosen the infinity stop .+ comes to rest ([\d.]+)° further {_SENSE}, seen", _set_stop),
    (rf"enter it again (\d+) starts? \([\d.]+°\) further {_SENSE}, seen from", _enter),
    (rf"under the lens seat.*: (add|remove) {_LENGTH} in all", _shim),
    (rf"^Add .+ under the lens seat, {_LENGTH} in all", _added),
    (rf"^(Remove) {_LENGTH} of shim from under the lens seat", _shim),
    (rf"^Move both infinity stops {_LENGTH} (towards|away from) the film", _slide_stops),
    (rf"^Move the pointer of the bed's scale .+ {_LENGTH} (towards|away from) the", _pointer),
    (rf"^Bring the film {_LENGTH} (nearer|farther from) the lens", _film),
    (r"^Put shims under the standard's screws: (.+), seen from the front", _standard),
    (rf"^Make a new focusing scale for a [\w ]+ of {_LENGTH}", _new_scale),
    (rf"(?:^|: )Turn the rangefinder's (infinity|near) screw ([\d/ ]+) turns? {_SENSE}", _screw),
)
