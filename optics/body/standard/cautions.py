"""What can go wrong when a standard comes off, goes back, or is taped and glued."""

from optics.camera.cautions import SOLVENTS, Caution

STANDARD_OFF = Caution(
    "standard_off",
    "Taking the standard off",
    "Struts and shutter linkages hold springs under load: wear eye protection, note how each "
    "spring sits, ease it off with its end held, and keep shims in order under their screws.",
)
ADHESIVES = Caution(
    "adhesives",
    "Tape, lacquer and adhesive",
    "Tape can lift old lacquer and leather: try it where it does not show. Lacquered screws want "
    "a drop of solvent and time, not force. Old adhesive may hold lead or asbestos: do not sand "
    "or grind it, and do not glue shims that may have to come out again.",
)
CAUTIONS: tuple[Caution, ...] = (STANDARD_OFF, ADHESIVES, SOLVENTS)
