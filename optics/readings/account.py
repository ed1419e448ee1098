"""What readings come to, for whoever tells it: in full, as far as is known, or the way alone."""

from collections.abc import Iterable

from optics.account import Account, Block, Card, Cards, Figure, Role, Table, TableRow
from optics.camera.cautions import SUN
from optics.camera.supposed import supposed_lines
from optics.measure.uncertainty import budget
from optics.moves import Refused
from optics.readings import first_wording, wording
from optics.readings.correction import Correction
from optics.readings.directions import Direction
from optics.readings.first_answer import FirstAnswer
from optics.readings.readings import Judged, Step
from optics.readings.remedies import Offer

_SOURCES = "Where the uncertainty comes from"
_SOURCE = ("Source", "Standard uncertainty at the film", "Share of the variance")
_NO_SOURCE = "No limit and no repeats were given, so the figure carries no uncertainty."
_SEEN = ("Ring at", "What you would see", "Wide open")


def working(steps: Iterable[Step]) -> Block:
    """Every step with its figures, as it is worked by hand."""
    lines = tuple(line for step in steps for line in step.working_text())
    return Block(lines, Role.WORKING, "Working")


def reading_account(title: str, answer: Correction | FirstAnswer | Direction) -> Account:
    """What one reading says; `title` is what was read."""
    match answer:
        case Correction():
            return _corrected(title, answer)
        case FirstAnswer():
            return _first(title, answer)
        case Direction():
            return _direction(title, answer)


def _corrected(title: str, found: Correction) -> Account:
    """The error, what would be seen, every remedy; a turn is drawn where one is called for."""
    supposed = supposed_lines(found.camera)
    turns = (r for r in found.remedies if "rotation" in r.figures and found.calls_for_work)
    sights = tuple(
        TableRow(
            (wording.mark_name(s.mark), wording.sharp_where(s), wording.blur_at(s)),
            wording.sight_line(s),
        )
        for s in found.sights
    )
    return Account(
        title=title,
        headline=wording.headline(found),
        large=(wording.said_error(found.error),),
        verdict=found.verdict,
        judged=wording.tolerance_line(found),
        parts=(
            *([Block(supposed)] if supposed else []),
            Figure((found, *list(turns)[:1])),
            Table(_SEEN, sights, "What you would see"),
            Cards(
                (wording.advice(found),),
                tuple(map(_offer, found.offers)),
                is_called_for=found.calls_for_work,
            ),
            working(found.steps),
            _sources(found),
        ),
        cautions=found.cautions,
    )


def _sources(found: Correction) -> Table | Block:
    """Where the uncertainty of the error comes from."""
    rows = tuple(
        TableRow((name, _fine(size), f"{share:.0%}")) for name, size, share in budget(found.error)
    )
    if not rows:
        return Block((_NO_SOURCE,), Role.ASIDE, _SOURCES)
    return Table(_SOURCE, rows, _SOURCES, Role.ASIDE)


def _fine(mm: float) -> str:
    """A contribution to four places; one that would print as nothing says so."""
    return f"{mm:.4f} mm" if mm >= 0.00005 else "less than 0.0001 mm"


def _offer(offer: Offer) -> Card:
    if isinstance(offer, Refused):
        return Card(offer.title, offer.reason, is_idle=True)
    return Card(
        offer.title,
        offer.instruction,
        offer.amounts,
        offer.verdict,
        wording.residual_line(offer),
        offer.notes,
    )


def _first(title: str, found: FirstAnswer) -> Account:
    """What is known so far, what to do, and what each further figure would add."""
    advice = first_wording.advice(found)
    cards = tuple(Card(name, words) for name, words in found.to_do)
    to_do = Cards((advice,) if advice else (), cards)
    waits = tuple(map(first_wording.wait_line, found.waits))
    supposed = first_wording.supposed_lines(found)
    return Account(
        title=title,
        headline=first_wording.headline(found),
        large=(first_wording.found(found),),
        verdict=first_wording.judged(found),
        judged=first_wording.verdict_line(found),
        parts=(
            *([to_do] if cards or advice else []),
            *([Block(waits, heading=first_wording.STILL_NEEDED)] if waits else []),
            *([Block(supposed, heading="Supposed")] if supposed else []),
        ),
        cautions=() if found.reading.judged is Judged.BY_GAUGE else (SUN,),
    )


def _direction(title: str, reading: Direction) -> Account:
    """Which way the lens is out, and that an amount must still be measured."""
    to_do = reading.next_step
    return Account(
        title=title,
        headline=reading.found,
        large=(reading.found.partition(".")[0],),
        parts=(Block((to_do,), Role.TO_DO, "What to do"),) if to_do else (),
    )
