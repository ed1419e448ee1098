"""One section of the classroom: a lead relation, what is told about it, and what else belongs."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from types import ModuleType

from optics.relation import Relation
from optics.teaching.classroom.typical import TYPICAL
from optics.theory import CATALOGUE


@dataclass(frozen=True)
class Section:
    """What is shown together.

    `lead` is the relation it opens with and `find` the unknown; `idea` says why it is so.
    `extras` are further quantities the drawing needs, by name; `values` what its fields begin
    with where that is not the usual figure. `shown` says what the drawing shows.
    """

    key: str
    title: str
    lead: str
    find: str
    idea: str
    shown: str
    try_this: tuple[str, ...]
    trap: str
    relations: tuple[str, ...]
    extras: tuple[str, ...] = ()
    values: dict[str, str] = field(default_factory=dict)

    def begins_with(self, quantity: str) -> str:
        """What the field of a quantity holds until somebody types into it."""
        return self.values.get(quantity, TYPICAL[quantity])


def relations_in(topic: ModuleType, without: Sequence[str] = ()) -> tuple[str, ...]:
    """The names of a topic's relations, in the catalogue's order."""
    declared = {r.name for r in vars(topic).values() if isinstance(r, Relation)}
    return tuple(name for name in CATALOGUE if name in declared and name not in without)
