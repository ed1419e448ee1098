"""Fields that have other keys now, so that what was typed in them before stands there still.

A key is its field's place in the job, below the name of a camera; not every older one was.
"""

import re
from collections.abc import Iterator, Mapping

_COMPENSATOR, _CAM = r"\1.rangefinder.compensator", r"\1.rangefinder.cam"
_OLDER: tuple[tuple[str, str], ...] = (
    (r"(.+)(?<!\.scale)\.negative", r"\1.scale.negative"),
    (r"(.+)\.scale\.from", r"\1.scale.reference"),
    (r"(.+)\.depth\.from", r"\1.depth.measured_from"),
    (r"(.+)\.budget\.(\w+)", r"\1.budget.terms.\2"),
    (r"(.+)\.rangefinder\.read\.(\w+)", r"\1.rangefinder.\2"),
    (r"(.+)\.rangefinder\.sheet", r"\1.rangefinder.sheet.sheet"),
    (r"(.+)\.rangefinder\.compensator\.(focal_length)", rf"{_COMPENSATOR}.swung lens.\2"),
    (
        r"(.+)\.rangefinder\.compensator\.(focal_length|deviation)",
        rf"{_COMPENSATOR}.sliding wedge.\2",
    ),
    (
        r"(.+)\.rangefinder\.compensator\.(index|wedge_angle)",
        rf"{_COMPENSATOR}.counter-turning wedges.\2",
    ),
    (r"(.+)(?<!\.rangefinder)\.cam\.law", rf"{_CAM}.body.kind"),
    (r"(.+)(?<!\.rangefinder)\.cam\.straight\.(\w+)", rf"{_CAM}.body.a straight follower.\2"),
    (r"(.+)(?<!\.rangefinder)\.cam\.body\.(\w+)", rf"{_CAM}.body.a lens it was cut for.\2"),
    (r"(.+)(?<!\.rangefinder)\.cam\.(?!law)(\w+)", rf"{_CAM}.\2"),
    (r"(.+)\.whole\.suspect", r"\1.diagnosis.suspects.0.cause"),
    (r"(.+)\.whole\.suspect\.(.+)", r"\1.diagnosis.suspects.0.\2"),
    (
        r"(.+)\.whole\.(picture|infinity_screw|near_screw|standard_screws|seen_blur|most_causes)",
        r"\1.diagnosis.\2",
    ),
)
# Rows were numbered from one.
_ROW = re.compile(r"(.+)\.rangefinder\.(round|apart)([0-9]+)\.(\w+)")
_ROWS = {"round": "rounds", "apart": "apart"}
# How a camera focuses was the only kind that stood right below its name.
_KIND = re.compile(r"(.+)(?<!\.focusing)(?<!\.body)(?<!\.compensator)\.kind")
_OF_NO_CAMERA = ("class.", "exercises.", "practice.", "record", "library.", "jobs.")


def lifted(texts: Mapping[str, str]) -> dict[str, str | None]:
    """What changes of kept texts: those of older keys stand under today's, None under theirs.

    What was typed under today's key already stays.
    """
    changes: dict[str, str | None] = {}
    for key, text in texts.items():
        for today in () if key.startswith(_OF_NO_CAMERA) else _keys_of_today(key):
            changes |= {key: None} | ({} if today in texts else {today: text})
    return changes


def _keys_of_today(key: str) -> Iterator[str]:
    """The keys that an older one stands for; none for one of today."""
    if row := _ROW.fullmatch(key):
        yield f"{row[1]}.rangefinder.{_ROWS[row[2]]}.{int(row[3]) - 1}.{row[4]}"
    if kind := _KIND.fullmatch(key):
        yield f"{kind[1]}.focusing.kind"
    for older, today in _OLDER:
        if found := re.fullmatch(older, key):
            yield found.expand(today)
