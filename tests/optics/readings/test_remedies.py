"""The wrong-way-round test: do what the remedy says to a camera, and see what is left.

The camera is simulated by a separate model with its own optics, thread and shims, which reads
the remedy's words as a hand would. Readings go in through a job, so every word of a reading
that tells a direction is tried too.
"""

import copy
import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import pytest
from hypothesis import assume, event, given, reject, settings
from hypothesis import strategies as st

from optics.readings.correction import Correction
from optics.readings.kinds.parallax import ParallaxReading
from optics.readings.remedies import Remedy
from optics.records.job import JobDocument
from optics.records.solve import solve
from tests.optics.readings.simulated_camera import FrontCellLens, SimulatedCamera, WholeLens

NOMINAL_REGISTER = 40.0
LEAVES = (0.02, 0.03, 0.05, 0.1, 0.2)
quick = settings(max_examples=80, deadline=None)
sizes = st.floats(-0.45, 0.45).filter(lambda size: abs(size) > 0.01)


@dataclass(frozen=True)
class Case:
    """A camera with a fault, and whether the repairer knows what shims are fitted."""

    camera: SimulatedCamera
    fitted_known: bool
    kind: str

    def job(self, *readings: dict[str, Any]) -> JobDocument:
        """Describe the camera and its readings as they would be typed."""
        leaves = "; ".join(f"{leaf} mm" for leaf in self.camera.leaves) or "none"
        return JobDocument.model_validate(
            {
                "camera": {
                    "lens": {
                        "focal_length": mm(self.camera.lens.focal_length),
                        "full_aperture": "f/4",
                        "hiatus": mm(getattr(self.camera.lens, "hiatus", 0.0)),
                    },
                    "focusing": self._focusing(),
                    "circle_of_confusion": "0.03 mm",
                },
                "marks": [],
                "workshop": {
                    "drawer": "; ".join(f"{leaf} mm x 6" for leaf in LEAVES),
                    **({"fitted": leaves} if self.fitted_known else {}),
                },
                "readings": list(readings),
            }
        )

    def _focusing(self) -> dict[str, str]:
        thread = {
            "lead": mm(self.camera.lead),
            "extends": "clockwise" if self.camera.right_hand else "counter-clockwise",
        }
        lens = self.camera.lens
        if isinstance(lens, FrontCellLens):
            cell = {
                "group_focal_length": mm(lens.front),
                "cell_to_film": mm(self.camera.cell_to_film),
            }
            return {"kind": "front cell", **cell, **thread}
        if self.kind == "bed":
            return {"kind": "bed"}
        return {"kind": "helicoid", "starts": str(self.camera.starts), **thread}


def mm(length: float) -> str:
    """Type a length out in full."""
    return "inf" if math.isinf(length) else f"{length:.11f} mm"


@st.composite
def threads(draw: st.DrawFn, finest: float = 1.0) -> dict[str, Any]:
    """Draw a thread and shims, with some of the shims not the maker's."""
    leaves = draw(st.lists(st.sampled_from(LEAVES), max_size=4))
    return {
        "lead": draw(st.floats(finest, 60)),
        "starts": draw(st.integers(1, 12)),
        "right_hand": draw(st.booleans()),
        "seat": NOMINAL_REGISTER,
        "leaves": leaves,
        "maker_shims": sum(leaves),
    }


@st.composite
def whole_lenses(draw: st.DrawFn, kind: str = "helicoid") -> Case:
    """Draw a camera whose lens moves whole: shims, scale ring or thread entry may be wrong."""
    focal_length = draw(st.floats(20, 300))
    hiatus = focal_length * draw(st.floats(-0.1, 0.15))
    camera = SimulatedCamera(WholeLens(focal_length, hiatus), **draw(threads()))
    fault = draw(
        st.sampled_from(("shims", "scale ring", "entry") if kind == "helicoid" else ("stop",))
    )
    size = draw(sizes)
    pitch = camera.lead / camera.starts
    if fault == "shims":
        camera.maker_shims += size
    elif fault == "scale ring":
        camera.slip = size / camera.lead * 360
    elif fault == "stop":
        camera.stop = size
    else:
        assume(camera.starts > 1 and 0.05 < pitch < focal_length / 10)
        wrong = draw(st.integers(1, min(camera.starts - 1, 3))) * draw(st.sampled_from((-1, 1)))
        assume(abs(wrong * pitch) < focal_length / 8)
        camera.entered += wrong * 360 / camera.starts
        camera.maker_shims += draw(sizes) / 4
    event(f"{kind}: {fault}")
    return Case(camera, draw(st.booleans()), kind)


@st.composite
def front_cells(draw: st.DrawFn) -> Case:
    """Draw a front-cell camera whose cell or shims are wrong."""
    focal_length = draw(st.floats(40, 150))
    front = focal_length * draw(st.floats(0.6, 1.5).filter(lambda ratio: abs(ratio - 1) > 0.02))
    gap = front * draw(st.floats(0.05, 0.25))
    rear = (front - gap) / (front / focal_length - 1)
    camera = SimulatedCamera(FrontCellLens(front, rear, gap), **draw(threads()))
    if draw(st.booleans()):
        event("front cell: cell")
        camera.slip = draw(sizes) / camera.lead * 360
    else:
        event("front cell: shims")
        camera.maker_shims += draw(sizes)
    return Case(camera, draw(st.booleans()), "front cell")


