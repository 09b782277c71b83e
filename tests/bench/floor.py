"""The floor: what the same libraries take for the same text, with nothing worked out or drawn.

    python tests/bench/floor.py WORKBOOK SITE OUTPUT [print | chromium | weasyprint]

For each guide of a finished site: its vehicle file is parsed (libyaml) and validated (pydantic),
the text of its page set into a plain page (Jinja2) with a QR code (segno), and written. With
`print` Typst sets that text too, tagged, on A4. With the other two words an engine that makes PDF
from HTML does it instead: Chromium prints the guide's own page with all that is on it, WeasyPrint
(not installed with the tests) the plain one. Prints CPU seconds as JSON.
"""

import json
import re
import sys
import time
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


def typeset(_page: Path, data: str) -> bytes:
    return typesetter().compile(
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


def by_chromium(page: Path, _data: str) -> bytes:
    _, _, tab = browser()
    tab.goto(page.as_uri())
    return tab.pdf(format="A4", tagged=True)


def by_weasyprint(_page: Path, data: str) -> bytes:
    import weasyprint

    plain = jinja2.Template(PAGE, autoescape=True).render(json.loads(data))
    return weasyprint.HTML(string=plain).write_pdf(pdf_variant="pdf/ua-1")


PRINTERS = {"print": typeset, "chromium": by_chromium, "weasyprint": by_weasyprint}


def run(book: Path, site: Path, output: Path, printer: str = "") -> float:
    """Make every plain page anew; return CPU seconds, start of the process left out."""
    texts = {page.parent: words(page) for page in sorted(site.glob("guides/*/*/index.html"))}
    before = cpu()
    template = jinja2.Environment(autoescape=True).from_string(PAGE)
    tree = pydantic.TypeAdapter(dict[str, object])
    for folder, lines in texts.items():
        vehicle = folder.parent.name
        file = book / "vehicles" / vehicle / "vehicle.yaml"
        tree.validate_python(yaml.load(file.read_text("utf-8"), yaml.CSafeLoader))
        code = segno.make(f"https://example.org/{vehicle}/{folder.name}", error="m", micro=False)
        title = f"{vehicle} {folder.name}"
        page = template.render(title=title, code=code.svg_inline(), lines=lines)
        to = output / vehicle / folder.name
        to.mkdir(parents=True)
        (to / "index.html").write_text(page, "utf-8")
        if printer:
            data = json.dumps({"title": title, "lines": lines})
            (to / "a4.pdf").write_bytes(PRINTERS[printer](folder / "index.html", data))
    if printer == "chromium":
        engine, opened, _ = browser()
        opened.close()
        engine.stop()
        time.sleep(1)  # its processes are counted when they have ended
    return cpu() - before


if __name__ == "__main__":
    book, site, output, *printer = sys.argv[1:]
    print(json.dumps({"all": run(Path(book), Path(site), Path(output), *printer)}))
