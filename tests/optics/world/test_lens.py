"""What must move for a subject, by rays, against equations of exact optics near the axis."""

import math

import pytest

from optics.errors import NoAnswer
from optics.world.glass import glass_of
from optics.world.lens import Lens, Stand
from optics.world.prescriptions import ALL, SLOW_TRIPLET, TRIPLET, Prescription
from optics.world.trace import Seen

# So narrow a beam that its rays are those near the axis.
NARROW = 2e5


def narrow(printed: Prescription, front_cell: bool = False, focal_length: float = 50.0) -> Lens:
    """A lens seen through a pinhole."""
    return Lens(glass_of(printed).scaled(focal_length), NARROW, front_cell)


@pytest.mark.parametrize("distance", [700.0, 1000.0, 3000.0])
@pytest.mark.parametrize("printed", ALL, ids=lambda one: one.kind)
def test_unit_focusing(printed: Prescription, distance: float) -> None:
    """Moved as a whole by x, a lens is sharp at D = 2f + h + x + f²/x (Newton)."""
    lens = narrow(printed)
    f, x = lens.glass.focal_length, lens.needs(distance)
    assert 2 * f + lens.glass.hiatus + x + f**2 / x == pytest.approx(distance, rel=1e-7)


@pytest.mark.parametrize("distance", [1000.0, 3000.0])
@pytest.mark.parametrize("printed", [TRIPLET, SLOW_TRIPLET], ids=lambda one: one.kind)
def test_front_cell_focusing(printed: Prescription, distance: float) -> None:
    """A cell moves by t = f₁²/(u − f₁), u from its own front principal plane, to 1e-9 mm."""
    lens = narrow(printed, front_cell=True)
    t, f1 = lens.needs(distance), lens.glass.cell_focal_length
    u = distance - lens.first_face(Stand(cell=t)) + lens.glass.cell_plane
    assert t == pytest.approx(f1**2 / (u - f1), abs=1e-9)


# Recorded from an earlier trace of this triplet with forty digits, not published.
@pytest.mark.parametrize(
    ("front_cell", "distance", "recorded"),
    [(False, 1000.0, 2.7802), (False, 3000.0, 0.8618), (True, 1000.0, 1.3113), (True, 3e3, 0.4079)],
)
def test_movements_recorded(front_cell: bool, distance: float, recorded: float) -> None:
    """The course triplet moves as another trace found it."""
    lens = Lens(glass_of(TRIPLET), NARROW, front_cell)
    assert lens.needs(distance) == pytest.approx(recorded, abs=5e-5)


def test_what_a_cell_does_at_the_film() -> None:
    """A small turn of the cell draws the image in by (f/f₁)² of its movement."""
    lens = narrow(TRIPLET, front_cell=True)
    error = lens.defocus(math.inf, Stand(cell=0.001))
    assert error / 0.001 == pytest.approx((50.0 / (34.419 * 50 / 50.0018)) ** 2, rel=3e-4)


@pytest.mark.parametrize("front_cell", [False, True])
def test_at_full_aperture_there_and_back(front_cell: bool) -> None:
    """Set for a distance at full aperture, that distance is sharp and shows no error."""
    lens = Lens(glass_of(TRIPLET).scaled(75.0), 4.0, front_cell)
    out = lens.needs(1500.0)
    stand = Stand(cell=out) if front_cell else Stand(lens=out)
    assert lens.sharp_at(stand) == pytest.approx(1500.0, abs=1e-5)
    assert lens.defocus(1500.0, stand) == pytest.approx(0.0, abs=1e-9)


def test_a_lens_too_far_out_is_plus() -> None:
    """Moved 0.1 mm out, or its surface 0.1 mm behind the rails, a lens is 0.1 mm too far out."""
    lens = Lens(glass_of(TRIPLET), 4.0)
    assert lens.defocus(math.inf, Stand(0.1)) == pytest.approx(0.1, abs=1e-12)
    assert lens.defocus(math.inf, Stand(), behind=0.1) == pytest.approx(0.1, abs=1e-12)
    assert lens.sharp_at(Stand()) == math.inf
    with pytest.raises(NoAnswer, match="inside its infinity focus"):
        lens.sharp_at(Stand(-0.1))


def test_the_eye_that_stops_down_sees_the_focus_elsewhere() -> None:
    """Set right at f/4, the course triplet is seen 41 µm off through one stop less."""
    lens = Lens(glass_of(TRIPLET), 4.0)
    seen = lens.defocus(math.inf, Stand(), seen=Seen(4 * 2**0.5))
    assert seen == pytest.approx(-0.041, abs=0.001)


def test_magnification() -> None:
    """At 1 m a lens of 50 mm images about a twentieth (OpenStax: 3 m, 50 mm, 0.01695)."""
    lens = narrow(TRIPLET)
    front, _ = lens.glass.principal_planes
    distance = 3000.0 + lens.first_face(Stand()) - front
    assert lens.magnification(distance) == pytest.approx(1.695e-2, abs=5e-6)
