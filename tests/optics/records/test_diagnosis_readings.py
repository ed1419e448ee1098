"""From a job to the readings weighed together, against the bench's own readings and by hand."""

import math
from typing import Any

import pytest

from optics.camera.where_taken import AT_STOP, Surface
from optics.errors import OutOfRange, Unreadable
from optics.finding.causes.ring import RING
from optics.finding.causes.seat import SEAT
from optics.finding.diagnosis import Diagnosis, diagnose
from optics.measure.uncertainty import exact, from_distances, from_repeats
from optics.moves import AtHand
from optics.readings.correction import Correction
from optics.readings.kinds.coincidence import CoincidenceReading
from optics.readings.kinds.mark import MarkReading
from optics.readings.kinds.register import RegisterReading
from optics.readings.kinds.rotation import RotationReading
from optics.readings.spots import Spot
from optics.records.diagnosis_readings import (
    ENDS_ONLY,
    NO_APART,
    NO_NOMINAL,
    NO_PARALLAX,
    WholeCamera,
    at_hand_of,
    priors_of,
)
from optics.records.solve import solve
from tests.optics.records.diagnoses import (
    GAUGE,
    NEAR,
    RANGEFINDER,
    READINGS,
    STANDARD,
    STOP,
    document,
    job,
    solved,
)

PARALLAX = {"kind": "parallax", "image_moves": "with the eye"}
GATE = {"film": "perforated", "channel": "0.200"}


def whole(*readings: dict[str, Any], **parts: Any) -> WholeCamera:
    """Solve a job and give its diagnosis and plan."""
    found = solved(*readings, **parts).whole
    assert found is not None
    return found


def spots(found: Diagnosis) -> list[Spot]:
    """Where the readings that were weighed belong."""
    return [reading.spot for reading in found.seen.readings]


def test_a_job_is_diagnosed_as_its_readings_are() -> None:
    """Typed or put together by hand, the same three readings give the same diagnosis."""
    camera = solved().camera
    infinity = exact(math.inf)
    turns = [math.radians(degrees) for degrees in (1.5, 1.75, 1.5, 1.75)]
    by_hand = diagnose(
        camera,
        [
            RegisterReading(from_repeats([28.918, 28.921, 28.920], 0.015, "register"), exact(29)),
            RotationReading(
                from_repeats(turns, math.radians(0.25), "turn"), infinity, infinity, AT_STOP
            ),
            MarkReading(
                exact(1500), from_distances([1580.0, 1586.0, 1575.0, 1583.0], 2.0, "distance")
            ),
        ],
    )
    typed = whole().diagnosis
    assert typed.leading == by_hand.leading
    assert typed.leading.causes == {SEAT}
    assert typed.chances == pytest.approx(by_hand.chances, abs=1e-9)
    assert typed.sizes["seat"].value == pytest.approx(by_hand.sizes["seat"].value)


TRIED_ONCE = (
    {"kind": "mark", "mark": "1.5 m", "sharp_at": "1.58 m", "limit": "2 mm"},
    {"kind": "mark", "sharp_at": "inf", "limit": "0.2 m"},
    {"kind": "rotation", "turned": "1.5", "sense": "counter-clockwise", "limit": "0.25"},
    {"kind": "collimator", "shift": "0.4", "limit": "0.02", "collimator_focal_length": "300"},
    {
        "kind": "ruler",
        "mark": "1.5 m",
        "aim": "1.5 m",
        "offset": "12",
        "slope": "45",
        "limit": "1 mm",
    },
    {"kind": "register", "measured": "28.92", "nominal": "29", "limit": "0.015"},
)


@pytest.mark.parametrize("stated", [{}, {"seen_blur": "0.02"}])
@pytest.mark.parametrize("reading", TRIED_ONCE, ids=lambda one: str(one["kind"]))
def test_a_reading_has_one_uncertainty_wherever_it_is_shown(
    reading: dict[str, str], stated: dict[str, str]
) -> None:
    """Answered alone or weighed with others, a reading tried once has the same error and ±."""
    found = solved(reading, diagnosis=stated)
    assert found.whole is not None
    (weighed,) = found.whole.diagnosis.seen.errors
    (answer,) = found.answers
    assert isinstance(answer, Correction)
    assert answer.error.value == weighed.value
    assert answer.error.expanded == pytest.approx(weighed.expanded)


