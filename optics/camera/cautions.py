"""Cautions, shown where the step is. Local rules and licensed practice come first."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Caution:
    """What can go wrong at a step, and the usual care."""

    key: str
    heading: str
    text: str


SUN = Caution(
    "sun",
    "The Sun",
    "Never look at the Sun, or near it, through lens, finder, ground glass or collimator; "
    "choose an infinity target well away from it.",
)
SPRINGS = Caution(
    "springs",
    "Springs and stops",
    "Struts, shutters and stops hold springs under load: wear eye protection and ease them off.",
)
SOLVENTS = Caution(
    "solvents",
    "Solvents",
    "Naphtha and lighter fluid flash far below room temperature and their vapour lies low: "
    "ventilate, no flame or spark, never in an ultrasonic bath. Read the safety data sheet; "
    "avoid n-hexane and chlorinated degreasers.",
)
FLASH = Caution(
    "flash",
    "Flash circuits",
    "A flash capacitor can hold 250 to 330 V for days: discharge it through a resistor, "
    "never by a short.",
)
OLD_GLASS = Caution(
    "old_glass",
    "Old glass and old glue",
    "Some old glass contains thorium, and old adhesive or lamp wiring may hold lead or "
    "asbestos: do not grind, polish or sand.",
)
LOCAL_RULES = "Local rules and licensed practice come before anything said here."
