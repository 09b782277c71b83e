"""A publish stops at a link that leads nowhere, and names it and its page."""

import pytest

from baybook.publish.links import require_links, require_ways
from baybook.publish.site import SiteError, merge, written_site
from publish import told

SITE = "https://a.invalid/shop"
OTHER = b'<h2 id="there">x</h2>'


def out(link, **more):
    page = f'<p>see <a class="q" href="{link}">it</a></p>'.encode()
    return require_links({"g/a/index.html": page, "g/b.html": OTHER} | more, site=SITE)


@pytest.mark.parametrize(
    "link",
    [
        "../b.html",
        "../b.html#there",
        "../b.html?x=1#there",
        "../b%2Ehtml",
        "?r=3",
        "",
        "./",
        ".",
        "index.html",
        f"{SITE}/g/b.html#there",
        f"{SITE}/g/a/",
        "https://elsewhere.invalid/x#y",
        "mailto:a@b.invalid?subject=x",
        "tel:+3110",
        "data:image/png;base64,x",
    ],
)
def test_a_link_that_leads_somewhere_passes(link):
    assert out(link) == {}


@pytest.mark.parametrize(
    ("link", "to"),
    [
        ("../../manual/x.html#OC-02", "manual/x.html#OC-02"),
        ("../", "g/index.html"),
        (f"{SITE}/", "index.html"),
        (f"{SITE}/de/g/a/index.html", "de/g/a/index.html"),
        ("../c.html?a=1&amp;b=2#x", "g/c.html#x"),
    ],
)
def test_a_link_out_of_the_files_is_kept_for_later(link, to):
    assert out(link) == {to: "g/a/index.html"}


def test_each_size_of_a_picture_is_looked_for():
    page = b'<img src="1.webp" srcset="1.webp 320w, 2.webp 640w,../3.webp 2x" alt="a, b">'
    there = {"g/index.html": page, "g/1.webp": b""}
    assert set(require_links(there, site=SITE)) == {"g/2.webp", "3.webp"}


@pytest.mark.parametrize(
    ("link", "why"),
    [
        ("../b.html#gone", "g/b.html has no `gone`"),
        ("#gone", "g/a/index.html has no `gone`"),
        (f"{SITE}/g/b.html#gone", "g/b.html has no `gone`"),
        ("../../../up.html", "it leads above the site"),
        ("/g/b.html", "it begins at the server's root"),
        ("javascript:x()", "a page leads nowhere by `javascript:`"),
    ],
)
def test_a_broken_link_stops_with_its_page_and_the_reason(link, why):
    with pytest.raises(SiteError) as stopped:
        out(link)
    assert f"g/a/index.html has a broken link, `{link}`: {why}" in str(stopped.value)


@pytest.mark.parametrize(
    "page",
    [
        '<img src="x.png">',
        "<a class='q'\n href='x.png'>",
        '<svg viewBox="0 0 1 1"><use href="x.png"/></svg>',
        '<form title="a > b" action="x.png">',
    ],
)
def test_every_kind_of_link_is_seen(page):
    assert require_links({"p.html": page.encode()}, site=SITE) == {"x.png": "p.html"}


@pytest.mark.parametrize(
    "page",
    [
        "<!-- <a href='x.png'> -->",
        "<p>&lt;a href=\"x.png\"&gt; and href='x.png'</p>",
        '<p data-href="x.png">',
    ],
)
def test_what_is_no_link_is_none(page):
    assert require_links({"p.html": page.encode()}, site=SITE) == {}


def test_a_style_is_looked_through_too():
    files = {"assets/a.css": b'@font-face { src: url("fonts/x.woff2") format("woff2") }'}
    assert require_links(files, site=SITE) == {"assets/fonts/x.woff2": "assets/a.css"}


def test_many_broken_links_are_one_short_message():
    page = "".join(f'<a href="#x{number}">x</a>' for number in range(9)).encode()
    with pytest.raises(SiteError) as stopped:
        require_links({"p.html": page}, site=SITE)
    assert str(stopped.value).count("broken link") == 5
    assert "and 4 more" in str(stopped.value)


def test_a_way_that_many_pages_lack_is_named_once():
    with pytest.raises(SiteError) as stopped:
        require_ways([{"gone.html": "p.html"}, {"gone.html": "q.html"}], {})
    assert str(stopped.value) == "p.html has a broken link, `gone.html`: there is no such file"


def test_a_way_to_another_vehicle_or_list_is_looked_up_at_the_end():
    files = {"g/b.html": OTHER, "x.pdf": b""}
    require_ways([{"g/b.html": "p.html", "g/b.html#there": "p.html", "x.pdf": "p.html"}], files)
    for to, why in (
        ("gone.html", "there is no such file"),
        ("g/b.html#gone", "g/b.html has no `gone`"),
    ):
        with pytest.raises(SiteError, match=f"p.html has a broken link, `{to}`: {why}"):
            require_ways([{"g/b.html": "q.html"}, {to: "p.html"}], files)


def test_the_pages_of_a_whole_site_pass_and_one_that_is_gone_is_missed():
    guide = told.changed(told.guide(), lambda told_: told_["figures"][0]["inputs"].pop())
    entries = (guide, told.refusal(), told.withdrawal())
    whole = merge(told.pages(*entries), written_site(told.book()))
    address = told.SHOP["site"]["address"]
    require_ways([require_links(whole, site=address)], whole)
    del whole["symbols.html"]
    with pytest.raises(SiteError, match=r"broken link, `symbols\.html`: there is no such file"):
        require_ways([require_links(whole, site=address)], whole)
