"""Templates of a shop's own: what may be laid over, what a sandbox keeps out, what must stay."""

import os
from datetime import date
from pathlib import Path

import pytest

from baybook.overlay import NO_OVERLAY, Overlay
from baybook.pipeline import render
from baybook.publish.markup import PageError
from baybook.publish.overlaid import LARGEST, OverlayError, read_overlay
from baybook.publish.policy import POLICY, require_policy
from baybook.publish.typeset import PrintError
from baybook.shipped import shipped
from desk.previewed import ask, preview, small, until
from publish.overlays import lay_over
from workbooks import SHOP, edit

TODAY = date(2024, 12, 2)
BASE, GUIDE, HOME = "pages/base.html.j2", "pages/guide.html.j2", "pages/home.html.j2"
HEAD = '<meta charset="utf-8">\n'
META = '<meta http-equiv="Content-Security-Policy" content="{{ policy|safe }}">\n'
PAGE = "guides/brunsall-tansy/j1/index.html"
PAPER = "guides/brunsall-tansy/j1/job-sheet-a4.pdf"


def own(folder, name, text):
    file = folder / name
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, "utf-8")
    return file


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    root = small(tmp_path_factory.mktemp("laid-over") / "fits")
    edit(root, SHOP, "papers: [a4, letter]", "papers: [a4]")
    return root


@pytest.fixture(scope="module")
def unprinted(tmp_path_factory):
    root = small(tmp_path_factory.mktemp("unprinted") / "fits")
    edit(root, SHOP, "papers: [a4, letter]", "papers: []")
    return root


@pytest.fixture(scope="module")
def cache(tmp_path_factory):
    return tmp_path_factory.mktemp("laid-over-cache")


@pytest.fixture(scope="module")
def shipped_site(book, cache):
    return dict(render(book, today=TODAY, cache=cache, workers=1).files)


def laid(book, cache, folder):
    overlay = read_overlay(folder)
    return dict(render(book, today=TODAY, cache=cache, workers=1, overlay=overlay).files)


# ------------------------------------------------------------------ what is read


def test_without_a_folder_nothing_is_laid_over(tmp_path):
    assert read_overlay(None) == NO_OVERLAY
    own(tmp_path, ".hidden/x.j2", "{{")
    assert read_overlay(tmp_path) == Overlay(str(tmp_path))


def test_what_is_read_is_told_by_its_room(tmp_path):
    own(tmp_path, HOME, "{{ shop.name }}")
    own(tmp_path, "print/tokens.typ", "#let body = 11pt")
    overlay = read_overlay(tmp_path)
    assert overlay.under("pages") == {"home.html.j2": "{{ shop.name }}"}
    assert overlay.under("print") == {"tokens.typ": "#let body = 11pt"}


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("pages/guid.html.j2", "x", ("{at}: no shipped template has this name; the nearest is "
         "pages/guide.html.j2")),
        ("assets/site.js", "x", "{at}: no shipped template has this name"),
        ("print/record.typ", "x", "{at}: no shipped template has this name"),
        (HOME, "a\n{% if x %}\n", "{at}:2: Unexpected end of template"),
        (HOME, "a\n{{ x | }}\n", "{at}:2: "),
        ("print/parts.typ", '\n#eval("1")', "{at}:2: `eval` is not allowed in a layout"),
        ("print/parts.typ", "#dictionary(std)", "{at}:1: `std` is not allowed in a layout"),
        ("print/parts.typ", '#plugin("x.wasm")', "{at}:1: `plugin` is not allowed"),
        ("print/parts.typ", '#import "@preview/x:1.0.0"', ("{at}:1: `import` is allowed for a "
         'file of the sheets alone, as in: import "parts.typ"')),
        ("print/parts.typ", '#import ("@pre" + "view/x:1.0.0")', "{at}:1: `import` is allowed"),
        ("print/parts.typ", "#include x", "{at}:1: `include` is allowed"),
        ("print/parts.typ", '#import "/../x.typ"', "{at}:1: `import` is allowed"),
    ],
)  # fmt: skip
def test_a_template_that_cannot_be_laid_over_is_named_with_its_line(name, text, said, tmp_path):
    file = own(tmp_path, name, text)
    with pytest.raises(OverlayError) as refused:
        read_overlay(tmp_path)
    assert str(refused.value).startswith(said.format(at=file))


def test_a_folder_that_is_not_there_is_told(tmp_path):
    with pytest.raises(OverlayError, match=r"gone: no such folder of templates"):
        read_overlay(tmp_path / "gone")


def test_no_link_is_followed(tmp_path):
    secret = tmp_path / "secret"
    secret.write_text("x")
    folder = tmp_path / "own" / "pages"
    folder.mkdir(parents=True)
    (folder / "home.html.j2").symlink_to(secret)
    with pytest.raises(OverlayError, match="a link, or no file"):
        read_overlay(tmp_path / "own")


def test_a_pipe_is_not_waited_for(tmp_path):
    (tmp_path / "pages").mkdir()
    os.mkfifo(tmp_path / HOME)
    with pytest.raises(OverlayError, match="a link, or no file"):
        read_overlay(tmp_path)


def test_a_file_that_is_no_template_is_told(tmp_path):
    file = own(tmp_path, HOME, "")
    file.write_bytes(b"a\nb\xff")
    with pytest.raises(OverlayError, match=r"home\.html\.j2:2: not UTF-8; save it as UTF-8"):
        read_overlay(tmp_path)
    file.write_bytes(b"x" * (LARGEST + 1))
    with pytest.raises(OverlayError, match="more than 200,000 bytes"):
        read_overlay(tmp_path)


