"""The pictures of a vehicle as they are published: upright, in a few sizes, and nothing but dots.

A published picture is made anew from the dots of the shop's file. What else a camera or a program
writes into a file, where it was taken above all, has no way into it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final
from warnings import catch_warnings, simplefilter

from baybook.book import ToldEntry
from baybook.photo import BROKEN, FOLDER, kind_of
from baybook.publish.store import Store, digest
from baybook.publish.tool import tool_digest

if TYPE_CHECKING:
    from PIL.Image import Image

# A picture is at most 320 px wide on a page: that, the same on a phone of twice the dots, and one
# of four times, which is also what opens when a reader touches it to read a mark on a part.
WIDTHS: Final = (320, 640, 1280)
SHOWN: Final = "(max-width: 352px) calc(100vw - 32px), 320px"  # as `.picture` of site.css has it
# WebP: a third less than a JPEG of the same look, and every browser since 2020 shows it.
_QUALITY: Final = 76
_EFFORT: Final = 4  # of 6: above it a publish takes twice as long for a hundredth less
_NAMED: Final = 16  # hex digits of the digest in an address


class PictureError(Exception):
    """A picture that was whole when it was read, and cannot be made: it says which."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sized:
    """A picture in one size."""

    address: str  # on the site
    width: int
    height: int
    content: bytes


Pictures = Mapping[str, tuple[Sized, ...]]  # by the digest of the shop's file, the smallest first


def sized(slug: str, name: str, file: Path, store: Store) -> tuple[Sized, ...]:
    """Return one picture in every size, out of the store if it was made before.

    name  digest of the file as it was read

    Raises PictureError for a file that is no longer what was read.
    """
    key = digest(b"picture", tool_digest().encode(), name.encode())
    noted = store.noted(key) or {}
    kept = {size: store.read(blob) for size, blob in noted.items()}
    made = {size: content for size, content in kept.items() if content is not None}
    if not noted or len(made) < len(noted):
        made = dict(_made(file, name))
        store.note(key, {size: store.keep(content) for size, content in made.items()})
    sizes = (_sized(f"{FOLDER}/{slug}/{name[:_NAMED]}", *one) for one in made.items())
    return tuple(sorted(sizes, key=lambda one: one.width))


def _sized(address: str, size: str, content: bytes) -> Sized:
    width, height = map(int, size.split("x"))
    return Sized(address=f"{address}-{width}.webp", width=width, height=height, content=content)


def photos_of(entry: ToldEntry) -> tuple[str, ...]:
    """Return the digests of the pictures that a told entry shows."""
    told: Any = entry.content[entry.kind]
    return tuple(line["digest"] for line in told.get("photos", ()))


def addressed(pictures: Pictures) -> dict[str, bytes]:
    """Return every size of these pictures by its address."""
    return {size.address: size.content for sizes in pictures.values() for size in sizes}


def shown(lines: Iterable[Mapping[str, Any]], pictures: Pictures, root: str) -> dict[str, Any]:
    """Return what a page needs of its told pictures, by number.

    A picture that is not among those at hand has gone since: its number alone is left.

    root  the way from the page to the top of the site
    """
    return {
        line["number"]: {
            "alt": line["alt"]["text"],
            "what": line["what"],
            "sizes": SHOWN,
            "files": [
                {"file": f"{root}/{one.address}", "width": one.width, "height": one.height}
                for one in pictures[line["digest"]]
            ],
        }
        for line in lines
        if line["digest"] in pictures
    }


def _made(file: Path, name: str) -> Iterator[tuple[str, bytes]]:
    """Yield each size, as "640x480", with the file."""
    raw = file.read_bytes()
    if sha256(raw).hexdigest() != name:
        raise PictureError(f"{file}: changed while it was read; publish again")
    try:
        bare = _bare(raw)
        for width in sorted({min(width, bare.width) for width in WIDTHS}):
            height = max(1, round(bare.height * width / bare.width))
            yield f"{width}x{height}", _as_webp(bare, width, height)
    except BROKEN as cause:
        raise PictureError(f"{file}: cannot be made smaller: {cause}") from cause


def _bare(raw: bytes) -> Image:
    """Return the dots of a picture, upright, in sRGB, on white, with nothing beside them."""
    # Heavy, and most vehicles have no picture.
    from PIL import Image, ImageOps  # noqa: PLC0415

    with catch_warnings(), Image.open(BytesIO(raw), formats=(kind_of(raw) or "",)) as image:
        simplefilter("ignore")  # of what Pillow mends
        image.draft("RGB", (WIDTHS[-1], WIDTHS[-1]))  # a JPEG is unpacked no larger than needed
        image.load()
        upright: Image.Image = image
        with suppress(*BROKEN):  # what says how it was held may be spoilt: as it lies, then
            upright = ImageOps.exif_transpose(image)
        plain = _in_srgb(_opaque(upright), image.info.get("icc_profile"))
        bare = Image.new("RGB", plain.size)
        bare.paste(plain)
        return bare


def _opaque(image: Image) -> Image:
    """Return a picture in grey, RGB or CMYK; what is see-through lies on white."""
    from PIL import Image as Images  # noqa: PLC0415

    if image.mode.startswith("I;16"):  # sixteen bits of grey
        return image.point(lambda dot: dot / 256).convert("L")
    if image.mode == "1":
        return image.convert("L")
    if image.mode in ("L", "RGB", "CMYK") and "transparency" not in image.info:
        return image
    clear = image.convert("RGBA")
    white = Images.new("RGBA", clear.size, "white")
    return Images.alpha_composite(white, clear).convert("RGB")


def _in_srgb(image: Image, profile: bytes | None) -> Image:
    """Return a picture in the colours that a browser takes for granted."""
    from PIL import ImageCms  # noqa: PLC0415

    if profile:
        try:
            own, ours = ImageCms.ImageCmsProfile(BytesIO(profile)), ImageCms.createProfile("sRGB")
            turned = ImageCms.profileToProfile(image, own, ours, outputMode="RGB")
        except (ImageCms.PyCMSError, *BROKEN):
            turned = None  # a profile that is spoilt, or of another kind of picture
        if turned is not None:
            return turned
    return image.convert("RGB")


def _as_webp(bare: Image, width: int, height: int) -> bytes:
    from PIL.Image import Resampling  # noqa: PLC0415

    out = BytesIO()
    small = bare.resize((width, height), Resampling.LANCZOS)
    small.save(out, "WEBP", quality=_QUALITY, method=_EFFORT)
    return out.getvalue()
