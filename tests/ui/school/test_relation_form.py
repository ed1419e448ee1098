"""Names, keys and slider places of the classroom's forms."""

import pytest

from optics.teaching.classroom.sections import LENS, SECTIONS
from optics.theory import CATALOGUE
from optics.theory.lens import film_distance, unit_focusing
from ui.school.relation_form import (
    field_key,
    find_key,
    formulas_of,
    place_of,
    quantity_field,
    slider_places,
    title_of,
    unknown_of,
)


def test_titles_tell_relations_apart() -> None:
    """No two relations of a section, and no two unknowns of a relation, have one name."""
    for section in SECTIONS:
        titles = [title_of(CATALOGUE[name]) for name in section.relations]
        assert len(set(titles)) == len(titles)
    for relation in CATALOGUE.values():
        unknowns = [unknown_of(formula) for formula in relation.formulas]
        assert len(set(unknowns)) == len(unknowns)
        assert all(
            words.startswith(f.form.unknown.plain)
            for words, f in zip(unknowns, relation.formulas, strict=True)
        )


def test_both_roots_can_be_asked_for() -> None:
    """The two places where a lens is sharp are two things to find, the camera's first."""
    words = [unknown_of(formula) for formula in formulas_of(LENS, unit_focusing)][:2]
    assert words == [
        "x · extension of the lens, nearer the film",
        "x · extension of the lens, nearer the subject",
    ]


def test_field_belongs_to_the_quantity() -> None:
    """Two relations of one section share a field, two sections do not."""
    assert field_key(LENS, "focal_length") != field_key(SECTIONS[1], "focal_length")
    assert find_key(LENS, unit_focusing) != field_key(LENS, "unit_focusing")


def test_field_asks_in_the_shops_unit() -> None:
    """A distance is asked for in metres, under its meaning and its letter."""
    asked = quantity_field(film_distance)
    assert asked.words == "distance from the film plane to the subject D"
    assert asked.unit == "m"
    assert asked.echo(asked.read("3 ft 6")) == "1.067 m = 3 ft 6 in"


@pytest.mark.parametrize(
    ("text", "neighbours"),
    [("1,3 m", ("1.2 m", "1.5 m")), ("200 m", ("100 m", "∞")), ("0.2 m", (None, "0.5 m"))],
)
def test_typed_figure_gets_its_own_place(
    text: str, neighbours: tuple[str | None, str | None]
) -> None:
    """A figure between two places, or beyond the ends, stands where it belongs, as typed."""
    places = [None, *slider_places(film_distance, text)]
    at = places.index(text)
    assert (places[at - 1], places[at + 1]) == neighbours
    assert place_of(film_distance, text, places[1:]) == text  # type: ignore[arg-type]


def test_another_spelling_is_the_same_place() -> None:
    """What means the same as a place is that place, and nonsense adds none."""
    places = slider_places(film_distance, "1200 mm")
    assert place_of(film_distance, "1200 mm", places) == "1.2 m"
    assert slider_places(film_distance, "abc") == places
