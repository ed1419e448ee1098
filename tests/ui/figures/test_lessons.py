"""The classroom's drawings, against the figures they are to show."""

import math
from typing import Any

import numpy as np
import plotly.graph_objects as go
import pytest

from optics.errors import ShimwrightError
from optics.teaching.classroom import shop
from optics.teaching.classroom.section import Section
from optics.teaching.classroom.sections import (
    CAM,
    COUPLING,
    DEPTH,
    FRONT_CELL,
    GATE,
    HELICOID,
    LENS,
    SCALE,
    SECTIONS,
    STANDARD,
    TRIANGLE,
)
from optics.teaching.classroom.typical import SLIDES
from optics.theory import CATALOGUE
from ui.figures.lessons import DRAWINGS, HEIGHT, curve, lesson
from ui.theme import DAY, NIGHT, Palette

each_section = pytest.mark.parametrize("section", SECTIONS, ids=lambda s: s.key)


def figures(section: Section, **changed: str) -> dict[str, float]:
    """The lead relation's figures and the extras, from texts; raises where there is no answer."""
    formula = CATALOGUE[section.lead].solve_for(section.find)
    names = [*(q.name for q in formula.inputs), *section.extras]
    texts = {name: changed.get(name, section.begins_with(name)) for name in names}
    values = {n: shop.field_of(shop.QUANTITIES[n]).read(text).value for n, text in texts.items()}
    inputs = {q.name: values[q.name] for q in formula.inputs}
    return values | {section.find: formula.value(**inputs)}


def drawn(section: Section, colours: Palette = DAY, **changed: str) -> go.Figure:
    """The section's drawing."""
    return lesson(section, figures(section, **changed), colours)


def symbols(figure: go.Figure) -> dict[str, Any]:
    """The single marked points, by their symbols."""
    return {
        trace.marker.symbol: trace
        for trace in figure.data
        if trace.mode and "markers" in trace.mode and len(trace.x) == 1
    }


def dashed(figure: go.Figure, dash: str) -> Any:
    """The longest line with a dash."""
    lines = [t for t in figure.data if t.line.dash == dash and "lines" in (t.mode or "")]
    return max(lines, key=lambda trace: len(trace.x))


def test_every_section_has_a_drawing() -> None:
    """There is one drawing a section, and no other."""
    assert set(DRAWINGS) == {section.key for section in SECTIONS}


@each_section
def test_drawing_keeps_its_height_and_palette(section: Section) -> None:
    """Each drawing has the fixed height, the page's own ground, and the palette's ink."""
    for palette in (DAY, NIGHT):
        figure = drawn(section, palette)
        assert figure.layout.height == HEIGHT
        assert figure.layout.paper_bgcolor == "rgba(0,0,0,0)"
        assert figure.layout.font.color == palette.text
        assert palette.accent in figure.to_json()


SLID = [
    (section, q.name, place)
    for section in SECTIONS
    for q in (
        *CATALOGUE[section.lead].solve_for(section.find).inputs,
        *(shop.QUANTITIES[name] for name in section.extras),
    )
    if q.name in SLIDES
    for place in (SLIDES[q.name][0], SLIDES[q.name][-1])
]


@pytest.mark.parametrize(
    ("section", "name", "place"), SLID, ids=[f"{s.key}-{n}-{p}" for s, n, p in SLID]
)
def test_slider_can_go_to_its_ends(section: Section, name: str, place: str) -> None:
    """At either end of every slider there is a drawing, or a refusal in words."""
    try:
        values = figures(section, **{name: place})
    except ShimwrightError:
        return  # The lead relation itself refuses; its words are tested with the catalogue.
    for trace in lesson(section, values, DAY).data:
        assert np.isfinite(np.asarray(trace.y, np.float64)).any()


def test_lens_gap_is_the_extension() -> None:
    """F′ lies before the film by the extension, and the curve runs through the chosen distance."""
    figure = drawn(LENS, focal_length="50 mm", film_distance="1 m")
    assert symbols(figure)["circle-open"].x[0] == pytest.approx(-2.7864, abs=5e-5)
    spot = symbols(figure)["diamond"]
    solid = max(
        (t for t in figure.data if t.xaxis == "x2" and t.line.dash == "solid"),
        key=lambda t: len(t.x),
    )
    assert np.interp(spot.x[0], solid.x, solid.y) == pytest.approx(2.7864, abs=2e-3)
    # The rule of thumb f²/D is 2.5 mm there.
    thumb = dashed(figure, "dash")
    assert np.interp(1e-3, thumb.x, thumb.y) == pytest.approx(2.5, abs=1e-9)


