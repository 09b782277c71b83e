"""The floor: what the same libraries take for the same text, with nothing worked out or drawn.

    python tests/bench/floor.py WORKBOOK SITE OUTPUT [print | chromium | weasyprint]

For each guide of a finished site: its vehicle file is parsed (libyaml) and validated (pydantic),
the text of its page and of its workings, which a print holds both, set into plain pages (Jinja2)
with a QR code (segno), and written. With `print` Typst sets that text too, tagged, on A4. With the
other two words an engine that makes PDF from HTML does it instead: Chromium prints the guide's two
pages with all that is on them, WeasyPrint (not installed with the tests; its grid fails at the
workings) the plain text. Prints CPU seconds as JSON.
"""

import json
import re
import sys
import time
from collections.abc import Iterator
from functools import cache
from html.parser import HTMLParser
from pathlib import Path

import jinja2
import pydantic
import segno
import typst
import yaml

sys.path.insert(0, str(Path(__file__).parents[1]))

from bench.stages import cpu

FONTS = Path(__file__).parents[2] / "templates" / "fonts"
PAGE = """<!doctype html><html lang="en"><meta charset="utf-8"><title>{{ title }}</title>
<h1>{{ title }}</h1>{{ code|safe }}
{% for level, text in lines %}<{{ level }}>{{ text }}</{{ level }}>
{% endfor %}</html>"""
SHEET = """#let guide = json(bytes(sys.inputs.data))
#set document(title: guide.title, date: none)
#set page("a4", margin: 15mm)
#set text(11pt, font: "Atkinson Hyperlegible Next", lang: "en")
#for (level, text) in guide.lines { if level == "p" [#text #parbreak()] else [= #text] }
"""


class Words(HTMLParser):
    """The text of a page as headings and paragraphs; drawings left out."""

    def __init__(self):
        super().__init__()
        self.lines: list[tuple[str, str]] = []
        self._level = "p"

    def handle_starttag(self, tag, _attrs):
        self._level = tag if tag in {"h1", "h2", "h3"} else "p"

    def handle_data(self, data):
        if data.strip():
            self.lines.append((self._level, " ".join(data.split())))


def words(page: Path) -> list[tuple[str, str]]:
    """Return the lines of text of a page, each with its level: h1, h2, h3 or p."""
    reader = Words()
    html = page.read_text("utf-8")
    reader.feed(re.sub(r"(?s)<(svg|script|style)\b.*?</\1>", "", html))
    return reader.lines


@cache
def typesetter() -> typst.Compiler:
    return typst.Compiler(font_paths=[str(FONTS)], ignore_system_fonts=True)


def typeset(_pages: list[Path], data: str) -> Iterator[bytes]:
    yield typesetter().compile(
        {"main.typ": SHEET.encode()},
        format="pdf",
        sys_inputs={"data": data},
        pdf_standards=["ua-1"],
        timestamp=0,
    )


@cache
def browser():
    """One Chromium for all pages, as who cares for time would have it."""
    from playwright.sync_api import sync_playwright

    engine = sync_playwright().start()
    opened = engine.chromium.launch(executable_path="/usr/bin/chromium", args=["--no-sandbox"])
    return engine, opened, opened.new_page()


def by_chromium(pages: list[Path], _data: str) -> Iterator[bytes]:
    _, _, tab = browser()
    for page in pages:
        tab.goto(page.absolute().as_uri())
        yield tab.pdf(format="A4", tagged=True)


def by_weasyprint(_pages: list[Path], data: str) -> Iterator[bytes]:
    import weasyprint

    plain = jinja2.Template(PAGE, autoescape=True).render(json.loads(data))
    yield weasyprint.HTML(string=plain).write_pdf(pdf_variant="pdf/ua-1")


PRINTERS = {"print": typeset, "chromium": by_chromium, "weasyprint": by_weasyprint}


def guides_of(site: Path) -> list[list[Path]]:
    """Return the pages of each guide of a site that hold what its print holds, its own first."""
    own = sorted(site.glob("guides/*/*/index.html"))
    return [[page, page.parent / "workings" / "index.html"] for page in own]


def run(book: Path, site: Path, output: Path, printer: str = "") -> float:
    """Make every plain page anew; return CPU seconds, start of the process left out."""
    texts = {page: words(page) for pages in guides_of(site) for page in pages}
    before = cpu()
    template = jinja2.Environment(autoescape=True).from_string(PAGE)
    tree = pydantic.TypeAdapter(dict[str, object])
    for pages in guides_of(site):
        folder = pages[0].parent
        vehicle = folder.parent.name
        file = book / "vehicles" / vehicle / "vehicle.yaml"
        tree.validate_python(yaml.load(file.read_text("utf-8"), yaml.CSafeLoader))
        code = segno.make(f"https://example.org/{vehicle}/{folder.name}", error="m", micro=False)
        title = f"{vehicle} {folder.name}"
        for page in pages:
            to = output / page.relative_to(site)
            to.parent.mkdir(parents=True)
            html = template.render(title=title, code=code.svg_inline(), lines=texts[page])
            to.write_text(html, "utf-8")
        if printer:
            lines = [line for page in pages for line in texts[page]]
            made = PRINTERS[printer](pages, json.dumps({"title": title, "lines": lines}))
            for number, pdf in enumerate(made):
                (output / folder.relative_to(site) / f"{number}.pdf").write_bytes(pdf)
    if printer == "chromium":
        engine, opened, _ = browser()
        opened.close()
        engine.stop()
        time.sleep(1)  # its processes are counted when they have ended
    return cpu() - before


if __name__ == "__main__":
    book, site, output, *printer = sys.argv[1:]
    print(json.dumps({"all": run(Path(book), Path(site), Path(output), *printer)}))
