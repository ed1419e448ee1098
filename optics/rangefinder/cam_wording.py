"""The cam in words: what to take off, where, in what order, and what it leaves."""

import math

from optics.camera.camera import Turn
from optics.measure.verdict import Verdict
from optics.rangefinder.cam import BodyLaw, Cam, LensLaw
from optics.rangefinder.stoning import GAUGE_STEPS, LiftCurve, StoningMap
from optics.readings.wording import said_error
from optics.units import format_angle, format_length

PRESUMED = (
    "Lens right at infinity, rangefinder upright and right for the lens the body was cut for; "
    "every lift read with the ring turned the same way."
)
ONE_WAY = (
    "Metal stoned off does not come back. Stone in the direction of the follower's travel, wash "
    "the grit off, and keep it out of the helicoid."
)
# Readings wider apart than this leave too much of the cam to guesswork (common practice, no
# source).
WIDEST_GAP = math.radians(10)


def place(rotation: float) -> str:
    """A place on the cam: the ring's turn from infinity."""
    return "∞" if abs(rotation) < math.radians(0.05) else f"{_degrees(rotation)} from ∞"


def ring_sense(extends: Turn) -> str:
    """Which way the ring turns along the table."""
    return f"Ring turned {extends} from ∞, seen from the front"


def said_law(law: BodyLaw) -> str:
    """What the body's follower was made for."""
    if isinstance(law, LensLaw):
        return f"Body cut for a lens of {law.focal_length:.6g} mm, hiatus {law.hiatus:.6g} mm"
    return (
        f"Body with a straight follower: base {law.base:.6g} mm, {law.base_to_film:.6g} mm before "
        f"the film, {format_angle(law.gain)} of convergence for each mm"
    )


def said_tolerance(found: Cam) -> str:
    """How true the lift must be to keep the lens inside its tolerance."""
    tolerance = found.table().tolerance
    return (
        f"Lift true within ± {_fine(tolerance.min(), 3)} where it matters most keeps the lens "
        f"within ± {_fine(found.camera.allowed_error, 3)} at the film."
    )


def headline(found: StoningMap) -> str:
    """The one sentence that answers the repairer."""
    if not _is_metal_due(found):
        return "Nothing is to be stoned: less than a step of the gauge would come off anywhere."
    most, least = int(found.removal.argmax()), found.low_place
    line = f"Take off at most {said_cut(found, found.cut[most])}, at {place(found.rotation[most])},"
    at_least = f"at least {said_cut(found, found.cut[least])}," if found.cut[least] else "nothing"
    return f"{line} and {at_least} at {place(found.rotation[least])}."


def lines(found: StoningMap) -> tuple[str, ...]:
    """The answer in full sentences: what comes off, what to set again, now and after."""
    return (*order_lines(found), *before_and_after(found), said_allowed(found))


def order_lines(found: StoningMap) -> tuple[str, ...]:
    """What comes off and what to set again."""
    said = (headline(found), advice(found), zero_line(found), gain_line(found))
    return tuple(line for line in said if line)


def said_allowed(found: StoningMap) -> str:
    """How the cam stands now to how far out it may lead the lens."""
    held, allowed = said_held(found.before), _fine(found.before.allowed, 3)
    return f"{held[0].upper()}{held[1:]}: allowed is ± {allowed} at the film."


def now_line(found: StoningMap) -> str:
    """The worst lens position that the rangefinder leads to now."""
    return f"Now, at worst: {said_worst(found, found.before)}."


def said_cut(found: StoningMap, metal: float) -> str:
    """Metal in mm with the decimals that the gauge must show."""
    return _fine(metal, 2 if found.gauge_step == GAUGE_STEPS[0] else 3)


def cut_line(found: StoningMap, at: int) -> str:
    """The metal to come off at a place, in the first pass and in all."""
    now, whole = (said_cut(found, float(cut[at])) for cut in (found.first_pass, found.cut))
    return f"{place(float(found.rotation[at]))}: {now} now, {whole} in all"


def advice(found: StoningMap) -> str:
    """What to do first."""
    if found.before.verdict is Verdict.INSIDE:
        return "Every place is inside tolerance as it is: leave the cam alone."
    if not _is_metal_due(found):
        return "Set the rangefinder's zero again; the cam itself needs no stone."
    if found.before.verdict is Verdict.UNSURE:
        return (
            "The readings cannot tell whether the cam is inside tolerance: repeat them before "
            "any metal comes off."
        )
    part = "two thirds" if abs(found.rules.share - 2 / 3) < 0.005 else f"{found.rules.share:.0%}"
    return (
        f"Take off {part} of it as listed, measure the cam again all along, and work out the "
        "rest from the new readings."
    )


