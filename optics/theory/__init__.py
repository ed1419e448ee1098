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


CATALOGUE: dict[str, Relation] = {
    relation.name: relation
    for topic in TOPICS
    for relation in vars(topic).values()
    if isinstance(relation, Relation)
}
"""Every relation by its name, in the order of the topics."""
