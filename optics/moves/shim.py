"""Shims under the lens seat: leaves in and out, made up from those at hand."""

import math
from collections import Counter
from collections.abc import Iterator

from optics.camera.camera import Camera
from optics.camera.cautions import SOLVENTS
from optics.camera.instruments import INSTRUMENTS
from optics.camera.shims import THICKEST_PACK, MakeUp, Pack, make_up
from optics.measure.uncertainty import within
from optics.moves.at_hand import Workshop
from optics.moves.record import Case, Control, Made, Move, Outcome, Picture
from optics.moves.setting import THICKER, near_enough
from optics.units import fine_mm, format_length

IF_FITTED = "if that much is fitted"
# Sums of leaves (mm) that differ by less are one thickness.
_ROUNDING = 1e-6
# What an amount of shim is said to (mm), and so how nearly it can be told to be there.
_SETTABLE = 0.005


def _controls(case: Case) -> Iterator[Control]:
    yield Control(
        "shim the lens seat",
        "shimmed the lens seat",
        "mm",
        THICKER,
        {"seat": 1.0},
        _leaf_limit(),
        there=Pack(tuple(case.at_hand.workshop.fitted or ())).thickness,
        cautions=(SOLVENTS,),
    )


def _make(case: Case) -> Outcome:
    """Add or remove thickness, made up from the leaves at hand."""
    camera, wanted, workshop = case.camera, case.change, case.at_hand.workshop
    if abs(wanted) <= near_enough(camera):
        return case.refused("Less than a quarter of the tolerance is left: leave the shims alone.")
    if abs(wanted) > THICKEST_PACK:
        return case.refused(
            f"{fine_mm(abs(wanted))} is more than shims can put right: look for a wrong thread "
            "start, a wrong lens or a slip in the reading."
        )
    if workshop.fitted is None and wanted < 0:
        return _thinned(case, wanted)
    fitted = Pack(tuple(sorted(workshop.fitted or (), reverse=True)))
    target = fitted.thickness + wanted
    leaves = (*fitted.leaves, *workshop.drawer)
    missing = _missing(camera, wanted, target, Pack(tuple(leaves)), fitted)
    if missing:
        return case.refused(missing)
    # Within the tolerance of no shim at all, no shim is what there is to aim at.
    made = make_up(max(target, 0.0), leaves, near_enough(camera))
    if abs(made.best.thickness - target) > abs(wanted) - _ROUNDING:
        return case.refused(
            f"{_verb(wanted).capitalize()} {fine_mm(abs(wanted))}, but no leaf at hand brings "
            "the lens nearer; enter the shim leaves you have."
        )
    return _packed(case, wanted, fitted, made)


def by_amount(error: float, workshop: Workshop) -> str:
    """What is to be done with shims, in words, before a tolerance says which leaves will do."""
    amount = round(abs(error), 2)
    if not amount:
        return "Less than 0.01 mm: leave the shims alone."
    said = format_length(amount)
    if amount > THICKEST_PACK:
        return f"{said} is more than shims can put right: look for a wrong start or lens first."
    if error < 0:
        return f"Add {said} of shim under the lens seat."
    if workshop.fitted is None:
        return f"Remove {said} of shim from under the lens seat, only {IF_FITTED}."
    fitted = Pack(tuple(workshop.fitted))
    if amount > fitted.thickness + _SETTABLE:
        return _not_there(error, fitted)
    return f"Remove {said} of shim from under the lens seat."


def _not_there(amount: float, fitted: Pack) -> str:
    have = f"only {fine_mm(fitted.thickness)} is" if fitted.count else "no shim is"
    return (
        f"{fine_mm(amount)} would have to come out and {have} fitted; the seat itself is not "
        "to be cut, so use another remedy."
    )


def _missing(camera: Camera, wanted: float, target: float, at_hand: Pack, fitted: Pack) -> str:
    """Why no pack of the target thickness can be had; empty where one can."""
    if target > THICKEST_PACK:
        return (
            f"The pack would come to {fine_mm(target)}, more than the {THICKEST_PACK:g} mm that "
            "shims can make up: check the shims fitted now."
        )
    if target < (-camera.allowed_error if fitted.count else 0.0):
        return _not_there(-wanted, fitted)
    if target > at_hand.thickness + camera.allowed_error:
        held = fine_mm(at_hand.thickness - fitted.thickness)
        have = f"the drawer holds {held}" if at_hand.count > fitted.count else "the drawer is empty"
        return f"Add {fine_mm(wanted)}, but {have}; enter the shim leaves you have."
    return ""


