"""Told book → the pages of the site, as bytes by address. Pure: the same book, the same bytes."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any, TypeVar

from jinja2 import Environment

from baybook.book import Told, ToldBook, ToldEntry
from baybook.publish.data import guide_json, index_json
from baybook.publish.feeds import feeds
from baybook.publish.finder import finder_json
from baybook.publish.frame import assets, environment, fingerprinted, shop_frame
from baybook.publish.hazards import hazards
from baybook.publish.home import folder, home_context, old_folder
from baybook.publish.howto import howto_block
from baybook.publish.markup import Words
from baybook.publish.matrix import matrix_vehicles
from baybook.publish.offline import LIST, MANIFEST, manifest, offline_list
from baybook.publish.others import asked_for, others
from baybook.publish.pictures import Pictures, addressed, photos_of, shown
from baybook.publish.policy import require_policy
from baybook.publish.rules import rule_pages
from baybook.publish.workings import (
    figures_of,
    main_figures,
    sources_of,
    symbols,
    workings_json,
)
from baybook.publish.written import written_pages

_NO_LABELS: Mapping[str, Mapping[str, bytes]] = MappingProxyType({})
_NO_PICTURES: Pictures = MappingProxyType({})
Drawings = Mapping[str, Mapping[str, str]]  # fit → view → SVG
Prints = Mapping[str, Mapping[str, bytes]]  # fit → paper → PDF

File = TypeVar("File")

_TEMPLATES = {
    "guide": "guide.html.j2",
    "refusal": "refusal.html.j2",
    "withdrawal": "withdrawal.html.j2",
}


def entry_pages(  # noqa: PLR0913 - what stands beside a page
    book: ToldBook,
    entry: ToldEntry,
    drawings: Drawings,
    prints: Prints,
    *,
    labels: Prints = _NO_LABELS,
    pictures: Pictures = _NO_PICTURES,
    now: Mapping[str, Told] | None = None,
    siblings: Sequence[ToldEntry] = (),
    alone: bool = False,
) -> dict[str, bytes]:
    """Return page, data, workings and prints of one entry, by address.

    book      what the site says besides; its entries are not asked for
    drawings  "wiring-wide", "wiring-slim", "route-wide" and "route-slim" of the entry's fit, and
              where there are charts "charts-wide" and "charts-slim" with one drawing each
    labels    a PDF for each sheet of labels of the shop, by its id
    pictures  those of its vehicle
    now       for an earlier revision: the revision that stands in its place
    siblings  what is published of the same vehicle; no more is asked of it than `listed` keeps
    alone     return the page and nothing beside it, which needs no charts: somebody waits for it

    Raises PageError for a word, symbol or asset that is not there and for a drawing with script
    or style in it; jinja2.UndefinedError for a value that the book does not hold.
    """
    made = environment(book.words, book.overlay)
    of_entry = _of_entry(entry, now)
    top = _up(of_entry["folder"]) + ("/.." if book.folder else "")
    told: Any = entry.content[entry.kind]
    photos = shown(told.get("photos", ()), pictures, top)
    beside = {f"job-sheet-{paper}.pdf": pdf for paper, pdf in prints.get(entry.fit, {}).items()}
    stuck = labels.get(entry.fit, {})
    context = (
        _base(book)
        | of_entry
        | {
            "drawings": drawings.get(entry.fit, {}),
            "prints": sorted(beside),
            "label_prints": _label_prints(book, stuck),
            "others": others(entry, siblings, Words(book.words)),
            "asked_for": asked_for(entry),
            "photos": photos,
        }
    )
    page = _entry_page(made, entry, book, context)
    if alone:
        return _guarded({f"{context['folder']}/index.html": page})
    beside |= {f"labels-{name}.pdf": pdf for name, pdf in stuck.items()}
    beside["index.html"] = page
    beside["guide.json"] = guide_json(entry, book.shop, photos)
    if figures_of(entry):
        beside["workings/index.html"] = _workings_page(made, entry, context)
        beside["workings/workings.json"] = workings_json(entry, book.shop)
    if entry.kind == "guide" and now is None:
        own = addressed({name: pictures[name] for name in photos_of(entry) if name in pictures})
        beside[LIST] = offline_list(entry, beside, own, folder=context["folder"], root=top)
    return _guarded({f"{context['folder']}/{name}": file for name, file in beside.items()})


def old_notice(book: ToldBook, entry: ToldEntry, now: Mapping[str, Told]) -> dict[str, bytes]:
    """Return the pages of an earlier revision that cannot be shown: its name and its data."""
    context = _base(book) | _of_entry(entry, now)
    told: Any = entry.content[entry.kind]
    page = {"root": _up(context["folder"]), "here": f"{context['folder']}/index.html"}
    made = environment(book.words, book.overlay).get_template("old.html.j2")
    html = made.render(context | page | {"identity": told["identity"]}).encode()
    data = guide_json(entry, book.shop, {})
    own = {f"{context['folder']}/index.html": html, f"{context['folder']}/guide.json": data}
    return _guarded(own)


def index_pages(book: ToldBook) -> dict[str, bytes]:
    """Return home, list of symbols, index and what stands beside the pages, by address.

    They ask for no more of an entry than `listing.listed` keeps of it.
    """
    made, base = environment(book.words, book.overlay), _base(book)
    finder = finder_json(book)
    here = {"root": ".", "here": "index.html", "finder": fingerprinted("finder.json", finder)}
    home = made.get_template("home.html.j2").render(base | home_context(book) | here)
    files = {
        "index.html": home.encode(),
        "finder.json": finder,
        "symbols.html": _symbols_page(made, book, base),
        "index.json": index_json(book),
        MANIFEST: manifest(book),
    }
    if book.matrix:
        page = {"root": ".", "here": "matrix.html", "vehicles": matrix_vehicles(book)}
        files["matrix.html"] = made.get_template("matrix.html.j2").render(base | page).encode()
    return _guarded({**files, **feeds(book), **rule_pages(made, book, base), **assets()})


def _guarded(files: dict[str, bytes]) -> dict[str, bytes]:
    """Return these files; raise PageError if one of the pages lost the policy it begins with."""
    require_policy(files)
    return files


def _base(book: ToldBook) -> dict[str, Any]:
    return {
        "language": book.language,
        "shop": shop_frame(book.shop),
        "written": written_pages(book.language),
        "tongue": book.folder,
        "tongues": book.tongues,
        "matrix": book.matrix,
    }


def _label_prints(book: ToldBook, labels: Mapping[str, bytes]) -> list[tuple[str, str]]:
    """Return file and stock of each sheet of labels, in the order of the shop profile."""
    stocks: Any = book.shop.get("label_stock") or ()
    return [(f"labels-{s['id']}.pdf", s["name"]) for s in stocks if s["id"] in labels]


def in_folder(files: Mapping[str, File], book: ToldBook) -> dict[str, File]:
    """Return the files of one language under their addresses on the whole site.

    What stands beside the pages stands once, at the site's root.
    """
    if not book.folder:
        return dict(files)
    beside = assets()
    return {
        f"{book.folder}{address}": file for address, file in files.items() if address not in beside
    }


def _entry_page(
    made: Environment, entry: ToldEntry, book: ToldBook, context: dict[str, Any]
) -> bytes:
    told: Any = entry.content[entry.kind]
    page = {
        "figures": main_figures(figures_of(entry)),
        "more_figures": len(figures_of(entry)),
        entry.kind: told,
        "root": _up(context["folder"]),
        "here": f"{context['folder']}/index.html",
        "earlier": entry.content["earlier"],
        "howto": howto_block(entry, book),
    }
    if entry.kind == "guide":
        page["hazards"] = hazards(told)
    return made.get_template(_TEMPLATES[entry.kind]).render(context | page).encode()


def _up(folder_: str) -> str:
    """Return the way from a folder to the top of its language's pages."""
    return "/".join(".." for _ in folder_.split("/"))


