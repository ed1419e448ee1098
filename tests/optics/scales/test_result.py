"""The measured scale in a job: how its marks are read, refused, solved and put into JSON."""

import json
import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from optics.errors import NoAnswer, Unreadable
from optics.records.files import problem_sentence, read_job, write_job
from optics.records.job import ScalePart
from optics.records.result import ResultDocument, result_of
from optics.records.solve import Solution, solve
from optics.records.to_bench import depth_marks_of, scale_marks_of
from optics.typed.fields import DEPTH_MARK_ANGLES, MARK_ANGLES, MARK_LENGTHS, Typed
from tests.optics.records.jobs import BED, FRONT_CELL, HELICOID, READINGS, job
from tests.optics.scales.rings import CORVANE, OSTRIN, Engraver, engraver, of_other_lens

DISTANCES = (math.inf, 10e3, 5e3, 3e3, 2e3, 1.5e3, 1e3)


def with_scale(focusing: dict[str, str] = HELICOID, **scale: Any) -> dict[str, Any]:
    """Give a job of no readings but a scale; its lens is the Ostrin's."""
    document = job(focusing)
    document["camera"]["lens"] = {
        "focal_length": "47 mm",
        "full_aperture": "f/2.8",
        "hiatus": "0.6 mm",
    }
    document["scale"] = {"limit": "0.2", **scale}
    return document


def solved(document: dict[str, Any]) -> Solution:
    """Solve a document as a file would be."""
    return solve(read_job(json.dumps(document).encode()))


def typed(ring: Engraver, slip: float = 0.0, radius: float | None = None) -> str:
    """Write an engraver's marks as a repairer would, in degrees or as mm of arc."""
    parts = []
    for distance in DISTANCES:
        angle = ring.angle(distance) + math.radians(slip)
        reading = math.degrees(angle) if radius is None else angle * radius
        mark = "∞" if math.isinf(distance) else f"{distance / 1000:g} m"
        parts.append(f"{mark} = {reading:.3f}")
    return "; ".join(parts)


def read(field: Typed, text: str) -> list[tuple[float, list[float]]]:
    """Read pairs as plain numbers."""
    return [(mark.value, [r.value for r in readings]) for mark, readings in field.read(text)]


# 1 ft = 304.8 mm (agreement of 1959), 60′ = 1°, 1 in = 25.4 mm; a bare distance is in metres.
PAIRS = [
    (MARK_ANGLES, "∞ = 0; 3 m = 18", [(math.inf, [0.0]), (3000.0, [math.pi / 10])]),
    (
        MARK_ANGLES,
        "3 = 18; 36 ;1,5 = 90;",
        [(3e3, [math.pi / 10, math.pi / 5]), (1.5e3, [math.pi / 2])],
    ),
    (
        MARK_ANGLES,
        "10 ft = 30'\ninf = −1°",
        [(3048.0, [math.pi / 360]), (math.inf, [-math.pi / 180])],
    ),
    (MARK_ANGLES, "3 m = 0.5 rad", [(3e3, [0.5])]),
    (MARK_LENGTHS, "3 m = 8; 1 m = 1 in", [(3e3, [8.0]), (1e3, [25.4])]),
    (
        DEPTH_MARK_ANGLES,
        "f/16 = 18; 8 = 9; 9",
        [(16.0, [math.pi / 10]), (8.0, [math.pi / 20, math.pi / 20])],
    ),
]


@pytest.mark.parametrize(("field", "text", "found"), PAIRS)
def test_marks_are_read_with_their_units(
    field: Typed, text: str, found: list[tuple[float, list[float]]]
) -> None:
    """Marks and readings are understood as people write them, in rad and mm."""
    for (mark, readings), (true, several) in zip(read(field, text), found, strict=True):
        assert mark == pytest.approx(true)
        assert readings == pytest.approx(several)


@given(
    st.lists(
        st.tuples(
            st.floats(0.1, 500).map(lambda m: round(m, 3)),
            st.lists(st.floats(-300, 300).map(lambda a: round(a, 2)), min_size=1, max_size=4),
        ),
        min_size=1,
        max_size=8,
    )
)
def test_pairs_come_back_as_they_were_written(pairs: list[tuple[float, list[float]]]) -> None:
    """Whatever marks and readings are written out are read back in their order and number."""
    text = "; ".join(f"{mark} m = {'; '.join(f'{r}°' for r in several)}" for mark, several in pairs)
    back = read(MARK_ANGLES, text)
    assert [mark for mark, _ in back] == pytest.approx([1000 * mark for mark, _ in pairs])
    for (_, found), (_, several) in zip(back, pairs, strict=True):
        assert [math.degrees(r) for r in found] == pytest.approx(several, abs=1e-9)


