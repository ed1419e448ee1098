"""A sitting in words: what was done and shown, the score, the hidden faults, the debrief."""

import math
from collections.abc import Sequence

from optics.camera.cautions import SPRINGS, SUN, Caution
from optics.finding.causes import ALL, Cause
from optics.finding.diagnosis.faults import Faults
from optics.finding.diagnosis.wording import begun, percent
from optics.finding.plan.wording import NOTHING, first_line, jumped_line, nothing_line, promise_line
from optics.measure.uncertainty import Estimate
from optics.moves import Control
from optics.readings.practised import Offered
from optics.readings.readings import Judged, Moved
from optics.readings.wording import said_error
from optics.teaching.practice.debrief import Debrief, Remark
from optics.teaching.practice.levels import OldMark
from optics.teaching.practice.score import FOCUS, READINGS, ROUNDS, JudgedPlace, Score
from optics.teaching.practice.sight import LOUPE, NEAR_POINT, Glass, Patch
from optics.teaching.practice.sitting import Adjust, Finish, Read, Sitting, SittingEntry, eye_limit
from optics.teaching.practice.sitting_text import said_moved, ways_of
from optics.units import fine_mm, format_angle

MOVED_WORDS = {
    Moved.RING: "ring turned",
    Moved.RETICLE: "reticle shifted",
    Moved.TARGET: "target moved to",
    Moved.POINTER: "pointer set",
}
BRACKET = (
    "Best focus is found by bracketing: go until it is just as soft one way, then the other, and "
    "take the middle."
)
OLD_MARKS = "Old lines, scribed by earlier hands; none is proof:"
AFRESH = (
    "After each adjustment the diagnosis begins afresh: earlier readings speak of a camera that "
    "is no more."
)
# A usual screen (px to the mm) and how far (mm) an eye is from it.
_SCREEN, _AWAY = 96 / 25.4, 500.0
_SEEN = ", on a screen of 96 px to the inch seen from 50 cm"
HONEST = (
    "The loupe shows a perfect image of the model: defocus, diffraction, the eye and the grain, "
    "no lens faults. Practise the method here, and the eye at a real ground glass."
)


def offered_words(offered: Offered) -> str:
    """What a reading is called, and what it is taken with."""
    return f"{offered.name[:1].upper() + offered.name[1:]} ({offered.reading.taken_with})"


def done_words(sitting: Sitting, entry: SittingEntry) -> str:
    """What was done, as the log says it."""
    match entry.action:
        case Read(name, None):
            return f"Read: {name}"
        case Read(name, judged):
            assert judged is not None
            moved = sitting.stand.offered[name].moved
            assert moved is not None
            return f"Judged: {name}, {MOVED_WORDS[moved]} {said_moved(sitting.stand, name, judged)}"
        case Adjust(name, amount, typed):
            return begun(sitting.controls[name].after(amount, typed))
        case Finish():
            return "Work laid down"


def meaning_words(entry: SittingEntry) -> str:
    """What a reading says of the focus, with its uncertainty."""
    assert entry.reading is not None
    error = entry.reading.steps(entry.before.practice.camera)[-1].result
    off = said_error(error)
    if entry.reading.judged is Judged.BY_RANGEFINDER and off != "right":
        off = f"by its scale {off}"
    return f"{off}, ± {fine_mm(error.expanded)}"


def miss_words(control: Control) -> str:
    """How nearly a hand sets a control."""
    if not control.limit:
        return "A hand cannot miss a start."
    if control.unit == "turns":
        return "A hand misses by up to 1/32 turn either way."
    unit = "°" if control.unit == "°" else f" {control.unit}"
    return f"A hand misses by up to {control.limit:.3g}{unit} either way."


def bench_lines(sitting: Sitting) -> tuple[str, ...]:
    """What the instruments and the eye are good for at this level."""
    habits, camera = sitting.habits, sitting.stand.camera
    worn = "worn" if sitting.level.is_worn else "in good order"
    eye = fine_mm(habits.eye_part * camera.depth_of_focus)
    lines = [
        f"Instruments {worn}: depth gauge ± {fine_mm(habits.gauge_limit)}, "
        f"reticle's slide ± {habits.slide_limit:g} mm, degree scale "
        f"± {math.degrees(habits.angle_limit):.2g}°.",
        f"An eye at the loupe sees no difference within ± {eye} at the film.",
        f"Allowed at the film: ± {fine_mm(camera.allowed_error)} (half the depth of "
        f"focus at f/{camera.lens.full_aperture:g} as engraved).",
    ]
    if sitting.stand.finder is not None:
        lines.insert(2, _finder_line(sitting))
    return tuple(lines)


