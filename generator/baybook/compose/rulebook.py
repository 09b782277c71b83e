"""The rules by their codes with worked examples, from the file that a test keeps true."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from itertools import groupby
from typing import Any

from baybook.compose.sources import registered
from baybook.finding import Amount, Finding, Listing, Message, Name, Ref, Value, Verdict, say
from baybook.quantity import Mark
from baybook.rulebook import Change, Example, RuleEntry, RuleFamily
from baybook.shipped import shipped
from baybook.standards import register

# The order in which a reader looks for them: the trade first, then the workbook, then the tool.
FAMILIES = (
    "OV", "OC", "CA", "SU", "CU", "NE", "SB", "TQ", "RT", "HT", "FX", "PL", "RS", "ES",
    "KR", "DA", "AG", "ST",
)  # fmt: skip
# Where the rules come from that no workbook can break, so that no example names a source.
_UNSHOWN = {"AG": "circuit-laws", "ST": "common-practice"}


@cache
def rulebook() -> tuple[RuleFamily, ...]:
    """Return every rule, family by family, in the order of the codes."""
    known: Mapping[str, list[Any]] = _file()["rules"]
    codes = sorted(known, key=lambda code: (FAMILIES.index(code[:2]), code))
    return tuple(
        RuleFamily(
            id=family,
            title=say(f"rules.family.{family}"),
            rules=tuple(_entry(code, known[code]) for code in members),
        )
        for family, members in groupby(codes, key=lambda code: code[:2])
    )


def example_texts(language: str) -> Mapping[str, str]:
    """Return the example workbook's own texts in a language, those that its findings name."""
    texts: Mapping[str, Mapping[str, str]] = _file()["texts"]
    return texts.get(language, {})


@cache
def _file() -> Mapping[str, Any]:
    text = (shipped("templates") / "examples.json").read_text("utf-8")
    return json.loads(text)  # type: ignore[no-any-return]


def _entry(code: str, kept: list[Any]) -> RuleEntry:
    examples = tuple(_example(code, one) for one in kept)
    if not examples:
        walk = code.startswith("ST")
        return RuleEntry(
            code=code,
            what=say(f"rule.{code}.what"),
            why=say(f"rule.{code}.why"),
            way_out=say("rule.ST.way_out" if walk else f"rule.{code}.way_out"),
            allowed=say(f"rule.{code}.allowed") if walk else None,
            examples=(),
            sources=(registered(register()[_UNSHOWN[code[:2]]]),),
        )
    first = examples[0].finding
    ids = dict.fromkeys(
        source.replace(" ", "-") for one in examples for source in one.finding.sources
    )
    return RuleEntry(
        code=code,
        what=say(f"rule.{code}.what"),
        why=first.why,
        way_out=first.way_out,
        allowed=None,
        examples=examples,
        sources=tuple(registered(register()[source]) for source in ids),
    )


def _example(code: str, kept: Mapping[str, Any]) -> Example:
    where = Mark(*kept["where"])
    finding = Finding(
        verdict=Verdict(kept["verdict"]),
        code=code,
        place=kept["place"],
        where=where,
        title=_message(kept["title"]),
        found=_value(kept["found"]),
        allowed=_value(kept["allowed"]),
        why=_message(kept["why"]),
        way_out=_message(kept["way_out"]),
        sources=tuple(kept["sources"]),
    )
    changes = tuple(
        Change(file=file, under=tuple(under), old=tuple(old), new=tuple(map(_visible, new)))
        for file, under, old, new in kept["changes"]
    )
    return Example(fit=kept["fit"], changes=changes, finding=finding)


def _visible(line: str) -> str:
    """Return a line with its control characters as YAML writes them: a page cannot hold them."""
    return "".join(sign if sign.isprintable() else f"\\x{ord(sign):02x}" for sign in line)


def _message(kept: Mapping[str, Any]) -> Message:
    return say(kept["say"], **{name: _value(value) for name, value in kept["values"].items()})


def _value(kept: Any) -> Value:  # noqa: ANN401 - JSON
    """Return the typed value of what the file holds: the key says its type."""
    if isinstance(kept, int):
        return kept
    if "say" in kept:
        return _message(kept)
    if "amount" in kept:
        value, unit, digits, written, show = kept["amount"]
        return Amount(value, unit, digits, written, show)
    if "ref" in kept:
        return Ref(*kept["ref"])
    if "list" in kept:
        return Listing(tuple(_value(item) for item in kept["list"]))
    return Name(kept["name"])
