"""`baybook preview`: a real server over a copied workbook, saved to, broken and mended."""

import re
import shutil

from baybook.desk import preview_site
from baybook.desk.preview_site import PreviewSite
from baybook.making import Hand, Order, Shared
from baybook.pipeline import render
from baybook.publish.history import add_issued
from baybook.publish.store import KeptFiles, PassingStore
from desk.previewed import PAGE, TODAY, ask, body_of, preview, small, until
from tongues import TEXTS
from tongues import workbook as two_tongues
from workbooks import COBBLE, SHOP, TANSY, copy_workbook, edit


def test_page_is_the_published_one_but_for_what_is_put_in(served):
    book, server = served
    published = render(book, today=TODAY).files
    for path in (PAGE, "/index.html", "/symbols.html"):
        page = body_of(server, path)
        at = page.index(b'<link rel="stylesheet" href="/_preview/')
        end = page.index(b"</head>")
        assert page[:at] + page[end:] == published[path[1:]]
    data = PAGE.replace("index.html", "guide.json")
    assert body_of(server, data) == published[data[1:]]
    assert not any(b"_preview" in content for content in published.values())
    pdf = PAGE.replace("index.html", "job-sheet-a4.pdf")
    assert body_of(server, pdf) == published[pdf[1:]]


def test_saved_broken_and_mended(served):
    book, server = served
    text = (book / TANSY).read_text("utf-8")
    before = body_of(server)
    edit(book, TANSY, "\nmodel: Tansy", "\nmodel: Tansy Nine")
    until(lambda: b"Tansy Nine" in body_of(server))
    assert b'class="preview"' not in body_of(server)
    good = body_of(server)

    edit(book, TANSY, "low: 12.3 V", "low: 12,3 V")
    line = text[: text.index("low: 12.3 V")].count("\n") + 1
    until(lambda: b'class="preview"' in body_of(server))
    broken = body_of(server)
    assert f"fits/{TANSY}:{line}:".encode() in broken
    assert b"Tansy Nine" in broken
    assert good.partition(b"<body")[2].partition(b">")[2] in broken  # the last good page, whole

    (book / TANSY).write_text(text, "utf-8")
    until(lambda: b"Tansy Nine" not in body_of(server))
    assert strip(body_of(server)) == strip(before)


def strip(page):
    return page.partition(b"<body")[2]


def test_refused_fit_keeps_its_last_good_page(served):
    book, server = served
    text = (book / TANSY).read_text("utf-8")
    edit(book, TANSY, "low: 12.3 V", "low: 9.1 V")
    until(lambda: b'class="preview"' in body_of(server))
    assert ask(server, PAGE)[0] == 200
    (book / TANSY).write_text(text, "utf-8")
    until(lambda: b'class="preview"' not in body_of(server))


def test_waiting_script_tells_of_a_save(served):
    _, server = served
    assert body_of(server, "/_preview/wait.js?at=0") == b"location.reload();\n"
    assert b"script-src 'self'" in body_of(server)
    assert ask(server, "/_preview/preview.js")[0] == 200
    assert ask(server, "/_preview/../shop.yaml")[0] == 404


def test_thousand_rapid_saves_end_in_the_last_state(served):
    book, server = served
    text = (book / TANSY).read_text("utf-8")
    for number in range(1000):
        changed = text.replace("\nmodel: Tansy", f"\nmodel: Tansy {number:04d}")
        (book / TANSY).write_text(changed, "utf-8")
    until(lambda: b"Tansy 0999" in body_of(server))
    assert b'class="preview"' not in body_of(server)
    (book / TANSY).write_text(text, "utf-8")
    until(lambda: b"Tansy 0999" not in body_of(server))


def looked_at(root):
    site = PreviewSite(root, drafts=False, today=lambda: TODAY)
    site.refresh()
    assert (site.findings, site.stopped) == ((), "")
    return site


def test_a_save_of_a_vehicle_is_seen_in_its_variant(tmp_path):
    root = copy_workbook(tmp_path / "fits")
    for vehicle in (root / "vehicles").iterdir():
        if not vehicle.name.startswith("dunstrel-cobble"):
            shutil.rmtree(vehicle)
    site = looked_at(root)
    tow = "guides/dunstrel-cobble-tow-pack/j9/index.html"
    assert b"Dunstrel Cobble" in site.get(tow)
    saved = edit(root, COBBLE, "\nmake: Dunstrel\n", "\nmake: Dunstrel-Nine\n")
    site.refresh([str(saved.resolve())])
    assert b"Dunstrel-Nine Cobble" in site.get(tow)
    assert b"Dunstrel-Nine Cobble" in site.get("guides/dunstrel-cobble/j9b/index.html")
    assert site.get("index.html").count(b"Dunstrel-Nine Cobble") >= 2


