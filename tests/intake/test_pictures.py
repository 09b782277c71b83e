"""What is no picture, or no picture of this vehicle, is told once, with file, line and column."""

import random
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from baybook.intake import pictures
from intake.faults import faults, tell
from workbooks import COBBLE, TANSY, copy_workbook, edit, load

FILE = "fuel-flap.png"
LINE = f"    file: {FILE}\n"
AT = "vehicle.photos.P11.file"
ANSWERS = {"", "picture-kind", "picture-broken", "picture-pixels", "picture-moving"}


@pytest.fixture
def root(tmp_path):
    return copy_workbook(tmp_path / "fits")


def folder(root, vehicle="brunsall-tansy"):
    return root / "vehicles" / vehicle / "photos"


def saved(kind, size=(64, 48), **options):
    out = BytesIO()
    Image.radial_gradient("L").resize(size).convert("RGB").save(out, kind, **options)
    return out.getvalue()


def several(kind):
    frames = [Image.new("RGB", (8, 8), colour) for colour in ("red", "white")]
    out = BytesIO()
    frames[0].save(out, kind, save_all=True, append_images=frames[1:])
    return out.getvalue()


def named(name):
    return lambda root: edit(root, TANSY, LINE, f'    file: "{name}"\n')


def put(content):
    return lambda root: (folder(root) / FILE).write_bytes(content)


def cut(kind):
    whole = saved(kind, (640, 480))
    return put(whole[: len(whole) // 2])


def linked(root):
    (folder(root) / FILE).unlink()
    (folder(root) / FILE).symlink_to(folder(root, "dunstrel-cobble") / "sensor.png")


def linked_folder(root):
    folder(root).rename(root / "elsewhere")
    folder(root).symlink_to(root / "elsewhere")


def of_a_folder(root):
    (folder(root) / FILE).unlink()
    (folder(root) / FILE).mkdir()


def renamed(root):
    (folder(root) / FILE).rename(
        folder(root) / "fu\N{LATIN SMALL LETTER E}\N{COMBINING ACUTE ACCENT}l.png"
    )
    named("fue\N{COMBINING ACUTE ACCENT}l.png")(root)


SVG = b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'
SPOILT = {
    # what was done: the end of the sentence's id
    "missing": ("missing", lambda root: (folder(root) / FILE).unlink()),
    "misspelt": ("missing", named("Fuel-Flap.png")),
    "a folder": ("missing", of_a_folder),
    "above": ("path", named("../vehicle.yaml")),
    "a way": ("path", named("/etc/hostname")),
    "backwards": ("path", named("..\\\\vehicle.yaml")),
    "hidden": ("path", named(".fuel-flap.png")),
    "dots": ("path", named("..")),
    "letters": ("letters", renamed),
    "link": ("link", linked),
    "empty": ("kind", put(b"")),
    "text": ("kind", put(b"a picture")),
    "svg": ("kind", put(SVG)),
    "gif": ("kind", put(saved("GIF"))),
    "bmp": ("kind", put(saved("BMP"))),
    "tiff": ("kind", put(saved("TIFF"))),
    "sound": ("kind", put(b"RIFF\x24\0\0\0WAVEfmt ")),
    "cut jpeg": ("broken", cut("JPEG")),
    "cut png": ("broken", cut("PNG")),
    "cut webp": ("broken", cut("WEBP")),
    "head only": ("broken", put(b"\xff\xd8\xff\xe0")),
    "moving png": ("moving", put(several("PNG"))),
    "moving webp": ("moving", put(several("WEBP"))),
    "large": ("large", put(saved("JPEG") + bytes(pictures.LARGEST))),
}


@pytest.mark.parametrize(("reason", "spoil"), SPOILT.values(), ids=SPOILT)
def test_each_is_told_once_and_where(root, reason, spoil):
    line = (root / TANSY).read_text("utf-8").split(LINE)[0].count("\n") + 1
    spoil(root)
    (fault,) = faults(root)
    assert (fault.code, fault.place) == ("DA-21", AT)
    assert (fault.where.file, fault.where.line, fault.where.column) == (f"fits/{TANSY}", line, 11)
    assert fault.way_out.id == f"data.picture-{reason}.way_out"
    for part in (fault.title, fault.found, fault.allowed, fault.why, fault.way_out):
        assert tell(part)


def test_a_folder_that_is_a_link_is_none_of_the_vehicle(root):
    linked_folder(root)
    assert {fault.way_out.id for fault in faults(root)} == {"data.picture-link.way_out"}


def test_a_closed_file_is_told(root, monkeypatch):
    opened = Path.open

    def closed(path, *how, **more):  # root reads everything: no mode of the file would do
        if path.name == FILE:
            raise PermissionError(13, "Permission denied", str(path))
        return opened(path, *how, **more)

    monkeypatch.setattr(Path, "open", closed)
    (fault,) = faults(root)
    assert fault.way_out.id == "data.picture-closed.way_out"


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "WEBP"])
def test_a_bomb_is_not_unpacked(root, monkeypatch, kind):
    """Its size is read off its head: a hundred thousand bytes may be gigabytes of dots."""
    put(saved(kind, (900, 700)))(root)
    monkeypatch.setattr(pictures, "MOST_PIXELS", 900 * 700 - 1)
    monkeypatch.setattr(pictures, "_SEEN", {})
    monkeypatch.setattr(Image.Image, "load", None)
    reasons = {f.place: f.way_out.id for f in faults(root) if f.place == AT}
    assert reasons == {AT: "data.picture-pixels.way_out"}