def mark_of(camera: SimulatedCamera, choice: int) -> float:
    """Choose infinity, or a distance the lens can serve."""
    return (math.inf, camera.nearest * 8, camera.nearest * 2)[choice]


def answer_to(case: Case, reading: dict[str, Any]) -> Correction:
    """Work one reading out."""
    (answer,) = solve(case.job(reading)).answers
    assert isinstance(answer, Correction)
    return answer


def done(case: Case, remedy: Remedy) -> float:
    """Do as the remedy says on a copy of the camera, and return the true error left."""
    camera = copy.deepcopy(case.camera)
    camera.do(remedy.instruction)
    return camera.true_error()


def tolerance(case: Case, error: float, travel: float) -> float:
    """Return how far a prediction may be out.

    Nothing but rounding for a lens that moves whole. A front cell changes the focal length as
    it moves, by about twice the part its travel is of the group's focal length at most.
    """
    lens = case.camera.lens
    if not isinstance(lens, FrontCellLens):
        return 1e-6
    moved = abs(error) * (lens.front / lens.focal_length) ** 2 + travel
    return 1e-6 + abs(error) * 2 * moved / lens.front


def check(case: Case, answer: Correction, travel: float = 0.0) -> None:
    """Try every remedy offered: it must leave what it says, and never more than there was."""
    before = case.camera.true_error()
    slack = tolerance(case, before, travel)
    assert answer.error.value == pytest.approx(before, abs=slack)
    for remedy in answer.remedies:
        after = done(case, remedy)
        assert after == pytest.approx(remedy.residual.value, abs=slack), remedy.instruction
        assert abs(after) <= abs(before) + slack, remedy.instruction


def marked(case: Case, choice: int) -> dict[str, Any]:
    """Read what is sharp with the ring at a mark; nothing is where the lens is too far in."""
    mark = mark_of(case.camera, choice)
    sharp = case.camera.sharp_at(mark)
    if sharp is None or sharp < case.camera.nearest:
        reject()
    return {"kind": "mark", "mark": mm(mark), "sharp_at": mm(sharp)}


def rotated(case: Case, choice: int, target: int) -> dict[str, Any]:
    """Read how far the ring turns from a mark until a target is sharp."""
    mark, aim = mark_of(case.camera, choice), mark_of(case.camera, target)
    degrees, sense = case.camera.turned_until_sharp(mark, aim)
    return {
        "kind": "rotation",
        "turned": f"{degrees:.11f}°",
        "sense": sense,
        "target": mm(aim),
        "mark": mm(mark),
    }


choices = st.integers(0, 2)


@quick
@given(whole_lenses(), choices)
def test_a_ring_mark_leads_the_right_way_round(case: Case, choice: int) -> None:
    """What a ring mark against a true distance advises puts a helicoid camera right as told."""
    check(case, answer_to(case, marked(case, choice)))


@quick
@given(whole_lenses(), choices, choices)
def test_a_rotation_leads_the_right_way_round(case: Case, choice: int, target: int) -> None:
    """What a rotation until sharp advises puts a helicoid camera right as told."""
    check(case, answer_to(case, rotated(case, choice, target)))


@quick
@given(whole_lenses(), st.floats(1, 6))
def test_a_collimator_leads_the_right_way_round(case: Case, power: float) -> None:
    """What a collimator's reticle shift advises puts a helicoid camera right as told."""
    check(case, answer_to(case, collimated(case, power)))


def collimated(case: Case, power: float) -> dict[str, Any]:
    """Read the reticle's shift in a collimator so many times as long as the lens."""
    collimator = power * case.camera.lens.focal_length
    apart = case.camera.lens.focal_length
    shift, towards = case.camera.reticle_shift(collimator, apart)
    return {
        "kind": "collimator",
        "shift": mm(shift),
        "towards": towards,
        "collimator_focal_length": mm(collimator),
        "to_lens": mm(apart),
    }


@quick
@given(whole_lenses(), choices, st.floats(0.0, 1.2), st.floats(0.8, 1.2))
def test_a_ruler_leads_the_right_way_round(
    case: Case, choice: int, slope: float, aim: float
) -> None:
    """What a film test on a slanting ruler advises puts a helicoid camera right as told."""
    check(case, answer_to(case, photographed(case, choice, slope, aim)))


def photographed(case: Case, choice: int, slope: float, aim: float) -> dict[str, Any]:
    """Read the sharpest place on a slanting ruler, near to where the lens is sharp."""
    mark = mark_of(case.camera, choice)
    sharp = case.camera.sharp_at(mark)
    assume(sharp is not None and case.camera.nearest < sharp < 1e5)
    assert sharp is not None
    offset = case.camera.ruler_offset(mark, sharp * aim, slope)
    assert offset is not None
    return {
        "kind": "ruler",
        "mark": mm(mark),
        "aim": mm(sharp * aim),
        "offset": mm(offset[0]),
        "side": offset[1],
        "slope": f"{math.degrees(slope):.12f}°",
    }


