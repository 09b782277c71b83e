"""What the preview puts into a page: its script and style, and what is wrong with the workbook."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from baybook.desk.preview_site import PreviewSite
from baybook.desk.report import catalogue, flat, text_of
from baybook.finding import Finding
from baybook.shipped import shipped
from baybook.wording.catalogue import Catalogue
from baybook.wording.tell import tell

_MOST = 20  # findings in full; a workbook that is quite wrong has hundreds
_BODY = re.compile(rb"<body[^>]*>")
_words = cache(catalogue)


@cache
def beside() -> Mapping[str, bytes]:
    """Return the files that only the preview has, by name."""
    folder = shipped("templates") / "preview"
    return {name: (folder / name).read_bytes() for name in ("preview.css", "preview.js")}


def with_panel(page: bytes, site: PreviewSite, state: int) -> bytes:
    """Return a page with the preview's script, and over it what is wrong, if anything is."""
    head = (
        f'<link rel="stylesheet" href="/_preview/preview.css">'
        f'<script src="/_preview/preview.js?at={state}" defer></script></head>'
    )
    page = page.replace(b"</head>", head.encode(), 1)
    panel = _panel(site).encode()
    return _BODY.sub(lambda body: body[0] + panel, page, count=1) if panel else page


def without_site(site: PreviewSite) -> bytes:
    """Return what stands where there is no page."""
    text = "No such page." if site.state else "The workbook is being worked out."
    return _environment().get_template("empty.html.j2").render(text=text).encode()


def _panel(site: PreviewSite) -> str:
    findings, stopped = site.findings, site.stopped
    if not findings and not stopped:
        return ""
    told = [_told(finding, _words()) for finding in findings[:_MOST]]
    others = [stopped] if stopped else []
    count = len(findings) + len(others)
    template = _environment().get_template("panel.html.j2")
    return template.render(findings=told, others=others, count=count)


def _told(finding: Finding, words: Catalogue) -> dict[str, Any]:
    told: Any = tell(finding, words)
    where = finding.where
    details = (
        ("found", text_of(told["found"])),
        ("allowed", text_of(told["allowed"])),
        ("why", told["why"]["text"]),
        ("way out", told["way_out"]["text"]),
    )
    return {
        "place": f"{where.file}:{where.line}:{where.column}",
        "title": f"{finding.code}: {flat(told['title']['text'])}",
        "details": [(label, flat(text)) for label, text in details if text],
    }


@cache
def _environment() -> Environment:
    return Environment(
        loader=FileSystemLoader(shipped("templates") / "preview"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
    )
