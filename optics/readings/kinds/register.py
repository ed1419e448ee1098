"""The distance from lens seat to film, gauged, against what the lens is made for."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Annotated, ClassVar, Literal

from pydantic import Field

from optics.camera.camera import Camera
from optics.camera.instruments import INSTRUMENTS, Instrument
from optics.camera.true_lens import TrueLens
from optics.camera.where_taken import USUAL, Taken
from optics.errors import OutOfRange, Unreadable
from optics.measure.places import CORNERS
from optics.measure.uncertainty import Estimate, exact, from_repeats
from optics.readings.candidates import GAUGED, Candidate
from optics.readings.kinds.record import Kind
from optics.readings.missing import Missing
from optics.readings.practised import Offered
from optics.readings.reading_part import PlacedPart, ReadFrom, Way, given, tries, values
from optics.readings.readings import Judged, Meets, Reading, Sense, Step, known
from optics.readings.spots import Spot
from optics.theory import collimation, lens
from optics.typed import fields
from optics.typed.ask import Ask
from optics.typed.part import value
from optics.units import format_length


@dataclass(frozen=True)
class RegisterReading(Reading):
    """The distance from lens seat to film, gauged, against what the lens is made for."""

    measured: Estimate
    nominal: Estimate
    taken: Taken = USUAL
    kind: ClassVar[str] = "register"
    figure_name: ClassVar[str] = "measured"
    by: ClassVar[str] = "by gauge"
    judged: ClassVar[Judged] = Judged.BY_GAUGE
    taken_with: ClassVar[str] = "depth gauge"
    nowhere: ClassVar[str] = "its seat is nowhere that the gauge's rod reaches"

    def steps(self, camera: Camera) -> tuple[Step, ...]:
        """The focus error is measured less nominal."""
        del camera  # The register is the body's alone.
        formula = collimation.register_error.solve_for(lens.focus_error)
        step = Step.of(formula, measured_register=self.measured, nominal_register=self.nominal)
        return known(
            (step,),
            (collimation.measured_register, self.measured),
            (collimation.nominal_register, self.nominal),
        )

    def hangs_on(self, camera: Camera) -> tuple[Missing, ...]:
        """None: the register is the body's alone."""
        del camera
        return ()

    @property
    def spot(self) -> Spot:
        """The gauge, wherever on the seat."""
        return Spot.GAUGE

    @property
    def looked_from(self) -> None:
        """No eye looked."""
        return

    def foretold(self, off: float, true: TrueLens, meets: Meets) -> float:
        """The register (mm) that the gauge shows."""
        del true, meets
        formula = collimation.register_error.solve_for(collimation.measured_register)
        return formula.value(focus_error=off, nominal_register=self.nominal.value)

    def said(self, figure: float, camera: Camera) -> str:
        """As gauged; off the middle, where depths are compared, what it is off by."""
        del camera
        if not self.taken.is_off_centre:
            return f"register {format_length(figure, places=3)}"
        off = figure - self.nominal.value
        if Sense.of(off) is Sense.RIGHT:
            return "as deep as it should be"
        side = "too deep" if off > 0 else "too shallow"
        return f"{format_length(abs(off), places=3)} {side}"

    def said_as_read(self, camera: Camera) -> str:
        """As the gauge shows it."""
        del camera
        return format_length(self.measured.value, places=3)


def _usual_limit(texts: Mapping[str, str]) -> str:
    """What counts where no limit is typed."""
    limit = INSTRUMENTS[texts["instrument"]].limit
    return "from the maker's sheet" if limit is None else f"{limit:g} if empty"


