"""What a shop profile cannot say: addresses nobody can open, people and tools under one name."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from baybook.finding import Finding, Listing, Name, Value
from baybook.intake.document import Document
from baybook.intake.problems import nearest, problem
from baybook.intake.stock import stock_faults
from baybook.quantity import Quantity
from baybook.shipped import shipped
from baybook.shop import Shop
from baybook.standards.register import register

SHOP_RULE = "shop rule"
_MONTHS = (1, 120)  # a print that nobody has to look at again within ten years is no control
_LEAST = {  # below these the work, or the drawing of it, has no end
    "lengths.cutting_step": (0.001, "1 mm"),
    "spacing.clip_pitch": (0.020, "20 mm"),
}


def profile_faults(document: Document[Shop]) -> Iterator[Finding]:
    """Yield what cannot be in a shop profile, beside figures that contradict each other."""
    shop = document.model
    yield from _repeats(document, "people", "role", [person.role for person in shop.people])
    yield from _repeats(document, "tools", "id", [tool.id for tool in shop.tools])
    yield from _repeats(document, "papers", "", shop.papers)
    yield from _repeats(document, "label_stock", "id", [stock.id for stock in shop.label_stock])
    yield from stock_faults(document)
    yield from _languages(document)
    yield from _addresses(document)
    yield from _tools(document)
    yield from _sources(document)
    if not _MONTHS[0] <= shop.valid_months <= _MONTHS[1]:
        yield _fault(document, "DA-15", "months", "valid_months", str(shop.valid_months))
    for path, (least, written) in _LEAST.items():
        part, name = path.split(".")
        figure: Quantity = getattr(getattr(shop, part), name)
        if 0 < figure.low < least:
            yield _fault(document, "DA-15", "least", path, figure.written, least=Name(written))


def _repeats(
    document: Document[Shop], path: str, key: str, names: Sequence[str]
) -> Iterator[Finding]:
    for index, name in enumerate(names):
        if name in names[:index]:
            at = f"{path}.{index}.{key}".rstrip(".")
            yield _fault(document, "DA-05", "row-twice", at, name)


def _languages(document: Document[Shop]) -> Iterator[Finding]:
    languages = document.model.languages
    if not languages:
        mark = document.mark("languages")
        yield problem("DA-08", "empty-list", mark, at="shop.languages")
    yield from _repeats(document, "languages", "", languages)
    there = [name for name in ("en", "de") if any((shipped("templates") / name).glob("*.yaml"))]
    for index, language in enumerate(languages):
        if language not in there:
            near = Listing(tuple(Name(name) for name in there))
            yield _fault(document, "DA-11", "language", f"languages.{index}", language, words=near)


def _addresses(document: Document[Shop]) -> Iterator[Finding]:
    """Both go into links, the first into the code on every print."""
    site = document.model.site
    if not site.address.lower().startswith(("https://", "http://")) or " " in site.address:
        yield _fault(document, "DA-09", "site-address", "site.address", site.address)
    if not site.reports.lower().startswith(("https://", "mailto:")) or " " in site.reports:
        yield _fault(document, "DA-09", "reports", "site.reports", site.reports)


def _tools(document: Document[Shop]) -> Iterator[Finding]:
    for index, tool in enumerate(document.model.tools):
        low, high = tool.torque_low, tool.torque_high
        if (low is None) != (high is None):
            key = Name("torque_low" if low is None else "torque_high")
            at = f"tools.{index}"
            mark = document.mark(at)
            yield problem("DA-06", "key-missing", mark, at=f"shop.{at}", key=key)
        elif low and high and low.value > high.value:
            yield _fault(
                document, "DA-15", "falls", f"tools.{index}.torque_high", high.written,
                above=Name("torque_high"), below=Name("torque_low"), least=Name(low.written),
            )  # fmt: skip


def _sources(document: Document[Shop]) -> Iterator[Finding]:
    """Every limit names the rule of the shop, or a source that the register knows."""
    shop = document.model
    named = [
        (f"limits.{name}.source", source)
        for name in type(shop.limits).model_fields
        if (source := getattr(getattr(shop.limits, name), "source", None)) is not None
    ]
    stocks = [
        (f"label_stock.{index}.source", stock.source)
        for index, stock in enumerate(shop.label_stock)
    ]
    valid = (SHOP_RULE, *register())
    for path, source in (*named, *stocks, ("spacing.source", shop.spacing.source)):
        if source not in valid:
            yield _fault(
                document, "DA-14", "source", path, source, near=nearest(source, valid, count=1)
            )


def _fault(
    document: Document[Any], code: str, reason: str, path: str, found: str, **values: Value
) -> Finding:
    at = f"{document.prefix}.{path}"
    return problem(code, reason, document.mark(path), at=at, found=Name(found), **values)
