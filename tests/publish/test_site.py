"""Guides and hand-written pages as one site, and our guides in somebody else's."""

import posixpath
import re
import shutil
from types import SimpleNamespace
from urllib.parse import unquote, urlsplit

import pytest
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.exceptions import Abort

from baybook import pipeline
from baybook.publish.site import SiteError, merge, written_site
from baybook.publish.written import written_folder, written_pages
from publish import told
from publish.markup_reader import ids, read
from publish.test_pages import assert_clean

ALL = (told.guide(), told.refusal(), told.withdrawal())
PRINTS = {told.FIT: {"a4": b"%PDF-a4"}}


@pytest.fixture(scope="module")
def site():
    return merge(told.pages(*ALL, prints=PRINTS), written_site(told.book()))


def test_the_hand_written_pages_stand_beside_the_guides(site):
    addresses = {page.address for page in written_pages("en")}
    assert addresses <= set(site)
    assert set(told.pages(*ALL, prints=PRINTS)) <= set(site)
    assert set(site) == set(told.pages(*ALL, prints=PRINTS)) | addresses


def test_both_kinds_stand_in_one_frame(site):
    ours, theirs = site["index.html"].decode(), site["reading.html"].decode()
    for part in (
        "Content-Security-Policy",
        'class="demonstration"',
        '<footer class="foot">',
        "noindex",
    ):
        assert part in ours
        assert part in theirs
    styles = [re.findall(r"assets/site\.css\?\w+", page) for page in (ours, theirs)]
    assert styles[0] == styles[1] != []


def test_hand_written_pages_are_clean_and_show_the_symbols(site):
    for page in written_pages("en"):
        assert_clean(read(site[page.address]))
    assert site["reading.html"].count(b"<svg") == 15
    assert b":symbol-" not in site["reading.html"]


def test_every_link_of_the_site_leads_somewhere(site):
    for name, content in site.items():
        if not name.endswith(".html"):
            continue
        for element in read(content).elements:
            for key in ("href", "src", "action"):
                target = urlsplit(element.attributes.get(key) or "")
                if target.scheme or not target.path:
                    continue
                path = posixpath.normpath(
                    posixpath.join(posixpath.dirname(name), unquote(target.path))
                )
                assert path in site, f"{name}: {target.path}"
                if target.fragment:
                    assert target.fragment in ids(read(site[path])), f"{name}: {target.fragment}"


def test_the_same_site_twice(site):
    again = merge(told.pages(*ALL, prints=PRINTS), written_site(told.book()))
    assert again == site


# ------------------------------------------------------------------ what stops it


def spoilt(tmp_path, name, text):
    folder = tmp_path / "site"
    shutil.copytree(written_folder("en"), folder)
    with (folder / "pages" / name).open("a", encoding="utf-8") as page:
        page.write(text)
    return folder


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("\n[gone](gone.md)\n", "gone.md"),
        ("\n:symbol-skull:\n", "skull"),
    ],
)
def test_a_warning_stops_the_site(tmp_path, text, said):
    folder = spoilt(tmp_path, "method.md", text)
    with pytest.raises(SiteError, match=said):
        written_site(told.book(), folder=folder)


def test_a_hand_written_page_at_the_address_of_ours_is_refused(tmp_path):
    folder = spoilt(tmp_path, "index.md", "# Mine\n")
    config = (folder / "mkdocs.yml").read_text("utf-8")
    (folder / "mkdocs.yml").write_text(config + "  - Mine: index.md\n", "utf-8")
    with pytest.raises(SiteError, match=r"two files claim the address index\.html"):
        merge(told.pages(), written_site(told.book(), folder=folder))


def test_addresses_that_differ_in_case_only_are_refused():
    with pytest.raises(SiteError, match="two files claim"):
        merge({"Guides/a": b""}, {"guides/A": b""})


def test_a_file_that_is_also_a_folder_is_refused():
    with pytest.raises(SiteError, match="guides is a file and the folder of guides/a"):
        merge({"guides": b""}, {"guides/a": b""})


# ------------------------------------------------------------------ in a foreign mkdocs.yml


@pytest.fixture
def foreign(tmp_path, monkeypatch):
    """Return a site of somebody else that uses the plugin, and what our pipeline gives it."""
    rendered = SimpleNamespace(files=told.pages(*ALL, prints=PRINTS), problems=(), lost=())
    monkeypatch.setattr(pipeline, "render", lambda *_, **__: rendered)
    (tmp_path / "docs").mkdir()
    (tmp_path / "docs/index.md").write_text(
        "# Their site\n\n[Guides](guides/index.html)\n", "utf-8"
    )
    (tmp_path / "fits").mkdir()
    (tmp_path / "mkdocs.yml").write_text(
        "site_name: Theirs\nplugins:\n  - baybook:\n      workbook: fits\n      folder: guides\n",
        "utf-8",
    )
    return tmp_path, rendered


def built(folder):
    build(load_config(str(folder / "mkdocs.yml"), strict=True))
    return folder / "site"


def test_the_plugin_adds_the_finished_files_as_they_are(foreign):
    folder, rendered = foreign
    site = built(folder)
    assert "Their site" in (site / "index.html").read_text("utf-8")
    for address, content in rendered.files.items():
        assert (site / "guides" / address).read_bytes() == content


def test_the_plugin_refuses_to_stand_on_a_page_of_theirs(foreign):
    folder, _ = foreign
    (folder / "docs/guides").mkdir()
    (folder / "docs/guides/index.md").write_text("# Theirs\n", "utf-8")
    with pytest.raises(Abort):
        built(folder)


def test_the_plugin_stops_the_build_when_something_was_lost(foreign, caplog):
    folder, rendered = foreign
    rendered.lost = ("guides/x: torque D",)
    with pytest.raises(Abort):
        built(folder)
    assert "torque D" in caplog.text


def test_the_plugin_stops_the_build_with_a_message_when_a_site_cannot_be_made(
    foreign, caplog, monkeypatch
):
    def stop(*_, **__):
        raise SiteError("a.html has a broken link, `b.html`: there is no such file")

    monkeypatch.setattr(pipeline, "render", stop)
    with pytest.raises(Abort):
        built(foreign[0])
    assert "no guide was added: a.html has a broken link, `b.html`" in caplog.text
