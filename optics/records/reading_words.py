"""A reading of a job in full: what was read, and the figures as they were understood."""

import math

from optics.records.job import (
    CollimatorPart,
    MarkPart,
    ParallaxPart,
    PlacedPart,
    ReadingPart,
    RegisterPart,
    RotationPart,
    RulerPart,
)
from optics.report.job_report import in_full
from optics.typed import fields


def said_in_full(part: ReadingPart) -> str:
    """What was read and the tries: ``Ring at 1.2 m: sharp at 1.18 m; 1.19 m``."""
    return in_full(said_thing(part), said_figures(part))


def said_thing(part: ReadingPart) -> str:
    """What was read, by which it is told from other readings: ``Ring at 1.2 m``."""
    if not isinstance(part, PlacedPart):
        return part.title
    what = f"Register{_place(part)}" if isinstance(part, RegisterPart) else _seen(part)
    return f"{what[0].upper()}{what[1:]}"


def _seen(part: PlacedPart) -> str:
    mark = fields.RING_MARK.read(getattr(part, "mark", "inf"))
    name = "∞" if math.isinf(mark.value) else mark.echo
    how = getattr(part, "where", None), getattr(part, "judged", None)
    where = "infinity stop" if how[0] == "at the stop" else f"ring at {name}"
    film = "on film, " if how[1] == "on film" else ""
    return f"{film}{where}{_place(part)}"


def _place(part: PlacedPart) -> str:
    return f", {part.place.strip()}" if part.place else ""


def said_figures(part: ReadingPart) -> str:
    """The tries as they were understood, and which way; of parallax, which way the image moved."""
    match part:
        case MarkPart():
            return f"sharp at {_tries(fields.SHARP_AT, part.sharp_at)}"
        case RotationPart():
            target = fields.TARGET.read(part.target)
            far = "" if math.isinf(target.value) else f", target at {target.echo}"
            turned = _tries(fields.TURNED, part.turned)
            return f"turned {turned} {part.sense} until sharp{far}"
        case RegisterPart():
            nominal = fields.NOMINAL_REGISTER.read(part.nominal).echo
            return f"{_tries(fields.MEASURED_REGISTER, part.measured)}, made for {nominal}"
        case CollimatorPart():
            moved = _tries(fields.RETICLE_SHIFT, part.shift)
            way = f"towards {part.towards}" if part.towards == "its lens" else part.towards
            return f"collimator's reticle moved {moved} {way}{_apart(part)}"
        case RulerPart():
            aim = fields.RULER_AIM.read(part.aim).echo
            offset = _tries(fields.RULER_OFFSET, part.offset)
            return f"slanting ruler at {aim}, sharpest {offset} {part.side}"
        case ParallaxPart():
            moves = part.image_moves
            still = "the image stands still"
            return still if moves == "not at all" else f"the image moves {moves}"


def _apart(part: CollimatorPart) -> str:
    if part.to_lens is None:
        return ""
    return f", {fields.COLLIMATOR_TO_LENS.read(part.to_lens).echo} from lens to lens"


def _tries(field: fields.Typed, text: str) -> str:
    return "; ".join(one.echo for one in field.read(text))
