"""Kill a publish at a random moment, many times; the site must be wholly old or wholly new.

    python tests/bench/kill.py COUNT

Before each round the workbook is changed, so that there is something to write. What stands after
the kill is either what stood before, or what a publish that is let through then writes again
unchanged. Nothing may lie about but site, workbook with `issued/`, cache, and one staging
folder that the next publish takes away. In the end a publish without cache must write the same.
"""

from __future__ import annotations

import signal
import subprocess
import sys
import time
from hashlib import sha256
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

sys.path.insert(0, str(Path(__file__).parents[1]))

from workbooks import COBBLE, SHOP, alone, copy_workbook, edit, leave_only

PUBLISH = """
import sys
from datetime import date
from pathlib import Path
from baybook.desk.publishing import run_publish
cache = Path("cache") if sys.argv[1] == "kept" else None
day = date(2024, 12, 2)
sys.exit(run_publish(Path("fits"), Path("_site"), drafts=True, today=day, cache=cache))
"""
LEFT = {"_site", "fits", "cache", "._site.baybook-staging", "._site.baybook-previous"}


def tree(folder: Path) -> dict[str, str]:
    """Return every file below a folder with the digest of what is in it."""
    return {
        path.relative_to(folder).as_posix(): sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def _publish(top: Path, kill_after: float | None, cache: str = "kept") -> bool:
    """Publish in a process of its own; return whether it came to its end."""
    command = [sys.executable, "-c", PUBLISH, cache]
    with subprocess.Popen(command, cwd=top, stdout=subprocess.DEVNULL,
                          stderr=subprocess.DEVNULL, start_new_session=True) as run:  # fmt: skip
        try:
            return run.wait(timeout=kill_after) == 0
        except subprocess.TimeoutExpired:
            run.send_signal(signal.SIGKILL)
            return False


def run(count: int, top: Path, *, seed: int = 7) -> tuple[int, int, int]:
    """Kill `count` publishes; return how many left the old site, the new one, and how many ended.

    One that ended before its kill is not counted among them, and another takes its place.
    """
    rng = Random(seed)  # noqa: S311 - moments, not secrets
    book = copy_workbook(top / "fits")
    leave_only(book, "dunstrel-cobble")
    alone(book / COBBLE, "j9b")
    edit(book, SHOP, "papers: [a4, letter]", "papers: []")
    whole_s = _whole(top)
    old, new, ended = 0, 0, 0
    after = tree(top / "_site")
    while old + new < count:
        number = old + new + ended
        before = tree(top / "_site")
        _change(book / SHOP, number)
        earliest = rng.choice((0.0, 0.85))  # half of them in the last moments, when it is written
        done = _publish(top, whole_s * rng.uniform(earliest, 1.05))
        found = tree(top / "_site")
        assert {path.name for path in top.iterdir()} <= LEFT, sorted(top.iterdir())
        if done:
            ended, after = ended + 1, found
            continue
        whole_s = _whole(top)  # a machine with other work is now quick, now slow
        after = tree(top / "_site")
        assert found in (before, after), f"round {number}: a site in two halves"
        assert {path.name for path in top.iterdir()} == {"_site", "fits", "cache"}
        old, new = old + (found == before), new + (found == after)
    assert _publish(top, None, "none")
    assert tree(top / "_site") == after, "what was kept spoilt the site"
    return old, new, ended


def _whole(top: Path) -> float:
    """Publish to the end; return the seconds that it took."""
    start = time.monotonic()
    assert _publish(top, None), "the next publish did not work"
    return time.monotonic() - start


def _change(file: Path, number: int) -> None:
    """Change what every page shows: the shop's line about itself."""
    lines = file.read_text("utf-8").splitlines(keepends=True)
    file.write_text(
        "".join(f"about: Unit {number}.\n" if x.startswith("about: ") else x for x in lines),
        "utf-8",
    )


if __name__ == "__main__":
    with TemporaryDirectory() as folder:
        print("old {}, new {}, ended {}".format(*run(int(sys.argv[1]), Path(folder))))
