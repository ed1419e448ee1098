"""What the classroom shows beside its drawings: answer, working, symbols, derivations, advice.

Formulas are set by the page's own typesetter, so these are Markdown with LaTeX in it; all else
is HTML from the words of the section.
"""

import re
from collections.abc import Mapping
from html import escape

from optics.relation import Formula, Quantity, Relation
from optics.teaching.classroom import shop
from optics.teaching.classroom.section import Section
from optics.teaching.classroom.sensitivity import nudge_line, nudges
from optics.theory import CATALOGUE, depth
from optics.theory.derivations import Derivation, Rule, derivations_of
from ui.answers.bench_panel import heading_html, list_html

_BEGINNINGS = {
    Rule.KNOWN: "Known",
    Rule.DRAWN: "Given",
    Rule.FOLLOWS: "So",
    Rule.SMALL: "Nearly",
    Rule.SLOPE: "Where it is least",
}


def idea_html(section: Section) -> str:
    """Why it is so, in a few sentences."""
    return f'<div class="idea"><p>{escape(section.idea)}</p></div>'


def answer_html(formula: Formula, answer: float) -> str:
    """The question, and its answer in shop units."""
    unknown = formula.form.unknown
    words, said = unknown.words, shop.said(unknown, answer)
    return (
        f'<section class="answer lesson"><p class="question">{escape(formula.relation.answers)}</p>'
        f'<p class="headline" role="status"><strong>{escape(unknown.plain)} = {escape(said)}'
        f'</strong> <span class="unsure">{escape(words)}</span>'
        '<a class="jump" href="#why">Why ↓</a></p></section>'
    )


def working_markdown(formula: Formula, values: Mapping[str, float]) -> str:
    """The relation as published, and the numbers put into the form that was used."""
    lines = [f"$$\n{formula.relation.latex}\n$$"]
    lines += [f"$$\n{line}\n$$" for line in formula.working(**values)]
    return "\n\n".join(lines)


def nudges_html(formula: Formula, values: Mapping[str, float]) -> str:
    """How far each input moves the answer."""
    lines = [nudge_line(n, formula.form.unknown) for n in nudges(formula, values)]
    return _group("How far the answer follows", list_html(lines)) if lines else ""


def advice_html(section: Section) -> str:
    """What to try, and the trap."""
    return _group("Try this", list_html(section.try_this)) + (
        f'<aside class="trap"><h2 class="small">⚠ A trap</h2><p>{escape(section.trap)}</p></aside>'
    )


def origin_html(relation: Relation) -> str:
    """Where a relation comes from and where it ends."""
    return (
        f'<p class="origin"><b>Source:</b> {escape(_in_words(relation.source))}. '
        f"<b>Limits:</b> {escape(_in_words(relation.limits))}{_stops_note(relation)}</p>"
    )


def _stops_note(relation: Relation) -> str:
    """Which f-number a typed stop counts with; empty where the exact one is what is asked."""
    if depth.f_number not in relation.quantities or relation in (
        depth.exact_f_number,
        depth.uniform_system,
    ):
        return ""
    return (
        " <b>Stops:</b> N counts as it is typed; scales, tables and exercises take the exact "
        "f-number of a mark, 11.31 for f/11."
    )


def _in_words(text: str) -> str:
    """The text with other relations' names as their titles have them."""
    return re.sub(
        r"[a-z]+(?:_[a-z]+)+",
        lambda found: found[0].replace("_", " ") if found[0] in CATALOGUE else found[0],
        text,
    )


def symbols_markdown(relation: Relation) -> str:
    """Each letter: what it means, in which unit, and between which figures."""
    rows = "\n".join(_symbol_row(quantity) for quantity in relation.quantities)
    return f"| letter | meaning | unit | range |\n|---|---|---|---|\n{rows}"


def _symbol_row(quantity: Quantity) -> str:
    unit = quantity.unit or "a number"
    return f"| ${quantity.latex}$ | {quantity.meaning} | {unit} | {shop.range_of(quantity)} |"


def derivations_markdown(relation: Relation) -> str:
    """The derivations that arrive at a relation, line by line; empty where there is none."""
    return "\n\n".join(map(_derivation, derivations_of(relation.name)))


def _derivation(derivation: Derivation) -> str:
    lines = [
        f"**{number} · {_BEGINNINGS[line.rule]}{_from(line.uses)}.** {line.words}"
        f"\n\n$$\n{latex}\n$$"
        for number, (line, latex) in enumerate(
            zip(derivation.lines, derivation.latex, strict=True), start=1
        )
    ]
    besides = "; ".join(f"${q.latex}$ {q.meaning}" for q in derivation.others)
    return f"### {derivation.title}\n\nBesides: {besides}.\n\n" + "\n\n".join(lines)


def _from(uses: tuple[int, ...]) -> str:
    return f", from {', '.join(map(str, uses))}" if uses else ""


def _group(words: str, body: str) -> str:
    return f'<section class="told">{heading_html(words)}{body}</section>'