def test_a_job_that_does_not_ask_is_not_diagnosed() -> None:
    """Readings are weighed together only where the job has a diagnosis, be it empty."""
    assert solved(diagnosis=None).whole is None
    assert whole(diagnosis={}).plan.will_conform


def test_one_reading_is_weighed_too() -> None:
    """A single reading has a diagnosis, which names nothing for certain that it cannot tell."""
    found = whole(NEAR).diagnosis
    assert len(found.seen.readings) == 1
    assert found.claimed == ()


def test_without_anything_to_weigh_it_is_refused() -> None:
    """A diagnosis of a direction alone is refused, and asks for a figure."""
    with pytest.raises(Unreadable, match=r"^The diagnosis has no reading to weigh"):
        solved(PARALLAX)


def test_everything_that_was_read_is_weighed() -> None:
    """Gauge, stop and mark, rangefinder, standard and gate are all among the readings."""
    found = whole(*READINGS, PARALLAX, rangefinder=RANGEFINDER, standard=STANDARD, gate=GATE)
    assert spots(found.diagnosis) == [
        Spot.GAUGE,
        Spot.STOP,
        Spot.NEAR,
        Spot.COINCIDENCE,
        Spot.COINCIDENCE,
        Spot.GAUGE,
        Spot.GAUGE,
        Spot.GAUGE,
        Spot.GAUGE,
        Spot.GATE,
    ]
    assert found.left_out == (NO_PARALLAX, ENDS_ONLY)
    # By hand: the corners are 60 mm apart and rise 0.393 and 0.391 mm to the right.
    slope = found.diagnosis.sizes["tilt_x"].value
    assert slope == pytest.approx(0.392 / 60, rel=0.03)


def test_the_standard_without_its_right_depth_is_left_out() -> None:
    """Depths counted from nowhere say nothing of the seat, and are left out with a word."""
    without = {name: text for name, text in STANDARD.items() if name != "nominal"}
    found = whole(standard=without)
    assert spots(found.diagnosis) == [Spot.GAUGE, Spot.STOP, Spot.NEAR]
    assert found.left_out == (NO_NOMINAL,)


def test_images_that_stood_apart_are_left_out() -> None:
    """A gap is known by the gain, which is itself in question: it is left out with a word."""
    apart = {"target": "∞", "scale": "∞", "apart": "3", "ring": "towards nearer"}
    found = whole(NEAR, rangefinder={**RANGEFINDER, "pairs": "1 m = 0.99", "apart": [apart]})
    met = [r for r in found.diagnosis.seen.readings if r.spot is Spot.COINCIDENCE]
    assert [r.target.value for r in met] == [1000.0]
    assert found.left_out == (NO_APART,)


def test_the_rangefinder_is_weighed_as_it_stands() -> None:
    """After rounds of adjusting the last one counts, at the farthest and the nearest target."""
    rounds = [{"infinity_turned": "1/4", "far_reads": "30", "near_reads": "0.99"}]
    found = whole(NEAR, rangefinder={**RANGEFINDER, "rounds": rounds}).diagnosis
    met = [r for r in found.seen.readings if isinstance(r, CoincidenceReading)]
    assert [r.target.value for r in met] == [math.inf, 1000.0]
    assert [r.set_to.value for r in met] == [30000.0, 990.0]


def test_places_and_surfaces_reach_the_bench() -> None:
    """A corner by name is half the picture away, mm are mm, and film is film."""
    corner = {**GAUGE, "place": "top left"}
    beside = {**NEAR, "place": "10, −8", "judged": "on film"}
    found = whole(corner, beside, diagnosis={"picture": "36 × 24"}).diagnosis
    first, second = (r.taken for r in found.seen.readings)
    assert first.place == (-18.0, 12.0)
    assert (second.place, second.surface) == ((10.0, -8.0), Surface.FILM)
    ruler = {"kind": "ruler", "mark": "1.5 m", "aim": "1.5 m", "offset": "2; 3; 1", "limit": "1"}
    (taken,) = (r.taken for r in whole(ruler).diagnosis.seen.readings)
    assert taken.surface is Surface.FILM


def test_a_corner_of_an_unknown_picture_is_refused() -> None:
    """A corner by name asks for the picture's size, which a standard's frame gives as well."""
    corner = {**GAUGE, "place": "top left"}
    with pytest.raises(Unreadable, match=r"^A reading in a corner needs the size of the picture"):
        solved(corner)
    found = whole(corner, standard=STANDARD).diagnosis
    assert found.seen.readings[0].taken.place == (-42.0, 28.0)


