"""A sitting as text, one action a line, to be kept, copied, handed in and replayed."""

import math
import re
from collections.abc import Mapping
from fractions import Fraction

from optics.camera.camera import Bed, Turn
from optics.errors import Unreadable
from optics.moves import Control
from optics.moves.record import said_plain
from optics.readings.practised import Offered
from optics.readings.readings import Judged, Moved
from optics.teaching.practice.levels import Level
from optics.teaching.practice.sitting import Action, Adjust, Finish, Read, Sitting
from optics.teaching.practice.stand import Stand

TITLE = "Shimwright practice sitting, version 1"
_HEAD = ("camera", "level", "seed")
_NUMBER = r"(\d+(?:\.\d+)?)"
# Whole, mixed or decimal, as people write turns.
_TURNS = r"(?:\d+\.\d+|\d+(?: \d+)?(?:/\d+)?)"
_FINISH = "finish"
# Sittings written before every page said top and bottom, which are read all the same.
_OLDER_CORNER = re.compile(r"\b(upper|lower)(?= (?:left|right)\b)")
_CORNER = {"upper": "top", "lower": "bottom"}


def write_sitting(sitting: Sitting) -> str:
    """The sitting as lines of text."""
    head = (sitting.stand.camera.name, int(sitting.level), sitting.seed)
    lines = [TITLE, *(f"{name}: {value}" for name, value in zip(_HEAD, head, strict=True))]
    return "\n".join([*lines, *(action_line(sitting, action) for action in sitting.actions)]) + "\n"


def action_line(sitting: Sitting, action: Action) -> str:
    """One action as its line."""
    match action:
        case Read(name, None):
            return f"read {name}"
        case Read(name, judged):
            assert judged is not None
            return f"judge {name} at {said_moved(sitting.stand, name, judged)}"
        case Adjust(name, amount, typed):
            return sitting.controls[name].before(amount, typed)
        case Finish():
            return _FINISH


def said_moved(stand: Stand, name: str, amount: float) -> str:
    """Where ring, reticle, target or pointer stand, in words."""
    offered = stand.offered[name]
    size = said_plain(abs(amount))
    if offered.reading.judged is Judged.BY_RANGEFINDER:
        return f"{size}{'°' if offered.moved is Moved.RING else ' mm'} from ∞"
    if offered.moved is Moved.TARGET:
        return f"{size} m"
    said = f"{size}{'°' if offered.moved is Moved.RING else ' mm'}"
    if size == "0":
        return said
    plus, minus = ways_of(stand, offered)
    return f"{said} {plus if amount > 0 else minus}"


def ways_of(stand: Stand, offered: Offered) -> tuple[str, str]:
    """The words for a plus and a minus move of ring or reticle."""
    if offered.moved is Moved.RETICLE:
        return "inwards", "outwards"
    focusing = stand.camera.focusing
    assert not isinstance(focusing, Bed)
    return str(focusing.extends), str(Turn(focusing.extends).opposite)


def read_sitting(text: str, shelf: Mapping[str, Stand]) -> Sitting:
    """The sitting that a text tells; empty lines and lines beginning with # are passed over.

    A corner that an earlier text calls upper or lower is the top or bottom one.

    Errors: Unreadable with the line's number, for a line that is none of the bench's.
    """
    numbered = [(n, line.strip()) for n, line in enumerate(text.splitlines(), start=1)]
    lines = [(n, line) for n, line in numbered if line and not line.startswith("#")]
    head, rest = lines[: 1 + len(_HEAD)], lines[1 + len(_HEAD) :]
    if not head or head[0][1] != TITLE or len(head) < 1 + len(_HEAD):
        raise Unreadable(
            f"A sitting begins with the line “{TITLE}” and with camera, level and seed: got "
            f"{head[0][1] if head else 'nothing'!r}; paste the whole text, or draw a camera.",
            quantity="sitting",
            value=text,
        )
    camera, level, seed = (
        _after(n, line, name) for (n, line), name in zip(head[1:], _HEAD, strict=True)
    )
    stand = shelf.get(camera)
    if stand is None:
        raise _unread(head[1], f"there is no such camera; choose from {', '.join(shelf)}")
    if level not in ("1", "2", "3"):
        raise _unread(head[2], "the level is 1, 2 or 3")
    if not seed.isdecimal():
        raise _unread(head[3], "the seed is a whole number")
    start = Sitting(stand, Level(int(level)), int(seed))
    return Sitting(
        stand, start.level, start.seed, tuple(_action(start, n, line) for n, line in rest)
    )


