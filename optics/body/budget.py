"""The whole camera's focus error: what each part adds, and which to work on next."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from optics.errors import OutOfRange
from optics.measure.uncertainty import Estimate, Source, coverage_factor, weighted, within
from optics.measure.verdict import Verdict, judge
from optics.readings.readings import Sense
from optics.readings.wording import said_error
from optics.units import fine_mm

# The parts of a camera's budget, in the order in which they are put right.
NAMES: dict[str, str] = {
    "gate": "film gate",
    "film_flatness": "film flatness",
    "standard": "lens standard",
    "register": "register",
    "scale": "focus scale",
    "rangefinder": "rangefinder",
}
_ADVICE: dict[str, str] = {
    "gate": "set the plate, or set the lens for the middle of the film's play",
    "standard": "shim the standard square",
    "register": "shim the lens seat, or gauge it more closely",
    "scale": "set the scale ring to the stop or index",
    "rangefinder": "set its zero and gain, or repeat the coincidence readings",
}


@dataclass(frozen=True)
class Term:
    """One part's focus error at the film, in mm: what it is known to add, and how well.

    `is_curable` is whether work at the bench can make it less.
    """

    key: str
    error: Estimate
    is_curable: bool = True

    @property
    def name(self) -> str:
        """The part in words."""
        return NAMES.get(self.key, self.key)

    @property
    def reach(self) -> float:
        """How far out this part alone may put the focus at 95 %."""
        return _reach(self.error)


@dataclass(frozen=True)
class Share:
    """A term, its part of the combined variance, and what putting it right would gain (mm).

    The shares of all terms add up to 1; one that cancels another's error may be minus.
    """

    term: Term
    share: float
    gain: float


@dataclass(frozen=True)
class Budget:
    """All terms together against the depth of focus each way; in mm at the film.

    `combined` adds them as the GUM does, `worst` with every one at its limit the same way.
    """

    terms: tuple[Term, ...]
    depth: float
    combined: Estimate
    worst: float
    shares: tuple[Share, ...]

    @property
    def reach(self) -> float:
        """How far out the focus may be at 95 %: the known error and its uncertainty."""
        return _reach(self.combined)

    @property
    def verdict(self) -> Verdict:
        """How the whole stands to the depth of focus."""
        return judge(self.combined, self.depth)

    @property
    def next(self) -> Share | None:
        """The curable term whose cure gains most; None where no cure gains anything."""
        curable = [s for s in self.shares if s.term.is_curable and s.gain > 0]
        return max(curable, key=lambda share: share.gain, default=None)


def film_flatness(limit: float) -> Term:
    """Film that may stand off by ± `limit` mm by curl: no bench work cures it.

    Source: the limit is common practice, no source; state your own.
    """
    return Term("film_flatness", within(0.0, limit, "film flatness"), is_curable=False)


def whole_camera(terms: Sequence[Term], depth: float) -> Budget:
    """Combine the terms and hold them against the depth of focus (mm each way).

    Terms that share a source of error add with their signs. The gain of a term is by how
    much |error| + U falls when the term is taken out.
    Errors: OutOfRange for no term, a key twice, or a depth of focus that is not above 0.
    Source: GUM (JCGM 100:2008) 5.1.2, G.4.1.
    """
    _check(terms, depth)
    combined = _sum(terms)
    shares = tuple(
        Share(
            term,
            _share(term.error, combined),
            _reach(combined) - _reach(_sum([t for t in terms if t is not term])),
        )
        for term in terms
    )
    parts = combined.parts.items()
    worst = abs(combined.value) + math.fsum(_limit(source) * abs(part) for source, part in parts)
    return Budget(tuple(terms), depth, combined, worst, shares)


def _sum(terms: Sequence[Term]) -> Estimate:
    return weighted([1.0] * len(terms), [term.error for term in terms])


def _share(error: Estimate, combined: Estimate) -> float:
    if not combined.standard:
        return 0.0
    together = math.fsum(p * combined.parts[source] for source, p in error.parts.items())
    return together / combined.standard**2


def _reach(error: Estimate) -> float:
    return abs(error.value) + error.expanded


def _limit(source: Source) -> float:
    """How many standard uncertainties a source can be out: its limit, or 95 % of a spread."""
    return math.sqrt(3) if math.isinf(source.dof) else coverage_factor(source.dof)


def _check(terms: Sequence[Term], depth: float) -> None:
    keys = [term.key for term in terms]
    if not keys or len(set(keys)) < len(keys):
        raise OutOfRange(
            f"A budget needs at least one term, each part once: got {', '.join(keys) or 'none'}; "
            "enter what each part of the camera adds.",
            quantity="terms",
        )
    if not 0 < depth < math.inf:
        raise OutOfRange(
            f"The depth of focus must be more than 0 mm and finite: got {depth:g} mm; check the "
            "f-number and the circle of confusion.",
            quantity="depth_each_way",
            value=depth,
            limit=0.0,
        )


def said_whole(budget: Budget) -> str:
    """How far out the whole camera is."""
    return (
        f"The whole camera is {said_mean(budget)}, ± {fine_mm(budget.combined.expanded)} at 95 %."
    )


def said_mean(budget: Budget) -> str:
    """How far out it is in the mean."""
    error = budget.combined
    return "right in the mean" if Sense.of(error.value) is Sense.RIGHT else said_error(error)


def said_held(budget: Budget) -> str:
    """How that stands to the depth of focus."""
    verdict = {
        Verdict.INSIDE: "Inside the depth of focus",
        Verdict.OUTSIDE: "Outside the depth of focus",
        Verdict.UNSURE: "Not sure to be inside the depth of focus",
    }[budget.verdict]
    return f"{verdict} of ± {fine_mm(budget.depth)} (full aperture as engraved)."


def said_worst(budget: Budget) -> str:
    """How far out it would be if everything fell the same way."""
    return f"With everything at its limit the same way, {fine_mm(budget.worst)}."


def said_share(share: Share) -> str:
    """One term in one line."""
    error, part = said_term(share.term.error), said_part(share)
    return f"{share.term.name.capitalize()}: {error}; {part} of the spread."


def said_term(error: Estimate) -> str:
    """An error of the budget in figures."""
    mean = "" if Sense.of(error.value) is Sense.RIGHT else f"{said_error(error)}, "
    return f"{mean}± {fine_mm(error.expanded)}"


def said_part(share: Share) -> str:
    """What a term is of the spread of the whole."""
    return _per_cent(share.share)


def _per_cent(share: float) -> str:
    return "under 1 %" if 0 < share < 0.005 else f"{100 * share:.0f} %".replace("-", "−")


def said_next(budget: Budget) -> str:
    """Which term to work on next, and what that gains."""
    best = budget.next
    if best is None:
        return "Nothing left to gain at the bench: what remains cannot be put right there."
    after = budget.reach - best.gain
    how = _ADVICE.get(best.term.key, "")
    if budget.verdict is Verdict.INSIDE:
        return (
            f"Nothing has to be done. Most would still be gained at the {best.term.name}: the "
            f"focus would be within {fine_mm(after)} instead of {fine_mm(budget.reach)} at 95 %."
        )
    return (
        f"Work on the {best.term.name} next{': ' + how if how else ''}. With it right the focus "
        f"would be within {fine_mm(after)} instead of {fine_mm(budget.reach)} at 95 %."
    )
