"""What the film gate's figures come to, for whoever tells it."""

from optics.account import Account, Block, Figure, Role, Table, TableRow
from optics.body.gate import GateResult, wording
from optics.body.gate.part import GatePart
from optics.body.standard.cautions import ADHESIVES
from optics.readings.account import working


def gate_account(found: GateResult, allowed: float) -> Account:
    """Focus error, what is left of the tolerance, play, and the section through the gate."""
    share = min(found.largest / allowed, 1.0)
    taken = wording.said_share(found, allowed)
    to_do = wording.order_lines(found, allowed)
    return Account(
        title=GatePart.title,
        plain="how the film lies",
        headline=wording.said_gate_error(found),
        large=(wording.said_mean_error(found),),
        verdict=found.verdict(allowed),
        judged=wording.said_judged(found, allowed),
        parts=(
            *([Block(to_do, Role.TO_DO, "What to do")] if to_do else []),
            Table((), (TableRow((taken, ""), f"{taken}.", bar=(share,)),), bar_at=1),
            Figure((found,)),
            Block((wording.said_play(found),), Role.FOUND),
            Block((wording.said_emulsion(found),)),
            working(found.steps),
        ),
        cautions=(ADHESIVES,),
        notes=(wording.GROUND_SIDE, wording.FLAT_FILM),
    )