class RegisterPart(PlacedPart):
    """The register, gauged, against what the lens is made for."""

    title: ClassVar[str] = "Register by depth gauge"
    kind: Literal["register"] = "register"
    measured: Annotated[
        str,
        fields.MEASURED_REGISTER,
        Ask(
            "measured",
            "repeats: 28.74; 28.75",
            example="28.74; 28.75; 28.74",
            width=5,
            beside=("nominal", fields.register_against),
        ),
    ]
    nominal: Annotated[str, fields.NOMINAL_REGISTER, Ask("nominal", "as made", example="28.8")]
    limit: Annotated[str, fields.GAUGE_LIMIT, Ask("gauge ±", _usual_limit, width=3)] | None = None
    instrument: Annotated[
        str,
        Field(max_length=40),
        Ask(
            "measured with",
            words={one.key: one.name for one in INSTRUMENTS.values()},
            starts="dial_over_10",
            width=12,
        ),
    ] = "other"
    ways: ClassVar[Mapping[ReadFrom, Way]] = {
        ReadFrom.GAUGED: Way("depth gauge", 1),
        ReadFrom.OFF_MIDDLE: Way("depth gauge", 1),
    }

    @classmethod
    def asked_at(cls, place: ReadFrom) -> tuple[str, ...]:
        """A row asks for the limit, whatever the instrument; off the middle also for the place."""
        off_middle = ("place",) if place is ReadFrom.OFF_MIDDLE else ()
        return (*off_middle, "measured", "nominal", "limit")

    @classmethod
    def said_at(cls, place: ReadFrom) -> dict[str, str]:
        """The instrument, which a row does not ask for."""
        return super().said_at(place) | {"instrument": "other"}

    @classmethod
    def remark(cls, texts: Mapping[str, str]) -> str:
        """What the instrument is good for, and how that is known."""
        gauge = INSTRUMENTS[texts["instrument"]]
        return f"{gauge.warning} Its limit: {gauge.source}.".strip()

    @property
    def read_from(self) -> ReadFrom:
        """The corner where a place is given."""
        return ReadFrom.GAUGED if self.place is None else ReadFrom.OFF_MIDDLE

    @property
    def said_thing(self) -> str:
        """The register, and where on the seat."""
        return f"Register{self.said_place}"

    @property
    def gauge(self) -> Instrument:
        """What it was gauged with; Unreadable for an instrument that is not known."""
        known_one = INSTRUMENTS.get(self.instrument)
        if known_one is None:
            raise Unreadable(
                f"The instrument {self.instrument!r} is not known: choose one of "
                f"{', '.join(INSTRUMENTS)}.",
                quantity="instrument",
                value=self.instrument,
            )
        return known_one

    @property
    def named_gauge(self) -> Instrument | None:
        """The gauge, unless it is another than those that are known."""
        return None if self.gauge.key == "other" else self.gauge

    @property
    def gauge_limit(self) -> float:
        """The limit typed, else the instrument's own; a sentence where neither is known."""
        gauge = self.gauge
        if self.limit is not None:
            return value(fields.GAUGE_LIMIT, self.limit)
        if gauge.limit is None:
            # The last of the list is no instrument's name but a request: "Other: state its limit".
            named = "instrument" if gauge.key == "other" else gauge.name.lower()
            raise OutOfRange(
                f"The limit of the {named} is not known: enter how far either "
                "way it may be out, in mm.",
                quantity="limit",
            )
        return gauge.limit

    def read(self, camera: Camera) -> RegisterReading:
        """The register, with the gauge's limit."""
        del camera
        return RegisterReading(
            measured=from_repeats(
                values(fields.register_against(self.nominal), self.measured),
                self.gauge_limit,
                fields.MEASURED_REGISTER.words,
            ),
            nominal=given(fields.NOMINAL_REGISTER, self.nominal),
        )

    @property
    def said_figures(self) -> str:
        """The tries, and what the lens is made for."""
        nominal = fields.NOMINAL_REGISTER.read(self.nominal).echo
        return f"{tries(fields.MEASURED_REGISTER, self.measured)}, made for {nominal}"


def _usual(camera: Camera, near: float) -> Iterator[Candidate]:
    del near
    register = exact(camera.lens.focal_length)
    yield Candidate(
        "the register gauged from the lens seat",
        RegisterReading(register, register),
        GAUGED,
        "the register gauged again from the lens seat",
        10,
    )


def _practised(camera: Camera, has_finder: bool) -> Iterator[Offered]:
    del has_finder
    focal = camera.lens.focal_length
    register = exact(focal)
    yield Offered("register", RegisterReading(register, register), order=10)
    for name, (side, up) in CORNERS.items():
        spot = Taken(place=(0.35 * focal * side, 0.25 * focal * up))
        yield Offered(f"register, {name}", RegisterReading(register, register, spot), order=10)


KIND = Kind(RegisterReading, 30, RegisterPart, _usual, _practised)
