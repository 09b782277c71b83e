"""Every kind of page, at three widths, light and dark: axe-core finds nothing against it."""

import json
from pathlib import Path

import axe_playwright_python
import pytest

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


def violations(page):
    """Return what axe-core holds against a page: rule, and the first place."""
    found = page.evaluate(f"axe.run(document, {json.dumps(ASKED)})")
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


@pytest.mark.parametrize("kind", KINDS)
def test_axe_finds_nothing(opened, kind):
    page = opened(KINDS[kind])
    found = {}
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            if bad := violations(page):
                found[width, scheme] = bad
    assert found == {}


def test_axe_would_find_something(opened):
    page = opened(KINDS["home"])
    page.evaluate("document.documentElement.removeAttribute('lang')")
    page.evaluate("document.body.style.color = '#ccc'")
    found = " ".join(violations(page))
    assert "html-has-lang" in found
    assert "color-contrast" in found
