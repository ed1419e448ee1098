"""What the measured scale tells, as the page shows it."""

from html import escape

from optics.bench import scale_wording as wording
from optics.bench.confusion import FORMATS, conventions
from optics.bench.depth_marks import ConfusionFound
from optics.bench.scale_check import ScaleCheck
from optics.units import format_angle, format_distance, format_length


def scale_html(check: ScaleCheck, confusion: ConfusionFound | None, negative: str) -> str:
    """Verdict, explanations by weight, marks, and the maker's circle of confusion."""
    return (
        f'<section class="answer" aria-live="polite">'
        f'<p class="headline scale">{escape(wording.scale_headline(check))}</p>'
        f"{_explanations(check)}{_marks(check)}{_fitted(check)}"
        f"{_confusion(confusion, check, negative)}</section>"
    )


def _explanations(check: ScaleCheck) -> str:
    rows = "".join(
        f'<tr><td class="weight"><i style="width:{e.weight:.0%}"></i></td>'
        f"<td>{escape(wording.explanation_line(check, e))}</td></tr>"
        for e in check.explanations
    )
    return (
        "<table><thead><tr><th>weight</th><th>what could explain the marks</th></tr></thead>"
        f"<tbody>{rows}</tbody></table>"
    )


def _marks(check: ScaleCheck) -> str:
    rows = "".join(
        f"<tr><th>{format_distance(m.distance)}</th><td>{format_angle(m.residual)}</td>"
        f"<td>{'' if m.arc is None else format_length(m.arc)}</td>"
        f"<td>{format_length(m.at_film, places=3)}</td>"
        f"<td>{'▲ disagrees' if m.disagrees else 'agrees'}</td></tr>"
        for m in check.as_it_stands.marks
    )
    return (
        "<table><thead><tr><th>mark</th><th>off by</th><th>along the edge</th>"
        f"<th>at the film</th><th></th></tr></thead><tbody>{rows}</tbody></table>"
        '<p class="quiet">Plus: towards the near end of the scale; set there, the lens is too far '
        "out.</p>"
    )


def _fitted(check: ScaleCheck) -> str:
    lines = [wording.both_line(check)]
    if check.fit is not None:
        lines = [wording.fit_line(check.fit), wording.wrong_line(check.fit), *lines]
    return "".join(f"<p>{escape(line)}</p>" for line in lines)


def _confusion(found: ConfusionFound | None, check: ScaleCheck, negative: str) -> str:
    if found is None:
        return ""
    size = next(f for f in FORMATS.values() if f.name == negative)
    known = conventions(size, check.camera.lens.focal_length)
    lines = [wording.confusion_line(found, known), *map(wording.depth_mark_line, found.marks)]
    items = "".join(f"<p>{escape(line)}</p>" for line in lines)
    return f'<h2 class="small">Depth marks</h2>{items}'
