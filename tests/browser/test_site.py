"""A reader's and a technician's way through the published example site."""

import pytest

# A small phone, which is also a desk's 1280 at 400 %; a desk's 1280 at 200 %; phone, tablet, desk.
WIDTHS = (320, 640, 360, 768, 1280)


@pytest.fixture
def paths(published):
    return sorted(
        str(p.parent.relative_to(published)) + "/" for p in published.glob("**/index.html")
    )


def guide_path(published, fit):
    return str(next(published.glob(f"guides/*/{fit}/")).relative_to(published)) + "/"


def test_a_guide_is_found_from_the_first_page(visit):
    page = visit()
    page.get_by_role("link", name="Dunstrel Cobble").first.click()
    assert "Dunstrel Cobble" in page.locator("h1").inner_text()


def test_the_finder_narrows_the_list(visit):
    page = visit()
    page.get_by_role("searchbox").or_(page.locator("input[type=search], input[name=q]")).first.fill(
        "tansy"
    )
    page.get_by_role("button", name="Find").click()
    links = page.get_by_role("link").filter(has_text="Tansy")
    assert links.first.is_visible()
    assert page.get_by_role("link").filter(has_text="Cobble").locator("visible=true").count() == 0


def too_wide(page):
    """Return the widths at which a page is wider than its window."""
    found = []
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 900})
        if page.evaluate("document.documentElement.scrollWidth") > width:
            found.append(width)
    return found


def test_no_page_scrolls_sideways_and_each_is_quiet(visit, paths):
    for path in paths:
        page = visit("" if path == "./" else path)
        assert too_wide(page) == [], path
        page.close()


@pytest.mark.parametrize("fit", ["j1", "j3", "j9b"])
def test_a_guide_carries_figures_steps_holds_and_drawing(visit, published, fit):
    page = visit(guide_path(published, fit))
    text = page.locator("body").inner_text()
    for number in range(1, 6):
        assert f"HOLD {number}" in text
    assert "Checked:" in text
    assert "Demonstration data" in text
    assert page.locator("svg[role=img]").locator("visible=true").count() >= 2


def test_a_refusal_says_why_and_cannot_be_built_from(visit, published):
    page = visit(guide_path(published, "j4"))
    text = page.locator("main").inner_text()
    assert "Refused OV-01" in text
    assert "Way out" in text
    assert page.locator("svg[role=img]").count() == 0
    assert "HOLD" not in text


def test_ticks_are_kept_on_the_device(visit, published):
    page = visit(guide_path(published, "j9b"))
    tick = page.locator("main input[type=checkbox]").first
    tick.check()
    page.reload()
    assert page.locator("main input[type=checkbox]").first.is_checked()


def test_a_guide_works_without_script(visit, published):
    page = visit(guide_path(published, "j9b"), java_script_enabled=False)
    assert "HOLD 5" in page.locator("body").inner_text()


def test_the_print_opens_and_the_page_prints(visit, published):
    page = visit(guide_path(published, "j9b"))
    links = page.locator("a[href$='.pdf']")
    assert links.count() >= 2
    got = page.request.get(links.first.evaluate("a => a.href"))
    assert got.ok
    assert got.body().startswith(b"%PDF-")
    assert page.pdf().startswith(b"%PDF-")


def test_dark_and_light_both_have_ink_on_paper(visit, published):
    for scheme in ("light", "dark"):
        page = visit(guide_path(published, "j9b"), color_scheme=scheme)
        style = "getComputedStyle(document.body)"
        assert page.evaluate(f"{style}.color") != page.evaluate(f"{style}.backgroundColor")


@pytest.mark.parametrize("name", ["start", "vehicle", "rules", "rules-oc"])
def test_the_manual_is_read_without_script(visit, name):
    page = visit(f"manual/{name}.html", width=360, java_script_enabled=False)
    assert page.locator("h1").is_visible()
    assert page.locator("main").bounding_box()["width"] <= 360
    assert page.get_by_role("link", name="Manual").first.is_visible()


def test_no_other_page_scrolls_sideways(visit, published):
    pages = sorted(set(published.rglob("*.html")) - set(published.rglob("index.html")))
    assert len(pages) > 20
    for file in pages:
        page = visit(str(file.relative_to(published)))
        assert too_wide(page) == [], file.name
        page.close()


def test_a_finding_leads_to_its_rule_and_the_rule_to_the_manual(visit, published):
    page = visit(guide_path(published, "j4"))
    page.get_by_role("link", name="OV-01").first.click()
    assert page.url.endswith("manual/rules-ov.html#OV-01")
    assert "absolute maximum" in page.locator("#OV-01").inner_text()
    page.get_by_role("link", name="Manual").first.click()
    page.get_by_role("link", name="Ten-minute start").first.click()
    assert "baybook publish" in page.locator("main").inner_text()