def test_the_echo_names_every_mark_and_reading() -> None:
    """What is echoed is each mark with each of its readings, so that a slip can be seen."""
    found = MARK_ANGLES.read("∞ = 0; 3 m = 17.3; 17.2")
    assert MARK_ANGLES.echo(found) == "2 marks: infinity (∞) at 0°; 3 m at 17.3°; 17.2°"
    assert MARK_ANGLES.echo(MARK_ANGLES.read("3 m = 1")) == "1 mark: 3 m at 1°"


REFUSED = [
    "17.3",
    "3 m",
    "3 m =",
    "= 17",
    "3 m = 17;; 2 m = 18",
    "3 m = abc",
    "abc = 3",
    "3 m = 1 = 2",
    "3 m = 5 mm",
    "0 m = 1",
    "−3 m = 1",
    ";",
    "",
    "3 m = 1,200; 2 m",
    "=HYPERLINK(1)",
]


@pytest.mark.parametrize("text", REFUSED)
def test_nonsense_is_refused_in_one_sentence(text: str) -> None:
    """A text that is not marks with readings is refused, in one sentence that says what to do."""
    with pytest.raises(ValueError, match=r"^The (measured marks|ring mark|angle)") as refusal:
        MARK_ANGLES.read(text)
    said = str(refusal.value)
    assert said.endswith(".")
    assert "\n" not in said


def test_a_length_is_no_angle_and_the_other_way_round() -> None:
    """Marks measured as angles refuse mm, arcs and chords refuse degrees, in the job as well."""
    for along, marks, limit in (
        ("angle", "3 m = 5 mm; 1 m = 7", "0.2"),
        ("arc", "3 m = 5°; 1 m = 7", "0.2"),
        ("chord", "3 m = 5; 1 m = 7", "0.2°"),
        ("angle", "3 m = 5; 1 m = 7", "0.2 mm"),
    ):
        with pytest.raises(ValidationError) as wrong:
            ScalePart.model_validate({"along": along, "marks": marks, "limit": limit})
        assert problem_sentence(wrong.value).endswith(".")


@pytest.mark.parametrize(
    ("change", "place"),
    [
        ({"marks": "3 m"}, "scale"),
        ({"depth_marks": "f/8 = wide"}, "scale"),
        ({"limit": "−1"}, "scale"),
        ({"along": "radius"}, "along"),
        ({"reference": "thumb"}, "reference"),
        ({"negative": "7x7"}, "scale"),
        ({"marks": "3 m = 1; " * 100}, "marks"),
        ({"weather": "wet"}, "weather"),
    ],
)
def test_a_scale_that_cannot_be_is_refused(change: dict[str, str], place: str) -> None:
    """A scale with a wrong figure, choice, name or length is refused with the place of it."""
    document = with_scale(marks="∞ = 0; 3 m = 15")
    document["scale"] |= change
    with pytest.raises(Unreadable) as refusal:
        solved(document)
    assert place in str(refusal.value).partition(":")[0]


def test_a_scale_is_kept_as_it_was_typed() -> None:
    """Writing a job and reading it again changes no sign of the scale's texts."""
    document = with_scale(marks=" ∞ = 0;3 m=17,3; 17.2", depth_marks="f/16=19 ", negative="6x6")
    read_once = read_job(json.dumps(document).encode())
    again = read_job(write_job(read_once).encode())
    assert again == read_once
    assert again.scale is not None
    assert again.scale.marks == " ∞ = 0;3 m=17,3; 17.2"


def test_angle_arc_and_chord_are_the_same_mark() -> None:
    """On a ring of 52 mm, a sixth of a turn is 27.227 mm of arc (52π/6) and a chord of 26 mm."""
    for along, reading in (("angle", "60"), ("arc", "27.227"), ("chord", "26")):
        part = ScalePart.model_validate(
            {"along": along, "marks": f"1 m = {reading}", "limit": "0.1"}
        )
        (mark,) = scale_marks_of(part, OSTRIN)
        assert mark.angle.value == pytest.approx(math.pi / 3, abs=1e-4)


def test_depth_marks_across_are_halved() -> None:
    """From one depth mark to its twin is twice the angle from the index."""
    for across, reading in ((True, "19.2"), (False, "9.6")):
        part = ScalePart.model_validate(
            {"marks": "1 m = 1", "depth_marks": f"16 = {reading}", "across": across, "limit": "0.1"}
        )
        (mark,) = depth_marks_of(part, OSTRIN)
        assert math.degrees(mark.angle.value) == pytest.approx(9.6)


def test_arcs_without_a_diameter_ask_for_it() -> None:
    """Arcs on a ring of unknown size are refused with what to measure."""
    with pytest.raises(NoAnswer, match="needs the ring's diameter"):
        solved(with_scale(FRONT_CELL, along="arc", marks="∞ = 0; 3 m = 5"))


