"""Readings told to somebody outside the trade."""

import math

import pytest

from optics.camera.where_taken import AT_STOP, USUAL, Taken
from optics.measure.decision import decide
from optics.measure.uncertainty import exact, within
from optics.measure.verdict import Guard
from optics.readings.correction import correct
from optics.readings.kinds.collimator import CollimatorReading
from optics.readings.kinds.mark import MarkReading
from optics.readings.kinds.parallax import ParallaxReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.readings import Reading
from optics.report.job_report import TakenReading
from optics.report.plain_wording import place_of, said_of_reading
from tests.optics.teaching.bench_day import HELICOID


def taken(reading: Reading) -> TakenReading:
    """A reading with its decision, kept as the report keeps it."""
    found = correct(HELICOID, reading)
    decision = decide(found.error, HELICOID.allowed_error, Guard.EXPANDED)
    return TakenReading("", "", "", "", "", found, decision)


def gauge(error: float, where: Taken = USUAL) -> RegisterReading:
    """A register gauged with the lens so far (mm) out."""
    return RegisterReading(within(28.8 + error, 0.005, "gauge"), exact(28.8), where)


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (0.0, "Gauged, its lens sat at the right distance from the film."),
        (0.2, "Gauged, its lens sat 0.20 mm too far from the film."),
        (-0.2, "Gauged, its lens sat 0.20 mm too near the film."),
        (
            0.042,
            "Gauged, its lens sat near the right distance from the film; whether at it, was "
            "not settled.",
        ),
    ],
)
def test_a_gauge_tells_of_the_seat_alone(error: float, said: str) -> None:
    """Half of f/2.8 × 0.03 mm is allowed: what was gauged is said of the seat, no mark named."""
    assert said_of_reading(taken(gauge(error))) == said
    assert place_of(taken(gauge(error))) == "where the lens sits"


def test_off_the_middle_is_said() -> None:
    """A reading away from the middle of the picture says nothing of its middle."""
    corner = taken(gauge(0.0, Taken(place=(16.0, 11.0))))
    assert "away from the middle of the picture" in said_of_reading(corner)
    assert place_of(corner).endswith("away from the middle of the picture")


def test_a_reading_against_the_stop_is_not_one_of_the_mark() -> None:
    """Against its infinity stop the ring may show anything, so the mark is not named."""
    shift, focal = within(0.0, 0.05, "reticle"), exact(300.0)
    assert place_of(taken(CollimatorReading(shift, focal, AT_STOP))) == "at its infinity stop"
    assert place_of(taken(CollimatorReading(shift, focal))) == "at infinity (∞)"


def test_a_mark_is_told_with_its_own_distance() -> None:
    """At 3 m, sharp at 2.71 m, neither infinity nor any other mark is spoken of."""
    near = MarkReading(exact(3000.0), within(2710.0, 5.0, "tape"))
    assert said_of_reading(taken(near)) == "Set to 3 m, it was really sharp at 2.71 m."
    assert said_of_reading(taken(near), is_now=True).startswith("Set to 3 m, it is really sharp")
    far = MarkReading(exact(math.inf), within(300e3, 1000.0, "tape"))
    assert said_of_reading(taken(far)).endswith("sharp at 300 m, near enough to be right.")


def test_parallax_tells_no_amount() -> None:
    """By eye alone nothing was measured, whether or not an error was seen."""
    off, still = (
        TakenReading("", "", "", "", "", ParallaxReading(moves)) for moves in (True, None)
    )
    assert said_of_reading(off) == "Its focus was seen to be off; how far was not measured."
    assert said_of_reading(still) == "By eye no error was seen; none was measured."
