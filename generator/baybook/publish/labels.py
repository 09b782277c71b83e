"""The labels of a guide, set for each sheet of labels that the shop keeps.

Where a label stands on its sheet is data of the shop profile; how it looks is in
`templates/print/labels.typ`. A draft has no labels: nothing is to be fitted by it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from baybook.book import ToldBook, ToldEntry
from baybook.publish.prints import code_of, identity_of, seconds_of, title_of
from baybook.publish.typeset import PrintJob, as_json, require_glyphs, typeset
from baybook.publish.verify import verify_lines
from baybook.publish.verify_prints import mending, print_text

Labels = Mapping[str, Mapping[str, bytes]]  # fit → id of the stock → PDF

_LENGTHS = ("width", "height", "left", "top", "pitch_across", "pitch_down")


def render_labels(told: ToldBook) -> dict[str, dict[str, bytes]]:
    """Return the labels of every released guide: fit → id of the stock → PDF.

    Raises PrintError for a label that has no room on a stock, and for a missing glyph.
    """
    stocks = _stocks(told)
    jobs = [_job(entry, told, stocks) for entry in labelled(told)] if stocks else []
    return typeset(jobs)


def stocks_of(entry: ToldEntry, told: ToldBook) -> tuple[str, ...]:
    """Return the ids of the sheets that an entry has labels on."""
    has = entry.kind == "guide" and entry.content["state"] != "draft"
    return tuple(_stocks(told)) if has else ()


def labelled(told: ToldBook) -> Iterator[ToldEntry]:
    """Yield the entries that have labels."""
    for entry in told.entries:
        if entry.kind == "guide" and entry.content["state"] != "draft":
            yield entry


def lines_of(entry: ToldEntry) -> tuple[list[Any], ...]:
    """Return the labels of an entry in the order of the sheet, each as its told lines."""
    guide: Any = entry.content["guide"]
    return (*guide["end_labels"], *guide["labels"])


def verify_labels(told: ToldBook, labels: Labels) -> tuple[str, ...]:
    """Return the lines that any sheet of labels lost, with its fit and stock."""
    lost: list[str] = []
    for entry in labelled(told):
        wanted = [line["text"] for lines in lines_of(entry) for line in lines]
        mended = mending(wanted)
        for stock in told.shop.get("label_stock") or ():  # type: ignore[union-attr]
            name = stock["id"]  # type: ignore[index, call-overload]
            pdf = labels.get(entry.fit, {}).get(str(name))
            missing = (
                ("no print",) if pdf is None else verify_lines(mended(print_text(pdf)), wanted)
            )
            lost += [f"{entry.fit}, labels {name}: {what}" for what in missing]
    return tuple(lost)


def _stocks(told: ToldBook) -> dict[str, dict[str, Any]]:
    """Return the sheets of the shop by id, lengths in millimetres."""
    found: Any = told.shop.get("label_stock") or ()
    return {
        stock["id"]: {key: stock[key] for key in ("name", "paper", "rows", "columns")}
        | {key: stock[key]["value"] * 1000 for key in _LENGTHS}
        for stock in found
    }


def _job(entry: ToldEntry, told: ToldBook, stocks: Mapping[str, Mapping[str, Any]]) -> PrintJob:
    data = _data(entry, told, stocks)
    require_glyphs(entry.fit, data)
    return PrintJob(
        fit=entry.fit,
        data=as_json(data),
        papers=tuple(stocks),
        seconds=seconds_of(entry),
        sheet="labels",
        overlay=told.overlay,
    )


def _data(
    entry: ToldEntry, told: ToldBook, stocks: Mapping[str, Mapping[str, Any]]
) -> dict[str, Any]:
    words, shop = told.words, told.shop
    identity = identity_of(entry)
    revision: Any = entry.content["revision"]
    foot = words["print.label.foot"].format(code=identity["code"], number=revision["number"])
    if identity["demonstration"]:
        foot = f"{foot} · {words['print.demonstration']}"
    labels = lines_of(entry)
    return {
        "language": entry.language,
        "shop": shop["name"],
        "stocks": {
            name: {**stock, "title": title_of(words["print.label.title"], entry, stock["name"])}
            for name, stock in stocks.items()
        },
        # The last label names the guide: it has the code, and stands at the charger.
        "labels": [
            {"lines": lines, "foot": foot, "code": at == len(labels) - 1}
            for at, lines in enumerate(labels)
        ],
        "code": {**code_of(entry, told), "alt": words["print.code.alt"]},
    }