def zero_line(found: StoningMap) -> str:
    """The datum shift as a re-adjustment of the rangefinder, which way round."""
    move = found.follower_move
    where = place(found.rotation[0])
    if abs(move) < found.gauge_step / 2:
        return f"The rangefinder's zero stays: the follower rests at {where} where it does now."
    more = "less" if move < 0 else "more"
    line = (
        f"When all is off, set the rangefinder right at {where} again: the follower rests there "
        f"with {_fine(abs(move), 3)} {more} lift than now"
    )
    turn = found.convergence_change
    if turn is None:
        return f"{line}."
    way = "towards each other" if turn > 0 else "away from each other"
    return f"{line}, so turn its lines of sight {format_angle(abs(turn))} {way}."


def gain_line(found: StoningMap) -> str:
    """How the coupling's gain is to be set; empty where it stays."""
    change = found.gain - 1
    if abs(change) < 5e-4:
        return ""
    more = "more" if change > 0 else "less"
    return (
        f"Set the coupling {abs(change):.1%} {more} sensitive (gain × {found.gain:.3f}), at the "
        "near setting; then set the zero again."
    )


def curve_line(found: StoningMap, curve: LiftCurve) -> str:
    """The worst place of a curve and how it stands to tolerance and depth of focus."""
    return f"{said_worst(found, curve)}: {said_held(curve)}"


def said_held(curve: LiftCurve) -> str:
    """How a curve's worst place stands to tolerance and depth of focus."""
    inside = "inside" if curve.within_depth else "outside"
    return f"{curve.verdict.words}, {inside} the depth of focus"


def said_worst(found: StoningMap, curve: LiftCurve) -> str:
    """How far out a curve is where it is worst."""
    error = curve.focus_error[curve.worst]
    if said_error(error) == "right":
        return "right everywhere"
    known = f" ± {_fine(error.expanded, 3)}" if error.standard else ""
    return f"{said_error(error)}{known} at {place(found.rotation[curve.worst])}"


def before_and_after(found: StoningMap) -> tuple[str, str]:
    """The worst lens position that the rangefinder leads to, now and when all has come off."""
    return (
        f"Now, at worst: {curve_line(found, found.before)}.",
        f"After, at worst: {curve_line(found, found.after)}.",
    )


def warnings(found: StoningMap) -> tuple[str, ...]:
    """What to be wary of before any metal comes off."""
    if not _is_metal_due(found):
        return ()
    return (
        _low_place(found),
        *_deep(found),
        *_gaps(found),
        *_coarse(found),
        *_geared_up(found),
    )


def _low_place(found: StoningMap) -> str:
    where = place(found.rotation[found.low_place])
    return f"The low place, at {where}, rules the whole cut: measure it once more before you begin."


def _deep(found: StoningMap) -> tuple[str, ...]:
    deepest, places = found.rules.deepest, found.deep_places
    if deepest is None or not places:
        return ()
    where = ", ".join(_degrees(found.rotation[i]) for i in places[:6])
    more = " and more" if len(places) > 6 else ""
    return (
        f"More than {_fine(deepest)} would come off at {where}{more}: look for a worn follower, "
        "a bent arm or the wrong cam first, and ask whether its hard skin goes so deep.",
    )


def _gaps(found: StoningMap) -> tuple[str, ...]:
    steps = (found.rotation[1:] - found.rotation[:-1]).round(6)
    widest = int(steps.argmax())
    if steps[widest] <= WIDEST_GAP + 1e-6:
        return ()
    first, last = (_degrees(found.rotation[widest + end]) for end in (0, 1))
    return (
        f"The readings stand up to {_degrees(steps[widest])} apart, as from {first} to {last}, and "
        "the cut between is a straight guess: measure between.",
    )


def _coarse(found: StoningMap) -> tuple[str, ...]:
    known = max(r.lift.expanded for r in found.readings)
    if known <= 0.5 * float(found.removal.max()):
        return ()
    return (
        f"The readings are known only to ± {_fine(known, 3)}, half of the deepest cut or more: "
        "repeat them with a finer gauge.",
    )


def _geared_up(found: StoningMap) -> tuple[str, ...]:
    slope = float(found.cam.slope(found.rotation).min())
    if slope >= 0.5:
        return ()
    return (
        f"A hundredth of a millimetre of lift is up to {_fine(0.01 / slope, 3)} at the film here: "
        f"read lifts to {found.gauge_step:g} mm.",
    )


def _is_metal_due(found: StoningMap) -> bool:
    return bool((found.cut > 0).any())


def _fine(mm: float, places: int = 2) -> str:
    return format_length(float(mm), places=places)


def _degrees(rotation: float) -> str:
    return f"{math.degrees(float(rotation)):.4g}°"
