"""A shop's own texts in its other languages: `texts/<language>.yaml`, source text → translation.

The workbook is written in the shop's first language. Whatever a person wrote there in words needs
a line in the file of each other language; names and codes need none (`quantity.ProperName`).
A text without its translation stops the publish, and so does a translation that no text asks for:
it is the leftover of a text that was changed, and the new text would be missed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from pydantic import BaseModel

from baybook.finding import Finding, Name
from baybook.fit import Fit, Workbook
from baybook.intake.problems import nearest, problem, shown
from baybook.intake.source import read_source, shown_name
from baybook.intake.tree import Branch, Scalar, grow
from baybook.quantity import Mark, Quantity, Unknown, in_words

Said = tuple[str, Mark]  # dotted path and place of a text
Texts = Mapping[str, str]  # source text → the same in another language
_WITHOUT = (str, int, float, type(None))  # most fields by far: a name, a number, a word of a list


def read_texts(
    root: Path, book: Workbook, *, whole: bool = True
) -> tuple[dict[str, Texts], tuple[Finding, ...]]:
    """Return the texts of each language but the first, and everything that is wrong with them.

    whole  whether the book holds every vehicle; if not, nothing can be told to be a leftover
    """
    return translations(root, book.shop.languages, wanted(book.fits), whole=whole)


def translations(
    root: Path, languages: Sequence[str], written: Mapping[str, Said], *, whole: bool = True
) -> tuple[dict[str, Texts], tuple[Finding, ...]]:
    """Return the texts of each language but the first, and everything that is wrong with them.

    written  what the workbook says, see `wanted`
    whole    whether that is all that it says
    """
    texts: dict[str, Texts] = {}
    findings: list[Finding] = []
    for language in languages[1:]:
        path = root / "texts" / f"{language}.yaml"
        tree, found = _tree(path, root)
        findings.extend(found)
        if tree is None:
            continue
        texts[language] = dict(_pairs(tree, findings))
        findings.extend(_untranslated(tree, written, shown_name(path, root)))
        if whole:
            findings.extend(_leftover(tree, written))
    return texts, tuple(findings)


def wanted(fits: Iterable[Fit]) -> dict[str, Said]:
    """Return every text that needs a translation, with the dotted path and place of the first."""
    found: dict[str, Said] = {}
    for fit in fits:
        for path, text in texts_of(fit):
            if text not in found:
                found[text] = path, fit.mark(path)
    return found


def texts_of(fit: Fit) -> Iterator[tuple[str, str]]:
    """Yield the texts of a fit that need a translation, each with its dotted path."""
    second = fit.job.second.protection if fit.job.second else ()
    parts: dict[str, object] = {
        "shop": fit.shop,
        "vehicle": fit.vehicle.model_copy(update={"fits": ()}),  # each job is a fit of its own
        "fit": fit.job,
        "charger": fit.charger,
        "station": fit.second or fit.station,
        "cable": fit.cable,
        "output_cable": fit.output_cable,
        "protection": dict(zip(fit.job.protection, fit.protections, strict=True))
        | dict(zip(second, fit.second_protections, strict=True)),
        "lugs": fit.lugs,
        "connector": fit.connector,
        "clips": fit.clips,
        "sundries": fit.sundries,
        "passages": fit.passages,
    }
    for name, part in parts.items():
        yield from _walk(part, name)


def _walk(node: object, path: str) -> Iterator[tuple[str, str]]:
    if isinstance(node, BaseModel):
        worded = in_words(type(node))
        for name in type(node).model_fields:
            value = getattr(node, name)
            if name in worded:
                yield from _said(value, f"{path}.{name}")
            elif not isinstance(value, _WITHOUT):
                yield from _walk(value, f"{path}.{name}")
    elif isinstance(node, Mapping):
        for key, value in node.items():
            yield from _walk(value, f"{path}.{key}")
    elif isinstance(node, tuple):
        for at, value in enumerate(node):
            yield from _walk(value, f"{path}.{at}")
    elif isinstance(node, Quantity | Unknown):
        yield from _walk(node.basis, path)


def _said(value: object, path: str) -> Iterator[tuple[str, str]]:
    if isinstance(value, str) and value:
        yield path, value
    elif isinstance(value, tuple):
        for at, item in enumerate(value):
            yield f"{path}.{at}", item


def _tree(path: Path, root: Path) -> tuple[Branch | None, tuple[Finding, ...]]:
    source = read_source(path, root)
    return (None, (source,)) if isinstance(source, Finding) else grow(source, "texts")


def _pairs(tree: Branch, findings: list[Finding]) -> Iterator[tuple[str, str]]:
    for text, translation in tree.items():
        where = translation.mark
        if not isinstance(translation, Scalar):
            findings.append(problem("DA-09", "plain-value", where))
        elif not translation.strip() and not translation.told:
            findings.append(problem("DA-08", "blank", where))
        else:
            yield text, str(translation)


def _untranslated(tree: Branch, written: Mapping[str, Said], file: str) -> Iterator[Finding]:
    """Yield what has no translation, at its place."""
    for text, (path, mark) in written.items():
        if text not in tree:
            yield problem("DA-19", "translation", mark, at=path, found=shown(text), file=Name(file))


def _leftover(tree: Branch, written: Mapping[str, Said]) -> Iterator[Finding]:
    """Yield what translates nothing, at its place."""
    left = [text for text in tree if text not in written]
    untold = [text for text in written if text not in tree]
    for text in left:
        yield problem(
            "DA-20", "leftover", tree.keys_at[text], at=f"texts.{_short(text)}",
            found=shown(text), near=nearest(text, untold, count=1),
        )  # fmt: skip


def _short(text: str) -> str:
    most = 40
    return text if len(text) <= most else text[:most] + "…"