def test_a_bed_has_no_scale_to_check() -> None:
    """A camera without a thread is told to be checked another way."""
    with pytest.raises(NoAnswer, match="needs a ring on a focusing thread"):
        solved(with_scale(BED, marks="∞ = 0; 3 m = 5"))


def test_a_job_with_neither_reading_nor_scale_is_refused() -> None:
    """Nothing measured is nothing to answer."""
    with pytest.raises(Unreadable, match="has no reading"):
        solved(job(HELICOID))


@pytest.mark.parametrize(
    ("marks", "cause"),
    [
        (typed(engraver(OSTRIN)), "right"),
        (typed(engraver(OSTRIN), slip=1.5), "slipped"),
        (typed(of_other_lens(OSTRIN, 60.0)), None),
    ],
)
def test_a_scale_alone_is_a_job(marks: str, cause: str | None) -> None:
    """A job without readings is answered by its scale; the draughtsman's faults are found."""
    found = solved(with_scale(marks=marks, limit="0.1"))
    assert found.answers == ()
    assert found.scale is not None
    verdict = found.scale.verdict
    if cause is None:
        # A lens of 60 mm or a thread of another lead: which, the readings cannot tell.
        assert {e.cause for e in found.scale.explanations[:2]} == {"other_lens", "other_lead"}
    else:
        assert verdict is not None
        assert verdict.cause == cause


def test_arcs_on_a_front_cell_are_solved() -> None:
    """Marks of a front cell, measured in mm along its edge of 36 mm, are found right."""
    camera = with_scale({**FRONT_CELL, "ring_diameter": "36 mm"})
    camera["camera"]["lens"] = {"focal_length": "75 mm", "full_aperture": "f/3.5"}
    camera["scale"] |= {"along": "arc", "marks": typed(engraver(CORVANE), radius=18)}
    found = solved(camera).scale
    assert found is not None
    assert found.verdict is not None
    assert found.verdict.cause == "right"


def test_readings_and_scale_are_answered_together() -> None:
    """A job with readings and a scale has an answer to each."""
    document = with_scale(marks=typed(engraver(OSTRIN)))
    document["readings"] = list(READINGS[:2])
    found = solved(document)
    assert len(found.answers) == 2
    assert found.scale is not None


def test_the_scale_is_in_the_result() -> None:
    """The JSON has verdict, weights, marks, fit and the maker's circle, as its schema says."""
    slipped = typed(engraver(OSTRIN), slip=2)
    # β = 2π·N·c/L each side of the index: 360°·16·0.03/18 = 9.6°, twice that across.
    document = with_scale(marks=slipped, depth_marks="16 = 19.2; 8 = 9.6", negative="24x36")
    result = result_of(solved(document))
    text = result.model_dump_json()
    back = json.loads(text, parse_constant=lambda name: pytest.fail(f"{name} is not JSON"))
    assert ResultDocument.model_validate_json(text) == result
    scale = back["scale"]
    assert scale["verdict"] == scale["explanations"][0]["cause"] == "slipped"
    assert sum(e["weight"] for e in scale["explanations"]) == pytest.approx(1)
    zero = scale["explanations"][0]["figures"]["zero_angle"]
    assert math.degrees(zero["value"]) == pytest.approx(2, abs=0.002)
    assert [m["mark"] for m in scale["marks"]] == ["inf", *DISTANCES[1:]]
    # 18 mm in a whole turn: 2° are 0.1 mm at the film, and 52π/180 = 0.9076 mm along the edge.
    for mark in scale["marks"]:
        assert mark["at_film"] == pytest.approx(0.1, abs=2e-4)
        assert mark["arc"] == pytest.approx(0.9076, abs=1e-3)
        assert mark["disagrees"]
    assert scale["fit"]["wrong"] == []
    maker = scale["confusion"]
    assert maker["circle_of_confusion"]["value"] == pytest.approx(0.03, abs=1e-6)
    assert maker["agrees_with"] == ["0.03 mm"]


def test_without_the_negative_no_convention_is_guessed() -> None:
    """A job that does not state its negative has the maker's circle and no convention."""
    found = result_of(solved(with_scale(marks=typed(engraver(OSTRIN)), depth_marks="16 = 19.2")))
    assert found.scale is not None
    assert found.scale.confusion is not None
    assert found.scale.confusion.agrees_with == ()
    assert "convention" not in found.scale.confusion.words


def test_a_result_without_a_scale_says_so() -> None:
    """Where no scale was measured, the result has null in its place."""
    assert result_of(solved(job(HELICOID, READINGS[0]))).scale is None
    assert "null where no scale" in json.dumps(ResultDocument.model_json_schema())
