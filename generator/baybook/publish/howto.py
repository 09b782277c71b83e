"""A released guide as a schema.org `HowTo`, for machines that read pages.

What a machine reads aloud or lists must warn as the page does. So a step's text begins with the
safety panels that stand above it and ends with the hold that stands below it, and the cautions
are part of the description.

https://schema.org/HowTo; ISO 8601-1 5.5.2 for the time.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from markupsafe import Markup

from baybook.book import ToldBook, ToldEntry
from baybook.publish.frame import shop_frame
from baybook.publish.home import folder

Node = Mapping[str, Any]

# Inside a script element nothing is unescaped but its end; so no sign of a tag may stand there.
_SIGNS = {sign: f"\\u{ord(sign):04x}" for sign in "<>&\u2028\u2029"}


def howto_block(entry: ToldEntry, book: ToldBook) -> Markup:
    """Return the content of a guide's `application/ld+json` block; "" for what is not released."""
    if entry.kind != "guide" or entry.content["state"] != "released":
        return Markup()
    text = json.dumps(howto(entry, book), ensure_ascii=False, separators=(",", ":"))
    for sign, code in _SIGNS.items():
        text = text.replace(sign, code)
    return Markup(text)  # noqa: S704 - no sign of a tag is left in it


def howto(entry: ToldEntry, book: ToldBook) -> dict[str, Any]:
    """Return a released guide in the terms of schema.org."""
    guide: Any = entry.content["guide"]
    revision: Any = entry.content["revision"]
    shop = shop_frame(book.shop)
    page = f"{shop['site']['address']}/{book.folder}{folder(entry.fit)}/index.html"
    identity = guide["identity"]
    vehicle = f"{identity['vehicle']['text']} {identity['variant']['text']}"
    return {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "@id": page,
        "url": page,
        "name": f"{vehicle}: {identity['pair']['text']}",
        "description": " ".join(_description(guide, book)),
        "inLanguage": entry.language,
        "version": str(revision["number"]),
        "dateModified": revision["on"],
        "publisher": {"@type": "Organization", "name": shop["name"]},
        **_time(guide["minutes"]),
        "supply": [_supply(line) for line in guide["kit"]],
        "tool": [{"@type": "HowToTool", "name": tool["text"]} for tool in guide["tools"]],
        "step": [
            _section(chapter, place, page, book)
            for place, chapter in enumerate(guide["chapters"], 1)
        ],
    }


def _description(guide: Node, book: ToldBook) -> Iterator[str]:
    if book.shop["demonstration"]:
        yield book.words["page.demonstration.word"]
        yield book.words["page.demonstration.what"]
    yield guide["what"]["text"]
    yield f"{book.words['page.verdict.' + guide['verdict']]}. {guide['short_reason']['text']}"
    yield from (caution["text"] for caution in guide["cautions"])


def _time(minutes: float) -> dict[str, str]:
    """Return the time of the whole work as a duration of ISO 8601; nothing if nobody knows it."""
    hours, rest = divmod(round(minutes), 60)
    if not hours and not rest:
        return {}
    return {"totalTime": f"PT{f'{hours}H' if hours else ''}{f'{rest}M' if rest else ''}"}


def _supply(line: Node) -> dict[str, Any]:
    return {
        "@type": "HowToSupply",
        "name": line["part"]["text"],
        "requiredQuantity": line["count"]["text"],
    }


def _section(chapter: Node, place: int, page: str, book: ToldBook) -> dict[str, Any]:
    return {
        "@type": "HowToSection",
        "position": place,
        "name": chapter["title"]["text"],
        "itemListElement": [
            {
                "@type": "HowToStep",
                "url": f"{page}#step-{step['number']}",
                "text": " ".join(_texts(step, book)),
            }
            for step in chapter["steps"]
        ],
    }


def _texts(step: Node, book: ToldBook) -> Iterator[str]:
    """Yield what stands at a step, in the order of the page: panels, action, figure, hold."""
    for box in step["boxes"]:
        word = book.words[f"page.signal.{box['signal']}"]
        yield f"{word}: {box['hazard']['text']}."
        yield box["consequence"]["text"]
        yield box["avoidance"]["text"]
    yield step["action"]["text"]
    if step["value"] and step["value"]["text"] not in step["action"]["text"]:
        yield f"({step['value']['text']})"
    if hold := step["hold"]:
        yield f"{book.words['word.hold']} {hold['number']}: {hold['title']['text']}."