def _of_entry(entry: ToldEntry, now: Mapping[str, Told] | None) -> dict[str, Any]:
    """Return what every page of an entry says of it."""
    told: Any = entry.content[entry.kind]
    if now is None:
        return _said_of(entry, told, folder(entry.fit))
    number: Any = entry.content["revision"]
    place = old_folder(entry.fit, number["number"])
    # It is in no list, has no twin in another language, and leads to what stands now.
    beside = {
        "now": now,
        "listed": False,
        "tongues": (),
        "canonical": f"{folder(entry.fit)}/index.html",
    }
    return _said_of(entry, told, place) | beside


def _said_of(entry: ToldEntry, told: Any, place: str) -> dict[str, Any]:  # noqa: ANN401
    return {
        "folder": place,
        "state": entry.content["state"],
        "listed": entry.content["state"] != "draft",
        "revision": entry.content["revision"],
        "notice": entry.content.get("notice"),
        "titles": {line["id"]: line["title"] for line in told.get("sources", ())},
    }


def _workings_page(made: Environment, entry: ToldEntry, context: dict[str, Any]) -> bytes:
    told: Any = entry.content[entry.kind]
    place = f"{context['folder']}/workings"
    page = {
        "root": _up(place),
        "here": f"{place}/index.html",
        "kind": entry.kind,
        "identity": told["identity"],
        "figures": figures_of(entry),
        "sources": told["sources"],
        "charts": told["charts"],
    }
    return made.get_template("workings.html.j2").render(context | page).encode()


def _symbols_page(made: Environment, book: ToldBook, context: dict[str, Any]) -> bytes:
    figures, inputs = symbols(book)
    sources = sources_of(book)
    page = {
        "root": ".",
        "here": "symbols.html",
        "figures": figures,
        "inputs": inputs,
        "sources": sources,
        "titles": {line["id"]: line["title"] for line in sources},
    }
    return made.get_template("symbols.html.j2").render(context | page).encode()
