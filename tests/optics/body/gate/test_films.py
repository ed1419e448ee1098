"""Films as they come: every figure has a limit and a source."""

import pytest

from optics.body.gate import FILMS, HOLDER_SLOT, HOLDERS, Film


@pytest.mark.parametrize("film", FILMS.values(), ids=lambda film: film.key)
def test_every_film_says_where_its_figures_come_from(film: Film) -> None:
    """Every film has a thickness, a limit, how it lies, and a source or that there is none."""
    assert FILMS[film.key] is film
    assert 0 < film.limit < film.thickness < 0.3
    assert film.lies.endswith(".")
    assert "no source" in film.source or "19" in film.source
    assert film.film_estimate.standard > 0
    assert bool(film.paper) == bool(film.paper_estimate.standard)


def test_holders_are_deeper_the_larger_they_are() -> None:
    """Holders are told in the order of size and depth, each with its limit and source."""
    depths = [holder.depth for holder in HOLDERS.values()]
    assert depths == sorted(depths)
    assert all(0 < h.limit < 0.5 and h.source for h in HOLDERS.values())
    assert FILMS["sheet"].thickness < HOLDER_SLOT
