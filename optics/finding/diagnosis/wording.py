"""The diagnosis in the words of the shop: what it is, for and against, what cannot be told."""

import math
from collections.abc import Iterable, Sequence

from optics.camera.where_taken import Surface
from optics.finding.causes import ALL, Cause
from optics.finding.diagnosis.diagnose import Diagnosis
from optics.finding.diagnosis.for_and_against import for_and_against
from optics.finding.diagnosis.next_reading import Gain
from optics.finding.diagnosis.outlying import Contradiction, Outlier
from optics.finding.diagnosis.priors import Priors
from optics.measure.places import place_name
from optics.readings.readings import Reading
from optics.readings.spots import Spot
from optics.readings.wording import said_allowed, said_offset
from optics.units import format_distance, format_length

_COUNTS = {1: "one cause", 2: "two causes", 3: "three causes", 4: "four causes"}
# More places than these are counted, not named.
_NAMED = 3


def percent(chance: float) -> str:
    """A probability as it is said; never 0 or 100 %."""
    if chance >= 0.995:
        return "more than 99 %"
    if chance < 0.005:
        return "less than 1 %"
    return f"{100 * chance:.0f} %"


def joined(words: Iterable[str], last: str = "and") -> str:
    """A list as it is said: a, b and c."""
    *most, end = words
    return f"{', '.join(most)} {last} {end}" if most else end


def reading_words(reading: Reading) -> str:
    """A reading by the place at which it was taken."""
    spot = reading.spot
    words = {
        Spot.GAUGE: "the gauge",
        Spot.STOP: "the stop",
        Spot.INFINITY: "the ∞ mark",
        Spot.NEAR: f"the {format_distance(reading.seen_at)} mark",
        Spot.GATE: "the film gate",
        Spot.COINCIDENCE: f"the rangefinder at {format_distance(reading.seen_at)}",
    }[spot]
    if reading.taken.is_off_centre:
        words += f" at the {place_name(*reading.taken.place)}"
    if spot is Spot.GATE:
        return words
    return f"{words} on film" if reading.taken.surface is Surface.FILM else words


def headline(diagnosis: Diagnosis) -> str:
    """The most probable causes with their sizes, and how probable they are."""
    lead, said = headline_parts(diagnosis)
    return f"{lead} {said}."


def headline_parts(diagnosis: Diagnosis) -> tuple[str, str]:
    """The headline's lead with its probability, and what it leads up to.

    Two readings that contradict each other come before any cause; causes that the readings are
    too coarse to tell are not named, and the probability is that of what is named.
    """
    if diagnosis.contradictions:
        worst = diagnosis.contradictions[0]
        return "Before any cause is looked for:", _contradicting(diagnosis, worst)
    causes = [c for c in ALL if c in diagnosis.named]
    lead = f"Most probable ({percent(diagnosis.named_probability)}):"
    more = "; what is left over is too small to see" if _is_more(diagnosis) else ""
    if not causes:
        return lead, f"the readings show nothing wrong beyond their own scatter{more}"
    return lead, joined(f"{c.words}, {said_size(diagnosis, c)}" for c in causes) + more


def _is_more(diagnosis: Diagnosis) -> bool:
    return diagnosis.named != diagnosis.leading.causes


def begun(words: str) -> str:
    """Words as they stand at the beginning of a sentence."""
    return words[:1].upper() + words[1:]


def said_size(diagnosis: Diagnosis, cause: Cause) -> str:
    """How far off the cause puts its part, which way, and how well that is known."""
    sizes = [diagnosis.sizes[name] for name in cause.figures]
    return cause.size.found(sizes, diagnosis.priors.step(cause))


def chance_lines(diagnosis: Diagnosis) -> tuple[str, ...]:
    """Each cause's probability, the most probable first, with its evidence."""
    return tuple(chance_line(diagnosis, cause) for cause, _ in ranked(diagnosis))


def chance_line(diagnosis: Diagnosis, cause: Cause) -> str:
    """A cause's probability with its evidence."""
    chance = percent(diagnosis.chances[cause])
    return f"{cause.words.capitalize()}: {chance}. {evidence(diagnosis, cause)}"


def ranked(diagnosis: Diagnosis) -> list[tuple[Cause, float]]:
    """The causes that the readings can meet with their probabilities, the greatest first."""
    return sorted(diagnosis.chances.items(), key=lambda item: -item[1])


def evidence(diagnosis: Diagnosis, cause: Cause) -> str:
    """What speaks for a cause and what against it, the other likely causes allowed for."""
    found, said = for_and_against(diagnosis, cause), []
    does = "accounts" if cause in diagnosis.leading.causes else "would account"
    if found.for_it:
        said.append(f"For: it {does} for {_places(found.for_it)}.")
    if found.against:
        places = _places(found.against)
        are = "are" if len(found.against) > 1 else "is"
        said.append(f"Against: {places} {are} accounted for without it, and would be disturbed.")
    if found.divided:
        said.append(f"Divided: the readings at {_places(found.divided)} contradict each other.")
    return " ".join(said) or _nothing_said(diagnosis, cause)


def _nothing_said(diagnosis: Diagnosis, cause: Cause) -> str:
    """No single reading tells: because it is too small, or because only all together do."""
    if cause in diagnosis.faint:
        return "Too small to see with these readings."
    if cause in diagnosis.leading.causes:
        return "No single reading shows it, only all together."
    return "Nothing speaks for it."


def _places(readings: Sequence[Reading]) -> str:
    names = list(dict.fromkeys(map(reading_words, readings)))
    if len(names) > _NAMED + 1:
        names = [*names[:_NAMED], f"{len(names) - _NAMED} more places"]
    return joined(names)


