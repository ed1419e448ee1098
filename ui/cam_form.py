"""The cam's fields: what the body expects, the cam's size, and the lifts read on it."""

import math
from dataclasses import dataclass

import streamlit as st

from optics.bench.cam import BodyLaw, Cam, LensLaw, StraightLaw
from optics.bench.rangefinder.set_up import Bench
from optics.bench.stoning import LiftReading, StoningRules, lift_readings
from optics.records import fields
from ui.camera_form import OWN
from ui.fields import choice
from ui.forms import Form
from ui.rangefinder_form import choose_paper

_LENS, _STRAIGHT = "a lens it was cut for", "a straight follower"
_EXAMPLE = "0 = 0; 10 = 0.60, 0.61; 20 = 1.19; 30 = 1.78; 40 = 2.34; 50 = 2.90"


@dataclass(frozen=True)
class CamWishes:
    """The form with the body's law chosen."""

    form: Form
    law: str

    @property
    def problems(self) -> list[str]:
        """What stands in the way, a sentence each."""
        return self.form.problems

    @property
    def diameter(self) -> float:
        """The cam's diameter in mm."""
        return self.form.value("diameter", 0.0)

    @property
    def rules(self) -> StoningRules:
        """How the stoning is asked for."""
        deepest = self.form.value("deepest", math.inf)
        return StoningRules(deepest=None if math.isinf(deepest) else deepest)

    @property
    def readings(self) -> tuple[LiftReading, ...]:
        """The lifts read; none if the field is empty."""
        entry = self.form.entries["lifts"]
        if not entry.text.strip():
            return ()
        found = fields.LIFTS.read(entry.text)
        return lift_readings(
            [place.value for place, _ in found],
            [[one.value for one in lifts] for _, lifts in found],
            self.form.value("limit", 0.0),
        )

    def cam(self, bench: Bench) -> Cam:
        """The cam for a lens and the body's law."""
        return Cam(bench.camera, self._body(bench), self.form.value("turn", 0.0))

    def _body(self, bench: Bench) -> BodyLaw:
        if self.law == _STRAIGHT:
            gain = self.form.value("straight_gain", 0.0)
            return StraightLaw(bench.rangefinder.base, gain, bench.rangefinder.base_to_film)
        gain = self.form.value("gain", 0.0)
        body = self.form.value("body_focal_length", 0.0)
        return LensLaw(body, self.form.value("body_hiatus", 0.0), gain or None)


def cam_form(name: str) -> CamWishes:
    """Draw the fields."""
    form = Form(f"{name}.cam")
    law = choice("the body expects", [_LENS, _STRAIGHT], f"{name}.cam.law")
    _body_row(form, law)
    is_example = name != OWN
    columns = st.columns(4)
    with columns[0]:
        form.ask("turn", fields.CAM_TURN, typed="52" if is_example else "", label="ring turns",
                 hint="from infinity")  # fmt: skip
    with columns[1]:
        form.ask("diameter", fields.CAM_DIAMETER, typed="50" if is_example else "",
                 label="cam ⌀", hint="where it is felt")  # fmt: skip
    with columns[2]:
        form.ask("limit", fields.LIFT_LIMIT, typed="0.005" if is_example else "",
                 label="lift read to ±", optional=True, hint="0 if empty")  # fmt: skip
    with columns[3]:
        choose_paper(form)
    left, right = st.columns([4, 1])
    with left:
        form.ask("lifts", fields.LIFTS, typed=_EXAMPLE if is_example else "", optional=True,
                 label="lifts read, degrees = lift",
                 hint="empty: the table of a new cam")  # fmt: skip
    with right:
        form.ask("deepest", fields.DEEPEST_CUT, optional=True, label="warn at")
    return CamWishes(form, law)


def _body_row(form: Form, law: str) -> None:
    columns = st.columns(3)
    if law == _STRAIGHT:
        with columns[0]:
            form.ask(
                "straight_gain", fields.FOLLOWER_GAIN, typed="58", label="converges for each mm"
            )
        return
    with columns[0]:
        form.ask("body_focal_length", fields.BODY_FOCAL_LENGTH, typed="50",
                 label="its focal length")  # fmt: skip
    with columns[1]:
        form.ask("body_hiatus", fields.BODY_HIATUS, optional=True, label="its hiatus",
                 hint="0 if not known")  # fmt: skip
    with columns[2]:
        form.ask("gain", fields.FOLLOWER_GAIN, optional=True, label="converges for each mm",
                 hint="if known")  # fmt: skip
