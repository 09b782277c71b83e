"""What an install gets: each library by its version and digests, under a licence that we know."""

import csv
import re
import tomllib
from pathlib import Path

from packaging.requirements import Requirement

TOP = Path(__file__).parents[2]
PROJECT = tomllib.loads((TOP / "pyproject.toml").read_text("utf-8"))["project"]
LOCKED = (TOP / ".ci/locked.txt").read_text("utf-8")
# Licences under which a library may be used by a program of any licence, unchanged.
KNOWN = {"Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "EPL-2.0", "MIT", "MPL-2.0"} | {
    "MIT-CMU",
    "MPL-1.1",
    "OFL-1.1",
    "PSF-2.0",
}


def plain(name):
    return re.sub(r"[-_.]+", "-", name).lower()


def locked():
    """Return name → (version, digests) of the lock file."""
    entries = re.findall(r"(?m)^([\w.-]+)==([\w.]+)[^\n]*\\\n((?:    --hash=.*\n)+)", LOCKED)
    return {plain(name): (version, digests.split()) for name, version, digests in entries}


def test_every_library_is_locked_at_a_version_that_is_allowed():
    versions = locked()
    for line in PROJECT["dependencies"]:
        wanted = Requirement(line)
        version, _ = versions[plain(wanted.name)]
        assert wanted.specifier.contains(version), line


def test_every_locked_library_has_digests_and_nothing_else_is_in_the_file():
    versions = locked()
    names = re.findall(r"(?m)^([\w.-]+)==", LOCKED)
    assert {plain(name) for name in names} == set(versions)
    for _, digests in versions.values():
        assert all(re.fullmatch(r"--hash=sha256:[0-9a-f]{64}|\\", one) for one in digests)
    assert "://" not in LOCKED


def test_the_licence_of_every_locked_library_is_known():
    with (TOP / ".ci/licences.csv").open(encoding="utf-8") as file:
        licences = dict(list(csv.reader(file))[1:])
    assert set(licences) == set(locked())
    for name, licence in licences.items():
        # Of several that a library leaves to us, one is enough.
        assert any(set(one.split(" AND ")) <= KNOWN for one in licence.split(" OR ")), name
