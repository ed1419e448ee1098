"""The answer as the page shows it: every word from the results, every colour from the theme."""

from collections.abc import Iterable
from html import escape

from optics.camera.cautions import LOCAL_RULES, Caution

HOW_TO_TYPE = (
    "Type figures as you would write them: 18,7 m, 3 ft 6, 1/8 in, 2 thou, ∞; several tries as "
    "18; 18.7; 19.5. Distances are from the film plane."
)


def waiting_html(problems: Iterable[str]) -> str:
    """What must be entered or mended before there is an answer."""
    items = "".join(f"<li>{escape(p)}</li>" for p in problems)
    return (
        '<section class="answer waiting"><div class="headline" role="status">'
        '<h2>Still needed</h2><a class="jump" href="#still-needed">List ↓</a></div>'
        f'<ul id="still-needed">{items}</ul><p>{HOW_TO_TYPE}</p></section>'
    )


def group_html(words: str) -> str:
    """The heading of a group of fields."""
    return f'<h2 class="group">{escape(words)}</h2>'


def cautions_html(cautions: Iterable[Caution]) -> str:
    """The cautions that belong to this reading and these remedies."""
    items = "".join(f"<li><b>{escape(c.heading)}.</b> {escape(c.text)}</li>" for c in cautions)
    return (
        '<aside class="care"><h2 class="small">⚠ Take care</h2>'
        f"<ul>{items}<li>{escape(LOCAL_RULES)}</li></ul></aside>"
    )