@pytest.mark.parametrize(
    "file", sorted(shipped("templates").glob("print/*.typ")), ids=lambda file: file.name
)
def test_every_shipped_sheet_may_be_laid_over_as_it_is(file, tmp_path):
    if file.name not in {"record.typ", "survey.typ"}:
        own(tmp_path, f"print/{file.name}", file.read_text("utf-8"))
        assert read_overlay(tmp_path).files


# ------------------------------------------------------------------ what is published


def test_the_shipped_templates_laid_over_make_the_same_site(book, cache, shipped_site, tmp_path):
    """Every page out of the sandbox and every print, byte for byte."""
    for name in ("pages", "print"):
        top = shipped("templates") / name
        for file in top.rglob("*.*"):
            if file.name not in {"record.typ", "survey.typ", "main.html"}:
                own(tmp_path, f"{name}/{file.relative_to(top)}", file.read_text("utf-8"))
    assert laid(book, cache, tmp_path) == shipped_site


def test_a_layout_of_its_own_reaches_every_page_and_print(book, cache, shipped_site, tmp_path):
    """One frame for guides, lists and hand-written pages; the cache tells old from new."""
    lay_over(tmp_path, (BASE, '<div class="sheet">', '<div class="sheet own">'))
    lay_over(tmp_path, ("print/tokens.typ", "#let ink = rgb(", "#let own = 1\n#let ink = rgb("))
    site = laid(book, cache, tmp_path)
    pages = [name for name in site if name.endswith(".html")]
    assert all(b'<div class="sheet own">' in site[name] for name in pages)
    assert "reading.html" in pages
    assert set(site) == set(shipped_site)
    assert dict(render(book, today=TODAY, cache=cache, workers=1).files) == shipped_site


def test_a_print_of_its_own_is_another_print(book, cache, shipped_site, tmp_path):
    lay_over(tmp_path, ("print/tokens.typ", 'rgb("#111111")', 'rgb("#121212")'))
    site = laid(book, cache, tmp_path)
    assert site[PAPER] != shipped_site[PAPER]
    assert site[PAGE] == shipped_site[PAGE]


@pytest.mark.parametrize(
    "text",
    [
        "{{ ''.__class__.__mro__ }}",
        "{{ asset.__globals__ }}",
        "{{ w.__init__.__globals__['sys'] }}",
        "{{ shop.__class__ }}",
        "{{ self.__init__.__func__.__code__ }}",
        "{{ shop.update(name='x') }}",
    ],
)
def test_the_sandbox_gives_nothing_away(text, unprinted, tmp_path):
    lay_over(tmp_path, (HOME, "{% block main %}", "{% block main %}" + text))
    with pytest.raises(PageError, match=r"pages/home\.html\.j2:\d+: "):
        render(unprinted, today=TODAY, workers=1, overlay=read_overlay(tmp_path))


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        (HOME, "{{ nothing.here }}", r"pages/home\.html\.j2:\d+: 'nothing' is undefined"),
        (HOME, "{{ asset('gone.js') }}", r"pages/home\.html\.j2:\d+: a template asks for"),
        (HOME, "{% include '../../shop.yaml' %}", r"pages/home\.html\.j2:\d+: "),
        (GUIDE, "{% include 'gone.html.j2' %}", r"pages/guide\.html\.j2:\d+: gone\.html\.j2"),
    ],
)
def test_what_a_template_runs_into_is_told_with_its_line(name, text, said, unprinted, tmp_path):
    lay_over(tmp_path, (name, "{% block main %}", "{% block main %}" + text))
    with pytest.raises(PageError, match=said):
        render(unprinted, today=TODAY, workers=1, overlay=read_overlay(tmp_path))


def test_a_print_reads_no_file_beside_the_templates(book, tmp_path):
    told = '#import "told.typ": *'
    lay_over(tmp_path, ("print/sheet.typ", told, f'{told}\n#read("/../DEVELOPERS.md")'))
    with pytest.raises(PrintError, match=r"project root|access"):
        render(book, today=TODAY, workers=1, overlay=read_overlay(tmp_path))


# ------------------------------------------------------------------ the policy of a page


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (META, ""),
        (META, "<!--" + META + "-->"),
        (META, META.replace("policy|safe", "policy|replace(\"script-src 'self'\", '')|safe")),
        (HEAD, HEAD + '<script src="https://a.example/x.js"></script>'),
        (META, META + '<meta http-equiv="refresh" content="0; url=https://a.example/">'),
        ("<html lang", "<html data-x='" + META + "' lang"),
        ("<!doctype html>", "<!doctype html><style>p{}</style>"),
    ],
)
def test_a_page_that_loses_its_policy_is_not_published(before, after, unprinted, tmp_path):
    lay_over(tmp_path, (BASE, before, after))
    with pytest.raises(PageError, match="does not begin with its Content-Security-Policy"):
        render(unprinted, today=TODAY, workers=1, overlay=read_overlay(tmp_path))


def test_every_published_page_begins_with_the_policy(shipped_site):
    require_policy(shipped_site)
    pages = [page for name, page in shipped_site.items() if name.endswith(".html")]
    assert all(page.count(POLICY.encode()) == 1 for page in pages)
    assert "default-src 'none'" in POLICY
    assert "script-src 'self'" in POLICY


# ------------------------------------------------------------------ while it is written


def test_the_preview_follows_the_layout_as_it_is_saved(book, tmp_path):
    lay_over(tmp_path, (GUIDE, "{% block main %}", '{% block main %}<p class="a">'))
    with preview(book, tmp_path) as server:
        assert b'<p class="a">' in ask(server, f"/{PAGE}")[1]
        file = Path(tmp_path / GUIDE)
        file.write_text(file.read_text("utf-8").replace('class="a"', 'class="b"'), "utf-8")
        until(lambda: b'<p class="b">' in ask(server, f"/{PAGE}")[1])
