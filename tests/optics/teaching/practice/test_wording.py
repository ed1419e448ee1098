"""A sitting in words."""

import math

import pytest

from optics.camera.cautions import SPRINGS, SUN
from optics.finding.causes import Cause
from optics.finding.causes.focal import FOCAL
from optics.finding.causes.gain import GAIN
from optics.finding.causes.gate import GATE
from optics.finding.causes.ring import RING
from optics.finding.causes.seat import SEAT
from optics.finding.causes.start import START
from optics.finding.causes.tilt import TILT
from optics.finding.diagnosis import Faults
from optics.teaching.practice import wording
from optics.teaching.practice.debrief import debrief
from optics.teaching.practice.levels import Level
from optics.teaching.practice.score import JudgedPlace
from optics.teaching.practice.sight import Glass, Patch
from optics.teaching.practice.sitting import Adjust, Finish, Read
from optics.teaching.practice.stand import Stand
from tests.optics.teaching.practice.stands import CORVANE, OSTRIN, STANDS, TARNBROOK, sitting


def test_the_log_says_what_was_done_and_shown() -> None:
    """Readings, judgements, adjustments and the end are said as a repairer says them."""
    done = sitting(
        Read("register"), Read("3 m mark", 4.5), Adjust("turn the near screw", -0.125), Finish()
    )
    said = [wording.done_words(done, entry) for entry in done.entries]
    assert said == [
        "Read: register",
        "Judged: 3 m mark, ring turned 4.5° counter-clockwise",
        "Turned the near screw 1/8 turn counter-clockwise",
        "Work laid down",
    ]
    judged = done.entries[1]
    assert judged.reading is not None
    assert judged.reading.said_as_read(OSTRIN.camera) == "4.5° counter-clockwise"
    assert wording.meaning_words(judged).startswith("0.225 mm too far in, ± 0.0")


@pytest.mark.parametrize("stand", STANDS, ids=lambda s: s.camera.name)
def test_every_figure_has_its_unit(stand: Stand) -> None:
    """Each reading of the bench is said in the unit it is read in."""
    done = sitting(*map(Read, [n for n in stand.offered if "rangefinder at" not in n]), stand=stand)
    for entry in done.entries:
        assert entry.reading is not None
        said = entry.reading.said_as_read(stand.camera)
        assert any(unit in said for unit in ("mm", "°", " m"))


def test_a_reading_says_what_it_is_taken_with() -> None:
    """Each choice names the reading and its instrument."""
    said = [wording.offered_words(offered) for offered in OSTRIN.offered.values()]
    assert said[0] == "Register (depth gauge)"
    assert "Infinity stop (collimator, ground glass)" in said
    assert "3 m mark (by eye on the ground glass)" in said
    assert "Film test at 1.2 m (slanting ruler)" in said
    assert said[-1] == "Rangefinder at 1.2 m (by eye in the finder)"


def test_the_bench_says_how_good_it_is() -> None:
    """Limits of instruments and eye are stated, and wider where they are worn."""
    good = " ".join(wording.bench_lines(sitting()))
    assert "in good order: depth gauge ± 0.015 mm" in good
    assert "within ± 0.021 mm at the film" in good
    assert "Allowed at the film: ± 0.042 mm" in good
    worn = " ".join(wording.bench_lines(sitting(level=Level.THREE)))
    assert "worn: depth gauge ± 0.040 mm" in worn
    assert "finder" not in " ".join(wording.bench_lines(sitting(stand=CORVANE)))


def test_old_lines_say_what_would_meet() -> None:
    """On a ring a line tells degrees and a sense, on a bed mm and a way."""
    (line,) = [wording.old_mark_line(sitting(), m) for m in sitting().old_marks]
    assert line == "Line A would meet with the barrel turned 2.5° clockwise."
    bed = sitting(stand=TARNBROOK)
    (line,) = [wording.old_mark_line(bed, m) for m in bed.old_marks]
    assert "Line A would meet with the pointer moved" in line
    assert line.endswith(("towards the film.", "away from the film."))


def test_pictures_are_said_in_words() -> None:
    """Who cannot see the loupe or the finder hears the finest bars, or the whole minutes."""
    assert "up to 27 line pairs to the mm" in wording.glass_words(Glass(0.03, 27))
    assert "no bars" in wording.glass_words(Glass(2.0, 0))
    minute = math.radians(1 / 60)
    both = wording.patch_words(Patch(-3.2 * minute, 2 * minute))
    assert both == "Finder: the moving image stands 3′ left of the fixed one, 2′ high"
    assert "lie on each other" in wording.patch_words(Patch(0.3 * minute, 0.0))
    assert "level across with" in wording.patch_words(Patch(0.0, -5 * minute))


def test_the_pictures_scale_is_stated() -> None:
    """On a screen of 96 px to the inch, 225 px to the mm are 3.7 times an 8 × loupe's picture."""
    # 225 px are 59.5 mm, seen from 500 mm; an 8 × loupe shows 1 mm as 8 mm seen from 250 mm.
    assert "3.7 × as large as an 8 × loupe" in wording.loupe_scale_words(1.5, 225.0)
    # 4 px are 1.058 mm, at 500 mm 7.28 minutes of arc.
    assert "7.3 × as large as in the finder" in wording.finder_scale_words(4.0)


