"""The bench runs, its guides differ, and none of them costs more for standing among many.

Nothing here is gated on a clock but one ratio, within one run and generous.
"""

import json

import pypdfium2

from bench import floor
from bench.run import mkdocs, plain_site, publish
from bench.workbook import generate

FEW, MANY = 2, 10
# Stages that work guide by guide; the others do once what they do at all.
EACH = ("size", "compose", "tell", "draw", "pages", "verify pages")


def figures(site):
    return {
        json.dumps(json.loads(file.read_text("utf-8"))["guide"]["figures"], sort_keys=True)
        for file in site.glob("guides/*/*/guide.json")
    }


def test_bench_publishes_guides_that_differ_at_a_steady_cost(tmp_path):
    few = publish(generate(tmp_path / "few", FEW, labels=True), tmp_path / "a")
    many = publish(generate(tmp_path / "many", MANY, labels=True), tmp_path / "b")
    assert len(figures(tmp_path / "b")) == MANY
    for stage in EACH:
        each_of_few, each_of_many = few.stages[stage] / FEW, many.stages[stage] / MANY
        assert each_of_many < 3 * each_of_few + 0.02, stage


def test_plain_mkdocs_builds_the_same_text(tmp_path):
    publish(generate(tmp_path / "fits", 1), tmp_path / "a")
    folder = plain_site(tmp_path / "a", tmp_path / "plain")
    mkdocs(folder)
    page = (folder / "site" / "g00000" / "index.html").read_text("utf-8")
    assert "Cobble 00000" in page
    assert "HOLD" in page


def test_the_floor_sets_the_same_text_on_page_and_sheet(tmp_path):
    book = generate(tmp_path / "fits", 1)
    publish(book, tmp_path / "a")
    assert floor.run(book, tmp_path / "a", tmp_path / "b", "print") > 0
    folder = tmp_path / "b" / "guides" / "cobble-00000" / "j9b"
    page = (folder / "index.html").read_text("utf-8")
    workings = (folder / "workings" / "index.html").read_text("utf-8")
    sheets = pypdfium2.PdfDocument(folder / "0.pdf")
    said = (("HOLD 2", page), ("Keep flames", page), ("Voltage along the run", workings))
    for text, where in said:
        assert text in where
        assert any(text in sheet.get_textpage().get_text_range() for sheet in sheets), text