def test_the_stop_has_no_other_mark() -> None:
    """A reading at the stop with the ring at 1.5 m is refused."""
    with pytest.raises(OutOfRange, match=r"^A reading at the infinity stop has no other mark"):
        solved({**NEAR, "where": "at the stop"})


def test_one_try_has_the_eye_s_uncertainty_and_repeats_their_own() -> None:
    """A single try is good to N·c/4 either way unless the blur seen is stated; repeats tell."""
    once = {"kind": "mark", "mark": "inf", "sharp_at": "inf"}
    (alone,) = whole(once).diagnosis.seen.errors
    # 2.8 × 0.03/4 rectangular: 0.021/√3.
    assert alone.standard == pytest.approx(0.0121244, abs=1e-6)
    (stated,) = whole(once, diagnosis={"seen_blur": "0.01"}).diagnosis.seen.errors
    assert stated.standard == pytest.approx(0.0161658, abs=1e-6)  # 0.028/√3
    (repeated,) = whole(NEAR).diagnosis.seen.errors
    assert not any("eye" in source.name for source in repeated.parts)


def test_the_eye_counts_in_the_rangefinder_too() -> None:
    """Images that meet at the ∞ mark carry the eye's own uncertainty at the film."""
    found = whole(rangefinder={**RANGEFINDER, "pairs": "∞ = ∞; 1 m = 1", "tape": "0"}).diagnosis
    far = found.seen.errors[-2]
    assert far.value == pytest.approx(0.0)
    # f²ε/(bM): 47² × 60″/(41 × 0.6) = 0.02612 mm either way.
    assert far.standard == pytest.approx(0.02612 / math.sqrt(3), rel=1e-3)


def test_what_is_supposed_can_be_changed() -> None:
    """Chances, sizes and the number of causes come from the job, the rest stays as usual."""
    camera = solved().camera
    part = job(
        NEAR,
        diagnosis={
            "most_causes": "1",
            "suspects": [{"cause": "ring", "chance": "60", "wrong": "0.5"}],
        },
    ).diagnosis
    assert part is not None
    priors = priors_of(part, camera)
    assert priors.most_causes == 1
    assert priors.by_cause[RING].chance == pytest.approx(0.6)
    assert priors.by_cause[RING].wrong == pytest.approx(0.5)
    assert priors.by_cause[RING].usual == pytest.approx(0.01)
    assert priors.by_cause[SEAT].chance == pytest.approx(0.2)


@pytest.mark.parametrize(
    ("part", "why"),
    [
        ({"suspects": [{"cause": "ring", "chance": "100 %"}]}, "between 0 and 1"),
        ({"suspects": [{"cause": "ring", "usual": "1 mm"}]}, "must be nearer its place"),
        ({"most_causes": "9"}, "must be at most 4"),
        ({"near_screw": "0.1"}, "got no rangefinder readings"),
        ({"infinity_screw": "0"}, "A screw's effect"),
    ],
)
def test_suppositions_that_cannot_be_are_refused(part: dict[str, Any], why: str) -> None:
    """A certain cause, a sound part worse than a faulty one, a dead screw: each is refused."""
    with pytest.raises(OutOfRange, match=why):
        solved(NEAR, diagnosis=part)


def test_a_start_is_no_suspect_where_there_is_none() -> None:
    """A camera without a thread has no wrong start to suspect."""
    with pytest.raises(OutOfRange, match="no other thread start"):
        solved(
            GAUGE,
            camera={**document()["camera"], "focusing": {"kind": "bed"}},
            diagnosis={"suspects": [{"cause": "start", "chance": "10"}]},
        )


def at_hand(**parts: Any) -> AtHand:
    """What the bench has for a job."""
    solution = solve(job(*READINGS, **parts))
    return at_hand_of(solution.job, solution.camera, solution.set_up)