def _packed(case: Case, wanted: float, fitted: Pack, made: MakeUp) -> Made:
    pack = made.best
    change = pack.thickness - fitted.thickness
    if not pack.count:
        instruction = (
            f"Take {said_pack(fitted)} out from under the lens seat and fit none: "
            f"remove {fine_mm(abs(change))} in all."
        )
    elif fitted.count:
        instruction = (
            f"Fit {said_pack(pack)} under the lens seat in place of {said_pack(fitted)}: "
            f"{_verb(change)} {fine_mm(abs(change))} in all."
        )
    else:
        instruction = f"Add {said_pack(pack)} under the lens seat, {fine_mm(change)} in all."
    # Every leaf that comes or goes carries the limit of the micrometer that measured it.
    limit = _leaf_limit() * math.sqrt(_leaves_changed(fitted, pack))
    return case.made(
        instruction,
        change,
        within(change, limit, "shim thickness"),
        amounts=(
            ("Wanted", _said_change(wanted)),
            (_verb(change).capitalize(), fine_mm(abs(change))),
            ("Pack", said_pack(pack)),
        ),
        figures={"wanted": wanted, "added": change, "pack": pack.thickness},
        notes=_notes(made),
    )


def _leaves_changed(before: Pack, after: Pack) -> int:
    """How many leaves come out or go in; those that stay change nothing."""
    old, new = (Counter(_one_by_one(pack)) for pack in (before, after))
    return (old - new).total() + (new - old).total()


def _one_by_one(pack: Pack) -> Iterator[float]:
    for thickness, many in pack.leaves:
        yield from (thickness,) * many


def _thinned(case: Case, wanted: float) -> Outcome:
    """What is fitted is not known, so the amount to come out is all that can be said."""
    amount = round(-wanted, 2)
    if not 0 < amount < -2 * wanted:
        return case.refused("The shim to come out is less than 0.01 mm: leave it alone.")
    return case.made(
        f"Remove {format_length(amount)} of shim from under the lens seat, only {IF_FITTED}.",
        -amount,
        within(-amount, _leaf_limit(), "shim thickness"),
        amounts=(
            ("Wanted", _said_change(wanted)),
            ("Remove, if fitted", format_length(amount)),
        ),
        figures={"wanted": wanted, "added": -amount},
        notes=(
            "Look what is fitted, and enter it; measure the leaves that come out. If less than "
            "this is fitted, put the rest right by another remedy; the seat itself is not to be "
            "cut.",
        ),
        only_if=IF_FITTED,
    )


def _notes(made: MakeUp) -> tuple[str, ...]:
    notes = []
    if len(made.packs) > 1:
        others = "; or ".join(said_pack(p) for p in made.packs[1:])
        notes.append(f"A tie: {others} would do as well.")
    if abs(made.nearest.thickness - made.best.thickness) > 1e-6:
        notes.append(f"Nearest with more leaves: {said_pack(made.nearest)}.")
    return tuple(notes)


def said_pack(pack: Pack) -> str:
    """The leaves of a pack in words, such as 0.1 + 2 × 0.02 mm."""
    if not pack.count:
        return "no shim"
    terms = (f"{n} × {t:.4g}" if n > 1 else f"{t:.4g}" for t, n in pack.leaves)
    return " + ".join(terms) + " mm"


def _verb(change: float) -> str:
    return "add" if change > 0 else "remove"


def _said_change(mm: float) -> str:
    return f"{_verb(mm)} {fine_mm(abs(mm))}"


def _leaf_limit() -> float:
    limit = INSTRUMENTS["outside_micrometer"].limit
    assert limit is not None
    return limit


SHIM = Move(
    name="shim",
    title="Shim under the lens seat",
    order=40,
    puts_right=("seat",),
    tool="lens spanner, micrometer for the leaves",
    controls=_controls,
    make=_make,
    as_remedy=2,
    picture=Picture.LEAF,
)
