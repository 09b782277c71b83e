"""One workbook in two languages: the same figures and revisions, each page in its own words."""

import io
import json
import re
from datetime import date

import pikepdf
import pytest
import zxingcpp
from PIL import Image

from baybook.pipeline import publish, render
from baybook.wording.catalogue import CatalogueError
from prints.paper import raster
from tongues import TEXT, TEXTS, translations, two_languages, workbook, write_texts
from workbooks import SHOP, TANSY, edit, load

TODAY = date(2024, 12, 2)
FIT = "brunsall-tansy/j1"
PAGE = f"guides/{FIT}/index.html"


@pytest.fixture(scope="module")
def site(tmp_path_factory):
    """Return the workbook and the folder of a site in English and German."""
    with pytest.MonkeyPatch.context() as patch:
        top = tmp_path_factory.mktemp("tongues")
        two_languages(top, patch)
        root = workbook(top / "fits")
        rendered = publish(root, top / "_site", today=TODAY)
        assert (rendered.problems, rendered.lost) == ((), ())
        yield root, top / "_site"


def page(site, address):
    return (site[1] / address).read_text("utf-8")


def told(site, folder=""):
    return json.loads(page(site, f"{folder}guides/{FIT}/guide.json"))


def test_the_first_language_stands_at_the_root_and_the_second_in_its_folder(site):
    assert '<html lang="en"' in page(site, PAGE)
    assert '<html lang="de"' in page(site, f"de/{PAGE}")
    assert told(site)["language"] == "en"
    assert told(site, "de/")["language"] == "de"
    ours = {f.relative_to(site[1]).as_posix() for f in site[1].rglob("*") if f.is_file()}
    german = {name.removeprefix("de/") for name in ours if name.startswith("de/")}
    shared = ("assets/", "photos/", ".baybook")
    english = {name for name in ours if not name.startswith(("de/", *shared))}
    assert german == english - {"robots.txt", "worker.js"}  # asked for at the root, and there alone


def test_every_link_of_every_page_leads_to_a_file(site):
    for file in site[1].rglob("*.html"):
        for link in re.findall(r'(?:href|src)="([^"#]+)', file.read_text("utf-8")):
            if not link.startswith(("https:", "mailto:")):
                target = (file.parent / link.partition("?")[0]).resolve()
                assert target.is_file(), f"{file}: {link}"


def test_a_page_names_its_twin_in_the_other_language(site):
    english, german = page(site, PAGE), page(site, f"de/{PAGE}")
    address = "https://guides.example.invalid/"
    for text in (english, german):
        assert f'hreflang="en" href="{address}{PAGE}"' in text
        assert f'hreflang="de" href="{address}de/{PAGE}"' in text
        assert f'hreflang="x-default" href="{address}{PAGE}"' in text
    assert f'<a href="../../../de/{PAGE}" lang="de" hreflang="de">Deutsch</a>' in english
    assert f'<a href="../../../../{PAGE}" lang="en" hreflang="en">English</a>' in german
    assert 'href="../de/reading.html" lang="de"' not in page(site, "reading.html")
    assert 'href="./de/reading.html" lang="de"' in page(site, "reading.html")


def test_the_shop_s_own_texts_are_translated_and_names_are_not(site):
    english, german = page(site, PAGE), page(site, f"de/{PAGE}")
    assert TEXT in english
    assert "«" not in english
    assert f"«{TEXT}»" in german
    assert "<h1>Brunsall Tansy</h1>" in german
    assert "«Brunsall" not in german
    assert "«estate»" in page(site, "de/index.html")


def test_the_figures_are_the_same_in_every_language(site):
    english, german = told(site), told(site, "de/")
    assert english["revision"] == german["revision"]
    values = [
        [(figure["name"], figure["value"], figure["low"], figure["high"]) for figure in figures]
        for figures in (english["guide"]["figures"], german["guide"]["figures"])
    ]
    assert values[0] == values[1]
    assert english["guide"]["torques"] != german["guide"]["torques"]  # but not the words


def test_a_zone_is_called_by_its_name_in_the_title_of_a_figure(site):
    for folder, name in (("", "zone Engine bay"), ("de/", "zone «Engine bay»")):
        titles = [figure["title"]["text"] for figure in told(site, folder)["guide"]["figures"]]
        assert sum(title.endswith(name) for title in titles) >= 3
        assert not any("engine-bay" in title for title in titles)


