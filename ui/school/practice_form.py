"""The practice bench's controls: which camera, what to read, what to adjust."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import streamlit as st

from optics.moves import Control
from optics.readings.practised import Offered
from optics.readings.readings import Judged, Moved
from optics.records.practice_shelf import SHELF
from optics.relation import Range
from optics.teaching.practice import wording
from optics.teaching.practice.levels import Level
from optics.teaching.practice.sight import rest_of
from optics.teaching.practice.sitting import Action, Adjust, Read, Sitting, leaves_under
from optics.teaching.practice.sitting_text import said_moved, size_typed, ways_of
from optics.typed import fields
from optics.typed.fields import Typed
from optics.units import format_length
from ui.asking.fields import FieldEntry, choice, field

SEED = fields.figure("seed", "count", example="11")
# How far a slider racks either way, its step and how it is said: what is moved decides. A target
# is racked by parts of its distance.
_RACK = {
    Moved.RING: (8.0, 0.1, "%+.1f°"),
    Moved.RETICLE: (12.0, 0.1, "%+.1f mm"),
    Moved.TARGET: (0.2, 0.002, "%+.3f m"),
    Moved.POINTER: (1.0, 0.01, "%+.2f mm"),
}
Do = Callable[[Action], None]


@dataclass(frozen=True)
class Look:
    """What is looked at, and where ring, reticle, target or pointer stand."""

    offered: Offered
    amount: float


def camera_choice(draw: Callable[[str, Level, int], None]) -> None:
    """Ask for camera, level and seed, with a button that draws the camera."""
    first, second = st.columns([3, 2])
    with first:
        name = choice("practice camera (invented)", list(SHELF), "practice.camera")
        words = {level.words: level for level in Level}
        level = words[choice("level", list(words), "practice.level")]
    with second:
        seed = field(SEED, "practice.seed", typed="1", hint="the same for a whole class")
        if seed.is_good:
            number = int(SEED.read(seed.text).value)
            st.button(
                "Draw this camera", key="practice.draw", on_click=draw, args=(name, level, number)
            )


def reading_choice(sitting: Sitting) -> Offered:
    """Ask what to read."""
    offers = {wording.offered_words(o): o for o in sitting.stand.offered.values()}
    first = next(i for i, o in enumerate(offers.values()) if o.moved is not None)
    name = sitting.stand.camera.name
    return offers[choice("what to read", list(offers), f"practice.{name}.reading", first)]


def look_form(sitting: Sitting, offered: Offered) -> Look | None:
    """Ask where to set what is moved: roughly by typing, finely by the slider."""
    assert offered.moved is not None
    camera = sitting.state.practice.camera
    rest = rest_of(camera, offered)
    key = f"practice.{camera.name}.{offered.name}"
    quantity, times = _typed(offered)
    reach, step, said = _RACK[offered.moved]
    if offered.moved is Moved.TARGET:
        reach, step = reach * rest, step * rest
    left, right = st.columns([2, 3])
    with left:
        start = field(quantity, f"{key}.from", typed=f"{rest:g}", hint=_ways(sitting, offered))
    with right:
        rack = st.slider(
            "And rack it by",
            -reach,
            reach,
            0.0,
            step,
            said,
            key=f"{key}.rack",
            persist_state="session",
        )
    if not start.is_good:
        return None
    value = float(quantity.read(start.text).value) * times
    if math.isinf(value):
        return None
    return Look(offered, round(value + rack, 4))


def _typed(offered: Offered) -> tuple[Typed, float]:
    """The quantity typed, and what its core unit is multiplied by."""
    match offered.moved:
        case Moved.RING:
            return fields.figure("ring at", "deg"), 180 / math.pi
        case Moved.TARGET:
            return fields.figure("target at", "m"), 1 / 1000
        case Moved.POINTER:
            return fields.figure("pointer at", "mm"), 1.0
        case Moved.RETICLE | None:
            return fields.figure("reticle at", "mm"), 1.0


def _ways(sitting: Sitting, offered: Offered) -> str:
    if offered.reading.judged is Judged.BY_RANGEFINDER:
        return "from the ∞ mark"
    if offered.moved is Moved.TARGET:
        return "from the film"
    return "+ {}, − {}".format(*ways_of(sitting.stand, offered))


def take_buttons(sitting: Sitting, offered: Offered, look: Look | None, do: Do) -> None:
    """Take what the eye judged, or what the instrument or five tries show."""
    row = st.container(horizontal=True, key="take")
    if look is not None:
        stands = said_moved(sitting.stand, offered.name, look.amount)
        row.button(
            f"Take this reading: {stands}",
            key="practice.judge",
            type="primary",
            on_click=do,
            args=(Read(offered.name, look.amount),),
        )
    words = "Take the reading" if offered.moved is None else "Read it for me: five tries"
    row.button(words, key="practice.read", on_click=do, args=(Read(offered.name),))


def adjust_form(sitting: Sitting, do: Do) -> Control:
    """Ask what to adjust, by how much and which way, with a button that does it."""
    names = {name[:1].upper() + name[1:]: c for name, c in sitting.controls.items()}
    first, second, third, fourth = st.columns([10, 5, 6, 4])
    camera = sitting.stand.camera.name
    with first:
        control = names[choice("what to adjust", list(names), f"practice.{camera}.control")]
    with second:
        entry, times = _amount(control)
    with third:
        way = choice("which way", control.ways, f"practice.way.{control.ways[0]}", note="")
    with fourth:
        st.html('<div class="label-space"></div>')
        if entry.is_good:
            read = entry.quantity.read(entry.text)
            size = float(read.value) * times
            signed = size if way == control.ways[0] else -size
            st.button(
                "Do it",
                key="practice.do",
                on_click=do,
                args=(Adjust(control.name, round(signed, 6), size_typed(control, read.echo)),),
            )
    return control


def _amount(control: Control) -> tuple[FieldEntry, float]:
    """The field for an amount, and what its core unit is multiplied by."""
    not_less = Range.at_least(0)
    quantity, typed, times = {
        "°": (fields.figure("by", "deg", not_less), "1", 180 / math.pi),
        "turns": (fields.figure("by", "turn", not_less), "1/8", 1 / math.tau),
        "starts": (fields.figure("by, starts", "count", Range.at_least(1)), "1", 1.0),
    }.get(control.unit, (fields.figure("by", "mm", not_less), "0.05", 1.0))
    return field(quantity, f"practice.amount.{control.unit}", typed=typed), times


def control_note(sitting: Sitting, control: Control) -> str:
    """What a unit of it does, how nearly a hand sets it, and the shims that are there."""
    said = [control.does, wording.miss_words(control)]
    if control.there is not None:
        there = leaves_under(sitting, control, len(sitting.actions))
        said.append(f"There now: {format_length(there)} of shim.")
    return " ".join(filter(None, said))
