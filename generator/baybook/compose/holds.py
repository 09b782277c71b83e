"""The places to stop: five that every guide has, and one more for each finding that asks for it."""

from __future__ import annotations

from baybook.compose import limits
from baybook.compose.practice import CONTINUOUS_BELOW, DEAD_BELOW, NO_SHORT_ABOVE
from baybook.compose.reading_ids import reading_ids
from baybook.compose.work import Work, at, device, reading, step
from baybook.finding import Amount, Finding, Message, Name, say, term
from baybook.quantity import Unknown
from baybook.step import Blank, Hold
from baybook.terms import JointKind

STANDING = ("right-parts", "proved-dead", "behind-screws", "polarity", "set-voltage")


def _standing(
    hold_id: str, body: tuple[Message, ...], fields: tuple[Blank, ...], title: str = ""
) -> Hold:
    return Hold(
        id=hold_id,
        number=STANDING.index(hold_id) + 1,
        title=say(title or f"hold.{hold_id}"),
        body=body,
        fields=fields,
        second_person=hold_id != "right-parts",
        standing=True,
        stands="readings" if hold_id == "set-voltage" else "steps",
    )


def right_parts(work: Work) -> Hold:
    """HOLD 1: this vehicle, these parts, this edition."""
    charger, station = work.fit.charger, work.fit.station
    body = say(
        "hold.right-parts.body",
        charger=Name(charger.sheet.revision),
        station=Name(station.sheet.revision),
    )
    return _standing(
        "right-parts",
        (body,),
        (
            Blank(id="charger-revision", label=say("field.charger-revision")),
            Blank(id="station-revision", label=say("field.station-revision")),
        ),
    )


def proved_dead(work: Work) -> Hold:
    """HOLD 2: known live, dead at the work point, known live again."""
    source, post, body = work.joint("source+"), work.negative, work.ground
    low, high = limits.rest(work)
    live = (source.letter, post.letter)
    return _standing(
        "proved-dead",
        (say("hold.proved-dead.body"),),
        (
            Blank(
                id="live-before", label=say("field.live-before"), low=low, high=high, points=live
            ),
            Blank(
                id="dead",
                label=say("field.dead" if work.has_joint("source-") else "field.dead.clamp"),
                high=DEAD_BELOW.amount,
                points=(source.letter, body.letter),
            ),
            *_second_dead(work, body.letter),
            Blank(id="live-after", label=say("field.live-after"), low=low, high=high, points=live),
        ),
    )


def behind_screws(work: Work) -> Hold:
    """HOLD 3: what is behind every screw, seen and probed from both sides."""
    mount = work.fit.vehicle.mounts[work.fit.job.mount]
    body = [say("hold.behind-screws.body", behind=Name(mount.behind))]
    if isinstance(mount.free_depth, Unknown):
        body.append(say("hold.behind-screws.unknown"))
    else:
        body.append(say("hold.behind-screws.survey", depth=Amount.of(mount.free_depth).at_most()))
    holes = [(n, f) for n, f in enumerate(work.circuit.fittings) if f.new_hole]
    body += [
        say("hold.behind-screws.wall", wall=Name(f.wall), behind=Name(f.behind)) for _, f in holes
    ]
    need = (
        work.amount("tip_protrusion", digits=0, show="mm").at_least()
        if work.has("tip_protrusion")
        else None
    )
    fields = [
        Blank(id="free-depth", label=say("field.free-depth"), low=need),
        *(
            Blank(id=f"behind-{place}", label=say("field.behind", wall=Name(hole.wall)), wide=True)
            for place, hole in holes
        ),
    ]
    return _standing("behind-screws", tuple(body), tuple(fields))


