"""Ratios of one run: `python tests/bench/run.py [COUNT]`. Nothing is gated on absolute time.

The same guides are published without print, with print, and their text is built by plain
MkDocs, in turn, in the same run on the same machine.
"""

import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import date
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from bench.workbook import generate

TODAY = date(2024, 12, 2)


def timed(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def publish(book: Path, output: Path, papers: str) -> None:
    """Publish as a person would, as a whole process."""
    shop = book / "shop.yaml"
    lines = [
        f"papers: {papers}" if x.startswith("papers:") else x
        for x in shop.read_text("utf-8").splitlines()
    ]
    shop.write_text("\n".join(lines) + "\n", "utf-8")
    shutil.rmtree(book / "issued", ignore_errors=True)
    command = [sys.executable, "-m", "baybook", "publish", "--today", TODAY.isoformat()]
    subprocess.run(
        [*command, "--workbook", book, "--output", output], check=True, capture_output=True
    )


def plain_site(site: Path, folder: Path) -> Path:
    """Write the text of the finished guides as Markdown, with a plain mkdocs.yml beside it."""
    from html.parser import HTMLParser

    class Words(HTMLParser):
        def __init__(self):
            super().__init__()
            self.out: list[str] = []
            self.heading = ""

        def handle_starttag(self, tag, _attrs):
            self.heading = "#" * int(tag[1]) + " " if tag in {"h1", "h2", "h3"} else ""

        def handle_data(self, data):
            if data.strip():
                self.out.append(self.heading + " ".join(data.split()))

    docs = folder / "docs"
    docs.mkdir(parents=True)
    for number, page in enumerate(sorted(site.glob("guides/*/*/index.html"))):
        words = Words()
        words.feed(page.read_text("utf-8"))
        (docs / f"g{number:05d}.md").write_text("\n\n".join(words.out), "utf-8")
    (docs / "index.md").write_text("# Guides\n", "utf-8")
    (folder / "mkdocs.yml").write_text("site_name: plain\ntheme: mkdocs\n", "utf-8")
    return folder


def main(count: int) -> None:
    with tempfile.TemporaryDirectory() as name:
        top = Path(name)
        book = generate(top / "fits", count)
        no_print = timed(lambda: publish(book, top / "a", "[]"))
        one_print = timed(lambda: publish(book, top / "b", "[a4]"))
        plain = plain_site(top / "a", top / "plain")
        build = [sys.executable, "-m", "mkdocs", "build", "-q", "-f", plain / "mkdocs.yml"]
        mkdocs = timed(lambda: subprocess.run(build, check=True, capture_output=True))
    print(f"{count} guides, whole processes, seconds and ratio to plain MkDocs on the same text")
    for label, seconds in (
        ("publish, no print", no_print),
        ("publish, one print each", one_print),
        ("plain MkDocs with search", mkdocs),
    ):
        print(f"{label:<26} {seconds:7.2f} s  {seconds / mkdocs:5.2f}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
