"""The order of work at the bench: each step presumes the ones before it (common practice)."""

from enum import IntEnum


class BenchStep(IntEnum):
    """The steps of a full service, in their order."""

    GATE = 1
    STANDARD = 2
    INFINITY = 3
    SCALE = 4
    NEAR = 5
    HEIGHT = 6
    RANGEFINDER_ZERO = 7
    RANGEFINDER_GAIN = 8
    DEPTH_MARKS = 9
    AS_LEFT = 10

    @property
    def words(self) -> str:
        """The step as it is named on the bench."""
        return _WORDS[self]


_WORDS = {
    BenchStep.GATE: "film gate and pressure plate",
    BenchStep.STANDARD: "lens standard square to the film",
    BenchStep.INFINITY: "lens at infinity",
    BenchStep.SCALE: "scale ring to the stop",
    BenchStep.NEAR: "near distances",
    BenchStep.HEIGHT: "rangefinder height",
    BenchStep.RANGEFINDER_ZERO: "rangefinder at infinity",
    BenchStep.RANGEFINDER_GAIN: "rangefinder near, then at infinity again",
    BenchStep.DEPTH_MARKS: "depth marks",
    BenchStep.AS_LEFT: "film test and as-left readings",
}
