"""The invented workshop: Lantern Street Camera Works and the cameras on its shelf.

Every name and number here is invented for examples and for learning; none is copied from a
real camera.
"""

from optics.body.gate.part import GatePart
from optics.body.standard.part import StandardPart
from optics.body.witness.part import WitnessPart
from optics.camera.camera import Turn
from optics.finding.part import DiagnosisPart
from optics.rangefinder.part import RangefinderPart
from optics.records.job import (
    BedPart,
    CameraPart,
    FrontCellPart,
    HelicoidPart,
    JobDocument,
    LensPart,
    ScalePart,
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

# The same cameras as jobs, with what was read of each part to learn from.
JOBS: dict[str, JobDocument] = {
    OSTRIN.name: JobDocument(
        camera=OSTRIN,
        workshop=WORKSHOP,
        # The ring slipped by a degree and a half.
        scale=ScalePart(
            marks="∞ = 1.4; 10 m = 6; 5 m = 10.5; 3 m = 16.7; 2 m = 24.7; 1.5 m = 32.9; 1 m = 50.3",
            depth_marks="f/16 = 19.2; f/8 = 9.6; f/4 = 4.8",
            limit="0.2",
            negative="24x36",
        ),
        standard=StandardPart(
            depths="top left = −0.121; −0.122; top right = 0.142; 0.141; bottom left = −0.139; "
            "−0.138; bottom right = 0.118; 0.119; middle = 0.001; 0.000",
            limit="0.005",
            frame="36 × 24",
            corners="44 × 34",
            screws="top left = 0.15; top right = 0.15; bottom right = 0.15; bottom left = 0.15",
            screws_apart="40 × 30",
        ),
        gate=GatePart(channel="0.20 ± 0.01"),
        witness=WitnessPart(
            marks="A = 0; B = 10; C = −14",
            present="A",
            error="6.47; 6.49; 6.48; 6.48",
            limit="0.015",
        ),
        rangefinder=RANGEFINDERS[OSTRIN.name],
        diagnosis=DiagnosisPart(picture="36 × 24"),
    ),
    CORVANE.name: JobDocument(
        camera=CORVANE,
        workshop=WORKSHOP,
        # Its 2 m mark is wrong.
        scale=ScalePart(
            marks="∞ = 0.1; 10 m = 10.5; 5 m = 21.4; 3 m = 36.5; 2 m = 59.1; 1.5 m = 76.7; "
            "1 m = 121.9",
            depth_marks="f/16 = 29.6; f/8 = 14.8; f/4 = 7.4",
            limit="0.3",
            negative="6x6",
        ),
        standard=StandardPart(
            depths="top left = 0.262; top right = 0.178; bottom left = −0.168; "
            "bottom right = −0.255; middle = 0.005",
            limit="0.005",
            frame="56 × 56",
            corners="50 × 50",
            screws="top = 0.2; bottom left = 0.1; bottom right = none",
            screws_apart="44 × 40",
        ),
        gate=GatePart(film="roll_with_paper", channel="0.25 ± 0.02"),
        witness=WitnessPart(
            marks="A = 0; B = 12", present="A", error="0.64; 0.66; 0.65", limit="0.015", starts="3"
        ),
        diagnosis=DiagnosisPart(picture="56 × 56"),
    ),
    TARNBROOK.name: JobDocument(
        camera=TARNBROOK,
        workshop=WORKSHOP,
        standard=StandardPart(
            depths="top left = 0.020; top right = 0.413; bottom left = −0.044; "
            "bottom right = 0.347; middle = 0.185",
            limit="0.005",
            frame="84 × 56",
            corners="60 × 50",
            screws="top left = 0.2; top right = 0.2; bottom right = 0.2; bottom left = 0.2",
            screws_apart="48 × 40",
        ),
        gate=GatePart(film="roll_with_paper", channel="0.27 ± 0.02"),
        rangefinder=RANGEFINDERS[TARNBROOK.name],
        diagnosis=DiagnosisPart(picture="56 × 84"),
    ),
}
