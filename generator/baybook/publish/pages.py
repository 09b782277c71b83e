"""Told book → the pages of the site, as bytes by address. Pure: the same book, the same bytes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from jinja2 import Environment

from baybook.book import ToldBook, ToldEntry
from baybook.publish.data import guide_json, index_json
from baybook.publish.frame import assets, environment, shop_frame
from baybook.publish.home import folder, home_context
from baybook.publish.matrix import matrix_vehicles
from baybook.publish.workings import figures_of, main_figures, symbols, workings_json
from baybook.publish.written import written_pages

_NO_LABELS: Mapping[str, Mapping[str, bytes]] = MappingProxyType({})
Drawings = Mapping[str, Mapping[str, str]]  # fit → view → SVG
Prints = Mapping[str, Mapping[str, bytes]]  # fit → paper → PDF
Progress = Callable[[str, int, int], None]

_TEMPLATES = {
    "guide": "guide.html.j2",
    "refusal": "refusal.html.j2",
    "withdrawal": "withdrawal.html.j2",
}


def _silent(_stage: str, _done: int, _of: int) -> None:
    """Report nothing."""


def render_pages(
    book: ToldBook,
    drawings: Drawings,
    prints: Prints,
    *,
    labels: Prints = _NO_LABELS,
    progress: Progress = _silent,
) -> dict[str, bytes]:
    """Return home, page, data and prints of each entry, and what stands beside them, by address.

    labels[fit] holds a PDF for each sheet of labels of the shop, by its id.

    drawings[fit] holds the views "wiring-wide", "wiring-slim", "route-wide" and "route-slim",
    and where there are charts "charts-wide" and "charts-slim" with one drawing each.
    Raises PageError for a word, symbol or asset that is not there and for a drawing with script
    or style in it; jinja2.UndefinedError for a value that the book does not hold.
    """
    made = environment(book.words)
    base = {
        "language": book.language,
        "shop": shop_frame(book.shop),
        "written": written_pages(book.language),
        "tongue": book.folder,
        "tongues": book.tongues,
        "matrix": bool(book.pairings),
    }
    files: dict[str, bytes] = {}
    for done, entry in enumerate(book.entries, 1):
        beside = {f"job-sheet-{paper}.pdf": pdf for paper, pdf in prints.get(entry.fit, {}).items()}
        stuck = labels.get(entry.fit, {})
        own = {
            "drawings": drawings.get(entry.fit, {}),
            "prints": sorted(beside),
            "label_prints": _label_prints(book, stuck),
        }
        beside |= {f"labels-{name}.pdf": pdf for name, pdf in stuck.items()}
        beside["index.html"] = _entry_page(made, entry, base | own)
        beside["guide.json"] = guide_json(entry, book.shop)
        if figures_of(entry):
            beside["workings/index.html"] = _workings_page(made, entry, base | own)
            beside["workings/workings.json"] = workings_json(entry, book.shop)
        files |= {f"{folder(entry.fit)}/{name}": content for name, content in beside.items()}
        progress("pages", done, len(book.entries))
    home = made.get_template("home.html.j2").render(
        base | home_context(book) | {"root": ".", "here": "index.html"}
    )
    files["index.html"] = home.encode()
    files["symbols.html"] = _symbols_page(made, book, base)
    if book.pairings:
        page = {"root": ".", "here": "matrix.html", "vehicles": matrix_vehicles(book)}
        files["matrix.html"] = made.get_template("matrix.html.j2").render(base | page).encode()
    files["index.json"] = index_json(book)
    return dict(sorted({**files, **assets()}.items()))


def _label_prints(book: ToldBook, labels: Mapping[str, bytes]) -> list[tuple[str, str]]:
    """Return file and stock of each sheet of labels, in the order of the shop profile."""
    stocks: Any = book.shop.get("label_stock") or ()
    return [(f"labels-{s['id']}.pdf", s["name"]) for s in stocks if s["id"] in labels]


def in_folder(files: Mapping[str, bytes], book: ToldBook) -> dict[str, bytes]:
    """Return the files of one language under their addresses on the whole site.

    What stands beside the pages stands once, at the site's root.
    """
    if not book.folder:
        return dict(files)
    beside = assets()
    return {
        f"{book.folder}{address}": file for address, file in files.items() if address not in beside
    }


def _entry_page(made: Environment, entry: ToldEntry, context: dict[str, Any]) -> bytes:
    told: Any = entry.content[entry.kind]
    page = _of_entry(entry) | {
        "figures": main_figures(figures_of(entry)),
        "more_figures": len(figures_of(entry)),
        entry.kind: told,
        "root": "../../..",
        "here": f"{folder(entry.fit)}/index.html",
        "earlier": entry.content["earlier"],
    }
    return made.get_template(_TEMPLATES[entry.kind]).render(context | page).encode()


def _of_entry(entry: ToldEntry) -> dict[str, Any]:
    """Return what every page of an entry says of it."""
    told: Any = entry.content[entry.kind]
    return {
        "folder": folder(entry.fit),
        "state": entry.content["state"],
        "listed": entry.content["state"] != "draft",
        "revision": entry.content["revision"],
        "titles": {line["id"]: line["title"] for line in told.get("sources", ())},
    }


def _workings_page(made: Environment, entry: ToldEntry, context: dict[str, Any]) -> bytes:
    told: Any = entry.content[entry.kind]
    page = _of_entry(entry) | {
        "root": "../../../..",
        "here": f"{folder(entry.fit)}/workings/index.html",
        "kind": entry.kind,
        "identity": told["identity"],
        "figures": figures_of(entry),
        "sources": told["sources"],
        "charts": told["charts"],
    }
    return made.get_template("workings.html.j2").render(context | page).encode()


def _symbols_page(made: Environment, book: ToldBook, context: dict[str, Any]) -> bytes:
    figures, inputs = symbols(book)
    page = {"root": ".", "here": "symbols.html", "figures": figures, "inputs": inputs}
    return made.get_template("symbols.html.j2").render(context | page).encode()