@quick
@given(whole_lenses(), st.floats(-0.4, 0.4))
def test_a_register_leads_the_right_way_round(case: Case, size: float) -> None:
    """What a gauged register advises puts right what is wrong below the lens seat."""
    camera = case.camera
    camera.slip, camera.entered = 0.0, camera.maker_entered
    camera.maker_shims = sum(camera.leaves) - size
    nominal = NOMINAL_REGISTER + camera.maker_shims
    reading = {"kind": "register", "measured": mm(camera.register()), "nominal": mm(nominal)}
    check(case, answer_to(case, {**reading, "limit": "0 mm"}))


@quick
@given(whole_lenses(kind="bed"), choices)
def test_stops_are_moved_the_right_way(case: Case, choice: int) -> None:
    """Moving the infinity stops of a bed camera as told leaves what was foretold."""
    check(case, answer_to(case, marked(case, choice)))


@quick
@given(front_cells(), choices)
def test_a_front_cell_mark_leads_the_right_way_round(case: Case, choice: int) -> None:
    """What a ring mark advises puts a front-cell camera right as told, to second order."""
    check(case, answer_to(case, marked(case, choice)), travel_to(case, choice))


@quick
@given(front_cells(), choices, choices)
def test_a_front_cell_rotation_leads_the_right_way_round(
    case: Case, choice: int, target: int
) -> None:
    """What a rotation advises puts a front-cell camera right as told, to second order."""
    travel = travel_to(case, choice) + travel_to(case, target)
    check(case, answer_to(case, rotated(case, choice, target)), travel)


@quick
@given(front_cells(), st.floats(1, 6))
def test_a_front_cell_collimator_leads_the_right_way_round(case: Case, power: float) -> None:
    """What a collimator advises puts a front-cell camera right as told, to second order."""
    check(case, answer_to(case, collimated(case, power)))


def travel_to(case: Case, choice: int) -> float:
    """Return how far the maker's front cell moves out to a mark."""
    return abs(case.camera.engraved(mark_of(case.camera, choice))) / 360 * case.camera.lead


@quick
@given(st.one_of(whole_lenses(), whole_lenses(kind="bed"), front_cells()))
def test_parallax_tells_the_right_way(case: Case) -> None:
    """The way the image moves against the eye tells whether the lens is too far out or in."""
    camera = case.camera
    error = camera.true_error()
    assume(abs(error) > 1e-6)
    moves = camera.parallax(math.inf)
    (answer,) = solve(case.job({"kind": "parallax", "image_moves": moves})).answers
    assert isinstance(answer, ParallaxReading)
    assert answer.sense.words == ("too far out" if error > 0 else "too far in")


def every_kind() -> Iterator[Any]:
    """Give one plain camera of each way of focusing, 0.3 mm too far out."""
    for right_hand in (True, False):
        thread = {
            "lead": 12.0,
            "starts": 6,
            "right_hand": right_hand,
            "seat": NOMINAL_REGISTER,
            "leaves": [0.2, 0.1],
            "maker_shims": 0.0,
        }
        whole = SimulatedCamera(WholeLens(75.0, 1.0), **thread)
        cell = SimulatedCamera(FrontCellLens(51.0, -150.0, 8.0), **thread)
        yield pytest.param(Case(whole, True, "helicoid"), "shim ring", id=f"helicoid-{right_hand}")
        yield pytest.param(
            Case(cell, True, "front cell"), "front_cell shim", id=f"cell-{right_hand}"
        )
        yield pytest.param(Case(whole, True, "bed"), "shim stops", id=f"bed-{right_hand}")


@pytest.mark.parametrize(("case", "kinds"), list(every_kind()))
def test_every_remedy_is_offered_where_it_serves(case: Case, kinds: str) -> None:
    """A lens 0.3 mm too far out on two spare shims can be put right by each usual remedy."""
    answer = answer_to(case, marked(case, 0))
    assert answer.sense.words == "too far out"
    assert {r.kind for r in answer.remedies} == set(kinds.split())
    check(case, answer)


def test_a_wrong_start_is_found_and_entered_back() -> None:
    """A thread entered two starts too far on is entered two starts back, and nothing is left."""
    camera = SimulatedCamera(WholeLens(75.0, 1.0), 12.0, 6, True, NOMINAL_REGISTER, [0.1], 0.1)
    camera.entered += 120.0  # clockwise, further out for this hand, so the lens ends farther in
    case = Case(camera, True, "helicoid")
    assert camera.true_error() == pytest.approx(-4.0)
    answer = answer_to(case, rotated(case, 0, 0))
    start = next(r for r in answer.remedies if r.kind == "start")
    assert "enter it again 2 starts (120.0°) further counter-clockwise" in start.instruction
    assert done(case, start) == pytest.approx(0.0, abs=1e-9)
