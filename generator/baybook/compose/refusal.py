"""A refusal as a reader gets it: the wrong thought, found and allowed, the way out."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.compose.cascade import cascade_lines, way_out_change
from baybook.compose.head import ranked
from baybook.compose.identity import identify
from baybook.compose.sources import sources
from baybook.compose.tables import sizes
from baybook.design import Refusal
from baybook.finding import Amount, Finding, Message, Name, Ref, Verdict, say
from baybook.fit import Fit
from baybook.guide import FoundAllowed, RefusalSheet


def refuse(refusal: Refusal) -> RefusalSheet:
    """Return the sheet of a refused fit. Nothing on it can be built from."""
    fit, kept = refusal.fit, refusal.fit.job.refused
    findings = _named_first(refusal, kept.codes if kept else ())
    refused = [f for f in findings if f.verdict is Verdict.REFUSED]
    first = refused[0]
    supply, asked = fit.vehicle.supply.low, fit.job.asked.area
    own = asked.value if asked else 0.0  # none asked: against the thinnest
    return RefusalSheet(
        identity=identify(fit),
        code=first.code,
        title=first.title,
        thought=Name(kept.thought) if kept else None,
        short_reason=say("refusal.short", rule=Ref("rule", first.code), title=first.title),
        findings=findings,
        table=tuple(FoundAllowed(what=f.title, found=f.found, allowed=f.allowed) for f in refused),
        way_out=(*_instead(fit), *dict.fromkeys(f.way_out for f in refused)),
        sizes=sizes(refusal.candidates, fit.cable, None),
        sizes_note=say("sizes.note", supply=Amount.of(supply)),
        sources=sources(fit, refusal.figures, findings),
        kept=kept is not None,
        cascade=cascade_lines(refusal.cascades, own),
        change=way_out_change(refusal),
        figures=refusal.figures,
        charts=refusal.charts,
    )


def _instead(fit: Fit) -> Iterator[Message]:
    """Offer the fit of this vehicle that its writer names as the way out."""
    kept = fit.job.refused
    if kept is not None and kept.instead is not None:
        other = next(job for job in fit.vehicle.fits if job.id == kept.instead)
        yield say(
            "refusal.instead", fit=Ref("fit", f"{fit.slug}/{other.id}"), title=Name(other.title)
        )


def _named_first(refusal: Refusal, codes: tuple[str, ...]) -> tuple[Finding, ...]:
    """The findings that the fit itself expects come first, in its order; then the gravest."""
    found = ranked(refusal.findings)
    order = {code: place for place, code in enumerate(codes)}
    return tuple(
        sorted(
            found,
            key=lambda f: (f.verdict is not Verdict.REFUSED, order.get(f.code, len(order))),
        )
    )