def test_cautions_belong_to_what_is_about_to_be_done() -> None:
    """The Sun where one looks, springs at the stop, each once, and none for a gauge."""
    controls = sitting().controls
    stop, film = controls["move the infinity stop"], controls["move the film"]
    assert wording.cautions_for(stop, OSTRIN.offered["infinity stop"]) == (SPRINGS, SUN)
    assert wording.cautions_for(film, OSTRIN.offered["register"]) == (SPRINGS,)
    assert wording.cautions_for(None, OSTRIN.offered["register"]) == ()


@pytest.mark.parametrize(
    ("cause", "faults", "said"),
    [
        (SEAT, Faults(seat=0.1), "Shims under the lens seat: 0.100 mm too thick."),
        (START, Faults(start=-6.0), "Wrong thread start: 2 starts too far in."),
        (RING, Faults(ring=-0.2), "Slipped scale ring: 0.200 mm too far in."),
        (FOCAL, Faults(focal=0.5), "Focal length other than engraved: 0.500 mm longer."),
        (TILT, Faults(tilt_x=0.003, tilt_y=0.004), "Standard out of square: 17.2′."),
        (GATE, Faults(gate=-0.1), "0.100 mm nearer the lens."),
        (GAIN, Faults(gain=0.04), "4.0 % of the extension too far out."),
    ],
)
def test_hidden_faults_are_told_with_size_and_way(cause: Cause, faults: Faults, said: str) -> None:
    """A fault is told by its name, how much and which way."""
    assert wording.fault_line(cause, faults, 3.0).endswith(said)


def test_the_debrief_tells_all() -> None:
    """Points, places, hidden faults, what each reading said, and the plan are all in words."""
    done = sitting(Read("∞ mark"), Read("register"), Read("∞ mark", 0.0), Finish())
    found = debrief(done)
    assert wording.points_words(done, found.score) == "0 of 100 points: Ostrin 35, level 1, seed 1"
    assert "0 of 60 for the camera as left" in wording.score_line(found.score)
    assert wording.hidden_lines(done) == (
        "Slipped scale ring: 0.126 mm too far out.",
        "The maker's own old line was A.",
    )
    reading, causes, best, eye = wording.remark_words(done, found.remarks[0])
    assert reading == "1. ∞ mark"
    assert "slipped scale ring" in causes
    assert "risk of a wrong set of causes from" in best
    assert eye == "instrument"
    assert "more than an eye is granted" in wording.remark_words(done, found.remarks[2])[3]
    assert wording.plan_heading(found).endswith("contradicted each other.")
    assert any("Take both again" in note for note in wording.plan_notes(found))
    assert any("conform" in note.lower() for note in wording.plan_notes(found))
    assert wording.plan_notes(debrief(sitting(Finish()))) == ()
    assert wording.plan_heading(debrief(sitting(Finish()))).startswith("Nothing was read")


def test_the_debrief_shows_the_plan_that_would_have_been() -> None:
    """Readings that agree have their plan shown, step by step."""
    found = debrief(sitting(Read("∞ mark"), Read("register"), Finish()))
    assert wording.plan_heading(found).startswith("From the readings before the first adjustment")
    assert len(wording.plan_lines(found)) >= 1


def test_places_are_told_with_what_is_allowed() -> None:
    """A place is told with tolerance, as found, as left, and a verdict in sign and word."""
    place = JudgedPlace("∞ mark", 0.1149, -0.01, 0.042)
    assert wording.place_words(place) == (
        "∞ mark",
        "± 0.042 mm",
        "0.115 mm too far out",
        "0.010 mm too far in",
        "✓ inside",
    )
    minute = math.radians(1 / 60)
    height = JudgedPlace("height", 4 * minute, -3 * minute, minute, is_angle=True)
    assert wording.place_words(height)[1:] == ("± 1.0′", "4′ too high", "3′ too low", "✕ outside")


def test_a_hand_s_miss_is_stated() -> None:
    """Each control says how nearly it is set."""
    said = {name: wording.miss_words(c) for name, c in sitting().controls.items()}
    assert said["turn the barrel"] == "A hand misses by up to 0.05° either way."
    assert said["turn the near screw"] == "A hand misses by up to 1/32 turn either way."
    assert said["enter the thread"] == "A hand cannot miss a start."


def test_what_a_unit_does_is_stated() -> None:
    """Degrees, starts and turns are told in mm at the film and a way; a leaf is what it is."""
    said = {name: c.does for name, c in sitting().controls.items()}
    # A lead of 18 mm on 6 starts that extends counter-clockwise: 0.05 mm a degree, 3 mm a start.
    assert said["turn the barrel"] == "One degree clockwise: the lens stands 0.050 mm farther in."
    assert said["enter the thread"] == "One start clockwise: the lens stands 3.000 mm farther out."
    assert "at the stop the lens stands 0.050 mm farther in" in said["move the infinity stop"]
    assert "the lens stands 0.200 mm farther out" in said["turn the infinity screw"]
    assert "2 % of its extension farther out" in said["turn the near screw"]
    assert "lifts the moving image by 8.0′" in said["turn the height screw"]
    assert "a quarter of the leaf" in said["shim the standard, top left screw,"]
    assert said["shim the lens seat"] == said["move the film"] == ""
    assert "the lens stays" in said["make the scale"]


def test_the_tally_counts() -> None:
    """Readings, adjustments and rounds are counted, in the singular for one."""
    assert wording.tally_words(sitting()) == "0 readings, 0 adjustments, 0 rounds"
    done = sitting(Read("register"), Adjust("turn the barrel", 1.0))
    assert wording.tally_words(done) == "1 reading, 1 adjustment, 1 round"
    assert wording.begin_lines(sitting(level=Level.TWO))[0].startswith("Two faults are hidden")
