"""Ratios of one run: `python tests/bench/run.py [COUNT]`. Nothing is gated on absolute time.

The same guides are published without print and with one print each, their text is built by plain
MkDocs, and `floor.py` says what the libraries alone take for it and what Chromium takes to print
the pages: in turn, each as a whole process, in the same run on the same machine. What is compared
is CPU seconds, so that other work on the machine counts for little.
"""

import json
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from bench.floor import guides_of, words
from bench.stages import cpu
from bench.workbook import generate

STAGES, FLOOR = (Path(__file__).with_name(name) for name in ("stages.py", "floor.py"))
MARKS = {"h1": "# ", "h2": "## ", "h3": "### ", "p": ""}


@dataclass(frozen=True)
class Took:
    """One whole process."""

    wall_s: float
    cpu_s: float
    stages: dict[str, float]


def process(*command: object) -> Took:
    """Run a whole process; what it prints as JSON are its stages."""
    wall, before = time.perf_counter(), cpu()
    done = subprocess.run(
        [sys.executable, *map(str, command)], check=True, capture_output=True, text=True
    )
    took = time.perf_counter() - wall, cpu() - before
    return Took(*took, json.loads(done.stdout) if done.stdout.startswith("{") else {})


def publish(book: Path, output: Path, *papers: str) -> Took:
    """Publish as a whole process."""
    return process(STAGES, book, output, *papers)


def plain_site(site: Path, folder: Path) -> Path:
    """Write the text of the finished guides, workings and all, as Markdown for a plain MkDocs."""
    docs = folder / "docs"
    docs.mkdir(parents=True)
    for number, pages in enumerate(guides_of(site)):
        for name, page in zip(("", "-workings"), pages, strict=True):
            lines = (MARKS[level] + text for level, text in words(page))
            (docs / f"g{number:05d}{name}.md").write_text("\n\n".join(lines), "utf-8")
    (docs / "index.md").write_text("# Guides\n", "utf-8")
    (folder / "mkdocs.yml").write_text("site_name: plain\ntheme: mkdocs\n", "utf-8")
    return folder


def mkdocs(folder: Path) -> Took:
    return process("-m", "mkdocs", "build", "-q", "-f", folder / "mkdocs.yml")


def main(count: int) -> None:
    with tempfile.TemporaryDirectory() as name:
        top = Path(name)
        book = generate(top / "fits", count)
        bare = publish(book, top / "a")
        printed = publish(book, top / "b", "a4")
        plain = mkdocs(plain_site(top / "a", top / "plain"))
        floors = {
            name: process(FLOOR, book, top / "a", top / f"floor {name}", *name.split())
            for name in ("", "print", "chromium")
        }
    print(f"{count} guides, whole processes; ratio to plain MkDocs with search on the same text")
    rows = {"no print": bare, "one A4 print each": printed, "plain MkDocs": plain}
    # Of a floor the work counts, not that it reads the text out of finished pages.
    rows |= {
        f"floor {name}".strip(): replace(took, cpu_s=took.stages["all"])
        for name, took in floors.items()
    }
    for label, took in rows.items():
        ratio, each = took.cpu_s / plain.cpu_s, took.cpu_s / count * 1000
        print(
            f"{label:<18} wall {took.wall_s:7.1f} s   CPU {took.cpu_s:7.1f} s"
            f"   {each:7.1f} ms a guide   ratio {ratio:5.2f}"
        )
    print("\nby stage, with print: CPU ms a guide and share")
    whole = sum(printed.stages.values())
    for stage, seconds in printed.stages.items():
        print(f"{stage:<14} {seconds / count * 1000:8.1f}   {seconds / whole:5.1%}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
