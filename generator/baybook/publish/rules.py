"""The rules by their codes as pages of the manual: one page a family, an anchor a code."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from jinja2 import Environment
from markupsafe import Markup

from baybook.book import ToldBook
from baybook.rulebook import MANUAL, family_address, rule_address

_CODE = re.compile(r"[A-Z]{2}-[0-9]{2}")


def rule_link(code: str, root: str) -> Markup:
    """Return a code as a link to its rule; what is no code stays as it is."""
    if not _CODE.fullmatch(code):
        return Markup("{}").format(code)
    link = Markup('<a class="q" href="{}/{}">{}</a>')
    return link.format(root, rule_address(code), code)


def rule_pages(made: Environment, book: ToldBook, base: Mapping[str, Any]) -> dict[str, bytes]:
    """Return the page of every family and the page that lists them, by address."""
    families: Any = book.rules
    if not families:
        return {}
    listed = [(family_address(family["id"]).rpartition("/")[2], family) for family in families]
    shared = dict(base) | {"root": "..", "families": listed}
    whole = made.get_template("rules.html.j2").render(shared | {"here": MANUAL})
    pages = {MANUAL: whole.encode()}
    one = made.get_template("rule_family.html.j2")
    for family in families:
        address = family_address(family["id"])
        pages[address] = one.render(shared | {"here": address, "family": family}).encode()
    return pages
