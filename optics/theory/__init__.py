"""The catalogue: every relation as data, one topic a module."""

from types import ModuleType

from optics.relation import Relation
from optics.theory import (
    cam,
    certainty,
    collimation,
    depth,
    front_cell,
    front_cell_depth,
    gate,
    helicoid,
    lens,
    rangefinder,
    scale,
    standard,
)

TOPICS: tuple[ModuleType, ...] = (
    lens,
    helicoid,
    front_cell,
    collimation,
    depth,
    front_cell_depth,
    scale,
    rangefinder,
    cam,
    standard,
    gate,
    certainty,
)


def _relations_in(topic: ModuleType) -> dict[str, Relation]:
    return {r.name: r for r in vars(topic).values() if isinstance(r, Relation)}


CATALOGUE: dict[str, Relation] = {
    name: relation for topic in TOPICS for name, relation in _relations_in(topic).items()
}
"""Every relation by its name, in the order of the topics."""
