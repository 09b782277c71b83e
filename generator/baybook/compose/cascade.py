"""What goes with each size that was weighed, and what may stand in for what was chosen."""

from __future__ import annotations

from collections.abc import Iterator

from baybook.cascade import Cascade, Follower
from baybook.compose.tables import decider, refusal_words
from baybook.design import Candidate, Design, Refusal, Substitute
from baybook.finding import Amount, Listing, Message, Name, Ref, Value, Verdict, say
from baybook.guide import CascadeCell, CascadeLine, SubstituteLine


def cascade_lines(cascades: tuple[Cascade, ...], own_mm2: float) -> tuple[CascadeLine, ...]:
    """Return a row for each thing, a cell for each size; what differs from one size is marked.

    own_mm2  the chosen size, or the asked one
    """
    rows = dict.fromkeys(follower.key for one in cascades for follower in one.followers)
    found = [{follower.key: follower for follower in one.followers} for one in cascades]
    own = next((at for at, one in enumerate(cascades) if one.area_mm2 == own_mm2), 0)
    lines = (
        CascadeLine(
            what=_what(next(one[key] for one in found if key in one), "row"),
            cells=tuple(_cell(one.get(key), found[own].get(key)) for one in found),
        )
        for key in rows
    )
    # A torque has its own table; here only one that goes by the size of the wire.
    torque = "cascade.row.torque"
    return tuple(
        line for line in lines if line.what.id != torque or any(c.differs for c in line.cells)
    )


def change(own: Cascade, other: Cascade) -> Message | None:
    """Say what changes with another size, None where nothing does."""
    pairs = other.differing(own)
    told = tuple(dict.fromkeys(_change(new, old) for new, old in pairs))
    if not told:
        return None
    return say("cascade.with", area=_area(other), changes=Listing(told))


def way_out_change(refusal: Refusal) -> Message | None:
    """Say what changes from an asked size to the one that passes."""
    asked = refusal.fit.job.asked.area
    by_area = {one.area_mm2: one for one in refusal.cascades}
    passing = next((one for one in refusal.candidates if one.passes), None)
    if asked is None or passing is None or asked.value not in by_area:
        return None
    return change(by_area[asked.value], by_area[passing.choice.area_mm2])


def substitute_lines(design: Design) -> tuple[SubstituteLine, ...]:
    """Return what was tried in place of each part, passing or with the rule that refuses it."""
    own = next(one for one in design.cascades if one.area_mm2 == design.choice.area_mm2)
    return tuple(_substitute(own, one) for one in design.substitutes)


def _substitute(own: Cascade, one: Substitute) -> SubstituteLine:
    passes = one.candidate.passes
    changes = tuple(
        dict.fromkeys(
            _change(new, old)
            for new, old in one.cascade.differing(own)
            if not (one.kind == "protection" and new.kind == "fuse")
        )
    )
    return SubstituteLine(
        what=_tried(one),
        result=say("substitute.passes") if passes else _refused(one.candidate),
        passes=passes,
        changes=say("substitute.changes", changes=Listing(changes)) if passes and changes else None,
    )


def _tried(one: Substitute) -> Message:
    if one.kind == "protection":
        fuse = next(f.part for f in one.cascade.followers if f.kind == "fuse")
        return say("substitute.protection", part=Name(fuse))
    return say("substitute.cable", cable=Name(one.cascade.cable), area=_area(one.cascade))


def _area(one: Cascade) -> Amount:
    return Amount.area(one.area_mm2, one.gauge)


def _refused(candidate: Candidate) -> Message:
    return refusal_words(decider([f for f in candidate.findings if f.verdict is Verdict.REFUSED]))


def _what(follower: Follower, form: str) -> Message:
    letters = Listing(tuple(Ref("joint", letter) for letter in follower.letters))
    values: dict[str, Value] = {"at": letters, "place": Name(follower.place)}
    if follower.kind == "stock":
        values["place"] = say(f"colour.{follower.place}")
    return say(f"cascade.{form}.{follower.kind}", **values)


def _cell(now: Follower | None, own: Follower | None) -> CascadeCell:
    if now is None:
        return CascadeCell(text=say("cascade.cell.none"), differs=own is not None, missing=False)
    differs = own is None or now.what != own.what
    return CascadeCell(
        text=_text(now), differs=differs, missing=not now.there and now.kind != "stock"
    )


def _text(follower: Follower) -> Message:
    kind, figure = follower.kind, follower.figure
    if kind == "stock":
        drum = Amount.of(figure).plain() if figure else None
        buy = say("cascade.cell.buy", metres=Amount(follower.metres, "m", 2).at_least())
        return say("cascade.cell.drum", drum=drum) if drum else buy
    if kind == "terminal":
        return say("cascade.cell.fits" if follower.there else "cascade.cell.thick")
    return _there(follower) if follower.there else _missing(follower)


def _missing(follower: Follower) -> Message:
    if follower.kind == "die" and follower.part:
        return say("cascade.cell.die", die=Name(follower.part))
    return say("cascade.cell.missing")


def _there(follower: Follower) -> Message:
    figure = follower.figure
    if figure is None:
        return say("plain", text=Name(follower.part))
    if follower.kind == "lug":
        return say("cascade.cell.lug", area=Amount.of(figure, 0), thread=Name(follower.part))
    return say("cascade.cell.figure", figure=_limiting(follower.kind, Amount.of(figure)))


def _limiting(kind: str, figure: Amount) -> Amount:
    """A bend radius may not be less; strip length and hole are what they are."""
    return figure.at_least() if kind == "bend" else figure.plain()


def _change(now: Follower, before: Follower | None) -> Message:
    words = tuple(_short(now, before))
    if before is None:
        return say("cascade.change.new", what=_what(now, "word"), now=_text(now))
    return say("cascade.change", what=words[0], now=words[1], before=words[2])


def _short(now: Follower, before: Follower | None) -> Iterator[Message]:
    """Yield what, now and before; of a lug on the same thread the area alone says it."""
    same_thread = before is not None and now.kind == "lug" and now.part == before.part
    if same_thread and before is not None and now.figure and before.figure and now.there:
        yield say("cascade.word.lugs")
        yield say("cascade.cell.figure", figure=Amount.of(now.figure, 0))
        yield say("cascade.cell.figure", figure=Amount.of(before.figure, 0))
        return
    yield _what(now, "word")
    yield _text(now)
    yield _text(before) if before is not None else say("cascade.cell.none")