def open_lines(diagnosis: Diagnosis) -> tuple[str, ...]:
    """Everything that these readings cannot tell, in words; empty when nothing is left open."""
    return (*_alike_lines(diagnosis), *_open_causes(diagnosis), *_unread_lines(diagnosis))


def _alike_lines(diagnosis: Diagnosis) -> list[str]:
    """Causes that look alike, as far as one of them is likely to be at work."""
    likely = {c for c, chance in diagnosis.chances.items() if chance > 0.05}
    pairs = {
        frozenset({alike.cause, *alike.others})
        for alike in diagnosis.determination.look_alikes
        if len(alike.others) == 1 and likely & {alike.cause, *alike.others}
    }
    return [_alike(pair) for pair in sorted(pairs, key=lambda pair: sorted(c.name for c in pair))]


def _alike(pair: frozenset[Cause]) -> str:
    one, other = (c for c in ALL if c in pair)
    tells = [spot for spot in Spot if (spot in one.spots) != (spot in other.spots)]
    by_spot = joined((_TELLING[spot] for spot in tells), "or") if tells else _ELSEWHERE
    words = one.told_by or other.told_by or by_spot
    return (
        f"{one.words.capitalize()} and {other.words} cannot be told apart: both "
        f"shift every reading taken alike; {words} tells."
    )


_ELSEWHERE = "a reading at another distance"
_TELLING = {
    Spot.GAUGE: "the gauge",
    Spot.STOP: "a reading at the stop",
    Spot.INFINITY: "a reading at the ∞ mark",
    Spot.NEAR: "a reading at a near mark",
    Spot.COINCIDENCE: "the rangefinder",
    Spot.GATE: "the film gate gauged",
}


def _open_causes(diagnosis: Diagnosis) -> list[str]:
    found = [
        f"It cannot be said whether this is at work too: {c.words} ({percent(chance)})."
        if c not in diagnosis.named
        else f"It is not certain that this is at work: {c.words} ({percent(chance)})."
        for c, chance in diagnosis.chances.items()
        if c in diagnosis.open
    ]
    faint = [c.words for c in diagnosis.determination.faint]
    if faint:
        found.append(f"Too small to see with these readings: {joined(faint)}.")
    return found


def _unread_lines(diagnosis: Diagnosis) -> list[str]:
    unread = [c.words for c in diagnosis.determination.unread]
    return [f"No reading touches, and nothing is said of: {joined(unread)}."] if unread else []


def outlier_line(diagnosis: Diagnosis, outlier: Outlier) -> str:
    """An accused reading, and what to do first."""
    seen, away = diagnosis.seen, format_length(abs(outlier.away), places=3)
    return (
        f"The reading of {reading_words(seen.readings[outlier.index])} that shows "
        f"{said_offset(seen.errors[outlier.index].value)} disagrees with all the others by {away}, "
        f"by chance {_seldom(outlier.chance)}: take it again before anything is moved."
    )


def contradiction_line(diagnosis: Diagnosis, found: Contradiction) -> str:
    """Two readings of one thing that cannot both be right, and what to do first."""
    return (
        f"{begun(_contradicting(diagnosis, found))}: so far apart by chance "
        f"{_seldom(found.chance)}. Take both again before anything is moved."
    )


def _contradicting(diagnosis: Diagnosis, found: Contradiction) -> str:
    """What was read twice, and both that it showed: a row has another number on every page."""
    seen = diagnosis.seen
    one, other = (said_offset(seen.errors[index].value) for index in found.pair)
    place = reading_words(seen.readings[found.pair[0]])
    return f"two readings of {place} contradict each other, {one} and {other}"


def accused_lines(diagnosis: Diagnosis) -> tuple[str, ...]:
    """The readings to be taken again before anything else, the worst first."""
    return (
        *(contradiction_line(diagnosis, one) for one in diagnosis.contradictions),
        *(outlier_line(diagnosis, one) for one in diagnosis.outliers),
    )


def _seldom(chance: float) -> str:
    if chance < 1e-6:
        return "less than once in a million"
    count = 1 / chance
    said = f"{round(count, -int(math.log10(count))):,.0f}".replace(",", " ")
    return f"once in {said}"


def further_line(diagnosis: Diagnosis) -> str:
    """The further reading that is worth taking; empty where none is."""
    gain = diagnosis.worth_reading
    return next_line(gain) if gain else ""


def next_line(gain: Gain) -> str:
    """A further reading and what it is expected to bring."""
    before, after = (format_length(s, places=3) for s in gain.standard)
    wrong = [percent(chance) for chance in gain.wrong_cause]
    parts = []
    if before != after:
        parts.append(f"the worst standard uncertainty from {before} to {after}")
    if wrong[0] != wrong[1]:
        parts.append(f"the risk of a wrong cause from {wrong[0]} to {wrong[1]}")
    brings = joined(parts) if parts else "little"
    return f"Most would be told by {gain.candidate.words}: it should bring {brings}."


def suppositions(priors: Priors) -> str:
    """What every diagnosis rests on, in one line."""
    most = priors.most_causes
    return (
        f"Supposed: at most {_COUNTS.get(most, f'{most} causes')} together; every part, sound or "
        "not, off by a normal amount of its usual size; readings' errors normal, few repeats "
        "widened by Student's t and pooled over readings of one kind. The chances and sizes "
        "supposed are listed and can be changed."
    )


def assumption_lines(found: Diagnosis) -> tuple[str, ...]:
    """What a diagnosis rests on besides its readings: model, tolerance, what nobody told."""
    camera = found.camera
    return (
        suppositions(found.priors),
        f"Allowed at the film: {said_allowed(camera)}.",
        *filter(None, (reading.left_open(camera) for reading in found.seen.readings)),
    )
