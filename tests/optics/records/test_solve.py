"""From a job to its answers: every kind of reading on every way of focusing."""

import json
from typing import Any

import pytest

from optics.errors import NoAnswer, OutOfRange, Unreadable
from optics.rangefinder.set_up_wording import lens_first_line
from optics.readings.correction import Correction
from optics.readings.kinds.parallax import ParallaxReading
from optics.records.files import read_job
from optics.records.result import result_of
from optics.records.solve import Answer, solve
from tests.optics.records.jobs import BED, FOCUSINGS, FRONT_CELL, HELICOID, READINGS, job


def answers(document: dict[str, Any]) -> tuple[Answer, ...]:
    """Solve a document as a file would be."""
    return solve(read_job(json.dumps(document).encode())).answers


def answer(focusing: dict[str, str], reading: dict[str, str]) -> Correction:
    """Solve one measured reading."""
    (found,) = answers(job(focusing, reading))
    assert isinstance(found, Correction)
    return found


@pytest.mark.parametrize("focusing", FOCUSINGS, ids=lambda f: f["kind"])
@pytest.mark.parametrize("reading", READINGS, ids=lambda r: r["kind"])
def test_every_kind_of_reading_is_worked_out(
    focusing: dict[str, str], reading: dict[str, str]
) -> None:
    """Each kind of reading gives its answer on each way of focusing, but no rotation on a bed."""
    if focusing is BED and reading["kind"] == "rotation":
        with pytest.raises(NoAnswer, match=r"^This camera has no focusing thread to turn;"):
            answers(job(focusing, reading))
        return
    (found,) = answers(job(focusing, reading))
    if reading["kind"] == "parallax":
        assert isinstance(found, ParallaxReading)
    else:
        assert isinstance(found, Correction)
        assert found.reading.kind == reading["kind"]
        assert [s.mark for s in found.sights] == [float("inf"), 3000.0, 1524.0]
        assert len(found.offers) >= 2


def test_the_answers_stand_in_the_order_of_the_readings() -> None:
    """A job of all readings is answered one by one, in their order."""
    found = answers(job(HELICOID, *READINGS))
    kinds = [a.kind if isinstance(a, ParallaxReading) else a.reading.kind for a in found]
    assert kinds == [reading["kind"] for reading in READINGS]


def register(**words: str) -> dict[str, str]:
    """Give a register 0.06 mm too long: 45.52 mm for 45.46 mm."""
    return {"kind": "register", "measured": "45.52 mm", "nominal": "45.46 mm", **words}


def test_the_lens_is_out_by_its_worst_reading_at_infinity() -> None:
    """Of the readings at infinity outside tolerance the largest counts, whatever its sign."""
    at_three = {"kind": "mark", "mark": "3 m", "sharp_at": "2 m", "limit": "1 cm"}
    readings = (
        register(measured="45.66 mm", limit="0.01"),
        register(measured="45.16 mm", limit="0.01"),
        at_three,
    )
    found = solve(read_job(json.dumps(job(HELICOID, *readings)).encode())).lens_out
    assert found is not None
    assert found.value == pytest.approx(-0.3)  # 45.16 − 45.46 mm
    for alone in (register(measured="45.46 mm", limit="0.01"), at_three):
        assert solve(read_job(json.dumps(job(HELICOID, alone)).encode())).lens_out is None


def test_a_figure_of_unknown_uncertainty_has_no_verdict_in_any_result() -> None:
    """Beyond tolerance with a gauge of no limit: “not stated” in JSON, the correction beside it."""
    solution = solve(read_job(json.dumps(job(HELICOID, register(limit="0"))).encode()))
    (out,) = result_of(solution).answers
    assert out.verdict == "not stated"
    assert out.words == "The lens is 0.060 mm too far out, ± not known."
    assert {r.verdict for r in out.remedies if r.applies} == {"not stated"}
    assert "± not known, beyond its tolerance" in lens_first_line(solution.lens_out)  # type: ignore[arg-type]


# Signs and sizes worked by hand, each from the words of the reading alone.
BY_HAND = [
    (HELICOID, register(limit="0"), 0.06),
    (BED, register(measured="45.40 mm", limit="0"), -0.06),
    # A tenth of a turn, 36°, on a lead of 18 mm is 1.8 mm; counter-clockwise extends.
    (HELICOID, {"kind": "rotation", "turned": "36°", "sense": "clockwise"}, 1.8),
    (HELICOID, {"kind": "rotation", "turned": "0.1 turn", "sense": "counter-clockwise"}, -1.8),
    (HELICOID, {"kind": "rotation", "turned": "−36", "sense": "clockwise"}, -1.8),
    # 40° on a lead of 9 mm is 1 mm of the cell, (47/51)² at the film; clockwise extends.
    (FRONT_CELL, {"kind": "rotation", "turned": "40", "sense": "clockwise"}, -2209 / 2601),
    # With the focal points together, 47 + 470 mm apart, (47/470)² = 1/100.
    (
        BED,
        {
            "kind": "collimator",
            "shift": "3",
            "collimator_focal_length": "470",
            "to_lens": "517 mm",
        },
        0.03,
    ),
    (
        BED,
        {
            "kind": "collimator",
            "shift": "3",
            "towards": "away from its lens",
            "collimator_focal_length": "470",
            "to_lens": "51.7 cm",
        },
        -0.03,
    ),
    # Touching, by hand: 47²/(470²/47 − 470 − 47) = 2209/4183 mm, and outwards 2209/−5217.
    (
        BED,
        {
            "kind": "collimator",
            "shift": "47",
            "collimator_focal_length": "470",
            "to_lens": "0",
        },
        2209 / 4183,
    ),
    (
        BED,
        {
            "kind": "collimator",
            "shift": "47",
            "towards": "away from its lens",
            "collimator_focal_length": "470",
            "to_lens": "0",
        },
        -2209 / 5217,
    ),
    # Sharp at D = 2f + h + x + f²/x with x 1 mm: 94 − 0.6 + 1 + 2209 = 2303.4 mm.
    (BED, {"kind": "mark", "mark": "inf", "sharp_at": "2303.4 mm"}, 1.0),
    (BED, {"kind": "mark", "mark": "2303.4 mm", "sharp_at": "∞"}, -1.0),
    # 60° and 200 mm along the ruler are 100 mm along the axis.
    (
        BED,
        {
            "kind": "ruler",
            "mark": "inf",
            "aim": "2403.4 mm",
            "offset": "200",
            "slope": "60°",
            "side": "nearer",
        },
        1.0,
    ),
    (
        BED,
        {
            "kind": "ruler",
            "mark": "inf",
            "aim": "2203.4 mm",
            "offset": "200",
            "slope": "60°",
            "side": "farther",
        },
        1.0,
    ),
]


