"""The lines under a guide: what it rests on, document by document."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from baybook.figure import Figure
from baybook.finding import Finding, Name, say
from baybook.fit import Fit
from baybook.guide import SourceLine
from baybook.part import AnySheet
from baybook.standards import Source, register


def sources(
    fit: Fit, figures: Iterable[Figure], findings: Iterable[Finding]
) -> tuple[SourceLine, ...]:
    """Return the register entries that were cited, then the sheets, then the vehicle's papers."""
    cited = dict.fromkeys(
        [
            *(source for figure in figures for source in figure.sources),
            *(i.source for figure in figures for i in figure.inputs if i.source),
            *(source for finding in findings for source in finding.sources),
        ]
    )
    known = register()
    return (
        *(registered(known[one]) for one in sorted(cited) if one in known),
        *_sheets(fit),
        *_papers(fit),
    )


def registered(source: Source) -> SourceLine:
    """Return an entry of the register as a line: title, edition, clause, how it was read."""
    titled = say("plain", text=Name(source.title))
    return SourceLine(
        id=source.id,
        title=say(f"source.title.{source.id}") if source.described else titled,
        detail=say(
            f"source.read.{source.read.value.replace(' ', '-')}",
            edition=say(f"source.edition.{source.id}"),
        ),
    )


def _sheets(fit: Fit) -> Iterator[SourceLine]:
    own = {f"second-{n}": sheet for n, sheet in enumerate(fit.second_protections, 1)}
    plug = {} if fit.connector is None else {"connector": fit.connector}
    sheets: dict[str, AnySheet] = {
        "charger": fit.charger,
        "station": fit.station,
        "cable": fit.cable,
        "output-cable": fit.output_cable,
        **plug,
        **own,
        "lug": fit.lugs,
        "clip": fit.clips,
        **({} if fit.shrink is None else {"shrink": fit.shrink}),
        **{f"other-cable-{n}": sheet for n, sheet in enumerate(fit.other_cables, 1)},
        **{f"protection-{n}": sheet for n, sheet in enumerate(fit.protections, 1)},
        **{f"passage-{name}": sheet for name, sheet in sorted(fit.passages.items())},
        **{f"sundry-{name}": sheet for name, sheet in sorted(fit.sundries.items())},
    }
    seen: set[tuple[str, str]] = set()
    for name, sheet in sheets.items():
        document = (sheet.sheet.document, sheet.name)
        if document in seen:
            continue
        seen.add(document)
        yield SourceLine(
            id=f"sheet-{name}",
            title=say("source.title", name=Name(sheet.name), document=Name(sheet.sheet.document)),
            detail=say(
                "source.sheet.detail",
                revision=Name(sheet.sheet.revision),
                on=Name(sheet.sheet.on.isoformat()),
            ),
        )


def _papers(fit: Fit) -> Iterator[SourceLine]:
    papers = {base.document: base for base in fit.vehicle.bases.values() if base.document}
    for number, (document, base) in enumerate(sorted(papers.items()), 1):
        yield SourceLine(
            id=f"vehicle-{number}",
            title=say("plain", text=Name(document)),
            detail=say(
                "source.paper.detail",
                by=Name(base.by or "\N{EN DASH}"),
                on=Name(base.on.isoformat() if base.on else "\N{EN DASH}"),
            ),
        )
