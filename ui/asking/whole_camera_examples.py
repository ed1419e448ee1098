"""Readings of the workshop's cameras to start from; cameras and figures are invented."""

from dataclasses import dataclass, field

from optics.records.lantern_street import CORVANE, OSTRIN, TARNBROOK


@dataclass(frozen=True)
class Row:
    """A reading as it stands at first: where, with what, and the texts of its fields."""

    place: str
    kind: str = ""
    texts: dict[str, str] = field(default_factory=dict)


GAUGED, OFF_MIDDLE = "register (depth gauge)", "corner depth"
STOP, INFINITY, NEAR = "at the infinity stop", "at the ∞ mark", "at a near mark"
FILM_INFINITY, FILM_NEAR = "on film, at the ∞ mark", "on film, at a near mark"
GATE, FINDER = "at the film gate", "through the rangefinder"
SHARP, TURNED = "a target is sharp at …", "ring turned until sharp"
COLLIMATOR, RULER = "collimator's reticle shifted", "slanting ruler on film"

# A slipped ring and a rangefinder set too far out; two causes that look alike; a standard that
# leans and a stop out of place.
EXAMPLES: dict[str, tuple[Row, ...]] = {
    OSTRIN.name: (
        Row(
            GAUGED, "", {"measured": "28.803; 28.804; 28.802", "nominal": "28.8", "limit": "0.015"}
        ),
        Row(STOP, TURNED, {"turned": "0; −0.25; 0; 0.25", "limit": "0.25"}),
        Row(INFINITY, TURNED, {"turned": "2.75; 2.5; 2.5; 2.75", "limit": "0.25"}),
        Row(
            NEAR,
            SHARP,
            {"mark": "1.5", "sharp_at": "1.628; 1.626; 1.620; 1.625 m", "limit": "2 mm"},
        ),
        Row(
            FINDER, "", {"pairs": "∞ = 11.4; 10.9; 11.1; 1 m = 0.932; 0.929; 0.933", "tape": "2 mm"}
        ),
    ),
    CORVANE.name: (
        Row(INFINITY, TURNED, {"turned": "4; 4; 3.25; 3.75", "limit": "0.25"}),
        Row(
            NEAR, SHARP, {"mark": "2", "sharp_at": "2.138; 2.140; 2.115; 2.131 m", "limit": "2 mm"}
        ),
    ),
    TARNBROOK.name: (
        Row(
            GAUGED,
            "",
            {"measured": "104.198; 104.206; 104.202", "nominal": "104.2", "limit": "0.015"},
        ),
        *(
            Row(
                OFF_MIDDLE,
                "",
                {"place": place, "measured": text, "nominal": "104.2", "limit": "0.015"},
            )
            for place, text in (
                ("top left", "104.33"),
                ("top right", "104.29"),
                ("bottom left", "104.11"),
                ("bottom right", "104.07"),
            )
        ),
        Row(STOP, SHARP, {"sharp_at": "67; 69; 70; 69 m", "limit": "0.2 m"}),
        Row(NEAR, SHARP, {"mark": "3", "sharp_at": "3.01; 2.995; 3.005; 3.02 m", "limit": "2 mm"}),
    ),
}