def _finder_line(sitting: Sitting) -> str:
    known = sitting.stand.offered.values()
    pair = next(o for o in known if o.reading.judged is Judged.BY_RANGEFINDER)
    limit = fine_mm(eye_limit(sitting, pair))
    acuity = format_angle(sitting.habits.acuity)
    return f"In the finder it sees {acuity} at the eye, which is {limit} at the film."


def old_mark_line(sitting: Sitting, mark: OldMark) -> str:
    """Where an old scribe line would have a part moved to."""
    stand = sitting.stand
    ring = next((o for o in stand.offered.values() if o.moved is Moved.RING), None)
    if ring is None:
        way = "towards the film" if mark.apart >= 0 else "away from the film"
        return f"Line {mark.name} would meet with the pointer moved {abs(mark.apart):.2f} mm {way}."
    plus, minus = ways_of(stand, ring)
    way = plus if mark.apart >= 0 else minus
    control = next(name for name, c in sitting.controls.items() if "ring" in c.effects)
    part = control.removeprefix("turn the ")
    return f"Line {mark.name} would meet with the {part} turned {abs(mark.apart):.1f}° {way}."


def glass_words(glass: Glass) -> str:
    """What the loupe shows, for who cannot see it: the finest bars told apart."""
    if not glass.finest:
        return "Ground glass under the loupe: no bars can be told apart"
    return (
        f"Ground glass under the loupe: bars told apart up to {glass.finest} line pairs to the mm"
    )


def loupe_scale_words(field: float, px_per_mm: float) -> str:
    """How large the loupe's picture of a field of so many mm is to the eye."""
    times = px_per_mm / _SCREEN * NEAR_POINT / _AWAY / LOUPE
    return (
        f"{field:g} mm of the ground glass, drawn {times:.1f} × as large as an {LOUPE:g} × loupe "
        f"shows them{_SEEN}. The lens is wide open."
    )


def finder_scale_words(px_per_minute: float) -> str:
    """How large the finder's picture is to the eye."""
    times = px_per_minute / (_AWAY * math.tan(math.radians(1 / 60)) * _SCREEN)
    return f"Angles are drawn {times:.1f} × as large as in the finder{_SEEN}."


def patch_words(patch: Patch) -> str:
    """How the moving image stands to the fixed one, in whole minutes of arc."""
    across = _minutes(patch.across, ("right", "left"))
    up = _minutes(patch.up, ("high", "low"))
    if not across and not up:
        return "Finder: the two images lie on each other"
    said = [f"{across} of" if across else "level across with"]
    return f"Finder: the moving image stands {said[0]} the fixed one" + (f", {up}" if up else "")


def _minutes(angle: float, ways: tuple[str, str]) -> str:
    minutes = round(abs(math.degrees(angle)) * 60)
    return f"{minutes}′ {ways[0] if angle > 0 else ways[1]}" if minutes else ""


def cautions_for(control: Control | None, offered: Offered | None) -> tuple[Caution, ...]:
    """The cautions of what is about to be done, each once."""
    found = [*(control.cautions if control else ())]
    if offered is not None and offered.reading.judged is not Judged.BY_GAUGE:
        found.append(SUN)
    if offered is not None and offered.reading.taken.at_stop:
        found.append(SPRINGS)
    return tuple(dict.fromkeys(found))


def begin_lines(sitting: Sitting) -> tuple[str, ...]:
    """What to do with the camera on the bench."""
    faults = ("One fault is", "Two faults are", "Three faults are")[int(sitting.level) - 1]
    worn = ("The instruments are worn, and old lines may mislead.",) * sitting.level.is_worn
    return (
        f"{faults} hidden in this camera, large enough to be found. Read, work out what is "
        "wrong, put it right, and read again as left; then finish.",
        *worn,
        "Nothing has been read or moved yet.",
    )


def tally_words(sitting: Sitting) -> str:
    """How much was done so far."""
    readings = sum(isinstance(a, Read) for a in sitting.actions)
    adjusted = sum(isinstance(a, Adjust) for a in sitting.actions)
    rounds = sitting.entries[-1].round if sitting.entries else 0
    return f"{_count(readings, 'reading')}, {_count(adjusted, 'adjustment')}, " + _count(
        rounds, "round"
    )


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


# ------------------------------------------------------------------------------ debrief