def test_every_language_is_shown_and_a_mended_text_at_once(tmp_path):
    root = two_tongues(tmp_path / "fits")
    site = looked_at(root)
    page = f"de{PAGE}"
    assert b'<html lang="de"' in site.get(page)
    assert "«Open the bonnet".encode() in site.get(page)
    saved = edit(root, TEXTS, "«Open the bonnet", "«Haube auf")
    site.refresh([str(saved.resolve())])
    assert "«Haube auf".encode() in site.get(page)
    assert b'<html lang="en"' in site.get(PAGE.removeprefix("/"))
    assert site.get("de/manual/start.html")
    assert b"Brunsall" in site.get("de/matrix.html")
    (root / SHOP).write_text("name: [", "utf-8")
    site.refresh([str((root / SHOP).resolve())])
    assert site.findings
    assert "«Haube auf".encode() in site.get(page)


def test_an_earlier_revision_opens_where_the_guide_leads_to_it(tmp_path):
    book = small(tmp_path / "fits")
    issue(book)
    edit(book, TANSY, "output_length: 1.2 m", "output_length: 1.3 m")
    site = looked_at(book)
    guide, old = PAGE.removeprefix("/"), "guides/brunsall-tansy/j1/r1"
    assert b'href="../../../guides/brunsall-tansy/j1/r1/index.html"' in site.get(guide)
    assert b"OLD REVISION. STOP." in site.get(f"{old}/index.html")
    assert site.get(f"{old}/workings/index.html")
    assert site.get(f"{old}/job-sheet-a4.pdf") is None
    assert site.get("guides/brunsall-tansy/j1/r2/index.html") is None


def issue(book):
    """Write down the first revision of a workbook, as a publish does."""
    store = PassingStore()
    hand = Hand(book, store)
    hand.share(Shared(texts={}, drafts=False, today=TODAY, matrix=False))
    made = hand.make(Order(slug="brunsall-tansy", issued={}))
    add_issued(book, KeptFiles(store, made.issued))


# ------------------------------------------------------------------ pictures


def pictures_of(server):
    return set(re.findall(r"photos/brunsall-tansy/[0-9a-f]+-640\.webp", body_of(server).decode()))


def test_a_picture_is_served_as_one_and_a_saved_one_is_shown(served):
    book, server = served
    folder = book / "vehicles/brunsall-tansy/photos"
    first = pictures_of(server)
    assert len(first) > 4
    status, body = ask(server, f"/{min(first)}")
    assert (status, body[:4], body[8:12]) == (200, b"RIFF", b"WEBP")
    assert ask(server, "/photos/brunsall-tansy/none.webp")[0] == 404
    assert ask(server, "/photos/none/none.webp")[0] == 404
    told = server.site._good.hand
    kept = (folder / "fuel-flap.png").read_bytes()
    shutil.copy(folder / "door-plate.png", folder / "fuel-flap.png")
    until(lambda: pictures_of(server) < first)
    assert server.site._good.hand is told  # the vehicle alone was read again
    (folder / "fuel-flap.png").write_bytes(kept)
    until(lambda: pictures_of(server) == first)


def test_a_picture_that_is_taken_away_is_told_over_the_last_good_page(served):
    book, server = served
    file = book / "vehicles/brunsall-tansy/photos/fuel-flap.png"
    kept = file.read_bytes()
    file.unlink()
    until(lambda: b"DA-21" in body_of(server))
    assert b"Dunstrel" not in body_of(server)
    file.write_bytes(kept)
    until(lambda: b"DA-21" not in body_of(server))


def test_only_the_page_is_made_at_first_and_the_rest_once(tmp_path, monkeypatch):
    right, made = preview_site.entry_pages, []

    def counted(*book, alone, **more):
        made.append(alone)
        return right(*book, alone=alone, **more)

    monkeypatch.setattr(preview_site, "entry_pages", counted)
    with preview(small(tmp_path / "fits")) as server:
        body_of(server)
        assert made == [True]
        workings = PAGE.replace("index.html", "workings/index.html")
        assert b'id="charts"' in body_of(server, workings)
        assert ask(server, PAGE.replace("index.html", "nothing.json"))[0] == 404
        body_of(server)
    assert made == [True, False]
