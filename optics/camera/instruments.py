"""What the usual instruments can be trusted to: default limits, every one editable."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Instrument:
    """A measuring instrument: limit in mm (± rectangular; None: the user must state it)."""

    key: str
    name: str
    limit: float | None
    source: str
    warning: str = ""


INSTRUMENTS: dict[str, Instrument] = {
    i.key: i
    for i in (
        Instrument(
            "depth_micrometer",
            "Depth micrometer",
            None,
            "no source at hand: take the limit from the maker's sheet",
        ),
        Instrument(
            "dial_over_10",
            "Dial gauge 0.01 mm, over 10 mm",
            0.015,
            "JIS B 7503:2011, extract",
        ),
        Instrument(
            "dial_tenth_turn",
            "Dial gauge 0.01 mm, within a tenth of a turn",
            0.005,
            "JIS B 7503:2011, extract",
        ),
        Instrument(
            "outside_micrometer",
            "Outside micrometer 0–50 mm",
            0.004,
            "DIN 863, extract",
        ),
        Instrument("caliper", "Caliper", 0.02, "DIN 862, extract; JIS B 7507:2016"),
        Instrument(
            "caliper_depth_rod",
            "Caliper's depth rod",
            0.04,
            "DIN 862, extract: the caliper's 0.02 mm and 0.02 mm more for the rod",
            "A caliper's depth rod cannot verify ±0.02 mm: use a depth micrometer or a dial gauge.",
        ),
        Instrument("other", "Other: state its limit", None, "stated by the user"),
    )
}