def points_words(sitting: Sitting, found: Score) -> str:
    """The points of a sitting at its camera."""
    camera = f"{sitting.stand.camera.name}, level {int(sitting.level)}, seed {sitting.seed}"
    return f"{found.points} of {FOCUS + READINGS + ROUNDS} points: {camera}"


def score_line(found: Score) -> str:
    """What the points are for."""
    readings, rounds = _count(found.readings, "reading"), _count(found.rounds, "round")
    return (
        f"{found.focus} of {FOCUS} for the camera as left, {found.for_readings} of {READINGS} for "
        f"{readings} before the last adjustment, {found.for_rounds} of {ROUNDS} for {rounds} of "
        "adjusting."
    )


def place_words(place: JudgedPlace) -> tuple[str, str, str, str, str]:
    """A place: its name, what is allowed, as found, as left, and the verdict."""
    verdict = "✓ inside" if place.is_inside else "✕ outside"
    allowed = format_angle(place.allowed) if place.is_angle else fine_mm(place.allowed)
    return place.name, f"± {allowed}", _size(place, place.found), _size(place, place.left), verdict


def _size(place: JudgedPlace, error: float) -> str:
    if place.is_angle:
        return _minutes(error, ("too high", "too low")) or "level"
    return said_error(Estimate(error))


def hidden_lines(sitting: Sitting) -> tuple[str, ...]:
    """What was hidden in the camera: its faults, its rangefinder's height, its old marks."""
    practice = sitting.found.practice
    lines = [
        fault_line(cause, practice.hidden, sitting.stand.priors.step(cause))
        for cause in ALL
        if cause in practice.causes
    ]
    if sitting.found.height:
        height = _minutes(sitting.found.height, ("too high", "too low"))
        lines.append(f"Rangefinder's height: the moving image {height}.")
    true = next((mark.name for mark in sitting.old_marks if mark.is_true), None)
    lines.append(
        f"The maker's own old line was {true}."
        if true
        else "None of the old lines was the maker's: every one misled."
    )
    return tuple(lines)


def fault_line(cause: Cause, hidden: Faults, pitch: float) -> str:
    """A cause with how far off it put its part."""
    amounts = [hidden[name] for name in cause.figures]
    return f"{cause.words.capitalize()}: {cause.size.said(amounts, pitch)}."


def remark_words(sitting: Sitting, remark: Remark) -> tuple[str, str, str, str]:
    """A reading looked back on: its number and name, the causes, the best next, the own eye."""
    action = sitting.actions[remark.number - 1]
    assert isinstance(action, Read)
    causes = "; ".join(f"{c.words} {percent(chance)}" for c, chance in remark.causes)
    return f"{remark.number}. {action.name}", causes, _next_words(remark), _eye_words(remark)


def _next_words(remark: Remark) -> str:
    if remark.best_next is None:
        return "nothing could be read; what was adjusted last had to be taken back"
    before, after = (percent(chance) for chance in remark.best_next.wrong_cause)
    if before == after:
        return "nothing would tell much more"
    name = remark.best_next.candidate.words
    return f"{name}: risk of a wrong set of causes from {before} to {after}"


def _eye_words(remark: Remark) -> str:
    if remark.misjudged is None:
        return "instrument"
    off = fine_mm(abs(remark.misjudged))
    beyond = "" if abs(remark.misjudged) <= remark.granted else ", more than an eye is granted"
    return f"{off} off{beyond}"


def plan_heading(found: Debrief) -> str:
    """Which plan is shown, and whether there is one."""
    if found.plan is None:
        return "Nothing was read before the first adjustment, so there was nothing to plan from."
    if not found.plan.steps and found.plan.diagnosis.is_accused:
        return "The readings before the first adjustment contradicted each other."
    nothing = nothing_line(found.plan)
    if nothing == NOTHING:
        return "The readings before the first adjustment called for nothing to be moved."
    if nothing:
        return f"From the readings before the first adjustment: {nothing}"
    return "From the readings before the first adjustment the plan would have been:"


def plan_notes(found: Debrief) -> tuple[str, ...]:
    """What the plan rests on, and what it promises."""
    if found.plan is None:
        return ()
    notes = (jumped_line(found.plan), first_line(found.plan), promise_line(found.plan))
    return tuple(note for note in notes if note)


def plan_lines(found: Debrief) -> Sequence[str]:
    """The steps of the plan; none where there is no plan, or nothing to move."""
    steps = found.plan.steps if found.plan else ()
    return [step.adjustment.instruction for step in steps]
