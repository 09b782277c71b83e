"""The bay sheets: told entries into PDF, one source for every paper.

What stands where is in `templates/print/*.typ`; here the data is put together: the told
entry, the fixed words, the drawings, the code that a phone reads.
"""

from __future__ import annotations

import io
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from typing import Any

import segno

from baybook.book import ToldBook, ToldEntry
from baybook.publish.home import folder
from baybook.publish.typeset import PrintJob, as_json, forget, require_glyphs, typeset

Drawings = Mapping[
    str, Mapping[str, Sequence[str]]
]  # fit → "wiring", "route", "charts" → SVG texts

_CODE_MM = 31.0  # width of the code with its quiet zone
_MODULE_MM = 0.4  # the least a phone reads off paper
_QUIET = 4  # modules (ISO/IEC 18004)
# Where HOLD 1 is signed: on the sheet with the vehicle's own data, not among the steps.
_FIRST_HOLD = "right-parts"
_WORDS = ("print.", "end.")


def render_prints(
    told: ToldBook, drawings: Drawings, *, papers: Sequence[str]
) -> dict[str, dict[str, bytes]]:
    """Return the PDFs of every entry: fit → paper ("a4", "letter") → bytes.

    Raises PrintError for a character that the shipped font lacks, and for a sheet that the
    engine refuses or warns about.
    """
    if not papers:
        return {entry.fit: {} for entry in told.entries}
    made = typeset(
        print_job(entry, told, drawings.get(entry.fit, {}), papers) for entry in told.entries
    )
    forget()
    return made


def print_job(
    entry: ToldEntry, told: ToldBook, drawn: Mapping[str, Sequence[str]], papers: Sequence[str]
) -> PrintJob:
    """Return what the engine needs for one entry. Raises PrintError for a missing glyph."""
    data = _data(entry, told)
    require_glyphs(entry.fit, data)
    kinds = ("wiring", "route", "plan", "charts")
    drawing = {kind: list(drawn.get(kind, ())) for kind in kinds}
    return PrintJob(
        fit=entry.fit,
        data=as_json(data | {"drawings": drawing, "code": code_of(entry, told)}),
        papers=tuple(papers),
        seconds=seconds_of(entry),
        overlay=told.overlay,
    )


def _data(entry: ToldEntry, told: ToldBook) -> dict[str, Any]:
    identity = identity_of(entry)
    words = {key: text for key, text in told.words.items() if key.startswith(_WORDS)}
    shop: Any = told.shop
    return {
        "kind": entry.kind,
        "language": entry.language,
        "content": {**entry.content, "earlier": []},
        "identity": identity,
        "words": words,
        "shop": {"name": shop["name"], "rule_set": shop["rule_set"]},
        "reports": shop["site"]["reports"].removeprefix("mailto:"),
        "title": title_of(words["print.title"], entry),
        "first_hold": _FIRST_HOLD,
        "on_label_sheets": bool(shop.get("label_stock")),
    }


def _content(entry: ToldEntry) -> Any:  # noqa: ANN401 - told form: JSON
    return entry.content[entry.kind]


def _revision(entry: ToldEntry) -> Any:  # noqa: ANN401 - told form: JSON
    return entry.content["revision"]


def identity_of(entry: ToldEntry) -> Any:  # noqa: ANN401 - told form: JSON
    """Return the told identity of an entry."""
    return _content(entry)["identity"]


def title_of(sentence: str, entry: ToldEntry, stock: str = "") -> str:
    """Return what a PDF calls itself; labels name their sheet too."""
    identity = identity_of(entry)
    return sentence.format(
        vehicle=identity["vehicle"]["text"],
        variant=identity["variant"]["text"],
        pair=identity["pair"]["text"],
        code=identity["code"],
        number=_revision(entry)["number"],
        stock=stock,
    )


def seconds_of(entry: ToldEntry) -> int:
    """Return the time that a PDF gives as its own: the day of the revision."""
    day = _revision(entry)["on"]
    return int(datetime.fromisoformat(day).replace(tzinfo=UTC).timestamp())


def address(site: str, fit: str, number: int, tongue: str = "") -> str:
    """Return the permanent address of an entry, with the revision that the paper shows.

    tongue  folder of the print's language, "" for the site's first: the page speaks as the print
    """
    return f"{site.rstrip('/')}/{tongue}{folder(fit)}/?r={number}"


def code_of(entry: ToldEntry, told: ToldBook) -> dict[str, str | float]:
    """Return the code as SVG, its printed width, and the address as a person reads it."""
    shop: Any = told.shop
    number = _revision(entry)["number"]
    url = address(shop["site"]["address"], entry.fit, number, told.folder)
    made = segno.make(url, error="m", micro=False)
    svg = io.BytesIO()
    made.save(svg, kind="svg", border=_QUIET, xmldecl=False, svgns=True, omitsize=True)
    modules = made.symbol_size(border=_QUIET)[0]
    return {
        "svg": svg.getvalue().decode(),
        "millimetres": max(_CODE_MM, modules * _MODULE_MM),
        "text": url.removeprefix("https://").removeprefix("http://"),
    }
