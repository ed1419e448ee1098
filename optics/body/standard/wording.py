"""The standard in the words of the shop; places are always as seen from the front."""

import math

from optics.body.standard.defocus import Corner, DefocusMap, Tilted
from optics.body.standard.flatness import Bend, Flatness
from optics.body.standard.measured import Standard
from optics.camera.mount import MountPlan, ScrewShim
from optics.camera.plane import Plane
from optics.measure.uncertainty import Estimate
from optics.measure.verdict import Verdict
from optics.moves.shim import IF_FITTED, said_pack
from optics.readings.wording import said_error
from optics.units import fine_mm, format_distance, format_length

_ROUND = (
    "right side",
    "top right",
    "top",
    "top left",
    "left side",
    "bottom left",
    "bottom",
    "bottom right",
)
NO_SCREWS = "Enter the mount's screws, and the leaves under each, to have the shims made up."
SQUARE = "What follows would square it, as nearly as the leaves at hand allow."
FIND_THE_BEND = (
    "First find the bend, or the slip: shims cannot cure it. What follows is for the plane amid "
    "the readings."
)
# Half the last digit shown, in mm.
_UNSEEN = 0.0005
_ONCE = 1.005


def farthest_out(plane: Plane) -> str:
    """Which side or corner of the standard stands farthest from the film."""
    angle = math.atan2(plane.slope_up.value, plane.slope_across.value)
    return _ROUND[round(angle / (math.pi / 4)) % 8]


def said_lean(plane: Plane) -> str:
    """How far the standard is out of square, and which way."""
    lean = said_angle(plane.lean)
    if plane.is_level:
        return (
            f"No lean can be told from these readings: {lean} at 95 %. The standard is square "
            "as far as they go."
        )
    return (
        f"The standard leans {lean} at 95 %: its {farthest_out(plane)}, seen from the front, "
        "stands farthest from the film."
    )


def said_angle(angle: Estimate) -> str:
    """The size of a lean and its limits in one unit: minutes, or degrees from one degree."""
    size, limits = (math.degrees(part) for part in (abs(angle.value), angle.expanded))
    if max(size, limits) >= 1:
        return f"{size:.2f}° ± {limits:.2f}°"
    return f"{60 * size:.1f}′ ± {60 * limits:.1f}′"


def said_ways(plane: Plane) -> tuple[str, str]:
    """Tilt and swing, each with its sense."""
    return (
        f"Tilt: {_leaning(plane.tilt, 'top', 'bottom')}.",
        f"Swing: {_leaning(plane.swing, 'right side', 'left side')}.",
    )


def _leaning(angle: Estimate, plus: str, minus: str) -> str:
    size = said_angle(angle)
    if abs(angle.value) <= angle.expanded:
        return f"{size}, none to speak of"
    return f"{size}, {plus if angle.value > 0 else minus} farther from the film"


def said_mean(standard: Standard) -> str:
    """The mean of the readings and the height on the lens axis."""
    return (
        f"Mean of the readings {_with_limits(standard.mean)}; on the lens axis "
        f"{_with_limits(standard.plane.middle)}."
    )


def _with_limits(height: Estimate) -> str:
    return f"{fine_mm(height.value)} ± {fine_mm(height.expanded)}"


def said_flatness(flatness: Flatness, harmless: float = 0.0) -> str:
    """Bent rather than tilted? One or two sentences; a bend up to `harmless` mm is let be."""
    where = flatness.reading.place
    size = f"{fine_mm(abs(flatness.deviation.value))} ± {fine_mm(flatness.deviation.expanded)}"
    way = "out" if flatness.deviation.value > 0 else "in"
    if flatness.bend is Bend.BENT and abs(flatness.deviation.value) <= harmless:
        return f"Slightly bent, too little to matter here: the {where} stands {size} {way}."
    return {
        Bend.BENT: f"Bent rather than tilted: the {where} stands {size} {way} from the plane, "
        "more than the readings' uncertainty explains. Look for a bent strut or plate, dirt "
        "under the gauge or a slip in that reading before shimming.",
        Bend.FLAT: f"No sign of a bend: the largest deviation from the plane, {size} at the "
        f"{where}, is within the readings' uncertainty.",
        Bend.THREE_READINGS: "Three readings always lie on one plane: take a fourth in another "
        "place to tell a bent standard from a tilted one.",
        Bend.NOT_STATED: f"The largest deviation from the plane is "
        f"{fine_mm(abs(flatness.deviation.value))} at the {where}. Whether that is a bend cannot "
        "be told: state the gauge's limit for every reading.",
    }[flatness.bend]


