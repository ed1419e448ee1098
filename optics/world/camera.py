"""One camera as it really is: traced glass in a mount, wherever ring, stop and finder put it."""

from dataclasses import dataclass, field, replace
from functools import cached_property

from optics.world.build import Build, Faults, Place, Unmodelled
from optics.world.lens import Lens, Stand
from optics.world.scale import Scale, WorksScale
from optics.world.trace import Seen

MIDDLE: Place = (0.0, 0.0)


@dataclass(frozen=True)
class TracedCamera:
    """A build with its faults and what is not known of it; moved by making another."""

    build: Build
    faults: Faults = field(default_factory=Faults)
    unmodelled: Unmodelled = field(default_factory=Unmodelled)
    new_scale: Scale | None = None

    @cached_property
    def lens(self) -> Lens:
        """The lens that is in it."""
        return self.build.lens(self.build.focal_length * (1 + self.faults.focal))

    @cached_property
    def scale(self) -> Scale:
        """What is engraved on the ring."""
        return self.new_scale or WorksScale(self.build.works)

    @property
    def eye(self) -> Seen:
        """How sharpness is judged on the ground glass."""
        return self.unmodelled.eye or self.lens.wide_open

    def focused(self, out: float) -> Stand:
        """Where lens and cell are with what focuses so far beyond the ∞ mark of a right ring."""
        f = self.faults
        if self.lens.front_cell:
            return Stand(f.seat, out)
        return Stand(f.seat + f.starts * self.build.pitch + out, f.cell)

    def at_mark(self, mark: float, missed: float = 0.0) -> Stand:
        """With the ring on a mark; `missed` (mm of what focuses) is lost motion taken up."""
        return self.focused(self.scale.out(mark) + self.faults.ring + missed)

    def at_stop(self, missed: float = 0.0) -> Stand:
        """At rest on the infinity stop."""
        return self.focused(self.faults.stop + missed)

    def lean(self, distance: float, place: Place) -> float:
        """What a leaning standard adds to the focus error off the middle: (1 + m)·slope.

        A lens tilted about its seat tilts the image plane of a far subject by as much, and of a
        near one by 1 + m times as much (Scheimpflug).
        """
        slope = self.faults.tilt[0] * place[0] + self.faults.tilt[1] * place[1]
        return (1 + self.lens.magnification(distance)) * slope

    def sag(self, place: Place) -> float:
        """How far in front of its middle the image lies off the middle: field curvature."""
        squared = place[0] ** 2 + place[1] ** 2
        return -self.unmodelled.hollow * squared / (2 * self.lens.glass.petzval_radius)

    def on_film(self, distance: float, stand: Stand, place: Place = MIDDLE) -> float:
        """The focus error on the film, the lens's own field curvature left out."""
        lean = self.lean(distance, place)
        return self.lens.defocus(distance, stand, self.faults.gate) + lean

    def meeting(self, distance: float) -> Stand | None:
        """Where lens and cell are when the images of a subject meet; None with no rangefinder."""
        coupling, faults = self.build.coupling, self.faults
        if coupling is None:
            return None
        works = self.build.works
        other = self.build.lens(works.glass.focal_length * (1 + faults.cam)) if faults.cam else None
        out = coupling.out(works, distance, other) * (1 + faults.gain) + faults.zero
        carried = faults.seat if coupling.follows == "carriage" else 0.0
        return Stand(out + carried, faults.cell)

    def ring_at(self, stand: Stand) -> float:
        """How far beyond the ∞ mark of a right ring a lens moved as a whole then is."""
        return stand.lens - self.faults.seat - self.faults.starts * self.build.pitch

    def read_on_ring(self, stand: Stand, missed: float = 0.0) -> float:
        """The distance that the ring shows there; it goes no farther than its ∞ mark."""
        return self.scale.mark_at(max(self.ring_at(stand) - self.faults.ring + missed, 0.0))

    @property
    def at_the_film(self) -> dict[str, float]:
        """How far each part stands from its true place, by what that does at the film (mm).

        A scale counts by its near mark, a standard by its worst corner, the finder's near setting
        by its near end.
        """
        f, near = self.faults, self.build.marks[1]
        corners = [f.tilt[0] * x + f.tilt[1] * y for x, y in self.build.corners.values()]
        return {
            "seat": f.seat,
            "start": f.starts * self.build.pitch,
            "ring": f.ring * self.build.film_effect,
            "stop": f.stop * self.build.film_effect,
            "focal": (self.scale.out(near) - self.lens.needs(near)) * self.build.film_effect,
            "tilt": max(map(abs, corners)),
            "gate": f.gate,
            "zero": f.zero,
            "gain": f.gain * self.build.works.needs(near),
        }

    def with_faults(self, **changed: float | int | tuple[float, float]) -> "TracedCamera":
        """The same camera with some faults otherwise."""
        return replace(self, faults=replace(self.faults, **changed))  # type: ignore[arg-type]
