"""What is published of a picture: its dots, upright and in sRGB, and nothing beside them."""

import json
import re
import shutil
from io import BytesIO

import pytest
from PIL import Image, ImageChops, ImageCms, ImageOps, ImageStat
from PIL.PngImagePlugin import PngInfo

from baybook.pipeline import render
from baybook.publish import pictures
from baybook.publish.history import add_issued
from baybook.publish.pictures import PictureError, sized
from baybook.publish.store import PassingStore, digest
from conftest import TODAY
from manual.photos import LARGEST, PICTURES
from publish.markup_reader import read
from workbooks import EXAMPLE, SHOP, TANSY, copy_workbook, edit, leave_only

SENSOR = EXAMPLE / "vehicles/brunsall-tansy/photos/sensor.jpg"
GUIDE = "guides/brunsall-tansy/j1/"
RED, WHITE = (200, 30, 30), (255, 255, 255)


def made(tmp_path, content, store=None):
    """Return what is published of a file, the smallest first."""
    file = tmp_path / "picture"
    file.write_bytes(content)
    name = pictures.sha256(content).hexdigest()
    return sized("my-van", name, file, store or PassingStore())


def saved(image, kind, **options):
    out = BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()


def opened(one):
    return Image.open(BytesIO(one.content))


def beside(content):
    """Return what a file holds besides its dots."""
    image = Image.open(BytesIO(content))
    image.load()
    kept = {"exif", "xmp", "icc_profile", "comment", "photoshop", "Comment", "Make"}
    return (kept & set(image.info)) | ({"exif"} if len(image.getexif()) else set())


def test_the_example_has_a_photo_as_a_phone_saves_it():
    image = Image.open(BytesIO(SENSOR.read_bytes()))
    assert image.getexif()[0x0112] == 6
    assert image.getexif().get_ifd(0x8825)
    assert image.info["comment"]
    assert image.width < image.height


def test_of_a_phones_photo_the_dots_alone_are_left_upright(tmp_path):
    content = SENSOR.read_bytes()
    assert beside(content)
    sizes = made(tmp_path, content)
    assert [(one.width, one.height) for one in sizes] == [(320, 240), (640, 480), (960, 720)]
    upright = ImageOps.exif_transpose(Image.open(BytesIO(content))).resize((320, 240))
    for one in sizes:
        assert not beside(one.content)
        for trace in (b"Exif", b"EXIF", b"XMP ", b"ICCP", b"DEMONSTRATION", b"bay 2", b"2024:09"):
            assert trace not in one.content
    off = ImageStat.Stat(ImageChops.difference(opened(sizes[0]).convert("RGB"), upright)).mean
    assert max(off) < 8


@pytest.mark.parametrize("kind", ["PNG", "WEBP", "JPEG"])
def test_what_any_kind_can_carry_is_left_behind(tmp_path, kind):
    exif = Image.Exif()
    exif[0x010E] = "SECRET"
    text = PngInfo()
    text.add_text("Comment", "SECRET")
    text.add_itxt("XML:com.adobe.xmp", "<SECRET/>", zip=True)
    options = {
        "PNG": {"pnginfo": text},
        "WEBP": {"xmp": b"<SECRET/>"},
        "JPEG": {"comment": b"SECRET"},
    }
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    image = Image.new("RGB", (400, 300), RED)
    content = saved(image, kind, exif=exif, icc_profile=profile, **options[kind])
    assert beside(content)
    for one in made(tmp_path, content):
        assert not beside(one.content)
        assert b"SECRET" not in one.content


@pytest.mark.parametrize("turn", range(1, 9))
def test_a_picture_stands_upright_however_it_was_held(tmp_path, turn):
    """The corner that is white lies where the eight ways of holding a camera put it."""
    exif = Image.Exif()
    exif[0x0112] = turn
    image = Image.new("RGB", (400, 200), RED)
    image.paste(WHITE, (0, 0, 200, 100))
    (one,) = made(tmp_path, saved(image, "JPEG", exif=exif, quality=95))[-1:]
    wide, high = (400, 200) if turn < 5 else (200, 400)
    assert (one.width, one.height) == opened(one).size
    assert one.width * high == one.height * wide
    right, low = turn in (2, 3, 6, 7), turn in (3, 4, 7, 8)
    corner = ((0.75 if right else 0.25) * one.width, (0.75 if low else 0.25) * one.height)
    assert min(opened(one).convert("RGB").getpixel(tuple(map(int, corner)))) > 230


