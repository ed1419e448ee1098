"""Every kind of reading there is, found by being in its folder."""

from importlib import import_module
from pkgutil import iter_modules
from typing import Annotated, Any, Union

from pydantic import Field, GetCoreSchemaHandler
from pydantic_core import core_schema

from optics.camera.camera import Camera
from optics.readings.candidates import Candidate
from optics.readings.kinds.record import Kind
from optics.readings.practised import Offered
from optics.readings.reading_part import ReadingPart

ALL: list[Kind] = []
"""The kinds in the order in which they are listed everywhere."""


def add(kind: Kind) -> None:
    """Have a kind known; a test may add one of its own, and `drop` it again."""
    ALL[:] = sorted([*ALL, kind], key=lambda one: one.order)


def drop(kind: Kind) -> None:
    """Know a kind no more."""
    ALL.remove(kind)


def find(package: str, folder: list[str]) -> None:
    """Take in every record that stands in the folder of a package."""
    for module in iter_modules(folder):
        found = vars(import_module(f"{package}.{module.name}")).values()
        for one in found:
            if isinstance(one, Kind) and one not in ALL:
                add(one)


def parts() -> tuple[type[ReadingPart], ...]:
    """Every kind as it is typed."""
    return tuple(kind.part for kind in ALL if kind.part is not None)


def usual_candidates(camera: Camera, near: float | None = None) -> tuple[Candidate, ...]:
    """The readings a bench can usually take, with what each is usually good for."""
    close = near or 20 * camera.lens.focal_length
    found = (one for kind in ALL for one in kind.usual(camera, close))
    return tuple(sorted(found, key=lambda one: one.order))


def offered(camera: Camera, has_finder: bool) -> dict[str, Offered]:
    """Every reading that the practice bench offers by its name, in the order of the bench."""
    found = (one for kind in ALL for one in kind.practised(camera, has_finder))
    return {one.name: one for one in sorted(found, key=lambda one: one.order)}


class ByKind:
    """Beside a reading's type in a document: any kind that there is, told apart by its `kind`.

    The kinds are looked for when the document's schema is made; after `add` or `drop` the
    document is made anew, by its `model_rebuild(force=True)`.
    """

    def __get_pydantic_core_schema__(
        self, source: Any, handler: GetCoreSchemaHandler
    ) -> core_schema.CoreSchema:
        """One of the kinds' parts, each refused in the words of its own fields."""
        del source
        union: Any = Annotated[Union[parts()], Field(discriminator="kind")]  # noqa: UP007
        return handler.generate_schema(union)
