"""An account on paper: what was found, and for the bench what to do and what stands behind it."""

from collections.abc import Iterable

from optics.account import Account
from optics.drawing.flow import FINE, TEXT, Flow

# So much of an account stays together on a page, in mm.
_ROOM = 12.0


def draw_account(flow: Flow, account: Account, *, at_bench: bool = False) -> None:
    """Title and findings; `at_bench` adds what is told only to whoever works on the camera."""
    flow.need(_ROOM)
    flow.say(account.title, TEXT, bold=True)
    for line in account.said:
        flow.say(line, FINE)
    if at_bench:
        for line in (*account.to_do, *account.weighed):
            flow.say(line, FINE)
    flow.rule()


def draw_checked(flow: Flow, checked: Iterable[Account], *, at_bench: bool = False) -> None:
    """What else was measured, such as scale or rangefinder, and what is said of each."""
    accounts = tuple(checked)
    if not accounts:
        return
    flow.section("Also checked", "As last measured.", rule=0.3)
    for account in accounts:
        draw_account(flow, account, at_bench=at_bench)
