"""Every kind of reading against numbers worked by hand, and the right way round."""

import math

import pytest

from optics.errors import OutOfRange
from optics.measure.uncertainty import Estimate, exact, within
from optics.readings.kinds.mark import MarkReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.kinds.rotation import RotationReading
from optics.readings.kinds.ruler import RulerReading
from optics.readings.readings import Sense
from tests.optics.readings.kinds.bench import (
    CAMERA,
    far,
)


def test_the_sense_has_words_and_a_least_size() -> None:
    """From half a micrometre on an error has a sense, and the words say which."""
    assert [Sense.of(e).words for e in (0.0005, -0.0005)] == ["too far out", "too far in"]
    assert [Sense.of(e).words for e in (0.00049, -0.00049, -0.0)] == ["right"] * 3


def test_an_estimate_without_parts_is_exact() -> None:
    """A figure as given has no uncertainty at all."""
    assert (Estimate(1.0).standard, Estimate(1.0).expanded, Estimate(1.0).dof) == (0, 0, math.inf)


@pytest.mark.parametrize("limit", [30_000.0, 18_700.0])
def test_a_distance_that_is_not_known_at_all_is_refused(limit: float) -> None:
    """A distance good to no less than itself is no reading."""
    gauge, exactly = within(44.0, 50.0, "gauge"), exact(1000.0)
    for reading in (
        MarkReading(exact(math.inf), far(limit)),
        MarkReading(far(limit), exact(1000.0)),
        RotationReading(exact(0.1), far(limit), exact(math.inf)),
        RulerReading(far(limit), exact(0.0), exact(0.5), exactly),
        RegisterReading(gauge, exact(44.0)),
    ):
        with pytest.raises(OutOfRange, match="must be smaller than the figure itself: got"):
            reading.steps(CAMERA)