def test_what_pillow_itself_takes_for_a_bomb_is_told_too(root):
    put(saved("PNG", (1, 1)).replace(b"IHDR\0\0\0\1\0\0\0\1", b"IHDR\0\0\xff\xff\0\0\xff\xff"))(
        root
    )
    (fault,) = faults(root)
    assert fault.way_out.id in ("data.picture-pixels.way_out", "data.picture-broken.way_out")


def test_the_ending_of_a_name_says_nothing(root):
    put(saved("WEBP"))(root)
    load(root)


def test_a_photo_of_a_phone_with_more_pictures_in_its_file_is_taken(root):
    """A phone puts a second picture, such as a map of brightness, behind its photo."""
    put(several("MPO"))(root)
    load(root)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_no_spoilt_file_ends_in_a_traceback(kind):
    whole, chance = saved(kind, exif=b"Exif\0\0II*\0\x08\0\0\0\0\0"), random.Random(7)  # noqa: S311
    for _ in range(300):
        spoilt = bytearray(whole)
        for _ in range(chance.randint(1, 12)):
            spoilt[chance.randrange(len(spoilt))] = chance.randrange(256)
        assert pictures._seen(bytes(spoilt)) in ANSWERS


# ------------------------------------------------------------------ numbers and words


@pytest.mark.parametrize("alt", ["fuel-flap", "Fuel flap", "fuel-flap.png", "FUEL_FLAP.PNG", "…"])
def test_the_name_of_the_file_or_no_word_is_no_description(root, alt):
    said = "    alt: The open fuel flap. On its inner side a label says petrol only.\n"
    edit(root, TANSY, said, f"    alt: {alt}\n")
    (fault,) = faults(root)
    assert (fault.code, fault.place) == ("DA-21", "vehicle.photos.P11.alt")
    assert fault.way_out.id == "data.picture-alt.way_out"


def test_without_pictures_numbers_are_those_of_photos_on_paper(root):
    text = (root / TANSY).read_text("utf-8")
    head, photos, rest = text.partition("\nphotos:\n")
    assert photos
    (root / TANSY).write_text(head + rest[rest.index("\nsupply:") :], "utf-8")
    fit = next(fit for fit in load(root).fits if fit.id == "brunsall-tansy/j1")
    assert not fit.photos
    assert fit.vehicle.points["body-left"].photo == "P3"


@pytest.mark.parametrize("count", [2, 6])
def test_three_to_five_looks_tell_a_vehicle(root, count):
    look = "  - {question: Is it red?, answer: yes, photo: P1}\n"
    text = (root / TANSY).read_text("utf-8")
    head, _, rest = text.partition("\napplies:\n")
    text = head + "\napplies:\n" + look * count + rest[rest.index("\n# Pictures") :]
    (root / TANSY).write_text(text, "utf-8")
    (fault,) = faults(root)
    assert (fault.code, fault.place) == ("DA-22", "vehicle.applies")
    assert tell(fault.found) == str(count)


def test_every_vehicle_of_the_example_has_three_to_five_looks_each_with_a_picture(example):
    for fit in example.fits:
        assert 3 <= len(fit.vehicle.applies) <= 5, fit.id
        assert {look.photo for look in fit.vehicle.applies} <= set(fit.photos), fit.id
        assert fit.vehicle.plate_photo in fit.photos, fit.id


# ------------------------------------------------------------------ a variant


def test_a_variant_reads_the_pictures_of_its_base_where_the_base_has_them(root):
    fit = next(fit for fit in load(root).fits if fit.id == "dunstrel-cobble-tow-pack/j9")
    assert fit.photos["P20"].file == "fits/vehicles/dunstrel-cobble/photos/tray-blocks.png"
    assert fit.photos["P23"].file == "fits/vehicles/dunstrel-cobble-tow-pack/photos/tow-socket.png"


def test_another_engine_is_not_shown_by_the_plate_of_the_base(root):
    tow = str(Path(COBBLE).parent) + "-tow-pack/vehicle.yaml"
    edit(root, tow, "plate_photo: P27\n", "")
    (fault,) = faults(root)
    assert (fault.code, fault.place) == ("DA-21", "vehicle.plate_photo")
    assert fault.way_out.id == "data.picture-plate.way_out"
    edit(root, tow, "engine: 3.0 D with tow pack\n", "")
    fit = next(fit for fit in load(root).fits if fit.id == "dunstrel-cobble-tow-pack/j9")
    assert fit.photos[fit.vehicle.plate_photo].file.startswith("fits/vehicles/dunstrel-cobble/")


def test_a_place_that_a_variant_moves_does_not_keep_the_picture_of_the_base(root):
    tow = str(Path(COBBLE).parent) + "-tow-pack/vehicle.yaml"
    edit(root, tow, "    photo: P25\n", "")
    (fault,) = faults(root)
    assert (fault.code, fault.place) == ("DA-21", "vehicle.points.body-right.photo")
    assert fault.way_out.id == "data.picture-base.way_out"
    assert fault.where.file == f"fits/{COBBLE}"