def test_screws_are_stated_or_learned() -> None:
    """A stated screw is taken at its word; one that was turned has taught what it does."""
    stated = at_hand(rangefinder=RANGEFINDER, diagnosis={"infinity_screw": "0.2"})
    assert stated.zero_screw is not None
    assert (stated.zero_screw.per_turn, stated.gain_screw) == (0.2, None)
    # The near target is 1 m: its extension, f²/(D − h − 2f − …), is 2.44 mm, worked by hand.
    near = at_hand(rangefinder=RANGEFINDER, diagnosis={"near_screw": "0.244"}).gain_screw
    assert near is not None
    assert near.per_turn == pytest.approx(0.1, rel=0.01)
    # From 22 m to 44 m at ∞: 47²/22000 − 47²/44000 = 0.0502 mm nearer in by half a turn.
    turned = [{"infinity_turned": "1/2", "far_reads": "44", "near_reads": "1.003"}]
    learned = at_hand(rangefinder={**RANGEFINDER, "rounds": turned}).zero_screw
    assert learned is not None
    assert learned.per_turn == pytest.approx(-0.1, rel=0.15)
    assert at_hand(rangefinder=RANGEFINDER).zero_screw is None


def test_a_screw_stated_against_its_own_turns_is_refused() -> None:
    """A sign that the noted turns contradict would send the screw the wrong way round."""
    turned = [{"infinity_turned": "1/2", "far_reads": "44", "near_reads": "1.003"}]
    part = {**RANGEFINDER, "rounds": turned}
    with pytest.raises(OutOfRange) as refused:
        at_hand(rangefinder=part, diagnosis={"infinity_screw": "0.2"})
    # Half a turn moved the lens 0.05 mm in, as worked by hand above.
    assert str(refused.value) == (
        "What a turn of the infinity screw adds must have the sign that the rangefinder's rounds "
        "showed, −0.10 mm for a turn clockwise: got +0.20 mm; change its sign, or leave it out "
        "and the rounds tell it."
    )
    stated = at_hand(rangefinder=part, diagnosis={"infinity_screw": "-0.2"}).zero_screw
    assert stated is not None
    assert stated.per_turn == -0.2


def test_a_near_screw_stated_against_its_own_turns_is_refused() -> None:
    """The near screw's sign is held against its turns too, as mm at the near target."""
    turned = [{"near_turned": "1/2", "far_reads": "22", "near_reads": "1.06"}]
    part = {**RANGEFINDER, "rounds": turned}
    # From 0.985 to 1.06 m, by x = 47²/(D − 94 − x): 2.486 − 2.292 = 0.194 mm in by half a turn.
    with pytest.raises(
        OutOfRange, match=r"near screw adds .* showed, −0\.3\d mm .*: got \+0\.30 mm;"
    ):
        at_hand(rangefinder=part, diagnosis={"near_screw": "0.3"})
    learned = at_hand(rangefinder=part).gain_screw
    assert learned is not None
    # 0.388 mm of the 2.44 mm that 1 m asks for.
    assert learned.per_turn == pytest.approx(-0.388 / 2.44, rel=0.01)


@pytest.mark.parametrize(
    "turned",
    [
        {"infinity_turned": "1/8", "far_reads": "21", "near_reads": "0.986"},
        {"infinity_turned": "1/8", "near_turned": "1/4", "far_reads": "26", "near_reads": "1.003"},
    ],
    ids=["less than the eye can tell", "both turned at once"],
)
def test_rounds_that_do_not_tell_which_way_a_screw_goes_say_nothing(turned: dict[str, str]) -> None:
    """A change within the eye's scatter, or of both screws at once, contradicts no figure."""
    part = {**RANGEFINDER, "rounds": [turned]}
    assert at_hand(rangefinder=part).zero_screw is None
    for figure in (0.1, -0.1):
        found = at_hand(rangefinder=part, diagnosis={"infinity_screw": str(figure)}).zero_screw
        assert found is not None
        assert found.per_turn == figure


def test_the_standard_s_screws_are_half_their_distance_away() -> None:
    """Screws 50 by 40 mm apart stand 25 and 20 mm from the middle; the standard's own serve too."""
    assert at_hand(diagnosis={"standard_screws": "50 × 40"}).standard_screws == (25.0, 20.0)
    assert at_hand(standard=STANDARD).standard_screws == (24.0, 20.0)


def test_the_order_of_the_readings_does_not_matter() -> None:
    """Noted the other way round, the readings say the same."""
    one, other = whole(GAUGE, STOP, NEAR).diagnosis, whole(NEAR, STOP, GAUGE).diagnosis
    assert one.chances == pytest.approx(other.chances, abs=1e-9)
