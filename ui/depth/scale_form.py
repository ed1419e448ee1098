"""What was measured on a ring: its marks, its depth marks, and how; and the camera's negative."""

from optics.camera.confusion import FORMATS, Format
from optics.records.job import ScalePart
from ui.asking.camera_form import example_of
from ui.asking.part_form import PartForm


def scale_form(name: str) -> PartForm:
    """Draw the fields of the scale."""
    form = _form(name)
    form.draw("along", "reference", "marks", "depth_marks", "limit", "across", "negative")
    return form


def choose_negative(name: str) -> Format:
    """Ask for the camera's negative; its conventions for blur go with it."""
    form = _form(name, "negative")
    form.draw(width=12)
    return FORMATS[form.text_at("negative")]


def _form(name: str, *only: str) -> PartForm:
    return PartForm(ScalePart, f"{name}.scale", example_of(name, "scale"), only=only)