def polarity(work: Work) -> Hold:
    """HOLD 4: with the protection still out, plus is plus and nothing is shorted."""
    fuse = work.fuse
    body = work.ground.letter
    plus, minus = (work.joint(role).letter for role in ("in+", "in-"))
    ohms, dead = NO_SHORT_ABOVE.amount, DEAD_BELOW.amount
    through = CONTINUOUS_BELOW.amount
    return _standing(
        "polarity",
        (
            say("hold.polarity.body", fuse=device(fuse.tag), negative=step("battery.on")),
            say("hold.polarity.marks"),
        ),
        (
            Blank(id="short", label=say("field.ohms"), low=ohms, points=(fuse.end, body)),
            Blank(id="plus", label=say("field.ohms"), high=through, points=(fuse.end, plus)),
            Blank(id="return", label=say("field.ohms"), high=through, points=(minus, body)),
            *_supply(work, body),
            Blank(id="feed", label=say("field.volts"), high=dead, points=(fuse.end, body)),
            *_second_polarity(work),
        ),
        title=f"hold.polarity.{fuse.form}",
    )


def _second_dead(work: Work, body: str) -> tuple[Blank, ...]:
    """The second battery too: its lead dead against the body, its negative off."""
    if work.fit.second is None:
        return ()
    points = (work.joint("load+").letter, body)
    return (
        Blank(
            id="dead-second", label=say("field.dead.second"), high=DEAD_BELOW.amount, points=points
        ),
    )


def _second_polarity(work: Work) -> tuple[Blank, ...]:
    """At the second battery's end: its plus is plus up to F2, and nothing before F2."""
    battery = work.fit.second
    if battery is None:
        return ()
    fuse, minus = work.second_fuse, work.joint("load-").letter
    low, high = Amount.of(battery.empty), Amount.of(battery.charge_voltage)
    dead = DEAD_BELOW.amount
    return (
        Blank(id="second", label=say("field.volts"), low=low, high=high, points=(fuse.end, minus)),
        Blank(id="output", label=say("field.volts"), high=dead, points=(fuse.start, minus)),
    )


def _supply(work: Work, body: str) -> tuple[Blank, ...]:
    """Plus, read before the protection; before a fuse of the vehicle nothing can be read."""
    if work.fuse.factory:
        return ()
    low, high = limits.rest(work)
    points = (work.fuse.start, body)
    return (Blank(id="supply", label=say("field.volts"), low=low, high=high, points=points),)


def set_voltage(work: Work) -> Hold:
    """HOLD 5: the output read at the open plug, before the station is joined to it."""
    low, high = limits.output_open(work)
    plus = work.joint("plug+")
    station = work.fit.station
    return _standing(
        "set-voltage",
        (
            say(
                "hold.set-voltage.body",
                reading=reading(reading_ids(work)["open"]),
                low=low,
                high=high,
                plus=at(plus.letter),
            ),
            say("hold.set-voltage.polarity", polarity=term(station.polarity)),
            say("hold.set-voltage.above", absolute=Amount.of(station.absolute)),
        ),
        (
            Blank(
                id="output",
                label=say("field.volts"),
                low=low,
                high=high,
                points=(plus.letter, work.joint("plug-").letter),
            ),
        ),
    )


# --------------------------------------------------------------------------- raised by a rule


def raised(work: Work) -> tuple[tuple[Hold, Finding], ...]:
    """Return the further holds with their findings, numbered after the standing ones."""
    first: dict[str, Finding] = {}
    for finding in work.holds:
        first.setdefault(hold_id(finding), finding)
    return tuple(
        (_raised(name, number, finding), finding)
        for number, (name, finding) in enumerate(first.items(), len(STANDING) + 1)
    )


def hold_id(finding: Finding) -> str:
    """Return the id of the hold point that this finding asks for."""
    return finding.hold or finding.code.lower()


def _raised(name: str, number: int, finding: Finding) -> Hold:
    return Hold(
        id=name,
        number=number,
        title=_sentence(finding, "short"),
        body=(_sentence(finding, "reason"), finding.why),
        fields=(
            Blank(id="settled", label=say("field.settled"), wide=True),
            Blank(id="signed-by", label=say("field.signed-by")),
        ),
        second_person=False,
        standing=False,
    )


def _sentence(finding: Finding, part: str) -> Message:
    return Message(f"rule.{finding.code}.{part}", finding.title.values)


def joint_in_question(work: Work, finding: Finding) -> str:
    """Return the letter of the joint that a finding is about, or ""."""
    letters = {
        joint.letter for joint in work.circuit.joints if joint.kind is not JointKind.CONNECTOR
    }
    return next((part for part in finding.place.split(".") if part in letters), "")
