"""What a coupled rangefinder's readings and its base tell, for whoever tells it."""

from collections.abc import Iterable
from dataclasses import dataclass

from optics.account import Account, Block, Figure, Role, Table, TableRow
from optics.measure.uncertainty import Estimate
from optics.rangefinder import set_up_wording as words
from optics.rangefinder import wording
from optics.rangefinder.acuity import film_uncertainty, range_limits
from optics.rangefinder.near_setting import NearAdvice
from optics.rangefinder.part import RangefinderPart
from optics.rangefinder.set_up import CoupledCamera, SetUp, next_turns
from optics.units import format_distance, format_length

_LIMITS = ("subject at", "looks the same from", "to")
_SETTINGS = ("setting", "exact at", "worst, at the film", "where")
# No triangle can be drawn to what lies farther, in mm.
_TOO_FAR = 1e9


@dataclass(frozen=True)
class WrongTriangle:
    """To draw: where the lens is led when the images of a target meet."""

    found: SetUp
    film_distance: float


@dataclass(frozen=True)
class TrueTriangle:
    """To draw: base and sights as they should stand for a target."""

    bench: CoupledCamera
    film_distance: float


@dataclass(frozen=True)
class ScrewTurn:
    """To draw: an adjuster and its turns, plus clockwise."""

    name: str
    turns: float


def set_up_account(found: SetUp, lens: Estimate | None = None) -> Account:
    """Where the rangefinder leads the lens now, what to turn next, the rounds, what is to change.

    `lens` is by how much the lens was read to be outside its tolerance at infinity.
    """
    verdict = words.verdict(found)
    first = () if lens is None else (words.lens_first_line(lens),)
    to_do = (*first, *words.next_lines(found))
    change = found.correction
    triangles = (
        WrongTriangle(found, found.far),
        WrongTriangle(found, found.near),
        TrueTriangle(found.bench, found.near),
    )
    return Account(
        title=RangefinderPart.title,
        plain="the rangefinder",
        headline=words.headline(found),
        large=tuple(map(wording.said_state_error, (change.far, change.near))),
        verdict=verdict,
        judged=wording.goal_line(found.bench.goal, verdict),
        parts=(
            Figure(triangles),
            Figure(_screws(found), (Block(to_do, Role.TO_DO, "Next"),)),
            *_rounds(found),
            Block(words.found_lines(found), heading="Zero and gain"),
        ),
        cautions=wording.CAUTIONS,
        notes=(wording.CONVENTIONS, words.STOP, words.SCALE_FIRST),
    )


def _screws(found: SetUp) -> tuple[ScrewTurn, ...]:
    """Each adjuster to be turned; none where something else is to be looked for first."""
    if found.correction.is_gain_far_out or words.contradicting(found):
        return ()
    finder = found.bench.rangefinder
    adjusters = (finder.zero_adjuster, finder.gain_adjuster)
    turns = zip(adjusters, next_turns(found.advice), strict=True)
    return tuple(ScrewTurn(adjuster.name, turn) for adjuster, turn in turns if turn)


def _rounds(found: SetUp) -> tuple[Table, ...]:
    """What was turned so far, and where that left far and near."""
    if not found.rounds:
        return ()
    said = ["as found", *(words.said_round(found, one) for one in found.rounds)]
    heads = (
        "round",
        "turned",
        f"far, {format_distance(found.far)}",
        f"near, {format_distance(found.near)}",
    )
    rows = tuple(
        TableRow(
            (str(at), turned, *map(words.said_plain, (state.far, state.near))),
            words.round_line(found, at),
        )
        for at, (turned, state) in enumerate(zip(said, found.states, strict=True))
    )
    return (Table(heads, rows, "Rounds so far"),)


def near_account(advice: NearAdvice) -> Account:
    """Where to set near, beside the usual way."""
    settings = {
        "usual": advice.usual,
        "best near mark": advice.best_near,
        "best pair": advice.best_pair,
    }
    rows = zip(settings.items(), wording.near_lines(advice), strict=True)
    return Account(
        title="Where to set near",
        headline=words.near_headline(advice),
        large=(words.near_places(advice),),
        parts=(
            Table(
                _SETTINGS,
                tuple(
                    TableRow((name, *words.setting_row(one)), line) for (name, one), line in rows
                ),
            ),
        ),
        notes=(words.near_note(advice),),
        is_finding=False,
    )


def base_account(
    bench: CoupledCamera, distances: Iterable[float] = (), further: Iterable[str] = ()
) -> Account:
    """What the base can tell at the film and at each distance; `further` is what else was asked."""
    error = film_uncertainty(bench.camera, bench.rangefinder, bench.acuity)
    limits = [range_limits(bench.rangefinder, bench.acuity, d) for d in distances]
    nearest = min((one.film_distance for one in limits), default=_TOO_FAR)
    rows = tuple(
        TableRow(tuple(map(format_distance, (one.film_distance, one.nearest, one.farthest))))
        for one in limits
    )
    eye, *others = words.base_lines(bench)
    return Account(
        title="What the base can tell",
        headline=eye,
        large=(f"± {format_length(error, places=3)} at the film",),
        parts=(
            Block((*others, *further)),
            *([Table(_LIMITS, rows)] if rows else []),
            Figure((TrueTriangle(bench, nearest),) if nearest < _TOO_FAR else ()),
        ),
        is_finding=False,
    )
