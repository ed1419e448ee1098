"""Principal planes, cells and fields of known glasses."""

from dataclasses import replace

import pytest

from optics.world.glass import Glass, glass_of
from optics.world.prescriptions import SLOW_TRIPLET, TRIPLET


def test_a_thick_lens_of_a_course() -> None:
    """Radii −50 and 50, 15 thick, n 1.5 make −47.619, the planes 4.7619 inside either face."""
    # University of Tennessee, Optics 507.
    glass = Glass((-1 / 50, 1 / 50), (15.0, 0.0), (1.5, 1.0), 1, 0.0, 1)
    front, rear = glass.principal_planes
    assert glass.focal_length == pytest.approx(-47.619, abs=0.0005)
    assert front == pytest.approx(4.7619, abs=0.00005)
    assert rear == pytest.approx(15 - 4.7619, abs=0.00005)


def test_the_triplet_has_its_printed_planes() -> None:
    """The course triplet's front principal plane is 12.9 behind its face, its hiatus −2.047."""
    glass = glass_of(TRIPLET)
    assert glass.principal_planes[0] == pytest.approx(12.9, abs=0.05)
    assert glass.hiatus == pytest.approx(-2.047, abs=0.0005)


def test_the_triplets_front_cell() -> None:
    """Its front glass alone has 34.419 mm, as an earlier trace with forty digits found it."""
    assert glass_of(TRIPLET).cell_focal_length == pytest.approx(34.419, abs=0.0005)


def test_a_thin_glass_is_sharp_on_its_petzval_field() -> None:
    """A thin glass has a hollow field of its index times its focal length (Petzval)."""
    glass = Glass((1 / 50, -1 / 50), (1e-9, 0.0), (1.5, 1.0), 1, 0.0, 1)
    assert glass.petzval_radius == pytest.approx(-1.5 * 50, rel=1e-9)


def test_scaling_scales_every_length() -> None:
    """Half as large again, the triplet has half as long again focus, back focus and planes."""
    glass = glass_of(TRIPLET)
    larger = glass.scaled(1.5 * glass.focal_length)
    for name in ("focal_length", "back_focus", "length", "hiatus", "cell_focal_length"):
        assert getattr(larger, name) == pytest.approx(1.5 * getattr(glass, name), rel=1e-12)


@pytest.mark.parametrize(("printed", "moves_off"), [(TRIPLET, True), (SLOW_TRIPLET, False)])
def test_a_cell_moves_out_before_a_stop_that_stands_still(printed, moves_off: bool) -> None:  # type: ignore[no-untyped-def]
    """Unscrewed, the cell's gap grows alone, and the stop stays where it is against the rear."""
    glass = glass_of(printed)
    out = glass.unscrewed(1.0)
    assert out.length == pytest.approx(glass.length + 1.0)
    assert replace(out, gaps=glass.gaps, stop_gap=glass.stop_gap) == glass
    assert out.stop_gap - glass.stop_gap == pytest.approx(1.0 if moves_off else 0.0)
