"""Every move there is, found by being in its folder."""

from collections.abc import Collection
from importlib import import_module
from pkgutil import iter_modules

from optics.camera.camera import Camera
from optics.moves.record import Move

ALL: list[Move] = []
"""The moves in the order of the bench."""


def add(move: Move) -> None:
    """Have a move offered; a test may add one of its own, and `drop` it again."""
    _settle([*ALL, move])


def drop(move: Move) -> None:
    """Offer a move no more."""
    _settle([one for one in ALL if one is not move])


def _settle(moves: list[Move]) -> None:
    # Filled in place: whoever has taken hold of the list sees every move.
    ALL[:] = sorted(moves, key=lambda one: one.order)


def find(package: str, folder: list[str]) -> None:
    """Take in every record that stands in the folder of a package."""
    for module in iter_modules(folder):
        found = vars(import_module(f"{package}.{module.name}")).values()
        for one in found:
            if isinstance(one, Move) and one not in ALL:
                add(one)


def curing(faults: Collection[str], camera: Camera) -> Move | None:
    """The move that changes these faults of a camera; None where nothing does."""
    able = (m for m in ALL if m.make and m.serves(camera) and {*faults} <= {*m.puts_right})
    return next(able, None)


def remedies(camera: Camera) -> list[Move]:
    """The moves that may answer a single reading of a camera, the most usual first."""
    able = [move for move in ALL if move.make and move.as_remedy and move.serves(camera)]
    return sorted(able, key=lambda move: move.as_remedy or 0)