def test_a_german_figure_has_a_comma(site):
    english, german = (told(site, folder)["guide"]["figures"] for folder in ("", "de/"))
    assert [f["amount"]["text"].replace(".", ",") for f in english] == [
        f["amount"]["text"] for f in german
    ]
    assert any("," in f["amount"]["text"] for f in german)


def test_the_print_speaks_its_language_and_its_code_leads_to_the_page_of_it(site):
    for folder, language in (("", "en"), ("de/", "de")):
        pdf = (site[1] / f"{folder}guides/{FIT}/job-sheet-a4.pdf").read_bytes()
        with pikepdf.open(io.BytesIO(pdf)) as opened:
            assert str(opened.Root.Lang) == language
        image = raster(pdf, 0)
        assert isinstance(image, Image.Image)
        (code,) = zxingcpp.read_barcodes(image)
        assert code.text == f"https://guides.example.invalid/{folder}guides/{FIT}/?r=1"


def test_a_word_mended_in_one_language_makes_a_revision_in_all(site):
    root, _ = site
    before = render(root, today=TODAY)
    assert before.issued == {}  # nothing changed
    texts = translations(root)
    mended = write_texts(root, texts | {TEXT: "«mended»"})
    try:
        rendered = render(root, today=TODAY)
    finally:
        write_texts(root, texts)
    assert mended.is_file()
    assert list(rendered.issued) == [f"{FIT}/0002.json"]
    for folder in ("", "de/"):
        made = json.loads(rendered.files[f"{folder}guides/{FIT}/guide.json"])
        assert made["revision"]["number"] == 2
    first, second = (
        json.loads(files[f"guides/{FIT}/guide.json"])["revision"]["figures"]
        for files in (before.files, rendered.files)
    )
    assert first == second


def test_a_withdrawal_names_the_vehicle_in_the_reader_s_language(site):
    root, _ = site
    edit(root, TANSY, "  - id: j1\n", "  - id: j99\n")
    texts = translations(root)
    write_texts(root, texts)
    try:
        rendered = render(root, today=TODAY)
    finally:
        edit(root, TANSY, "  - id: j99\n", "  - id: j1\n")
        write_texts(root, translations(root))
    german = json.loads(rendered.files[f"de/guides/{FIT}/guide.json"])
    english = json.loads(rendered.files[f"guides/{FIT}/guide.json"])
    assert german["kind"] == english["kind"] == "withdrawal"
    assert "«estate»" in german["withdrawal"]["identity"]["variant"]["text"]
    assert "«" not in english["withdrawal"]["identity"]["variant"]["text"]


def test_a_text_without_its_translation_stops_the_publish(site, tmp_path):
    root, _ = site
    texts = translations(root)
    write_texts(root, {text: german for text, german in texts.items() if text != TEXT})
    try:
        rendered = publish(root, tmp_path / "_site", today=TODAY)
    finally:
        write_texts(root, texts)
    (fault,) = rendered.problems
    assert (fault.code, fault.place) == ("DA-19", "vehicle.battery.access")
    assert fault.where.file.endswith("brunsall-tansy/vehicle.yaml")
    assert not (tmp_path / "_site").exists()


def test_a_sentence_that_a_language_lacks_stops_the_publish(tmp_path, monkeypatch):
    two_languages(tmp_path, monkeypatch)
    root = workbook(tmp_path / "fits")
    file = tmp_path / "templates" / "de" / "steps.yaml"
    lines = file.read_text("utf-8").splitlines(keepends=True)
    file.write_text("".join(x for x in lines if not x.startswith('"do.vin"')), "utf-8")
    with pytest.raises(CatalogueError, match=r"the language `de` lacks 1 of .*: `do.vin`"):
        publish(root, tmp_path / "_site", today=TODAY)
    assert not (tmp_path / "_site").exists()


def test_a_shop_of_one_language_needs_no_texts(site):
    root, _ = site
    assert load(root).shop.languages == ("en", "de")
    edit(root, SHOP, "languages: [en, de]", "languages: [en]")
    kept = (root / TEXTS).read_bytes()
    (root / TEXTS).unlink()
    try:
        rendered = render(root, today=TODAY)
    finally:
        edit(root, SHOP, "languages: [en]", "languages: [en, de]")
        (root / TEXTS).write_bytes(kept)
    assert rendered.problems == ()
    assert not [name for name in rendered.files if name.startswith("de/")]
    assert "hreflang" not in rendered.files[PAGE].decode()
