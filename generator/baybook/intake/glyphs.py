"""Characters that pages and prints can show: those of the shipped font, no others."""

from __future__ import annotations

from functools import cache

from baybook.shipped import shipped

_SHOWN_AT_ONCE = 5


def unprintable(text: str) -> tuple[str, ...]:
    """Return the characters of `text` that the shipped font lacks, each once, the first five."""
    if text.isascii() and text.isprintable():
        return ()
    strange = dict.fromkeys(sign for sign in text if ord(sign) not in covered() and sign != "\n")
    return tuple(strange)[:_SHOWN_AT_ONCE]


@cache
def covered() -> frozenset[int]:
    """Return the code points that every shipped weight has."""
    found: set[int] = set()
    lines = (shipped("templates") / "fonts" / "coverage.txt").read_text("ascii").splitlines()
    for line in lines:
        if not line.startswith("#"):
            first, last = line.split("-")
            found.update(range(int(first, 16), int(last, 16) + 1))
    return frozenset(found)