def test_wrong_start_is_a_pitch_away() -> None:
    """One start of six on a lead of 18 mm stands 3 mm above the start in use."""
    marked = symbols(drawn(HELICOID))
    assert marked["square"].y[0] - marked["circle"].y[0] == pytest.approx(3.0)


def test_cell_moves_less_than_the_whole_lens() -> None:
    """Far away the whole lens moves more than the cell by the square of the focal lengths."""
    figure = drawn(FRONT_CELL)
    whole, cell = dashed(figure, "dash"), dashed(figure, "solid")
    assert whole.y[1] / cell.y[1] == pytest.approx((75 / 51) ** 2, rel=0.01)


def test_hyperfocal_focus_reaches_infinity() -> None:
    """Beyond the hyperfocal distance the far end of the bar is at infinity, its near end not."""
    marked = symbols(drawn(DEPTH, object_distance="50 m"))
    assert marked["triangle-left"].x[0] == 0
    assert marked["square"].x[0] > marked["diamond"].x[0] > 0
    assert marked["x-thin"].x[0] > marked["diamond"].x[0]


def test_range_error_climbs_and_film_error_is_flat() -> None:
    """Ten times as far is a hundred times as uncertain, and at the film the same."""
    figure = drawn(TRIANGLE)
    below = [t for t in figure.data if t.xaxis == "x2" and t.mode == "lines"]
    climbing, flat = below
    at = [np.interp(x, climbing.x, climbing.y) for x in (1.0, 10.0)]
    assert at[1] / at[0] == pytest.approx(100, rel=0.01)
    assert len(set(flat.y)) == 1
    # f²·ε/(b·M) = 47² · 60″ / (41 · 0.6), worked by hand.
    assert flat.y[0] == pytest.approx(0.02612, abs=5e-6)


def test_dashed_coupling_is_exact_twice() -> None:
    """The coupling to compare with has no error at infinity and at 1 m, and bows out between."""
    line = dashed(drawn(COUPLING, focal_length="50 mm", base="40 mm"), "dash")
    assert line.y[0] == pytest.approx(0, abs=1e-12)
    assert np.interp(1e-3, line.x, line.y) == pytest.approx(0, abs=1e-4)
    # The stated example: 0.063 mm at 2 m.
    assert np.interp(0.5e-3, line.x, line.y) == pytest.approx(0.063, abs=5e-4)


def test_cam_bends_below_its_ramp() -> None:
    """Far away cam and ramp are one, close up the cam of a longer lens lifts less."""
    figure = drawn(CAM)
    ramp, cam = dashed(figure, "dash"), dashed(figure, "solid")
    assert cam.y[1] == pytest.approx(ramp.y[1], rel=0.01)
    assert cam.y[-1] < 0.97 * ramp.y[-1]
    assert ramp.y[-1] / ramp.x[-1] == pytest.approx((50 / 90) ** 2)


def test_leaning_lens_counts_more_than_leaning_film() -> None:
    """At life size a leaning lens is out twice as far as a film that leans as much."""
    figure = drawn(STANDARD, magnification="1", tilt="0.5°")
    lens = next(t for t in figure.data if t.name == "leaning lens")
    film = next(t for t in figure.data if t.name == "leaning film")
    assert lens.y[-1] / film.y[-1] == pytest.approx(2, rel=1e-3)
    assert lens.marker.symbol != film.marker.symbol


def test_film_lies_where_it_is_said_to() -> None:
    """On the plate the emulsion stands the whole play behind the rails."""
    marked = symbols(drawn(GATE, rest="1", play="0.08 mm"))
    assert marked["diamond"].x[0] == pytest.approx(0.08)


def test_longer_lens_has_wider_marks() -> None:
    """A lens five in a hundred longer has its marks more than ten in a hundred farther on."""
    figure = drawn(SCALE)
    rows = [np.asarray(t.x, np.float64) for t in figure.data if len(t.x) > 20]
    spans = [np.nanmax(row) - np.nanmin(row) for row in rows]
    assert 1.10 < spans[1] / spans[0] < 1.13


def test_any_relation_is_drawn_against_any_input() -> None:
    """Each formula of the catalogue has a curve against each input, through where it stands."""
    for section in SECTIONS:
        for name in section.relations:
            for formula in CATALOGUE[name].formulas:
                values = {
                    q.name: shop.field_of(q).read(section.begins_with(q.name)).value
                    for q in formula.inputs
                }
                answer = formula.value(**values)
                for along in formula.inputs[:2]:
                    figure = curve(formula, values, answer, along, DAY)
                    assert np.isfinite(np.asarray(figure.data[0].y, np.float64)).any()
                    if math.isfinite(answer) and math.isfinite(values[along.name]):
                        assert figure.data[1].marker.symbol == "diamond"