def _after(number: int, line: str, name: str) -> str:
    found = re.fullmatch(rf"{name}:\s*(.+)", line)
    if found is None:
        raise _unread((number, line), f"the {name} belongs here, such as “{name}: …”")
    return found[1]


def _unread(line: tuple[int, str], why: str) -> Unreadable:
    number, said = line
    return Unreadable(
        f"Line {number} of the sitting cannot be understood: got {said!r}; {why}.",
        quantity="sitting",
        value=said,
    )


def _action(sitting: Sitting, number: int, line: str) -> Action:
    line = _OLDER_CORNER.sub(lambda found: _CORNER[found[1]], line)
    if line == _FINISH:
        return Finish()
    if line.startswith("read "):
        return Read(_known(sitting, (number, line), line.removeprefix("read ")).name)
    judged = re.fullmatch(r"judge (.+) at (.+?)", line)
    if judged:
        offered = _at_longest(sitting, line)
        if offered is not None:
            said = line.removeprefix(f"judge {offered.name} at ")
            amount = _moved(sitting.stand, offered, said)
            if amount is not None:
                return Read(offered.name, amount)
    for control in sitting.controls.values():
        if line.startswith(control.name + " "):
            said = line.removeprefix(control.name + " ")
            found = _amount(control, said)
            if found is not None:
                return Adjust(control.name, found, size_typed(control, said))
    example = next(iter(sitting.controls.values())).before(0.05)
    raise _unread((number, line), f"write it as in “{example}”")


def _known(sitting: Sitting, line: tuple[int, str], name: str) -> Offered:
    offered = sitting.stand.offered.get(name)
    if offered is None:
        names = ", ".join(sitting.stand.offered)
        raise _unread(line, f"there is no such reading; choose from {names}")
    return offered


def _at_longest(sitting: Sitting, line: str) -> Offered | None:
    """The reading whose name stands in a judgement; names may themselves hold an “at”."""
    offers = sitting.stand.offered.values()
    return next((o for o in offers if line.startswith(f"judge {o.name} at ")), None)


def _moved(stand: Stand, offered: Offered, said: str) -> float | None:
    """The signed amount that `said_moved` said; None where it is none."""
    found = re.match(_NUMBER, said)
    if offered.moved is None or found is None:
        return None
    size = float(found[1])
    amounts = (size, -size)
    return next((a for a in amounts if said_moved(stand, offered.name, a) == said), None)


def size_typed(control: Control, said: str) -> str:
    """The figure as it stands in the text, where that is a number of turns; else nothing."""
    found = re.match(rf"{_TURNS}(?= turns?\b)", said) if control.unit == "turns" else None
    return found[0] if found else ""


def _amount(control: Control, said: str) -> float | None:
    plus, minus = (re.escape(way) for way in control.ways)
    unit = {"°": "°", "turns": " turns?", "starts": " starts?"}.get(control.unit, " mm")
    found = re.fullmatch(rf"({_TURNS}){unit} (?:({plus})|({minus}))", said)
    if found is None:
        return None
    try:
        size = float(sum(Fraction(part) for part in found[1].split()))
    except ZeroDivisionError:
        return None
    return math.copysign(size, 1 if found[2] else -1)