@pytest.mark.parametrize(("focusing", "reading", "error"), BY_HAND)
def test_the_words_of_a_reading_give_its_sign(
    focusing: dict[str, str], reading: dict[str, str], error: float
) -> None:
    """Senses, sides and directions in words become the right sign of the focus error."""
    found = answer(focusing, reading)
    assert found.error.value == pytest.approx(error, abs=1e-9)
    assert found.sense.words == ("too far out" if error > 0 else "too far in")


def test_the_parallax_words_give_its_direction() -> None:
    """With the eye is too far out, against it too far in, and not at all is right."""
    said = [
        found.sense.words
        for moves in ("with the eye", "against the eye", "not at all")
        for found in answers(job(BED, {"kind": "parallax", "image_moves": moves}))
    ]
    assert said == ["too far out", "too far in", "right"]


def test_an_instrument_brings_its_own_limit() -> None:
    """A caliper's depth rod is trusted to ± 0.04 mm (DIN 862 extract), unless a limit is typed."""
    rod = answer(BED, register(instrument="caliper_depth_rod")).error
    assert rod.standard == pytest.approx(0.0230940, abs=1e-7)  # 0.04/√3
    typed = answer(BED, register(instrument="caliper_depth_rod", limit="0.02")).error
    assert typed.standard == pytest.approx(0.0115470, abs=1e-7)


def test_an_instrument_without_a_limit_asks_for_one() -> None:
    """Where no limit is known, the gauge's must be typed."""
    for instrument in ("other", "depth_micrometer"):
        with pytest.raises(OutOfRange, match=r"^The limit of the .* is not known: enter how far"):
            answers(job(BED, register(instrument=instrument)))


def test_an_unknown_instrument_is_refused_with_the_known_ones() -> None:
    """An instrument that is not on the list is refused, and the list is told."""
    with pytest.raises(Unreadable, match=r"choose one of depth_micrometer, dial_over_10, "):
        answers(job(BED, register(instrument="thumb", limit="0.1")))


def test_a_job_without_a_reading_is_refused() -> None:
    """A job with no reading has no answer."""
    with pytest.raises(Unreadable, match=r"^The job has no reading: add at least one\.$"):
        answers(job())


def test_the_usual_marks_are_left_out_where_a_lens_cannot_reach_them() -> None:
    """A 450 mm lens with no marks typed is described at infinity and 3 m, and refuses 1.5 m."""
    document = job(BED, register(limit="0"))
    document["camera"]["lens"]["focal_length"] = "450 mm"
    document["camera"]["lens"]["hiatus"] = "0"
    del document["marks"]
    (found,) = answers(document)
    assert isinstance(found, Correction)
    assert [s.mark for s in found.sights] == [float("inf"), 3000.0]
    document["marks"] = ["1.5 m"]
    with pytest.raises(OutOfRange, match=r"must be at least 1800 mm"):
        answers(document)


def test_infinity_among_the_marks_is_not_told_twice() -> None:
    """Infinity is always described, and once."""
    document = job(BED, register(limit="0"))
    document["marks"] = ["inf", "3 m"]
    (found,) = answers(document)
    assert isinstance(found, Correction)
    assert [s.mark for s in found.sights] == [float("inf"), 3000.0]


def test_the_workshop_is_what_was_typed() -> None:
    """Leaves in the drawer and under the seat come from the job, and none means none."""
    document = job(BED, register(limit="0", measured="45.40 mm"))
    document["workshop"] = {"drawer": "0.06", "fitted": "0.1"}
    (found,) = answers(document)
    assert isinstance(found, Correction)
    assert "Fit 0.1 + 0.06 mm under the lens seat in place of 0.1 mm" in (
        found.remedies[0].instruction
    )
    document["workshop"] = {"drawer": "none", "fitted": "none"}
    (found,) = answers(document)
    assert isinstance(found, Correction)
    assert "the drawer is empty" in found.offers[0].reason  # type: ignore[union-attr]


def test_a_job_without_a_camera_is_refused() -> None:
    """A job that was booked in and not described yet cannot be worked out, and says so."""
    typed = {**job(HELICOID, READINGS[0])}
    del typed["camera"]
    with pytest.raises(Unreadable, match=r"^The job has no camera: describe its lens and how"):
        solve(read_job(json.dumps(typed).encode()))


def test_an_instrument_without_a_name_is_called_so() -> None:
    """Where the gauge is none of the list, the limit asked for is that of the instrument."""
    reading = {"kind": "register", "measured": "28.8", "nominal": "28.8", "instrument": "other"}
    with pytest.raises(OutOfRange, match=r"^The limit of the instrument is not known: enter"):
        solve(read_job(json.dumps(job(HELICOID, reading)).encode()))
