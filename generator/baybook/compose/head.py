"""The top of a guide: what it does, the verdict's reasons, the six facts."""

from __future__ import annotations

from baybook.compose.work import Work, device, millimetres
from baybook.finding import Amount, Finding, Message, Name, Verdict, say
from baybook.guide import Fact


def what(work: Work) -> Message:
    """Say in one line what the finished fit does."""
    mount = work.fit.vehicle.mounts[work.fit.job.mount]
    cue = work.fit.vehicle.cues[work.fit.job.cue]
    return say(f"what.{cue.kind.name.lower()}", place=Name(mount.place))


def ranked(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return the findings, the gravest first."""
    order = list(Verdict)
    return tuple(sorted(findings, key=lambda f: -order.index(f.verdict)))


def reasons(work: Work) -> tuple[Message, ...]:
    """Return one sentence for each finding, with its figure."""
    found = ranked(work.checked.findings)
    if not found:
        return (say("reason.none", margin=work.amount("margin_low", digits=2)),)
    return tuple(dict.fromkeys(told(finding, "reason") for finding in found))


def told(finding: Finding, part: str) -> Message:
    """Return another sentence of a finding's rule, with the same values."""
    return Message(f"rule.{finding.code}.{part}", finding.title.values)


def short_reason(work: Work) -> Message:
    """Return the sentence of the gravest finding, for lists."""
    found = ranked(work.checked.findings)
    return told(found[0], "short") if found else say("reason.short.none")


def drafts(work: Work) -> tuple[Message, ...]:
    """Return why the guide stays a draft; nothing if it does not."""
    return tuple(told(finding, "reason") for finding in work.checked.findings if finding.draft)


def facts(work: Work) -> tuple[Fact, ...]:
    """Return the six cells of the facts strip."""
    fuse, feed = work.fuse, work.circuit.conductor("feed")
    found = [
        Fact(amount=work.setting, label=say("fact.set")),
        Fact(amount=work.amount("station_power", digits=0), label=say("fact.power")),
    ]
    if work.has("charge_time"):
        found.append(Fact(amount=work.amount("charge_time", digits=1), label=say("fact.charge")))
    return (
        *found,
        Fact(
            amount=Amount.area(feed.area_mm2),
            label=say("fact.cable", awg=say("awg", gauge=Name(feed.awg))),
        ),
        Fact(
            amount=Amount(fuse.rating_A, "A", 0, fuse.rating_written),
            label=say(f"fact.{fuse.form}", fuse=device(fuse.tag)),
        ),
        _holes(work),
    )


def _holes(work: Work) -> Fact:
    """Every hole that is drilled: for the charger, and for the cables."""
    mount = work.fit.vehicle.mounts[work.fit.job.mount]
    walls = [f for f in work.circuit.fittings if f.new_hole and f.hole_m is not None]
    number = mount.fixings + sum(f.count for f in walls)
    label = say("fact.holes", mount=Amount.of(mount.drill, 1).plain())
    if walls:
        hole = walls[0].hole_m or 0.0
        label = say(
            "fact.holes.glands",
            mount=Amount.of(mount.drill, 1).plain(),
            gland=millimetres(hole, 1).plain(),
        )
    return Fact(amount=Amount(number, "1", 0, show="1"), label=label)
