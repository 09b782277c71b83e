"""The hand-written pages: which there are, from their own mkdocs.yml."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import NamedTuple

import yaml

from baybook.shipped import shipped


class WrittenPage(NamedTuple):
    address: str
    title: str


def written_folder(language: str) -> Path:
    """Return the folder of mkdocs.yml and the hand-written pages: `site`, `site/de`."""
    return shipped("site") if language == "en" else shipped("site") / language


@cache
def written_pages(language: str) -> tuple[WrittenPage, ...]:
    """Return the hand-written pages in the order of their navigation."""
    text = (written_folder(language) / "mkdocs.yml").read_text("utf-8")
    nav = yaml.load(text, Loader=yaml.CSafeLoader)["nav"]
    return tuple(
        WrittenPage(file.removesuffix(".md") + ".html", title)
        for line in nav
        for title, file in line.items()
    )
