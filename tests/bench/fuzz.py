"""Spoil the example workbook many times, and look that each time something clear comes out.

    python tests/bench/fuzz.py SEED COUNT [OUT]
    python tests/bench/fuzz.py SEED COUNT OUT read      # no further than reading: many more an hour

A case is one file of a workbook of one vehicle spoilt at random (`spoil.py`), checked as
`baybook check` does; some that can be read are published too, without prints. Allowed are findings
with a place, or a design that is judged, composed, told and laid out. A traceback, more than 20 s
of processor time or growing memory is a find; its file is kept in OUT. Files that were not spoilt
are read once only, which is what makes many cases possible. With `read` a case ends where a fit
would be sized; each of its faults has a place and is put into words.
"""

from __future__ import annotations

import resource
import shutil
import signal
import sys
import time
import traceback
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager, redirect_stderr, redirect_stdout
from dataclasses import dataclass, field
from datetime import date
from functools import cache
from io import StringIO
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

sys.path.insert(0, str(Path(__file__).parents[1]))

from baybook.desk import checking
from baybook.desk.checking import run_check
from baybook.desk.publishing import run_publish
from baybook.intake import read as intake
from baybook.shipped import shipped
from baybook.wording.catalogue import Catalogue, load_catalogue
from baybook.wording.tell import tell
from bench.spoil import spoilt
from workbooks import SHOP, copy_workbook, edit

TODAY = date(2024, 12, 2)
HANG_S = 20
PUBLISHED = 10  # of so many cases that can be read, one is published
Look = Callable[[Path, Counter[str]], str]  # a spoilt workbook, the ways so far → its way


@dataclass(slots=True)
class Found:
    """What became of the cases, and which of them are finds."""

    ways: Counter[str] = field(default_factory=Counter)
    finds: list[tuple[int, str, bytes, str]] = field(default_factory=list)


class Hang(Exception):  # noqa: N818 - what it is
    """A case that does not end."""


def _alarm(*_args: object) -> None:
    raise Hang


def books(top: Path) -> list[Path]:
    """Return a workbook for each vehicle of the example: its variant goes with its base."""
    made = []
    whole = copy_workbook(top / "all")
    edit(whole, SHOP, "papers: [a4, letter]", "papers: []")
    for name in sorted(p.name for p in (whole / "vehicles").iterdir()):
        root = Path(shutil.copytree(top / "all", top / name))
        for other in (root / "vehicles").iterdir():
            if not name.startswith(other.name):
                shutil.rmtree(other)
        made.append(root)
    return made


@contextmanager
def _read_once(workbooks: list[Path]) -> Iterator[None]:
    """Let profiles and data sheets be read once only while they are not spoilt."""
    files = [file for root in workbooks for file in root.rglob("*.yaml")]
    right = {file: file.read_bytes() for file in files}
    reading = (intake.read_sheet, intake.read_shop)
    intake.read_sheet, intake.read_shop = (_once(read, right) for read in reading)
    try:
        yield
    finally:
        intake.read_sheet, intake.read_shop = reading


def _once(read: Callable[..., Any], right: dict[Path, bytes]) -> Callable[..., Any]:
    seen: dict[Path, Any] = {}

    def once(path: Path, *how: Any) -> Any:
        try:
            spoilt_now = path.read_bytes() != right.get(path)
        except OSError:
            spoilt_now = True
        if spoilt_now:
            return read(path, *how)
        if path not in seen:
            seen[path] = read(path, *how)
        document, findings = seen[path]
        return document, list(findings)

    return once


@contextmanager
def _told() -> Iterator[None]:
    """Tell each guide and refusal that comes out of a check too."""
    words, right = english(), checking.decide

    def decide(fit: Any, today: date) -> Any:
        outcome = right(fit, today)
        if outcome.content is not None:
            tell(outcome.content, words)
        return outcome

    checking.decide = decide
    try:
        yield
    finally:
        checking.decide = right


def run(seed: int, count: int, top: Path, look: Look | None = None) -> Found:
    """Spoil `count` workbooks and look at each; return what came out."""
    found, workbooks = Found(), books(top)
    files = {root: _files(root) for root in workbooks}
    signal.signal(signal.SIGPROF, _alarm)
    with _read_once(workbooks), _told():
        for number in range(count):
            rng = Random(f"{seed}.{number}")  # noqa: S311 - a case is to be had again
            root = rng.choice(workbooks)
            path = rng.choice(files[root])
            _case(number, root, path, rng, found, look or checked)
    return found


