"""What pictures of the pages showed to stand wrong: cut, squeezed, lost on paper, torn apart."""

import pytest
import yaml

from baybook.shipped import shipped
from publish import told
from serving import serving

GUIDE = "guides/dunstrel-cobble/j9b/index.html"
REFUSAL = "guides/dunstrel-cobble/j9/index.html"
TEMPLATES = shipped("templates")
LANGUAGES = sorted(path.parent.name for path in TEMPLATES.glob("*/page.yaml"))
BOX = "one => (r => [r.left, r.top, r.right, r.bottom])(one.getBoundingClientRect())"


def style(page, css, *names):
    return page.locator(css).first.evaluate(
        "(one, names) => names.map(name => getComputedStyle(one)[name])", list(names)
    )


@pytest.mark.parametrize("path", [GUIDE, REFUSAL])
def test_the_caption_of_a_table_is_as_wide_as_the_phone_and_no_wider(visit, path):
    page = visit(path, width=360)
    captions = page.locator("caption").all()
    assert captions
    for caption in captions:
        left, top, right, bottom = caption.evaluate(BOX)
        assert (left, right) == pytest.approx((16, 344), abs=1)
        assert bottom - top < 80


def test_a_question_of_the_fault_tree_stands_beside_its_number(visit):
    page = visit(GUIDE, width=360)
    for row in page.locator(".tree tbody tr").all()[:12]:
        number, question = row.locator(".id").evaluate(BOX), row.locator("th").evaluate(BOX)
        assert question[1] == pytest.approx(number[1], abs=4)
        assert question[0] < 80
        assert question[2] == pytest.approx(344, abs=1)


@pytest.mark.parametrize("width", [360, 1280])
def test_a_heading_after_a_table_keeps_its_distance(visit, width):
    page = visit(GUIDE, width=width)
    gaps = page.evaluate(
        """[...document.querySelectorAll("table + h3, .scroll + h3")].map(
          (one) => one.getBoundingClientRect().top
            - one.previousElementSibling.getBoundingClientRect().bottom)"""
    )
    assert len(gaps) >= 3
    assert min(gaps) >= 24


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("word", ["page.withdrawn.word", "page.old.word"])
def test_a_word_that_stops_a_reader_is_never_cut(browser, tmp_path, language, word):
    said = yaml.safe_load((TEMPLATES / language / "page.yaml").read_text("utf-8"))[word]
    for name, content in told.pages(told.withdrawal()).items():
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_bytes(content)
    with serving(tmp_path) as served:
        page = browser.new_page()
        page.goto(f"{served.address}guides/{told.withdrawal().fit}/index.html")
        banner = page.locator(".withdrawn .word")
        banner.evaluate("(one, said) => { one.textContent = said; }", said)
        page.evaluate("document.fonts.ready.then(() => true)")
        for width in (320, 360, 768):
            page.set_viewport_size({"width": width, "height": 900})
            assert banner.evaluate("one => one.scrollWidth <= one.clientWidth"), width
        page.close()


@pytest.mark.parametrize("width", [768, 1280])
def test_a_name_in_the_data_is_parted_at_its_strokes_alone(visit, width):
    page = visit("symbols.html", width=width)
    torn = page.evaluate(
        """[...document.querySelectorAll("#figures code")].flatMap(code =>
          [...code.childNodes].filter(part => {
            const range = document.createRange();
            range.selectNodeContents(part);
            const lines = range.getClientRects().length;
            return part.nodeType === 3 && lines > part.data.split("-").length;
          }).map(part => part.data))"""
    )
    assert torn == []


def test_a_printed_refusal_says_what_was_found_and_what_is_allowed(visit):
    page = visit(REFUSAL)
    page.emulate_media(media="print")
    assert page.get_by_role("heading", name="Found and allowed").is_visible()
    assert page.locator("#found").inner_text().count("%") >= 2


def test_on_paper_nothing_is_torn_from_what_it_belongs_to(visit):
    page = visit(GUIDE)
    page.emulate_media(media="print")
    for css in (".panel", "tr.reading", ".step:has(+ .picture)"):
        assert style(page, css, "breakAfter") == ["avoid"], css


def test_on_paper_a_row_is_written_in_one_size(visit):
    page = visit(GUIDE)
    page.emulate_media(media="print")
    assert style(page, ".tree tbody th", "fontSize") == style(page, ".tree tbody td", "fontSize")
