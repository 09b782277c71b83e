"""The policy that every page begins with: scripts, style, pictures from its own site alone.

It stands in each page, so that it holds on any host. A page that lost it, or has something before
it, is not published: without it, a layout of a shop's own could bring a script from anywhere.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final

from baybook.publish.markup import PageError

_SOURCES: Final = {
    "default-src": "'none'",
    "img-src": "'self' data:",
    "style-src": "'self'",
    "script-src": "'self'",
    "font-src": "'self'",
    "connect-src": "'self'",
    "worker-src": "'self'",
    "manifest-src": "'self'",
    "base-uri": "'none'",
    "form-action": "'self'",
}
POLICY: Final = "; ".join(f"{what} {where}" for what, where in _SOURCES.items())
_LINE = f'<meta http-equiv="Content-Security-Policy" content="{POLICY}">'.encode()
_ORDER = re.compile(rb"<[^>]*\bhttp-equiv\b[^>]*>", re.IGNORECASE)
_BEFORE = re.compile(
    rb'\s*<!doctype html>\s*<html lang="[\w-]+" dir="(?:ltr|rtl)">\s*<head>\s*'
    rb'<meta charset="utf-8">\s*'
)


def require_policy(pages: Mapping[str, bytes]) -> None:
    """Raise PageError for a page that does not begin with the policy, or orders anything else."""
    for name, page in pages.items():
        if not name.endswith(".html"):
            continue
        before, line, _ = page.partition(_LINE)
        if not line or not _BEFORE.fullmatch(before) or not _orders_once(page):
            raise PageError(
                f"{name}: the page does not begin with its Content-Security-Policy, or has another "
                "http-equiv; leave the first lines of base.html.j2 as they are shipped"
            )


def _orders_once(page: bytes) -> bool:
    """Tell whether a page that has the policy orders nothing else."""
    # To look through all tags takes ten times as long; a word of the text may be the other one.
    return page.lower().count(b"http-equiv") == 1 or _ORDER.findall(page) == [_LINE]
