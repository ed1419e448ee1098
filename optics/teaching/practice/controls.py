"""What hands can do to a practice camera: the controls of every move, and what setting one does."""

from dataclasses import replace

from optics.camera.true_lens import marked_focal
from optics.moves import ALL, Control
from optics.teaching.practice.camera import PracticeCamera
from optics.teaching.practice.levels import State
from optics.teaching.practice.stand import Stand


def controls(stand: Stand) -> dict[str, Control]:
    """Every control of the camera by its name, in the order of the bench."""
    return {
        control.name: control
        for move in ALL
        if stand.finder or not move.needs_finder
        for control in move.on(stand.camera, stand.at_hand)
    }


def moved(
    practice: PracticeCamera, control: Control, amount: float, missed: float = 0.0
) -> PracticeCamera:
    """The camera after a signed amount, in the control's unit, that was missed by so much more."""
    if control.engraves:
        # A scale is engraved for what was asked for; only where its marks stand is missed.
        focal = marked_focal(practice.camera) + amount * control.engraves
        practice = practice.engraved_for(focal)
    for name, effect in control.effects.items():
        practice = practice.with_fault(name, (amount + missed) * effect)
    return practice


def done(state: State, control: Control, amount: float, miss: float) -> State:
    """The camera after a signed amount, missed by a part `miss` of the limit (−1 to 1)."""
    missed = miss * control.limit
    practice = moved(state.practice, control, amount, missed)
    return replace(
        state, practice=practice, height=state.height + (amount + missed) * control.height
    )
