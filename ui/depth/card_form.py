"""The witness card's fields: ring, marks and paper."""

from dataclasses import replace
from typing import Annotated, Any

from optics.body.witness import Thread
from optics.body.witness import part as parts
from optics.camera.camera import Bed
from optics.drawing.page import Sheet
from optics.records.lantern_street import CAMERAS
from optics.sheets.witness_card import witness_card
from optics.typed import fields
from optics.typed.ask import Ask
from optics.typed.part import Line, optional_value, value
from ui.asking.part_form import PartForm
from ui.body.witness_form import witness_form
from ui.depth.sheet_form import Made, PrintedPart, SheetWishes, printed

_RINGS: dict[str, Any] = {
    camera.name: getattr(camera.focusing, "ring_diameter", None) for camera in CAMERAS
}


class MarksCardPart(PrintedPart):
    """What the witness card needs beside the marks."""

    ring: Annotated[str, fields.RING_DIAMETER, Ask(hint="that bears the marks", width=6)]
    parted_at: (
        Annotated[
            str,
            parts.PARTED_AT,
            Ask("threads part at", "if known, clockwise from the top", width=6),
        ]
        | None
    ) = None
    job: Annotated[Line, Ask(hint="name or number; the camera's if empty", width=12)] = ""


def card_form(name: str) -> SheetWishes:
    """Draw the fields; the card for a camera once they are understood."""
    # The marks are those of the starts: one barrel, one text.
    marks = witness_form(name, "marks")
    form = PartForm(MarksCardPart, f"{name}.card", {"ring": _RINGS.get(name)})
    form.draw("ring", "parted_at", "job")
    typed = marks.text_at("marks")

    def drawn(part: MarksCardPart, made: Made) -> Sheet:
        camera = made.camera
        return witness_card(
            value(fields.RING_DIAMETER, part.ring),
            parts.marks_in(typed),
            replace(made.signature, title=part.job or camera.name),
            thread=None if isinstance(camera.focusing, Bed) else Thread.of(camera),
            parted_at=optional_value(parts.PARTED_AT, part.parted_at),
        )

    wishes = printed(form, MarksCardPart, name, drawn)
    return SheetWishes([*marks.problems, *wishes.problems], wishes.draw)
