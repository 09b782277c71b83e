"""Publishing again: `python tests/bench/again.py COUNT [PAPER …]`, each publish a whole process.

So many generated guides that all differ are published into an empty cache, then with one vehicle
changed, then with nothing changed. Wall and CPU seconds, the share of the cold publish, and the
most memory that any one process of it had. With the word `plain` at the end plain MkDocs builds
the text of the same pages, with search.
"""

import os
import re
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from bench.run import mkdocs, plain_site
from bench.workbook import generate
from workbooks import SHOP, edit


def publish(book: Path) -> tuple[float, float, int]:
    """Publish as a whole process; return wall and CPU seconds, and the most memory in MB."""
    where = {"XDG_CACHE_HOME": str(book.parent / "cache")}
    command = [sys.executable, "-m", "baybook", "publish", "--workbook", str(book)]
    command += ["--output", str(book.parent / "_site"), "--today", "2024-12-02"]
    wall, before = time.perf_counter(), _taken()
    run = subprocess.Popen(command, env=os.environ | where, stdout=subprocess.DEVNULL)
    most = 0
    while run.poll() is None:
        most = max(most, *(_resident(one) for one in _family(run.pid)))
        time.sleep(0.5)
    assert run.returncode == 0
    return time.perf_counter() - wall, _taken() - before, most // 1000


def _taken() -> float:
    """Return the CPU seconds of the processes that have ended: looking at them counts for none."""
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    return children.ru_utime + children.ru_stime


def _family(pid: int) -> Iterator[int]:
    """Yield a process and those it started."""
    yield pid
    try:
        tasks = list(Path(f"/proc/{pid}/task").glob("*/children"))
    except OSError:  # it has ended meanwhile
        return
    for task in tasks:
        for child in _text(task).split():
            yield from _family(int(child))


def _resident(pid: int) -> int:
    """Return the memory that a process holds now, in kB; 0 if it has ended."""
    found = re.search(r"VmRSS:\s+(\d+)", _text(Path(f"/proc/{pid}/status")))
    return int(found[1]) if found else 0


def _text(file: Path) -> str:
    try:
        return file.read_text("utf-8")
    except OSError:  # it has ended meanwhile
        return ""


def main(count: int, papers: list[str], *, plain: bool) -> None:
    with tempfile.TemporaryDirectory() as name:
        book = generate(Path(name) / "fits", count)
        edit(book, SHOP, "papers: [a4, letter]", f"papers: [{', '.join(papers)}]")
        cold = publish(book)
        changed = book / "vehicles" / "cobble-00000" / "vehicle.yaml"
        text = changed.read_text("utf-8")
        changed.write_text(text.replace("length: 3.40 m", "length: 3.95 m"), "utf-8")
        assert changed.read_text("utf-8") != text
        one = publish(book)
        nothing = publish(book)
        beside = mkdocs(plain_site(book.parent / "_site", book.parent)) if plain else None
    print(f"{count} guides, {len(papers)} prints each, one language")
    for what, (wall, core, most) in {"cold": cold, "one changed": one, "nothing": nothing}.items():
        share = f"{wall / cold[0]:7.2%} of cold, by CPU {core / cold[1]:7.2%}"
        print(f"{what:<12} wall {wall:8.2f} s   CPU {core:8.2f} s   {share}   most {most} MB")
    if beside:
        print(f"plain MkDocs wall {beside.wall_s:8.2f} s   CPU {beside.cpu_s:8.2f} s")


if __name__ == "__main__":
    number, *words = sys.argv[1:]
    main(int(number), [word for word in words if word != "plain"], plain="plain" in words)
