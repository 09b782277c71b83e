"""What every page stands in: environment, words, symbols, and the files beside the pages."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from functools import cache, lru_cache
from pathlib import Path
from typing import Any
from urllib.parse import quote, urlencode

from jinja2 import Environment, StrictUndefined, pass_context
from jinja2.runtime import Context
from markupsafe import Markup, escape
from rcssmin import cssmin
from rjsmin import jsmin

from baybook.overlay import Overlay
from baybook.publish.layouts import Sandbox, Shipped, layouts
from baybook.publish.markup import (
    Node,
    PageError,
    Words,
    drawing,
    formula,
    large,
    names_letters,
    said,
)
from baybook.publish.policy import POLICY
from baybook.publish.rules import rule_link
from baybook.publish.typed import as_typed, unit_typed
from baybook.shipped import shipped

# The scripts of a guide, one file for a phone to ask for: what others need stands first.
_GUIDE = ("number", "mine", "units", "readings", "walk", "equipment", "offline")
_SOURCE = Markup('<a href="#source-%s">%s</a>')


@cache
def assets() -> Mapping[str, bytes]:
    """Return the files beside the pages, by address: style, script, fonts with their licence."""
    templates = shipped("templates")
    found = {f"assets/{file.name}": _sent(file) for file in _files(templates / "assets")}
    scripts = (templates / "assets" / "guide" / f"{name}.js" for name in _GUIDE)
    found["assets/guide.js"] = b"\n".join(map(_sent, scripts))
    for file in _files(templates / "fonts"):
        if file.suffix == ".woff2" or file.name == "OFL.txt":
            found[f"assets/fonts/{file.name}"] = file.read_bytes()
    return found


def _sent(file: Path) -> bytes:
    """Return a file without what only its writer reads: comments and indents."""
    if file.suffix not in {".css", ".js"}:
        return file.read_bytes()
    short: str = {".css": cssmin, ".js": jsmin}[file.suffix](file.read_text("utf-8"))
    return short.encode()


def _files(folder: Path) -> list[Path]:
    return sorted(file for file in folder.iterdir() if file.is_file())


@cache
def asset(name: str) -> str:
    """Return the address of an asset; it changes with the content: no browser keeps an old one."""
    address = f"assets/{name}"
    try:
        content = assets()[address]
    except KeyError:
        raise PageError(f"a template asks for `{address}`, which there is not") from None
    return fingerprinted(address, content)


def fingerprinted(address: str, content: bytes) -> str:
    """Return the address of a file that changes with its content."""
    return f"{address}?{hashlib.sha256(content).hexdigest()[:8]}"


@cache
def symbol(name: str) -> Markup:
    """Return a symbol to stand in a page. It is decoration: words beside it say the same."""
    # A name may come from `issued/`, and so from anybody: it chooses among ours, and is no path.
    ours = {file.stem: file for file in _files(shipped("templates") / "symbols")}
    if name not in ours:
        raise PageError(f"a template asks for the symbol `{name}`, which there is not")
    svg = str(drawing(ours[name].read_text("utf-8").strip()))
    opening = f'<svg class="symbol symbol-{name}" focusable="false"'
    return Markup(svg.replace("<svg", opening, 1))  # noqa: S704 - checked by `drawing`


def environment(words: Mapping[str, str], overlay: Overlay) -> Environment:
    """Return a strict environment over the templates of pages, with these fixed words."""
    return _environment(tuple(sorted(words.items())), overlay, shipped("templates"))


@lru_cache(maxsize=4)
def _environment(
    words: tuple[tuple[str, str], ...], overlay: Overlay, _shipped: Path
) -> Environment:
    # Kept: to compile the templates takes longer than to fill in a guide.
    made = (Sandbox if overlay.under("pages") else Shipped)(
        loader=layouts(overlay),
        autoescape=True,
        undefined=StrictUndefined,
        auto_reload=False,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    furnish(made, dict(words))
    return made


def furnish(made: Environment, words: Mapping[str, str]) -> None:
    """Put our filters and globals into an environment."""
    made.globals.update(
        w=Words(words), asset=asset, symbol=symbol, unit_typed=unit_typed, policy=POLICY
    )
    made.filters.update(
        said=said,
        large=large,
        drawing=drawing,
        formula=formula,
        names_letters=names_letters,
        is_link=is_link,
        report_link=report_link,
        source_title=_source_title,
        print_label=_print_label,
        rule_link=_rule_link,
        as_typed=_as_typed,
        trail=_trail,
    )


def shop_frame(shop: Mapping[str, Any]) -> dict[str, Any]:
    """Return what the frame of a page says about the shop."""
    wanted = ("name", "about", "demonstration", "rule_set")
    return {key: shop[key] for key in wanted} | {
        "site": {"address": shop["site"]["address"].rstrip("/"), "reports": shop["site"]["reports"]}
    }


def is_link(address: str) -> bool:
    """Tell whether a person's address may become a link: nothing but mail and https."""
    return address.lower().startswith(("mailto:", "https://"))


def report_link(address: str, subject: str, **where: object) -> str:
    """Return the address of an error report that says what it is about.

    A mail says it in its subject line; a form gets it as parameters of its address.

    subject  what the report is about, as markup: it is escaped here for an address
    where    the same for a form: guide, revision, step
    """
    front, mark, fragment = address.partition("#")
    if address.lower().startswith("mailto:"):
        asked = {"subject": str(Markup(subject).unescape())}  # noqa: S704 - goes into an address
    else:
        asked = {name: str(value) for name, value in where.items()}
    if not asked:
        return address
    joined = "&" if "?" in front else "?"
    query = urlencode(asked, safe="/", quote_via=quote)
    return f"{front}{joined}{query}{mark}{fragment}"


@pass_context
def _source_title(context: Context, source: str) -> Markup:
    if source in {"shop rule", "shop-rule"} and source not in context["titles"]:
        w: Words = context["w"]
        return w("word.source.shop-rule")
    title: Node | None = context["titles"].get(source)
    if title is None:
        return escape(source)
    return _SOURCE % (source, said(title))


@pass_context
def _print_label(context: Context, name: str) -> Markup:
    w: Words = context["w"]
    paper = next((paper for paper in ("letter", "a4") if paper in name.lower()), "other")
    return w(f"page.print.{paper}")


@pass_context
def _rule_link(context: Context, code: str) -> Markup:
    return rule_link(code, context["root"])


@pass_context
def _as_typed(context: Context, amount: Node | None) -> str | None:
    return as_typed(amount, context["language"])


@pass_context
def _trail(context: Context, basis: Node) -> Markup:
    """Return why a figure may be believed, in one line."""
    w: Words = context["w"]
    parts = [w(f"page.basis.{basis['state']}")]
    parts += [escape(basis[key]) for key in ("document", "method") if basis[key]]
    named = (
        ("instrument", "with", "what"),
        ("seen", "seen", "what"),
        ("by", "by", "who"),
        ("on", "on", "day"),
    )
    parts += [
        w(f"page.basis.{word}", **{slot: basis[key]}) for key, word, slot in named if basis[key]
    ]
    parts += [escape(basis["note"])] if basis["note"] else []
    return Markup(", ").join(parts)
