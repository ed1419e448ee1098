"""The film gate put right: film brought to where the ground glass is."""

from optics.camera.cautions import SPRINGS
from optics.moves.record import Control, Move
from optics.moves.setting import FEELER, Slide

_FILM = Control(
    "move the film",
    "moved the film",
    "mm",
    ("nearer the lens", "farther from the lens"),
    {"gate": -1.0},
    FEELER / 2,
    cautions=(SPRINGS,),
)
GATE = Move(
    name="gate",
    title="Film gate",
    order=10,
    puts_right=("gate",),
    tool="depth gauge and feelers",
    controls=(_FILM,),
    make=Slide(
        "Bring the film {said} {way} by its rails or pressure plate.",
        "The film lies within 0.01 mm of its place: leave it alone.",
        "setting of the gate",
    ),
    smallest=FEELER,
    cautions=_FILM.cautions,
)
