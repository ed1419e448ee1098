"""The law of a way of focusing: what moves for a distance, and what that does at the film."""

from collections.abc import Mapping
from dataclasses import dataclass

from sympy import Expr, S

from optics.relation import Quantity, Relation


@dataclass(frozen=True, eq=False)
class FocusingLaw:
    """One way of focusing, from which the relations that all ways share are made.

    `relation` gives the movement `moved` for a subject at `distance` from the film, by way of
    the step `reach`; `constants` are the lengths of the lens in it. `at_film` says how far the
    focus goes at the film when the part moves 1 mm.
    """

    relation: Relation
    moved: Quantity
    distance: Quantity
    reach: Quantity
    focal_length: Quantity
    constants: tuple[Quantity, ...]
    at_film: Expr = S.One

    @property
    def lengths(self) -> tuple[Quantity, ...]:
        """The lengths of the lens in movement and effect: its focal length, then the others."""
        others = (q for q in self.constants if q is not self.focal_length)
        return (self.focal_length, *others)

    @property
    def movement(self) -> Expr:
        """The whole movement for the distance."""
        return self.relation.expression(self.moved)

    def at(self, *called: Quantity) -> Mapping[Quantity, Quantity]:
        """Distance, reach and movement under other names, for a relation of two distances."""
        return dict(zip((self.distance, self.reach, self.moved), called, strict=True))
