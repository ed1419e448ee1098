"""Derivations: short chains from named starting points to relations of the catalogue."""

from types import ModuleType

from optics.theory.derivations import (
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
from optics.theory.derivations.chain import Derivation, DerivationLine, Rule

_TOPICS: tuple[ModuleType, ...] = (
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

DERIVATIONS: dict[str, Derivation] = {
    f"{topic.__name__.rpartition('.')[2]}.{name.lower()}": derivation
    for topic in _TOPICS
    for name, derivation in vars(topic).items()
    if isinstance(derivation, Derivation)
}
"""Every derivation, as `topic.name`, in the order of the topics."""


def derivations_of(relation: str) -> tuple[Derivation, ...]:
    """The derivations that lead to a relation, by the relation's name."""
    return tuple(d for d in DERIVATIONS.values() if d.relation.name == relation)


__all__ = ["DERIVATIONS", "Derivation", "DerivationLine", "Rule", "derivations_of"]
