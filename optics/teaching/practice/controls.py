"""What hands can do to a practice camera: each control, its two ways, and how nearly it is set."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from optics.camera.camera import Bed, Camera, FrontCell, Helicoid, Turn
from optics.camera.cautions import SOLVENTS, SPRINGS, SUN, Caution
from optics.camera.instruments import INSTRUMENTS
from optics.camera.true_lens import marked_focal, pitch_of
from optics.finding.causes.ring import RING
from optics.measure.places import CORNERS
from optics.readings.practised import film_per_degree
from optics.teaching.practice.levels import State
from optics.teaching.practice.stand import Stand

_TURNS = (str(Turn.CLOCKWISE), str(Turn.COUNTER_CLOCKWISE))
_PACK = ("thicker", "thinner")
# A feeler, a leaf or a slide is set to 0.01 mm (common practice, no source).
_FEELER = 0.01
# The height screw: rad at the eye for a whole turn, 8′ (invented).
HEIGHT_PER_TURN = math.radians(8 / 60)
SCALE = "make the scale"


@dataclass(frozen=True)
class Control:
    """Something to turn, move or shim.

    `name` is what is done, `unit` what the amount is in, `ways` the words for a plus and a
    minus amount. `effects` is what one plus unit adds to each fault; `limit` how far a hand
    misses at most either way, in the unit; `height` (rad) what a unit does to the height.
    """

    name: str
    unit: str
    ways: tuple[str, str]
    effects: Mapping[str, float]
    limit: float
    height: float = 0.0
    is_whole: bool = False
    cautions: tuple[Caution, ...] = ()

    def done(self, state: State, amount: float, miss: float) -> State:
        """The camera after a signed amount, missed by a part `miss` of the limit (−1 to 1)."""
        really = amount + miss * self.limit
        practice = state.practice
        if self.name == SCALE:
            practice = practice.engraved_for(marked_focal(practice.camera) + amount)
        for name, effect in self.effects.items():
            practice = practice.with_fault(name, really * effect)
        return State(practice, state.height + really * self.height)


def controls(stand: Stand) -> dict[str, Control]:
    """Every control of the camera by its name, in the order of the bench."""
    return {control.name: control for control in _controls(stand)}


def _controls(stand: Stand) -> Iterator[Control]:
    camera = stand.camera
    yield Control(
        "move the film",
        "mm",
        ("nearer the lens", "farther from the lens"),
        {"gate": -1.0},
        _FEELER / 2,
        cautions=(SPRINGS,),
    )
    yield from _standard_screws(stand)
    if isinstance(camera.focusing, Helicoid) and pitch_of(camera):
        yield _thread(camera, camera.focusing)
    leaf = INSTRUMENTS["outside_micrometer"].limit or 0.0
    yield Control("shim the lens seat", "mm", _PACK, {"seat": 1.0}, leaf, cautions=(SOLVENTS,))
    yield from _turned(stand)
    yield Control(SCALE, "mm", ("longer", "shorter"), {"focal": -1.0}, _FEELER / 2)
    yield from _screws(stand)


def _standard_screws(stand: Stand) -> Iterator[Control]:
    """A leaf under one of four screws: the plane nearest to the four places is what results."""
    to_side, to_top = stand.at_hand.standard_screws
    for corner, (side, up) in CORNERS.items():
        effects = {"seat": 0.25, "tilt_x": side / (4 * to_side), "tilt_y": up / (4 * to_top)}
        name = f"shim the standard, {corner} screw,"
        yield Control(name, "mm", _PACK, effects, _FEELER / 2)


def _thread(camera: Camera, focusing: Helicoid) -> Control:
    # Entered farther on in the extending sense, the thread has less far to go out.
    out = -pitch_of(camera) if focusing.extends is Turn.CLOCKWISE else pitch_of(camera)
    return Control(
        "enter the thread",
        "starts",
        _TURNS,
        {"start": out},
        0.0,
        is_whole=True,
        cautions=(SOLVENTS, SPRINGS),
    )


def _turned(stand: Stand) -> Iterator[Control]:
    """The stop, and the barrel under its ring (or the pointer of a bed's scale)."""
    camera = stand.camera
    focusing = camera.focusing
    if isinstance(focusing, Bed):
        away = ("away from the film", "towards the film")
        yield Control(
            "move the infinity stops", "mm", away, {"stop": 1.0}, _FEELER / 2, cautions=(SPRINGS,)
        )
        yield Control("move the scale's pointer", "mm", away[::-1], {"ring": 1.0}, _FEELER / 2)
        return
    per = film_per_degree(camera) * (1 if focusing.extends is Turn.CLOCKWISE else -1)
    # Half the step that the plan takes a hand to be able to set.
    limit = RING.smallest(camera, stand.at_hand) / 2 / abs(per)
    part = "front cell" if isinstance(focusing, FrontCell) else "barrel"
    yield Control("move the infinity stop", "°", _TURNS, {"stop": per}, limit, cautions=(SPRINGS,))
    yield Control(f"turn the {part}", "°", _TURNS, {"ring": per}, limit, cautions=(SOLVENTS,))


def _screws(stand: Stand) -> Iterator[Control]:
    if stand.finder is None:
        return
    # A screw is set to a sixteenth of a turn, and missed by half of that.
    yield Control(
        "turn the height screw",
        "turns",
        _TURNS,
        {},
        1 / 32,
        height=HEIGHT_PER_TURN,
        cautions=(SUN,),
    )
    for name, fault, screw in (
        ("infinity", "zero", stand.at_hand.zero_screw),
        ("near", "gain", stand.at_hand.gain_screw),
    ):
        if screw is not None:
            yield Control(
                f"turn the {name} screw",
                "turns",
                _TURNS,
                {fault: screw.per_turn},
                1 / 32,
                cautions=(SUN,),
            )
