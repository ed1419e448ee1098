"""What is supposed of one part before anything is measured."""

from dataclasses import dataclass

from optics.errors import OutOfRange


@dataclass(frozen=True)
class Steps:
    """A fault that goes by whole steps: the `size` of one (mm at the film), and its `counts`."""

    size: float
    counts: tuple[int, ...]


@dataclass(frozen=True)
class Prior:
    """One cause: its chance, and the standard deviation when the part is right and when wrong.

    `usual` is how nearly a sound part stands to where it should; `wrong` how far a faulty one
    is off. Both in the unit of the fault; every deviation normal about zero.
    """

    chance: float
    usual: float
    wrong: float

    def __post_init__(self) -> None:
        """Refuse what is no chance, or no size."""
        if not 0 < self.chance < 1:
            raise OutOfRange(
                f"The chance of a cause must lie between 0 and 1: got {self.chance:g}; "
                "enter how many of such cameras in all have it.",
                quantity="chance",
                value=self.chance,
            )
        if not 0 <= self.usual <= self.wrong:
            raise OutOfRange(
                f"A part that is right must be nearer its place than one that is wrong: got "
                f"{self.usual:g} and {self.wrong:g}; enter the smaller first.",
                quantity="usual",
                value=self.usual,
                limit=self.wrong,
            )