def _files(root: Path) -> list[Path]:
    """Return the files to choose from: vehicles more often than sheets."""
    vehicles = sorted(root.glob("vehicles/*/vehicle.yaml"))
    sheets = sorted(root.glob("datasheets/*/*.yaml"))
    return [*vehicles * (2 * len(sheets) // len(vehicles)), *sheets, *[root / "shop.yaml"] * 5]


def _case(  # noqa: PLR0917 - what a case is made of
    number: int, root: Path, path: Path, rng: Random, found: Found, look: Look
) -> None:
    right = path.read_bytes()
    wrong = spoilt(right.decode(), rng)
    path.write_bytes(wrong)
    signal.setitimer(signal.ITIMER_PROF, HANG_S)  # of this process, however busy the machine is
    try:
        found.ways[look(root, found.ways)] += 1
    except (Exception, Hang):  # noqa: BLE001 - any is a find
        found.ways["find"] += 1
        at = f"{root.name}: {path.relative_to(root)}"
        found.finds.append((number, at, wrong, traceback.format_exc()))
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        path.write_bytes(right)


# Click keeps every stream that it has written to: new ones would look like growing memory.
_STREAMS = (StringIO(), StringIO())


def _emptied(stream: StringIO) -> StringIO:
    stream.seek(0)
    stream.truncate()
    return stream


def checked(root: Path, ways: Counter[str]) -> str:
    """Check a workbook; publish some that can be read."""
    out, err = map(_emptied, _STREAMS)
    with redirect_stdout(out), redirect_stderr(err):
        way = _way(run_check(root, (), today=TODAY, form="text"), out, err)
        if way != "fault" and (ways["checked"] + ways["refused"]) % PUBLISHED == 0:
            run_publish(root, root.parent / "_site", drafts=True, today=TODAY, cache=None)
            shutil.rmtree(root / "issued", ignore_errors=True)
            ways["published"] += 1
    return way


def only_read(root: Path, _ways: Counter[str]) -> str:
    """Read a workbook and put every fault of it into words."""
    book, findings = intake.read_workbook(root)
    assert (book is None) == bool(findings), "neither read nor told why"
    for finding in findings:
        assert finding.where.file.startswith(f"{root.name}/"), "a fault of no file"
        assert finding.where.line > 0, "a fault without a place"
        assert tell(finding, english())
    return "fault" if findings else "read"


@cache
def english() -> Catalogue:
    """Return the English sentences, read once."""
    return load_catalogue(shipped("templates"), "en")


def _way(status: int, out: StringIO, err: StringIO) -> str:
    if out.getvalue().startswith("nothing checked"):
        assert "\n  at " in err.getvalue(), "a fault without a place"
        return "fault"
    return "refused" if status else "checked"


def memory_mb() -> float:
    """Return the most memory that this process has held."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def main(seed: int, count: int, out: Path | None, look: Look) -> None:
    """Run, tell the counts, and keep the finds."""
    start, step, whole = time.monotonic(), 1000, Found()
    with TemporaryDirectory() as top:
        for part in range(0, count, step):
            done = run(seed + part, min(step, count - part), Path(top) / str(part), look)
            whole.ways.update(done.ways)
            whole.finds += done.finds
            shutil.rmtree(Path(top) / str(part))
            print(f"{part + step:7} {time.monotonic() - start:7.0f} s {memory_mb():5.0f} MB",
                  dict(whole.ways), flush=True)  # fmt: skip
            _keep(seed + part, done, out)
    print({trace.splitlines()[-1]: at for _, at, _, trace in whole.finds})


def _keep(seed: int, done: Found, out: Path | None) -> None:
    for number, at, wrong, trace in done.finds:
        print(f"--- {seed}.{number} {at}\n{trace}", flush=True)
        if out:
            out.mkdir(parents=True, exist_ok=True)
            (out / f"{seed}.{number}.yaml").write_bytes(wrong)


if __name__ == "__main__":
    chosen = only_read if sys.argv[4:] == ["read"] else checked
    kept = Path(sys.argv[3]) if len(sys.argv) > 3 else None
    main(int(sys.argv[1]), int(sys.argv[2]), kept, chosen)
