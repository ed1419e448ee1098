"""Starts and marks in the words of the shop; senses are as seen from the front."""

from optics.body.standard.cautions import ADHESIVES
from optics.body.witness.ranking import Combination, Ranking, RankingFinding
from optics.body.witness.thread import MarksOn
from optics.camera.cautions import SOLVENTS, SPRINGS, Caution
from optics.moves.turning import said_degrees, sense_of_turn
from optics.readings.readings import Sense
from optics.readings.wording import said_error
from optics.units import format_length

CAUTIONS: tuple[Caution, ...] = (SOLVENTS, SPRINGS, ADHESIVES)
_MOST_NAMED = 3
# A leaf too few leaves the lens too far in.
_SHIMS = {
    Sense.TOO_FAR_IN: "a missing shim",
    Sense.RIGHT: "a wrong shim",
    Sense.TOO_FAR_OUT: "a shim too many or a part not home on its seat",
}
PRIOR = (
    "Before the reading every combination counts alike; the reading's uncertainty and the spread "
    "of the right one decide the rest."
)
UNTOLD = "Until then part no thread and move no mark."
BEFORE_STRIPPING = (
    "Set the ring to ∞ and scribe one fine line across ring and barrel, where a tool has not been "
    "before; pencil the older marks so that they are not taken for it.",
    "Unscrew slowly and mark both parts where the threads let go; note the turn from ∞ to there.",
    "Number the thread starts from that place, in the sense the ring turns to extend.",
    "Keep the shims under their own screws or seat, gauge each pack and write it on the card.",
    "Gauge the register, and take one infinity reading, before anything comes apart.",
    "Fill in the witness card and tape it to the job.",
)


def said_combination(ranking: Ranking, combination: Combination) -> str:
    """One line of the table: start, mark, error, and how probable it is if any fits."""
    error = combination.error
    known = f", ± {format_length(error.expanded, places=3)}" if error.standard else ""
    return (
        f"Mark {combination.mark.name}, {said_start(combination.starts_moved)}: "
        f"{said_error(error)}{known}; {said_weight(ranking, combination)}."
    )


def said_start(starts_moved: int) -> str:
    """Which start, counted from the present one."""
    if not starts_moved:
        return "present start"
    count = abs(starts_moved)
    way = "out" if starts_moved > 0 else "in"
    return f"{count} start{'s' if count > 1 else ''} farther {way}"


def said_weight(ranking: Ranking, combination: Combination) -> str:
    """How probable a combination is; where none fits, no share of the whole says anything."""
    if ranking.finding is RankingFinding.NONE_FITS:
        return "does not fit"
    return f"probability {said_probability(combination.probability)}"


def said_probability(probability: float) -> str:
    """In whole per cent, and never certain."""
    if probability < 0.005:
        return "under 1 %"
    if probability > 0.995:
        return "over 99 %"
    return f"{100 * probability:.0f} %"


def verdict_line(ranking: Ranking) -> str:
    """What the ranking amounts to, and what to look for or do where that is not settled."""
    return " ".join((found_line(ranking), *order_lines(ranking)))


def found_line(ranking: Ranking) -> str:
    """What the ranking amounts to, in one sentence."""
    first = ranking.first
    name = f"mark {first.mark.name}, {said_start(first.starts_moved)}"
    probability = said_probability(first.probability)
    if ranking.finding is RankingFinding.TOLD:
        return f"It was {name}: probability {probability}, and no other comes near."
    if ranking.finding is RankingFinding.NONE_FITS:
        return (
            f"No combination is right within its uncertainty; the nearest, {name}, would leave "
            f"the lens {said_error(first.error)}."
        )
    return f"Cannot tell: likeliest is {name}, probability {probability}, but {_doubt(ranking)}."


def order_lines(ranking: Ranking) -> tuple[str, ...]:
    """What to look for or do before anything is moved; none where it is told."""
    if ranking.finding is RankingFinding.TOLD:
        return ()
    if ranking.finding is RankingFinding.NONE_FITS:
        shims = _SHIMS[Sense.of(ranking.first.error.value)]
        return (f"Look for {shims}, a wrong lens or a slip in the reading.",)
    return ("Take a finer reading, or more repeats, before parting the thread.",)


def _doubt(ranking: Ranking) -> str:
    rivals = ranking.rivals
    if not rivals:
        second = ranking.combinations[1]
        between = f"mark {second.mark.name}, {said_start(second.starts_moved)}"
        return f"the reading falls between it and {between}"
    named = [f"mark {c.mark.name}, {said_start(c.starts_moved)}" for c in rivals[:_MOST_NAMED]]
    more = len(rivals) - len(named)
    others = "; ".join(named) + (f"; and {more} more" if more else "")
    return f"too near it for this reading to tell apart: {others}"


def instructions(ranking: Ranking, combination: Combination | None = None) -> tuple[str, ...]:
    """What to do to reach a combination (None: the first), step by step."""
    wanted = combination or ranking.first
    if wanted.is_present:
        return ("Leave start and mark as they are: they belong together.",)
    steps = []
    if wanted.starts_moved:
        turn = ranking.thread.entry_turn(wanted.starts_moved)
        count = abs(wanted.starts_moved)
        steps.append(
            "Part the thread and note where the ring stands as it lets go; enter it "
            f"again {count} start{'s' if count > 1 else ''} ({said_degrees(turn)}) further "
            f"{sense_of_turn(ranking.thread.extends, turn)}, seen from the front."
        )
    if wanted.ring_turn:
        where = {
            MarksOn.BARREL: f"Set the ring's ∞ against mark {wanted.mark.name}",
            MarksOn.RING: f"Bring mark {wanted.mark.name} on the ring to the index",
        }[ranking.marks_on]
        steps.append(
            f"{where} instead of mark {ranking.present.name}: "
            f"{said_degrees(wanted.ring_turn)} "
            f"{sense_of_turn(ranking.thread.extends, wanted.ring_turn)}, seen from the front."
        )
    left = wanted.error.value
    if abs(left) <= ranking.allowed:
        steps.append(f"Leaves {_said(wanted)}: as near as starts and marks can bring it.")
    else:
        steps.append(f"Put right what remains, {_said(wanted)}, by shim or ring.")
    return tuple(steps)


def _said(combination: Combination) -> str:
    is_right = Sense.of(combination.error.value) is Sense.RIGHT
    return "no error to speak of" if is_right else said_error(combination.error)
