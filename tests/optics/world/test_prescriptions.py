"""Published lenses against what is printed with them."""

import pytest

from optics.world import prescriptions
from optics.world.glass import glass_of
from optics.world.prescriptions import Prescription

# Half of the last digit printed; where indices are printed to three places the figure follows
# them no better than a part in five hundred.
NEARLY = {
    prescriptions.TRIPLET: (0.05, 0.005),
    prescriptions.SLOW_TRIPLET: (0.5, 0.15),
    prescriptions.TRIPLET_AND_CEMENTED_PAIR: (0.00005, 0.00005),
    prescriptions.DOUBLE_GAUSS: (0.0005, 0.0005),
    prescriptions.FAST_DOUBLE_GAUSS: (0.05, 0.0005),
    prescriptions.TELEPHOTO: (0.5, None),
}


@pytest.mark.parametrize("printed", prescriptions.ALL, ids=lambda one: one.kind)
def test_a_lens_has_its_printed_focal_length_and_back_focus(printed: Prescription) -> None:
    """Rays near the axis come together where the publication says."""
    glass = glass_of(printed)
    focal_length, back_focus = NEARLY[printed]
    assert glass.focal_length == pytest.approx(printed.focal_length, abs=focal_length)
    if printed.back_focus is not None:
        assert glass.back_focus == pytest.approx(printed.back_focus, abs=back_focus)


def test_there_are_lenses_of_different_kinds() -> None:
    """At least four types are there, each with where it was published."""
    assert len({one.kind.split(",")[0] for one in prescriptions.ALL}) >= 4
    assert all(len(one.source) > 20 for one in prescriptions.ALL)


def test_a_telephoto_is_shorter_than_its_focal_length() -> None:
    """From first face to film the telephoto is well under its focal length, and no other is."""
    ratios = {
        one.kind: (glass_of(one).length + glass_of(one).back_focus) / glass_of(one).focal_length
        for one in prescriptions.ALL
    }
    assert ratios.pop("telephoto, f/5.6") < 0.9
    assert min(ratios.values()) > 1
