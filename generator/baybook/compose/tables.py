"""Cut list, torque and gauge, sizes weighed, settings."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.circuit import Joint
from baybook.compose import holds
from baybook.compose.ends import describe, end_of
from baybook.compose.route_cable import area, gauged
from baybook.compose.work import Work, device, hold, wire
from baybook.design import Candidate
from baybook.finding import Amount, Finding, Listing, Message, Name, Ref, Verdict, say
from baybook.guide import CutLine, SettingLine, SizeLine, TorqueLine
from baybook.part import CableSheet
from baybook.quantity import Quantity, State, Unknown


def cuts(work: Work) -> tuple[CutLine, ...]:
    """Return one row for each piece of cable."""
    return tuple(_cut(work, tag) for tag in (conductor.tag for conductor in work.new))


def _cut(work: Work, tag: str) -> CutLine:
    conductor = next(c for c in work.new if c.tag == tag)
    ends = tuple(end_of(work, conductor, letter) for letter in (conductor.start, conductor.end))
    strips = {end.strip.value: end.strip for end in ends if end.strip is not None}
    # One strip length goes into the column; where the ends differ, each end says its own.
    strip = next(iter(strips.values())) if len(strips) == 1 else None
    return CutLine(
        tag=tag,
        colour=say(f"colour.{conductor.colour}"),
        area=area(conductor),
        awg=say("awg", gauge=Name(conductor.awg)),
        start=conductor.start,
        end=conductor.end,
        length=Amount(conductor.cut_m, "m", 2).cut(),
        strip=Amount.of(strip, 1).plain() if strip else None,
        ends=tuple(
            say("cut.end.strip", what=describe(work, end), strip=Amount.of(end.strip, 1).plain())
            if strip is None and end.strip is not None
            else describe(work, end)
            for end in ends
        ),
    )


def cut_note(work: Work) -> Message:
    """Say what the lengths hold."""
    lengths = work.fit.shop.lengths
    return say(
        "cut.note",
        allowance=Amount.of(lengths.end_allowance).at_least(),
        tolerance=Amount.of(lengths.segment_tolerance),
        step=Amount.of(lengths.cutting_step).plain(),
    )


# --------------------------------------------------------------------------- torque and gauge


def torques(work: Work) -> tuple[TorqueLine, ...]:
    """Return a row for each joint in letter order, also where nothing is tightened."""
    return tuple(_torque(work, joint) for joint in work.circuit.joints)


def _torque(work: Work, joint: Joint) -> TorqueLine:
    torque = _torque_of(work, joint)
    return TorqueLine(
        letter=joint.letter,
        joint=joint_words(joint),
        thread=_thread(joint),
        torque=Amount.of(torque) if torque else None,
        instead=None if torque else _instead(work, joint),
        conductor=_gauge(work, joint),
        source=_source(work, joint, torque),
    )


def _thread(joint: Joint) -> Message | None:
    return say("plain", text=Name(joint.thread)) if joint.thread else None


def _torque_of(work: Work, joint: Joint) -> Quantity | None:
    if joint.existing and joint.letter == work.negative.letter:
        return work.post_torque
    return joint.torque if isinstance(joint.torque, Quantity) else None


def joint_words(joint: Joint) -> Message:
    """Name a joint as vehicle file, sheet or plug name it, with its mark."""
    if joint.device == "charger":
        return say("joint.charger", name=Name(joint.what), terminal=_mark(joint))
    if joint.device.startswith("F"):
        return say(f"joint.{joint.role.replace('load', 'fuse')}", name=Name(joint.what))
    if joint.role.startswith("plug"):
        return say(
            f"joint.plug.{'plus' if joint.role == 'plug+' else 'minus'}", name=Name(joint.what)
        )
    if joint.role in {"load+", "load-"}:
        sign = "plus" if joint.role == "load+" else "minus"
        return say(f"joint.second.{sign}", name=Name(joint.what))
    return say("joint.own" if joint.what else "joint.post", what=Name(joint.what))


def _mark(joint: Joint) -> Name:
    return Name(joint.terminal.replace("-", "\N{MINUS SIGN}"))


def _instead(work: Work, joint: Joint) -> Message:
    for point, finding in holds.raised(work):
        if holds.joint_in_question(work, finding) == joint.letter:
            return say("torque.hold", hold=hold(point.id))
    if joint.existing:
        return say("torque.existing")
    if isinstance(joint.torque, Unknown):
        return say("torque.unknown")
    return say(f"torque.{joint.kind.name.lower()}")


def _gauge(work: Work, joint: Joint) -> Message | None:
    if not joint.conductors:
        return say("torque.vehicle-lead") if joint.existing else None
    tags = [c for c in work.circuit.conductors if c.tag in joint.conductors]
    return say(
        "torque.gauge",
        wires=Listing(tuple(say("wire.area", wire=wire(c.tag), area=gauged(c)) for c in tags)),
    )


def _source(work: Work, joint: Joint, torque: Quantity | None) -> Message:
    """Whose figure the torque is: the maker of the stud or terminal that is clamped."""
    if torque is not None and torque.basis.document:
        return say("source.document", document=Name(torque.basis.document))
    if torque is not None and torque.basis.state is State.ESTIMATED:
        return say("source.estimated")
    if joint.device == "charger":
        sheet = work.fit.charger.sheet
        return say("source.sheet", document=Name(sheet.document), revision=Name(sheet.revision))
    if joint.device.startswith("F"):
        return say("source.maker", device=device(joint.device))
    if joint.role in {"load+", "load-"} and work.fit.second is not None:
        sheet = work.fit.second.sheet
        return say("source.sheet", document=Name(sheet.document), revision=Name(sheet.revision))
    return say("source.none") if torque is None else say("source.vehicle")


# --------------------------------------------------------------------------- sizes and settings


def sizes(
    candidates: tuple[Candidate, ...], cable: CableSheet, chosen_mm2: float | None
) -> tuple[SizeLine, ...]:
    """Return every size that was weighed with the rule that decided."""
    gauges = {size.area.value: size.nearest_awg for size in cable.sizes}
    return tuple(_size(one, gauges[one.choice.area_mm2], chosen_mm2) for one in candidates)


def _size(candidate: Candidate, gauge: str, chosen_mm2: float | None) -> SizeLine:
    def amount(value: float | None, unit: str, digits: int) -> Amount | None:
        return None if value is None else Amount(value, unit, digits)

    return SizeLine(
        area=Amount.area(candidate.choice.area_mm2, gauge),
        current=amount(candidate.current_A, "A", 1),
        voltage=amount(candidate.charger_V, "V", 2),
        drop=amount(candidate.drop, "1", 2),
        carries=Amount(candidate.carries_A, "A", 1),
        chosen=candidate.choice.area_mm2 == chosen_mm2,
        result=_result(candidate, chosen_mm2),
    )


def _result(candidate: Candidate, chosen_mm2: float | None) -> Message:
    if candidate.choice.area_mm2 == chosen_mm2:
        margin = candidate.margin_V
        if margin is None:
            return say("size.chosen")
        return say("size.chosen.margin", margin=Amount(margin, "V", 2))
    refused = [f for f in candidate.findings if f.verdict is Verdict.REFUSED]
    if refused:
        return refusal_words(decider(refused))
    return say("size.passes" if chosen_mm2 is None else "size.larger")


# What stops a cable first stands first: what it carries, then what arrives, then what fits.
_ORDER = ("OC-02", "CA-04", "CA-03", "CA-02", "CA-01")
_OWN = frozenset(
    {"OC-02", "OC-09", "CA-01", "CA-02", "CA-03", "CA-04"}
)  # have a sentence of their own here


def refusal_words(finding: Finding) -> Message:
    """Say in one sentence why a size or a part was not taken."""
    if finding.code in _OWN:
        return Message(f"size.no.{finding.code}", finding.title.values)
    return say("size.no", rule=Ref("rule", finding.code), title=finding.title)


def decider(findings: list[Finding]) -> Finding:
    """Return the finding that stops a size first."""

    def rank(finding: Finding) -> int:
        return next(
            (n for n, start in enumerate(_ORDER) if finding.code.startswith(start)), len(_ORDER)
        )

    return min(findings, key=rank)


def sizes_note(work: Work) -> Message:
    """Say at which supply voltage the sizes were weighed."""
    return say("sizes.note", supply=work.amount("supply_low", digits=1))


def settings(work: Work) -> tuple[SettingLine, ...]:
    """Return the set voltages with what each would give."""
    return tuple(_settings(work))


def _settings(work: Work) -> Iterator[SettingLine]:
    for option in work.design.settings:
        yield SettingLine(
            setting=Amount(option.set_V, "V", work.volt_digits),
            power=Amount(option.power_W, "W", 0),
            limit=say(f"limit.{option.limit.replace(' ', '-')}"),
            fits=option.fits,
            chosen=option.set_V == work.design.choice.set_V,
        )