def said_minimax(standard: Standard) -> str:
    """The largest deviation of the two planes beside each other."""
    return (
        f"Largest deviation: {fine_mm(abs(standard.worst_residual.value))} from the least-squares "
        f"plane, {fine_mm(standard.minimax.worst.value)} from the plane that makes it least."
    )


def said_corner(corner: Corner, view: DefocusMap) -> str:
    """One corner of the frame in one sentence."""
    known = f", ± {fine_mm(corner.error.expanded)}" if corner.error.standard else ""
    verdict = {
        Verdict.INSIDE: "inside the depth of focus",
        Verdict.OUTSIDE: "outside the depth of focus",
        Verdict.UNSURE: "too close to the depth of focus to tell",
    }[corner.verdict]
    return (
        f"{corner.name.capitalize()}, seen from the front ({corner.picture_name} of the "
        f"picture): {said_error(corner.error)}{known}; {verdict}, "
        f"± {fine_mm(view.depth)} at {view.stop}."
    )


def said_sharp(view: DefocusMap, allowed: float) -> str:
    """What is said before any shims where every corner is within the depth of focus.

    `allowed` (mm) is the camera's tolerance, of which a lean may take more than there is though
    its picture is still sharp: little is then left to everything else.
    """
    worst = max(abs(corner.error.value) for corner in view.corners)
    if worst <= allowed:
        return "Every corner is sharp: the standard may stay as it is."
    return (
        f"Every corner is sharp, but up to {format_length(worst, places=3)} out, more than the "
        f"tolerance of ± {format_length(allowed, places=3)} that keeps something back for all "
        f"else: put it right if the camera is open."
    )


def said_map(view: DefocusMap) -> str:
    """From which corner to which the focus runs, and how the lean counts."""
    ordered = sorted(view.corners, key=lambda corner: corner.error.value)
    if view.drop < _UNSEEN:
        return "The focus is the same over the whole frame."
    counts = "a leaning film counts once"
    if view.view.tilted is Tilted.LENS:
        times = "once" if view.factor < _ONCE else f"{view.factor:.3g} times"
        counts = f"a leaning lens counts {times} here (1 + m)"
    return (
        f"From {ordered[0].name} to {ordered[-1].name}, seen from the front, the lens goes "
        f"{fine_mm(view.drop)} farther out, for a subject at "
        f"{format_distance(view.view.film_distance)}; {counts}."
    )


def said_depth(view: DefocusMap) -> str:
    """What the corners are held to."""
    return f"Depth of focus ± {fine_mm(view.depth)} at {view.stop}."


def said_shim(shim: ScrewShim) -> str:
    """What one screw gets."""
    name = f"Screw at the {shim.screw.name}"
    if abs(shim.change) < _UNSEEN:
        return f"{name}: leave it as it is."
    verb = "add" if shim.change > 0 else "remove"
    amount = f"{verb} {fine_mm(abs(shim.change))}"
    if shim.pack is None and shim.change < 0 and shim.screw.fitted is None:
        return f"{name}: {amount} of shim, only {IF_FITTED}."
    if shim.pack is None:
        return f"{name}: {amount} of shim."
    if not shim.pack.count:
        return f"{name}: fit no shim, {amount} in all."
    return f"{name}: fit {said_pack(shim.pack)}, {amount} in all."


def plan_notes(plan: MountPlan) -> tuple[str, ...]:
    """What the plan leaves and what to mind."""
    notes = []
    if plan.raised > _UNSEEN:
        notes.append(
            f"No more can come out under one screw, so the whole mount is raised by "
            f"{fine_mm(plan.raised)}; take that out again under the lens seat."
        )
    shift = plan.shift
    if abs(shift.value) >= _UNSEEN:
        notes.append(
            f"On the lens axis the mount goes {fine_mm(abs(shift.value))} "
            f"{'away from' if shift.value > 0 else 'towards'} the film: the focus error changes "
            "by as much."
        )
    far = [s.screw.name for s in plan.shims if abs(s.left) > plan.near_enough + _UNSEEN]
    if far:
        notes.append(
            f"The leaves at hand do not come near enough at: {', '.join(far)}; enter more leaves."
        )
    notes.append(f"Leaves a lean of {said_angle(plan.after.lean)} at 95 %.")
    if plan.gap >= _UNSEEN:
        notes.append(
            f"Four screws fix more than a plane: tightened on three, the fourth stands "
            f"{fine_mm(plan.gap)} clear. Tighten crosswise, a little at a time, and gauge again."
        )
    if any(shim.pack is None for shim in plan.shims):
        notes.append("Enter the leaves you have, and those fitted, to have the packs made up.")
    return tuple(notes)
