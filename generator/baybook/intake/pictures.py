"""The pictures that a vehicle file names: each is there, is one, and is told to who cannot see it.

Nothing of a picture is used that was not read here whole. What is left of it on the site is made in
`publish/pictures.py`.
"""

from __future__ import annotations

import unicodedata
import warnings
from collections.abc import Iterable, Iterator
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import Final

from baybook.finding import Finding, Name
from baybook.intake.document import Document
from baybook.intake.problems import nearest, problem
from baybook.intake.source import shown_name
from baybook.intake.tree import Branch, Node
from baybook.photo import BROKEN, FOLDER, Picture, kind_of
from baybook.vehicle import Vehicle

LARGEST: Final = 30_000_000  # bytes; the largest file of a phone's camera has half of that
MOST_PIXELS: Final = 60_000_000  # a phone's camera has 50 million; unpacked, this fills 180 MB
# By digest, as `_seen` told: to unpack a picture takes longer than all else.
_SEEN: Final[dict[str, str]] = {}
_PLATE: Final = "plate_photo"
_ON_THE_PLATE: Final = ("make", "model", "engine")
_LOOKS: Final = (3, 5)  # fewer tell no vehicle from its sisters; six with the plate are answered


def picture_faults(document: Document[Vehicle]) -> Iterator[Finding]:
    """Yield what can be told of looks and numbers without opening a picture."""
    vehicle = document.model
    least, most = _LOOKS
    if vehicle.applies and not least <= len(vehicle.applies) <= most:
        found, mark = Name(str(len(vehicle.applies))), document.mark("applies")
        span = {"least": Name(str(least)), "most": Name(str(most))}
        yield problem("DA-22", "looks", mark, at="vehicle.applies", found=found, **span)
    if not vehicle.photos:
        return  # numbers of photos on paper
    for path, number in _named(vehicle):
        if number is None:
            above, _, key = path.rpartition(".")
            mark, at = document.mark(above or "applies"), f"vehicle.{path}"
            yield problem("DA-06", "key-missing", mark, at=at, key=Name(key))
        elif number not in vehicle.photos:
            mark, near = document.mark(path), nearest(number, vehicle.photos)
            at = f"vehicle.{path}"
            yield problem("DA-14", "photo", mark, at=at, found=Name(number), near=near)
        elif _moved(document, path):
            reason = "picture-plate" if path == _PLATE else "picture-base"
            yield _fault(document, path, reason, number)
    for name, photo in vehicle.photos.items():
        if _letters(photo.alt) in ("", _letters(photo.file), _letters(Path(photo.file).stem)):
            yield _fault(document, f"photos.{name}.alt", "picture-alt", photo.alt)


def _named(vehicle: Vehicle) -> Iterator[tuple[str, str | None]]:
    """Yield where a number stands, and the number; plate and looks need one."""
    yield _PLATE, vehicle.plate_photo
    for index, look in enumerate(vehicle.applies):
        yield f"applies.{index}.photo", look.photo
    for kind, places in (("points", vehicle.points), ("mounts", vehicle.mounts)):
        for name, place in places.items():
            if place.photo is not None:
                yield f"{kind}.{name}.photo", place.photo


def _moved(document: Document[Vehicle], path: str) -> bool:
    """Tell whether a variant says anew what a picture shows, and leaves the picture to the base."""
    *above, key = path.split(".")
    said: Node = document.tree
    for name in above:
        if not isinstance(said, Branch):
            return False  # a look, in a list: that is replaced whole
        said = said[name]
    if not isinstance(said, Branch):
        return False
    own, shown = document.tree.mark.file, ("what", "place") if above else _ON_THE_PLATE
    anew = any(said[name].mark.file == own for name in shown if name in said)
    return anew and said[key].mark.file != own


def _letters(text: str) -> str:
    """Return a text without what a file name has in place of spaces."""
    return "".join(sign for sign in text.casefold() if sign.isalnum())


def read_pictures(
    document: Document[Vehicle], root: Path
) -> tuple[dict[str, Picture], tuple[Finding, ...]]:
    """Return the pictures of a vehicle by number, and every fault of one.

    A picture lies beside the file that names it: for a variant's that may be the base's.
    """
    found: dict[str, Picture] = {}
    faults: list[Finding] = []
    for number, photo in document.model.photos.items():
        file = Path(document.mark(f"photos.{number}.file").file)
        folder = root.joinpath(*file.parts[1:-1])
        read = _read(photo.file, folder, root)
        if isinstance(read, Picture):
            found[number] = read
        else:
            path = f"photos.{number}.file"
            faults.append(_fault(document, path, read, photo.file, _names(folder)))
    return found, tuple(faults)


def _fault(
    document: Document[Vehicle], path: str, reason: str, found: str, names: Iterable[str] = ()
) -> Finding:
    values = {
        "near": nearest(found, names),
        "megabytes": Name(str(LARGEST // 1_000_000)),
        "megapixels": Name(str(MOST_PIXELS // 1_000_000)),
    }
    at, mark = f"vehicle.{path}", document.mark(path)
    return problem("DA-21", reason, mark, at=at, found=Name(found), **values)


def _names(folder: Path) -> list[str]:
    try:
        return sorted(path.name for path in (folder / FOLDER).iterdir() if path.name[0] != ".")
    except OSError:
        return []


def _read(name: str, folder: Path, root: Path) -> Picture | str:
    """Return a picture of a vehicle's folder, or the reason why it is none."""
    path = folder / FOLDER / name
    if wrong := _misnamed(name, folder):
        return wrong
    try:
        if path.resolve() != folder.resolve() / FOLDER / name:
            return "picture-link"
        if not path.is_file():
            return "picture-missing"
        with path.open("rb") as stream:
            raw = stream.read(LARGEST + 1)
    except (OSError, RuntimeError):  # no right to read it; links that lead to each other
        return "picture-closed"
    digest = sha256(raw).hexdigest()
    if digest not in _SEEN:
        _SEEN[digest] = "picture-large" if len(raw) > LARGEST else _seen(raw)
    return _SEEN[digest] or Picture(file=shown_name(path, root), digest=digest)


def _misnamed(name: str, folder: Path) -> str:
    if Path(name).name != name or "\\" in name or name.startswith("."):
        return "picture-path"
    if unicodedata.normalize("NFC", name) != name:
        return "picture-letters"
    return "" if name in _names(folder) else "picture-missing"


def _seen(raw: bytes) -> str:
    """Return why a file is not shown, "" if it can be unpacked to its last line."""
    kind = kind_of(raw)
    if kind is None:
        return "picture-kind"
    # Heavy, and most checks are of vehicles without a picture. The three kinds are named, or Pillow
    # loads every other kind that it knows as well, to find the last of them.
    from PIL import (  # noqa: PLC0415
        Image,
        JpegImagePlugin,  # noqa: F401
        PngImagePlugin,  # noqa: F401
        WebPImagePlugin,  # noqa: F401
    )

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of what Pillow mends, or takes for large: see MOST_PIXELS
        try:
            with Image.open(BytesIO(raw), formats=(kind,)) as image:
                if image.width * image.height > MOST_PIXELS:
                    return "picture-pixels"
                # A phone's JPEG may carry more than one picture: the first is the photo.
                if kind != "JPEG" and getattr(image, "is_animated", False):
                    return "picture-moving"
                image.draft("RGB", (1, 1))  # read to the end, and unpacked no further than it must
                image.load()
        except Image.DecompressionBombError:
            return "picture-pixels"
        except BROKEN:
            return "picture-broken"
    return ""
