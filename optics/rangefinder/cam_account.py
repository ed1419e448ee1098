"""What comes off a cam and where, or the table of a new one, for whoever tells it."""

from optics.account import Account, Block, Figure, Role, Table, TableRow
from optics.rangefinder import cam_wording as wording
from optics.rangefinder.cam import Cam
from optics.rangefinder.cam_part import CamAnswer, CamPart
from optics.rangefinder.cam_result import STEP
from optics.rangefinder.stoning import StoningMap
from optics.units import format_distance, format_length

_MAP = ("place", "lift read", "lift needed", "first pass", "in all", "film, now", "after")
_CAM = ("place", "sharp at", "lift, mm", "true within, mm")


def cam_account(answer: CamAnswer) -> Account:
    """The map of the metal to come off where lifts were read, else the new cam's lifts."""
    if answer.stoning is None:
        return _new_cam(answer.cam)
    return _stoned(answer.cam, answer.stoning)


def _stoned(cam: Cam, found: StoningMap) -> Account:
    _, after = wording.before_and_after(found)
    rows = tuple(_place(found, at) for at in range(len(found.rotation)))
    role = Role.WEIGHED if found.cut.any() else Role.BENCH
    return Account(
        title=CamPart.title,
        plain="the rangefinder's cam",
        headline=wording.now_line(found),
        large=(wording.said_worst(found, found.before),),
        verdict=found.before.verdict,
        judged=wording.said_allowed(found),
        parts=(
            Block((*wording.order_lines(found), after), Role.TO_DO, "What to do"),
            Figure((found,)),
            Table(_MAP, rows, "Metal to come off", role),
            Block((*wording.warnings(found), wording.ONE_WAY), heading="Take care"),
        ),
        notes=(
            "All in mm; plus is too far out at the film.",
            f"{wording.said_law(cam.law)}.",
            wording.PRESUMED,
        ),
    )


def _place(found: StoningMap, at: int) -> TableRow:
    cells = (
        wording.place(float(found.rotation[at])),
        _fine(found.measured[at] - found.measured[0]),
        _fine(found.required[at] - found.required[0]),
        _bare(wording.said_cut(found, found.first_pass[at])),
        _bare(wording.said_cut(found, found.cut[at])),
        _film(found.before.focus_error[at].value),
        _film(found.after.focus_error[at].value),
    )
    return TableRow(cells, wording.cut_line(found, at))


def _new_cam(cam: Cam) -> Account:
    table = cam.table(STEP)
    rows = zip(table.rotation, table.film_distance, table.lift, table.tolerance, strict=True)
    return Account(
        title=CamPart.title,
        headline=f"{wording.said_law(cam.law)}.",
        parts=(
            Block((wording.said_tolerance(cam),)),
            Table(
                _CAM,
                tuple(_lift(*map(float, row)) for row in rows),
                "Lift that the body needs",
            ),
        ),
        is_finding=False,
    )


def _lift(rotation: float, distance: float, lift: float, within: float) -> TableRow:
    place, sharp = wording.place(rotation), format_distance(distance)
    sentence = f"{place}, sharp at {sharp}: {format_length(lift, places=3)}"
    return TableRow((place, sharp, _fine(lift), f"± {_fine(within)}"), sentence)


def _fine(mm: float) -> str:
    return _bare(format_length(float(mm), places=3))


def _bare(length: str) -> str:
    """A length without its unit, which stands once for the whole table."""
    return length.removesuffix(" mm")


def _film(mm: float) -> str:
    return f"{mm:+.3f}".replace("-", "−") if abs(mm) >= 0.0005 else "0"
