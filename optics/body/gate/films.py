"""Films and sheet-film holders as they come: starting figures, to be measured and replaced."""

from dataclasses import dataclass

from optics.measure.uncertainty import Estimate, within

INCH = 25.4
NO_SOURCE = "common practice, no source: measure yours"
_HOLDERS = "ANSI/PIMA IT3.108-1998, as quoted in a photographers' letter of 2002"


@dataclass(frozen=True)
class Film:
    """A kind of film: thickness and backing paper in mm, each ± its limit, and how it lies."""

    key: str
    name: str
    thickness: float
    limit: float
    lies: str
    source: str
    paper: float = 0.0
    paper_limit: float = 0.0

    @property
    def film_estimate(self) -> Estimate:
        """The film's thickness with its limit, rectangular."""
        return within(self.thickness, self.limit, "film thickness")

    @property
    def paper_estimate(self) -> Estimate:
        """The backing paper's thickness with its limit, rectangular."""
        return within(self.paper, self.paper_limit, "backing paper")


FILMS: dict[str, Film] = {
    film.key: film
    for film in (
        Film(
            "perforated",
            "35 mm perforated film",
            0.15,
            0.01,
            "The film rides on the inner rails; the plate usually rests on the outer pair, so "
            "that the film has play between. The perforated edges are held, the middle is free.",
            "from memory of a magazine article of 1997: 0.15 mm in a channel of 0.200 mm; the "
            "limit is common practice, no source",
        ),
        Film(
            "perforated_thin",
            "35 mm perforated film on a thin base",
            0.12,
            0.02,
            "As any perforated film, with more play in the same channel.",
            NO_SOURCE,
        ),
        Film(
            "roll_with_paper",
            "Roll film with backing paper",
            0.11,
            0.02,
            "The paper lies between plate and film: channel and plate are made for both together. "
            "Old paper swells, and film left standing over the rollers keeps a bend.",
            NO_SOURCE,
            paper=0.09,
            paper_limit=0.02,
        ),
        Film(
            "roll_without_paper",
            "Roll film without paper behind the picture",
            0.11,
            0.02,
            "In a channel made for film and paper it lies loose by the paper's thickness, unless "
            "the plate is set over.",
            NO_SOURCE,
        ),
        Film(
            "sheet",
            "Sheet film in a holder",
            0.007 * INCH,
            0.001 * INCH,
            "The sheet lies in the holder's slot, not on the camera's rails: the holder's depth "
            "and the ground glass must agree. Gauge a loaded holder of your own.",
            f"0.007 in: {_HOLDERS}; the limit is common practice, no source",
        ),
    )
}


@dataclass(frozen=True)
class Holder:
    """A sheet-film holder: depth from its face to the back of the slot, ± its limit, in mm."""

    key: str
    name: str
    depth: float
    limit: float
    source: str = _HOLDERS


HOLDERS: dict[str, Holder] = {
    holder.key: holder
    for holder in (
        Holder("4x5", "4 × 5 in", 0.197 * INCH, 0.007 * INCH),
        Holder("5x7", "5 × 7 in", 0.228 * INCH, 0.010 * INCH),
        Holder("8x10", "8 × 10 in", 0.260 * INCH, 0.016 * INCH),
    )
}
# Height of the slot in which the sheet rides (a sheet of the standard of 1951, as quoted).
HOLDER_SLOT = 0.012 * INCH
