"""Groups of fields that together make one part of a job document."""

from collections.abc import Sequence

from optics.typed.fields import Typed
from ui.asking.fields import FieldEntry, choice, field


class FieldGroup:
    """The fields of one part of a job, by the names they have in the job document."""

    def __init__(self, prefix: str) -> None:
        self.prefix = prefix
        self.entries: dict[str, FieldEntry] = {}
        self.chosen: dict[str, str] = {}
        self.required: set[str] = set()

    def ask(
        self,
        name: str,
        quantity: Typed,
        *,
        typed: str | None = "",
        hint: str = "",
        label: str = "",
        optional: bool = False,
    ) -> None:
        """Draw one typed field."""
        key = f"{self.prefix}.{name}"
        self.entries[name] = field(quantity, key, typed=typed or "", hint=hint, label=label)
        if not optional:
            self.required.add(name)

    def choose(
        self, name: str, words: str, options: Sequence[str], first: str = "", note: str = ""
    ) -> str:
        """Draw one choice; `first` is what it shows until it is changed, `note` stands under."""
        index = list(options).index(first) if first in options else 0
        self.chosen[name] = choice(words, options, f"{self.prefix}.{name}", index, note)
        return self.chosen[name]

    @property
    def refusals(self) -> list[str]:
        """What was typed and has no meaning, a sentence each, in the order of the fields."""
        return [entry.refusal for entry in self.entries.values() if entry.refusal]

    @property
    def problems(self) -> list[str]:
        """What stands in the way of an answer, a sentence each, in the order of the fields."""
        found = []
        for name, entry in self.entries.items():
            if entry.refusal:
                found.append(entry.refusal)
            elif name in self.required and not entry.text.strip():
                found.append(f"Enter the {entry.quantity.words}.")
        return found

    def part(self) -> dict[str, str]:
        """The texts as the job document takes them; fields left empty are left out."""
        texts = {name: e.text for name, e in self.entries.items() if e.text.strip()}
        return texts | self.chosen

    def value(self, name: str, empty: float) -> float:
        """A field's figure in core units, or what an empty field stands for."""
        entry = self.entries[name]
        return float(entry.quantity.read(entry.text).value) if entry.text.strip() else empty