def test_colours_of_another_profile_are_turned_into_srgb(tmp_path):
    red = Image.new("RGB", (64, 64), RED)
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    swapped = srgb.replace(b"rXYZ", b"-XYZ").replace(b"gXYZ", b"rXYZ").replace(b"-XYZ", b"gXYZ")
    assert swapped != srgb  # what it calls red is green
    for profile, seen in ((srgb, RED), (b"none at all", RED), (swapped, (30, 200, 30))):
        (one,) = made(tmp_path, saved(red, "PNG", icc_profile=profile))
        assert near(opened(one).convert("RGB").getpixel((30, 30)), seen)


def near(one, other):
    return all(abs(a - b) <= 12 for a, b in zip(one, other, strict=True))


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGBA", "CMYK", "I;16"])
def test_every_form_of_dots_is_shown(tmp_path, mode):
    kind = "JPEG" if mode == "CMYK" else "PNG"
    if mode == "I;16":
        image = Image.new(mode, (64, 64), 65_535)
    elif mode in ("LA", "RGBA"):
        image = Image.new(mode, (64, 64), 0)  # see-through: white behind it
    else:
        image = Image.new("RGB", (64, 64), WHITE).convert(mode)
    for one in made(tmp_path, saved(image, kind)):
        assert near(opened(one).convert("RGB").getpixel((30, 30)), WHITE), mode


def test_no_picture_is_made_larger_than_it_is(tmp_path):
    sizes = made(tmp_path, saved(Image.new("RGB", (200, 3)), "PNG"))
    assert [(one.width, one.height) for one in sizes] == [(200, 3)]
    sizes = made(tmp_path, saved(Image.new("RGB", (5000, 10)), "JPEG"))
    assert [one.width for one in sizes] == list(pictures.WIDTHS)


def test_the_same_file_gives_the_same_bytes_and_is_made_once(tmp_path, monkeypatch):
    content, store = SENSOR.read_bytes(), PassingStore()
    first = made(tmp_path, content, store)
    assert made(tmp_path, content) == first
    monkeypatch.setattr(pictures, "_made", None)
    assert made(tmp_path, content, store) == first


def test_a_size_that_the_store_lost_is_made_again(tmp_path):
    content, store = SENSOR.read_bytes(), PassingStore()
    first = made(tmp_path, content, store)
    shutil.rmtree(store.folder / "blobs")
    assert made(tmp_path, content, store) == first


def test_a_file_that_changed_since_it_was_read_stops_the_publish(tmp_path):
    file = tmp_path / "picture"
    file.write_bytes(SENSOR.read_bytes())
    with pytest.raises(PictureError, match="changed while it was read"):
        sized("my-van", digest(b"another"), file, PassingStore())


def test_the_drawn_pictures_are_small_and_all_there():
    for vehicle, names in PICTURES.items():
        files = {file.name: file for file in (EXAMPLE / "vehicles" / vehicle / "photos").iterdir()}
        assert set(files) == set(names)
        assert max(file.stat().st_size for file in files.values()) <= LARGEST


# ------------------------------------------------------------------ on the site


@pytest.fixture(scope="module")
def book(tmp_path_factory):
    """Return a workbook of one vehicle, without prints."""
    root = copy_workbook(tmp_path_factory.mktemp("pictured") / "fits")
    shop = root / SHOP
    text = re.sub(r"(?ms)^label_stock:$.*?(?=^\S|\Z)", "", shop.read_text("utf-8"))
    shop.write_text(text.replace("papers: [a4, letter]", "papers: []"), "utf-8")
    leave_only(root, "brunsall-tansy")
    return root


@pytest.fixture(scope="module")
def site(book):
    rendered = render(book, today=TODAY, workers=1)
    assert (rendered.problems, rendered.lost) == ((), ())
    return dict(rendered.files)


def images(page):
    return [one.attributes for one in read(page).elements if one.tag == "img"]


