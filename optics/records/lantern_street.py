"""The invented workshop: Lantern Street Camera Works and the cameras on its shelf.

Every name and number here is invented for examples and for learning; none is copied from a
real camera.
"""

from optics.camera.camera import Turn
from optics.rangefinder.part import RangefinderPart
from optics.records.job import (
    BedPart,
    CameraPart,
    FrontCellPart,
    HelicoidPart,
    LensPart,
    WorkshopPart,
)

OSTRIN = CameraPart(
    name="Ostrin 35",
    lens=LensPart(focal_length="47 mm", full_aperture="f/2.8", hiatus="0.6 mm"),
    focusing=HelicoidPart(
        kind="helicoid",
        lead="18 mm",
        starts="6",
        extends=Turn.COUNTER_CLOCKWISE,
        ring_diameter="52 mm",
    ),
    circle_of_confusion="0.03 mm",
)
CORVANE = CameraPart(
    name="Corvane 6×6",
    lens=LensPart(focal_length="75 mm", full_aperture="f/3.5", hiatus="−2 mm"),
    focusing=FrontCellPart(
        kind="front cell",
        group_focal_length="51 mm",
        lead="9 mm",
        extends=Turn.COUNTER_CLOCKWISE,
        cell_to_film="92 mm",
        ring_diameter="36 mm",
    ),
    circle_of_confusion="0.05 mm",
)
TARNBROOK = CameraPart(
    name="Tarnbrook 6×9",
    lens=LensPart(focal_length="105 mm", full_aperture="f/3.5", hiatus="1.5 mm"),
    focusing=BedPart(kind="bed"),
    circle_of_confusion="0.06 mm",
)
NEGATIVES = {OSTRIN.name: "24x36", CORVANE.name: "6x6", TARNBROOK.name: "6x9"}
CAMERAS: tuple[CameraPart, ...] = (OSTRIN, CORVANE, TARNBROOK)
WORKSHOP = WorkshopPart(drawer="0.02 × 6; 0.03 × 4; 0.05 × 6; 0.1 × 6; 0.2 × 3")
RANGEFINDERS = {
    OSTRIN.name: RangefinderPart(
        base="41 mm",
        base_to_film="24 mm",
        magnification="0.6",
        near_end="0.9 m",
        pairs="∞ = 22; 23; 22.5; 3 m = 2.6; 1 m = 0.985",
        tape="5 mm",
    ),
    TARNBROOK.name: RangefinderPart(
        base="50 mm",
        base_to_film="30 mm",
        magnification="0.5",
        near_end="1.5 m",
        pairs="∞ = 35; 38; 3 m = 2.56; 1.5 m = 1.42",
        tape="5 mm",
    ),
}
