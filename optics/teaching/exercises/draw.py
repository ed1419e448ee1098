"""Numbers that follow from a text alone: the same on every machine and every Python."""

import random
from collections.abc import Sequence
from typing import TypeVar

Choice = TypeVar("Choice")


class Draw:
    """Draws by chance from a seed; only `random()` is used, whose sequence never changes."""

    def __init__(self, seed: str) -> None:
        self._chance = random.Random(seed)

    def one_of(self, options: Sequence[Choice]) -> Choice:
        """One of several, all alike in chance."""
        return options[int(self._chance.random() * len(options))]

    def between(self, low: float, high: float, step: float) -> float:
        """A figure on the grid that begins at `low`, both ends included."""
        count = round((high - low) / step) + 1
        return round(low + step * int(self._chance.random() * count), 6)

    def either_way(self, low: float, high: float, step: float) -> float:
        """A figure between the limits, plus or minus."""
        return self.between(low, high, step) * self.one_of((1.0, -1.0))

    def shuffled(self, options: Sequence[Choice]) -> list[Choice]:
        """All of them in an order of chance."""
        places = sorted((self._chance.random(), place) for place in range(len(options)))
        return [options[place] for _, place in places]
