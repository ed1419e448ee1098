"""What holds for every test in the house."""

import os
from collections.abc import Generator, Iterator
from pathlib import Path

import pytest
from hypothesis import settings

NOTHING_SKIPPED = os.environ.get("CI") == "true"

# Other tests and their browsers run beside: how long one example takes says nothing.
settings.register_profile("unhurried", parent=settings(), deadline=None)
settings.load_profile("unhurried")


@pytest.fixture(scope="session", autouse=True)
def own_records(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Records of the test run's own, also for the servers it starts; never the user's."""
    folder = tmp_path_factory.mktemp("records")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("SHIMWRIGHT_DATA", str(folder))
        yield folder


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Turn a skipped test into a failed one in CI, where everything it needs is installed."""
    report = yield
    if NOTHING_SKIPPED and report.skipped and not hasattr(report, "wasxfail"):
        report.outcome = "failed"
        report.longrepr = f"Skipped, which CI does not allow: {report.longrepr}"
    return report
