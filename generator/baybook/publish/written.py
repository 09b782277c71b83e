"""The hand-written pages: which there are, from their own mkdocs.yml."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import yaml

from baybook.shipped import shipped


class WrittenPage(NamedTuple):
    address: str
    title: str
    footed: bool  # stands in the foot of every page; of a part, such as the manual, its first does


def written_folder(language: str) -> Path:
    """Return the folder of mkdocs.yml and the hand-written pages: `site`, `site/de`."""
    return shipped("site") if language == "en" else shipped("site") / language


@cache
def written_pages(language: str) -> tuple[WrittenPage, ...]:
    """Return the hand-written pages in the order of their navigation.

    Those of a part of the navigation, such as the manual, come one after another.
    """
    text = (written_folder(language) / "mkdocs.yml").read_text("utf-8")
    nav = yaml.load(text, Loader=yaml.CSafeLoader)["nav"]
    return tuple(
        WrittenPage(file.removesuffix(".md") + ".html", title, footed=place == 0)
        for line in nav
        for pages in [_pages(line)]
        for place, (title, file) in enumerate(pages)
    )


def _pages(line: dict[str, Any]) -> list[tuple[str, str]]:
    """Return the pages of a line of the navigation: one, or those of a part."""
    ((title, inside),) = line.items()
    if isinstance(inside, str):
        return [(title, inside)]
    return [page for below in inside for page in _pages(below)]
