"""A guide that was kept opens in a garage without a network, and says what it cannot know."""

import json
import re
import shutil

import pytest

from baybook.publish.offline import _INK, _PAPER
from serving import serving

J9B = "guides/dunstrel-cobble/j9b/"


@pytest.fixture
def own(published, tmp_path):
    """Return a copy of the site, its address, and what cuts it off: a test may change it."""
    shutil.copytree(published, tmp_path / "site")
    with serving(tmp_path / "site") as served:
        yield tmp_path / "site", served.address, served.cut


@pytest.fixture
def context(browser):
    opened = browser.new_context()
    yield opened
    opened.close()


def kept(context, address):
    page = context.new_page()
    page.goto(address + J9B)
    page.get_by_role("button", name="Keep on this device").click()
    page.get_by_text("Kept on this device.").wait_for()
    return page


def test_a_kept_guide_opens_without_a_network_and_says_since_when(context, own):
    _, address, cut = own
    page = kept(context, address)
    cut()
    for way in (J9B, f"{J9B}index.html", f"{J9B}?r=1"):
        page.goto(address + way)
        assert "HOLD 5" in page.locator("body").inner_text()
        note = page.get_by_text(re.compile(r"No network\. Since \d{4}-\d\d-\d\d nobody could tell"))
        note.wait_for()
        assert page.locator("svg[role=img]").locator("visible=true").count() >= 2
        fonts = page.evaluate(
            "document.fonts.ready.then(f => [...f].every(x => x.status != 'error'))"
        )
        assert fonts
    page.goto(f"{address}{J9B}workings/index.html")
    assert page.locator("h1, h2").first.is_visible()


def test_a_guide_that_was_not_kept_does_not_open(context, own):
    _, address, cut = own
    page = kept(context, address)
    cut()
    with pytest.raises(Exception, match="ERR_"):
        page.goto(f"{address}guides/brunsall-tansy/j1/")


def test_the_size_that_is_told_is_what_is_kept(context, own):
    site, address, _ = own
    told = json.loads((site / J9B / "offline.json").read_text("utf-8"))
    assert sum((site / J9B / name).stat().st_size for name in told["files"]) == told["bytes"]
    page = context.new_page()
    page.goto(address + J9B)
    page.get_by_text(f"{told['bytes'] / 1e6:.1f} MB, without the prints").wait_for()
    kept(context, address)
    names = page.evaluate(
        "caches.open('baybook guides/dunstrel-cobble/j9b').then(c => c.keys()).then(k => k.length)"
    )
    assert names == len(told["files"])


def test_a_guide_that_changed_is_renewed_and_says_so(context, own):
    site, address, cut = own
    page = kept(context, address)
    old = (site / J9B / "index.html").read_text("utf-8")
    (site / J9B / "index.html").write_text(old.replace("Dunstrel", "Dunstrell"), "utf-8")
    told = json.loads((site / J9B / "offline.json").read_text("utf-8"))
    (site / J9B / "offline.json").write_text(json.dumps(told | {"version": "another"}), "utf-8")
    page.goto(address + J9B)
    page.get_by_text("The copy on this device was renewed on").wait_for()
    cut()
    page.goto(address + J9B)
    assert "Dunstrell" in page.locator("h1").inner_text()


def test_a_copy_that_cannot_be_renewed_stays_whole_and_says_so(context, own):
    site, address, cut = own
    page = kept(context, address)
    told = json.loads((site / J9B / "offline.json").read_text("utf-8"))
    more = {"version": "another", "files": [*told["files"], "gone.html"]}
    (site / J9B / "offline.json").write_text(json.dumps(told | more), "utf-8")
    page.goto(address + J9B)
    page.get_by_text("the copy on this device is still that of").wait_for()
    cut()
    page.goto(address + J9B)
    assert "HOLD 5" in page.locator("body").inner_text()
    page.get_by_text("No network. Since").wait_for()


def test_what_is_removed_is_gone(context, own):
    _, address, cut = own
    page = kept(context, address)
    page.get_by_role("button", name="Remove from this device").click()
    page.get_by_text("Removed from this device.").wait_for()
    cut()
    with pytest.raises(Exception, match="ERR_"):
        page.goto(address + J9B)


def test_the_site_can_be_installed(published, context, own):
    _, address, _ = own
    page = context.new_page()
    page.goto(address)
    manifest = page.locator("link[rel=manifest]").get_attribute("href")
    told = json.loads((published / manifest).read_text("utf-8"))
    assert (published / told["start_url"]).is_file()
    assert (published / told["icons"][0]["src"]).is_file()
    assert told["display"] in {"minimal-ui", "standalone"}
    style = (published / "assets/site.css").read_text("utf-8")
    assert f"--ink:{_INK};" in style
    assert f"--paper:{_PAPER};" in style
    # Chromium's own judgement, by its own protocol.
    faults = context.new_cdp_session(page).send("Page.getInstallabilityErrors")
    assert [fault["errorId"] for fault in faults["installabilityErrors"]] in (
        [],
        ["in-incognito"],  # every context of a test is one
    )
