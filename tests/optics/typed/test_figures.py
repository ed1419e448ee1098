"""The example that a field offers is one that it takes: of its unit and of a usual size."""

import importlib
import math
import pkgutil
from collections.abc import Iterator
from types import ModuleType
from typing import Any

import pytest

import optics
import ui
from optics.errors import ShimwrightError
from optics.typed import fields
from optics.typed.fields import Typed

# Smallest and largest (mm) that a quantity of such words has on a bench; common practice, no
# source. The first words that are found decide.
SIZES = (
    ("limit", 0.001, 250),
    ("hiatus", 0.1, 20),
    ("register", 15, 150),
    ("focal length", 20, 500),
    ("front cell to film", 30, 250),
    ("rangefinder base", 15, 120),
    ("lead", 3, 60),
    ("diameter", 20, 120),
    ("circle of confusion", 0.01, 0.2),
    ("tolerance", 0.005, 0.2),
    ("print diagonal", 100, 1000),
    ("viewing distance", 200, 1000),
    ("target", 10, 1e6),
)


def modules() -> Iterator[ModuleType]:
    """Every module that may have typed fields; a page draws itself when it is imported."""
    for package in (optics, ui):
        for found in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            if not found.name.startswith(("ui.pages.", "ui.server.")):
                yield importlib.import_module(found.name)


def typed_fields() -> dict[str, Typed]:
    """Every typed field there is, by its words."""
    found = (one for module in modules() for one in vars(module).values())
    return {one.words: one for one in found if isinstance(one, Typed)}


FIELDS = typed_fields()


def values_of(read: Any) -> list[float]:
    """The figures read from a text that holds one or several; of pairs none."""
    several = read if isinstance(read, tuple) else (read,)
    return [one.value for one in several if hasattr(one, "value")]


@pytest.mark.parametrize("words", FIELDS)
def test_a_field_takes_its_own_example(words: str) -> None:
    """What a field says one could type is understood by that very field, and echoed."""
    typed = FIELDS[words]
    assert typed.examples, "give it one where it is declared"
    for example in typed.examples:
        assert typed.echo(typed.read(example))


@pytest.mark.parametrize("words", FIELDS)
def test_a_refusal_offers_the_example_of_its_field(words: str) -> None:
    """Whatever is typed in vain, what could be typed instead is of the quantity asked for."""
    typed = FIELDS[words]
    refusals = (refusal_of(typed, nonsense) for nonsense in ("abc", "--5", ""))
    offering = [said for said in refusals if "type for example" in said]
    assert all(said.endswith(f"type for example {typed.example}.") for said in offering), offering


def refusal_of(typed: Typed, text: str) -> str:
    """What a field says to a text; nothing where it takes it."""
    try:
        typed.read(text)
    except ShimwrightError as refusal:
        return str(refusal)
    return ""


@pytest.mark.parametrize("words", [w for w, one in FIELDS.items() if one.unit == "mm"])
def test_an_example_in_mm_is_of_a_usual_size(words: str) -> None:
    """No register of 0.05 mm and no tolerance of a metre is offered."""
    for example in FIELDS[words].examples:
        values = [abs(value) for value in values_of(FIELDS[words].read(example))]
        least, most = next(((a, b) for part, a, b in SIZES if part in words), (0.001, 300))
        assert all(least <= value <= most for value in values), (words, example)


@pytest.mark.parametrize("words", [w for w, one in FIELDS.items() if one.unit == "m"])
def test_a_distance_is_offered_in_metres(words: str) -> None:
    """An example of a distance lies between half a metre and infinity."""
    for example in FIELDS[words].examples:
        for value in values_of(FIELDS[words].read(example)):
            assert 500 <= value <= math.inf, (words, example)


def test_a_register_is_not_offered_in_hundredths() -> None:
    """A register that cannot be read is answered with a register, not with 0.05 mm or 1/8 in."""
    with pytest.raises(ShimwrightError, match=r"type for example 28\.8 mm\.$"):
        fields.NOMINAL_REGISTER.read("abc")


def test_what_was_typed_still_decides_the_example() -> None:
    """Where the text has two meanings, both are still offered in its own figures."""
    with pytest.raises(ShimwrightError, match=r"type for example 1\.234 or 1234\.$"):
        fields.FOCAL_LENGTH.read("1,234")
