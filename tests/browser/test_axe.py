"""Every kind of page, at three widths, light and dark: axe-core finds nothing against it."""

import json
from pathlib import Path

import axe_playwright_python
import pytest

from browser.test_equipment import enter
from publish import told
from serving import serving

AXE = Path(axe_playwright_python.__file__).with_name("axe.min.js").read_text("utf-8")
# The size of what is touched (WCAG 2.2, 2.5.8) is not among the rules that axe-core runs unasked.
ASKED = {"resultTypes": ["violations"], "rules": {"target-size": {"enabled": True}}}
WIDTHS = (360, 768, 1280)
KINDS = {
    "home": "index.html",
    "guide": "guides/dunstrel-cobble/j9b/index.html",
    "guide with a second battery": "guides/tavlow-camber/j8/index.html",
    "refusal": "guides/dunstrel-cobble/j9/index.html",
    "workings": "guides/dunstrel-cobble/j9b/workings/index.html",
    "matrix": "matrix.html",
    "symbols": "symbols.html",
    "rules": "manual/rules.html",
    "a family of rules": "manual/rules-oc.html",
    "manual": "manual/vehicle.html",
    "hand-written": "cautions.html",
}


SITE, BANNERS = told.under_banners()  # what the example site does not publish


def violations(page, part="html"):
    """Return what axe-core holds against a page, or a part of it: rule, and the first place."""
    found = page.evaluate(f"axe.run({json.dumps(part)}, {json.dumps(ASKED)})")
    return [
        f"{v['id']}: {v['help']} at {v['nodes'][0]['target']} ({len(v['nodes'])})"
        for v in found["violations"]
    ]


@pytest.fixture
def opened(browser, address):
    """Return a page with axe-core in it, past the pages' own policy against foreign scripts."""
    context = browser.new_context(bypass_csp=True)
    page = context.new_page()

    def open_page(path):
        page.goto(address + path)
        page.evaluate(AXE)
        return page

    yield open_page
    context.close()


def everywhere(page, part="html"):
    """Return what is found at each width, light and dark."""
    found = {}
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            if bad := violations(page, part):
                found[width, scheme] = bad
    return found


@pytest.fixture(scope="module")
def banners(tmp_path_factory):
    """Serve pages that stand under a banner."""
    top = tmp_path_factory.mktemp("banners")
    for name, content in SITE.items():
        (top / name).parent.mkdir(parents=True, exist_ok=True)
        (top / name).write_bytes(content)
    with serving(top) as served:
        yield served.address


@pytest.mark.parametrize("kind", KINDS)
def test_axe_finds_nothing(opened, kind):
    assert everywhere(opened(KINDS[kind])) == {}


@pytest.mark.parametrize("kind", BANNERS)
def test_axe_finds_nothing_under_a_banner(opened, banners, kind):
    page = opened("index.html")
    page.goto(banners + BANNERS[kind])
    page.evaluate(AXE)
    assert page.locator(".withdrawn, .draft").is_visible()
    assert everywhere(page) == {}


def test_axe_finds_nothing_in_any_answer_on_a_reader_s_own_station(opened):
    page = opened(KINDS["guide"])
    for said, entries in (
        ("Not refused", {}),
        ("Unknown", {"absolute_V": ""}),
        ("No\n", {"window_max_V": "40", "absolute_V": "40"}),
    ):
        assert enter(page, **entries).startswith(said)
        assert everywhere(page, "#equipment") == {}, said


def test_axe_finds_nothing_in_a_missed_reading_and_one_step_at_a_time(opened):
    page = opened(KINDS["guide"])
    page.fill("#box-R1", "1")
    assert page.locator("#found-R1").inner_text().startswith("Low")
    assert everywhere(page, "#reading-R1") == {}
    page.locator("#walk-start").click()
    assert everywhere(page) == {}


def test_axe_finds_nothing_where_a_guide_is_for_another_vehicle(opened):
    page = opened(KINDS["guide"])
    page.locator("label[for=applies-1-no]").click()
    assert page.locator("#not-mine").is_visible()
    assert everywhere(page) == {}


def test_axe_would_find_something(opened):
    page = opened(KINDS["home"])
    page.evaluate("document.documentElement.removeAttribute('lang')")
    page.evaluate("document.body.style.color = '#ccc'")
    found = " ".join(violations(page))
    assert "html-has-lang" in found
    assert "color-contrast" in found
