"""Every link of the finished pages leads to a file, and to a place in it, that there is.

A vehicle's pages are looked through as they are made; where they lead out of their own files is
kept, and looked up when all files of the site are known. Nothing outside the site is asked for.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from html import unescape
from typing import Final
from urllib.parse import unquote, urlsplit

from baybook.publish.marked import LADEN
from baybook.publish.site import SiteError
from baybook.shop import Shop

Ways = Mapping[str, str]  # where a link leads, "path" or "path#place" → a page that has it

_ATTRIBUTE: Final = re.compile(r"""\s(id|href|src|srcset|action)\s*=\s*(?:"([^"]*)"|'([^']*)')""")
_STYLED: Final = re.compile(r"""url\(\s*["']?([^"')\s]+)["']?\s*\)""")
_OUTSIDE: Final = frozenset({"http", "https", "mailto", "tel", "data"})
_NAMED: Final = 5  # broken links that one message names


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """What a page has to do with links."""

    places: frozenset[str]
    links: tuple[str, ...]


def site_of(shop: Shop) -> str:
    """Return the permanent address of a shop's site as links begin with it."""
    return shop.site.address.rstrip("/")


def require_links(files: Mapping[str, bytes], *, site: str) -> dict[str, str]:
    """Return where these files lead out of themselves; each way in among them is there.

    site  the permanent address of the site: a link that begins with it stays inside

    Raises SiteError that names each broken link with its page.
    """
    pages = {name: _page(name, files[name]) for name in files if _looked_through(name)}
    out: dict[str, str] = {}
    broken: list[str] = []
    for name, page in pages.items():
        for link in page.links:
            to = _target(name, link, site)
            path, _, place = to.partition("#")
            if path not in files:
                out.setdefault(to, name)
            elif place and (path not in pages or place not in pages[path].places):
                broken.append(_said(name, link, f"{path} has no `{place}`"))
    _refuse(broken)
    return out


def require_ways(ways: Iterable[Ways], files: Mapping[str, bytes]) -> None:
    """Raise SiteError if one of the ways leads to what is not among the files of the site."""
    places: dict[str, frozenset[str]] = {}
    broken: dict[str, str] = {}
    for to, name in (way for one in ways for way in one.items()):
        path, _, place = to.partition("#")
        if path not in files:
            broken.setdefault(to, _said(name, to, "there is no such file"))
        elif place:
            if path not in places:
                places[path] = _page(path, files[path]).places
            if place not in places[path]:
                broken.setdefault(to, _said(name, to, f"{path} has no `{place}`"))
    _refuse(list(broken.values()))


def _looked_through(name: str) -> bool:
    return name.endswith((".html", ".css"))


def _page(name: str, content: bytes) -> _Page:
    text = content.decode("utf-8", "replace")
    if name.endswith(".css"):
        return _Page(places=frozenset(), links=tuple(dict.fromkeys(_STYLED.findall(text))))
    places: set[str] = set()
    links: dict[str, None] = {}
    tags = dict.fromkeys(LADEN.findall(text))  # most stand there many times
    for key, double, single in _ATTRIBUTE.findall("".join(tags)):
        value = unescape(double or single)
        if key == "id":
            places.add(value)
        elif key == "srcset":
            links |= dict.fromkeys(one.split()[0] for one in value.split(",") if one.strip())
        else:
            links[value] = None
    return _Page(places=frozenset(places), links=tuple(links))


def _target(name: str, link: str, site: str) -> str:
    """Return the file that a link leads to, with its place; of a link to outside, the page itself.

    Raises SiteError for a link that leads above the site, or by a way that no page may take.
    """
    own = link.startswith(f"{site}/")
    parts = urlsplit(link.removeprefix(f"{site}/") if own else link)
    if parts.scheme.lower() in _OUTSIDE or parts.netloc:
        return name
    if parts.scheme:
        raise SiteError(_said(name, link, f"a page leads nowhere by `{parts.scheme}:`"))
    path, folder = unquote(parts.path), "" if own else posixpath.dirname(name)
    if path.startswith("/"):
        raise SiteError(_said(name, link, "it begins at the server's root, not at this page"))
    file = posixpath.normpath(posixpath.join(folder, path)) if path or own else name
    if f"{file}/".startswith("../"):
        raise SiteError(_said(name, link, "it leads above the site"))
    if path.endswith(("/", ".")) or (not path and own):
        file = posixpath.normpath(f"{file}/index.html")
    return f"{file}#{unquote(parts.fragment)}" if parts.fragment else file


def _said(name: str, link: str, why: str) -> str:
    return f"{name} has a broken link, `{link}`: {why}"


def _refuse(broken: list[str]) -> None:
    if broken:
        more = len(broken) - _NAMED
        said = [*broken[:_NAMED], *([f"and {more} more"] if more > 0 else [])]
        raise SiteError("\n".join(said))
