"""Noun: a picture of a vehicle, as its file names it and as it was found on the disk."""

import struct
import zlib
from dataclasses import dataclass
from typing import Annotated, Final

from pydantic import Field

from baybook.quantity import Noun, ProperName, Text

# Part of no address: a file is published under its digest, so that no name of a person's goes out.
PhotoNumber = Annotated[str, Field(pattern=r"^[A-Za-z0-9][A-Za-z0-9-]{0,15}$")]

FOLDER: Final = "photos"  # beside the vehicle file
# First bytes → what Pillow calls it. What else a browser shows can carry script (SVG), or moves.
KINDS: Final = {b"\xff\xd8\xff": "JPEG", b"\x89PNG\r\n\x1a\n": "PNG", b"RIFF": "WEBP"}

# What Pillow's readers raise for a file that is cut, spoilt or made to mislead.
BROKEN: Final = (
    ArithmeticError, AttributeError, EOFError, LookupError, MemoryError, OSError, RuntimeError,
    SyntaxError, TypeError, ValueError, struct.error, zlib.error,
)  # fmt: skip


class Photo(Noun):
    """A picture of the vehicle, and what it shows in words."""

    file: ProperName = Field(description="name of a JPEG, PNG or WebP in the folder `photos`")
    alt: Text = Field(description="what is to be seen, for who cannot see it")


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A file that was read, and is a picture."""

    file: str  # as marks name files
    digest: str  # SHA-256 of the file, in hex


def kind_of(raw: bytes) -> str | None:
    """Return which of the kinds a file begins like; None for none."""
    for start, kind in KINDS.items():
        if raw.startswith(start) and (kind != "WEBP" or raw[8:12] == b"WEBP"):
            return kind
    return None