def test_no_published_picture_has_anything_beside_its_dots(site):
    shown = {name: content for name, content in site.items() if name.startswith("photos/")}
    assert len(shown) == 3 * len(PICTURES["brunsall-tansy"]) - 3  # P4 stands at no step of it
    assert {name: beside(content) for name, content in shown.items() if beside(content)} == {}
    own = [content for name, content in site.items() if name.startswith(("guides/", "photos/"))]
    for name in PICTURES["brunsall-tansy"]:
        assert not any(name.encode() in content for content in own), name


def test_each_look_and_each_joint_has_its_picture_in_words_too(site):
    page = site[f"{GUIDE}index.html"].decode()
    looks = page.partition('id="vehicle"')[2].partition("</section>")[0]
    asked = looks.split("<legend>")[1:]
    assert asked[0].startswith("Does the plate say Brunsall Tansy")
    assert [one.count('<figure class="picture">') for one in asked] == [1] * 5
    steps = page.partition('id="steps"')[2]
    assert [photo for photo in ("P2", "P3", "P12") if f"Photo {photo}: " in steps] == [
        "P2",
        "P3",
        "P12",
    ]
    for tag in images(page):
        assert len(tag["alt"]) > 40
        assert tag["loading"] == "lazy"
        assert tag["decoding"] == "async"
        files = dict(reversed(one.split()) for one in tag["srcset"].split(", "))
        for width, file in files.items():
            content = site[f"photos/{file.partition('photos/')[2]}"]
            assert f"{Image.open(BytesIO(content)).width}w" == width
        there = site[f"photos/{tag['src'].partition('photos/')[2]}"]
        assert Image.open(BytesIO(there)).size == (int(tag["width"]), int(tag["height"]))


def test_the_copy_for_the_bay_has_every_picture_and_counts_it(site):
    told = json.loads(site[f"{GUIDE}offline.json"])
    own = {name.removeprefix("../../../") for name in told["files"] if "photos/" in name}
    assert own == {name for name in site if name.startswith("photos/")}
    assert told["bytes"] > sum(len(site[name]) for name in own)


def test_the_data_beside_the_page_lead_to_the_pictures(site):
    told = json.loads(site[f"{GUIDE}guide.json"])
    assert {line["number"] for line in told["guide"]["photos"]} == set(told["pictures"])
    for files in told["pictures"].values():
        assert all(one["file"].removeprefix("../../../") in site for one in files)


def text_of(rendered):
    return {name: json.loads(file)["revision"]["text"] for name, file in rendered.issued.items()}


def figures_of(rendered):
    return {r.fit: r.figures for r in rendered.reports}


def test_another_picture_or_another_word_is_another_revision_and_no_other_figure(book, tmp_path):
    root = shutil.copytree(book, tmp_path / "fits")
    first = render(root, today=TODAY, workers=1)
    file = root / "vehicles/brunsall-tansy/photos/positive-clamp.png"
    shutil.copy(file.with_name("negative-clamp.png"), file)
    second = render(root, today=TODAY, workers=1)
    edit(root, TANSY, "petrol only.\n", "petrol only, in red.\n")
    third = render(root, today=TODAY, workers=1)
    assert figures_of(first) == figures_of(second) == figures_of(third)
    for name in text_of(first):
        assert len({text_of(one)[name] for one in (first, second, third)}) == 3


def test_an_earlier_revision_shows_what_is_still_there_and_of_the_rest_the_number(book, tmp_path):
    root = shutil.copytree(book, tmp_path / "fits")
    first = render(root, today=TODAY, workers=1)
    add_issued(root, first.issued)
    file = root / "vehicles/brunsall-tansy/photos/positive-clamp.png"
    shutil.copy(file.with_name("negative-clamp.png"), file)
    second = render(root, today=TODAY, workers=1)
    assert second.lost == ()
    new = set(second.files) - set(first.files)
    pages = [name for name in new if name.startswith(GUIDE) and name.endswith("/index.html")]
    (name,) = [name for name in pages if "/workings/" not in name]
    old = second.files[name].decode()
    steps = old.partition('id="steps"')[2]
    assert "Photo P3: " in steps  # with its picture
    assert "Photo P2: " not in steps
    assert "Photo P2</span>" in steps
