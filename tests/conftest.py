"""What several rooms share: the example workbook read, the example site published once."""

import fcntl
import os
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from baybook.intake.read import read_workbook
from serving import serving
from workbooks import copy_workbook

settings.register_profile(
    "suite", deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)
settings.load_profile("suite")

TODAY = date(2024, 12, 2)


@pytest.fixture(scope="session", autouse=True)
def _own_cache(tmp_path_factory):
    """Let commands that a test runs keep nothing where this account keeps it."""
    os.environ["XDG_CACHE_HOME"] = str(tmp_path_factory.mktemp("cache"))


@pytest.fixture(scope="session")
def example(tmp_path_factory):
    """Return the example workbook, read."""
    book, problems = read_workbook(copy_workbook(tmp_path_factory.mktemp("example") / "fits"))
    assert not problems
    return book


@pytest.fixture(scope="session")
def published(tmp_path_factory):
    """Return the folder of the example site, published once for all workers: copy it first."""
    run = os.environ.get("PYTEST_XDIST_TESTRUNUID")
    if run is None:
        return _publish(tmp_path_factory.mktemp("published"))
    top = tmp_path_factory.getbasetemp().parent / f"published-{run}"
    top.mkdir(exist_ok=True)
    with (top / "lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)  # the first worker publishes, the others wait
        return top / "_site" if (top / "_site").exists() else _publish(top)


def _publish(top):
    # The rooms' own tests do not need the pipeline.
    from baybook.pipeline import publish  # noqa: PLC0415

    rendered = publish(copy_workbook(top / "fits"), top / "_site", today=TODAY)
    assert not rendered.problems
    assert not rendered.lost
    return top / "_site"


@pytest.fixture(scope="session")
def address(published: Path) -> Iterator[str]:
    """Serve the example site on loopback and return its address."""
    with serving(published) as served:
        yield served.address
