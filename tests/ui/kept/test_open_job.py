"""Which job is open, and what the line on every page says of it."""

import pytest

from optics.records.intake import CustomerPart, IdentityPart, IntakePart
from optics.records.job import JobDocument
from optics.records.store import Store
from tests.ui.windows import open_window
from ui.kept import drafts
from ui.kept.open_job import look_again, open_job, said_job, set_open


def test_the_open_job_is_open_again_after_a_reload(
    records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A browser that comes back has its job open, as it is kept now."""
    number = records.add_job(JobDocument(title="one"))
    open_window(monkeypatch)
    with drafts.kept_while_drawn("Correction"):
        set_open(number)
    records.save_job(number, JobDocument(title="two"))
    open_window(monkeypatch)
    kept = look_again()
    assert kept is not None
    assert kept.job.title == "two"


@pytest.mark.parametrize("away", ["delete_job", "purge_job"])
def test_a_job_that_is_gone_is_not_open(
    away: str, records: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A job deleted elsewhere, or taken away for good, is open no longer; restored, it is."""
    number = records.add_job(JobDocument())
    open_window(monkeypatch)
    set_open(number)
    records.delete_job(number)
    if away == "purge_job":
        records.purge_job(number)
    assert look_again() is None
    assert open_job() is None


def test_a_job_is_told_in_one_line(records: Store) -> None:
    """Number, reference, whose it is and the camera, without what was not written."""
    customer = CustomerPart(reference="LS-041", name="Zoë")
    intake = IntakePart(customer=customer, identity=IdentityPart(camera="Ostrin 35"))
    number = records.add_job(JobDocument(intake=intake))
    assert said_job(records.job(number)) == f"Job {number} · LS-041 · Zoë · Ostrin 35"
    bare = records.add_job(JobDocument(title="clean the finder"))
    assert said_job(records.job(bare)) == f"Job {bare} · clean the finder"
