"""Numbers that follow from a seed."""

from optics.teaching.exercises.draw import Draw


def test_a_seed_gives_the_same_figures_for_ever() -> None:
    """A seed's figures are written down here, so that no release changes a class's sheet."""
    draw = Draw("Lantern Street")
    assert [draw.between(0, 99, 1) for _ in range(5)] == [55, 98, 37, 39, 11]
    assert draw.shuffled("abcdef") == list("fbeadc")


def test_figures_lie_on_their_grid_and_reach_both_ends() -> None:
    """Every figure is a whole number of steps from the lower end, and both ends come up."""
    draw = Draw("grid")
    found = {draw.between(0.2, 0.3, 0.05) for _ in range(100)}
    assert found == {0.2, 0.25, 0.3}
    assert {draw.either_way(1, 1, 1) for _ in range(50)} == {1.0, -1.0}
