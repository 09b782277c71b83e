"""Noun: the rules by their codes, as the manual of a site shows them.

What an example says is what the tool said of that very slip; a test makes all of them again.
"""

from __future__ import annotations

from dataclasses import dataclass

from baybook.finding import Finding, Message
from baybook.guide import SourceLine

MANUAL = "manual/rules.html"  # under a language's pages: every rule in one line


def rule_address(code: str) -> str:
    """Return where a rule stands in the manual, under a language's pages."""
    return f"{family_address(code[:2])}#{code}"


def family_address(family: str) -> str:
    """Return where the rules of a family stand in the manual, under a language's pages."""
    return f"manual/rules-{family.lower()}.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """An edit of the example workbook that leads to a finding."""

    file: str  # in the workbook
    under: tuple[str, ...]  # the keys that it stands under
    old: tuple[str, ...]  # lines
    new: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Example:
    """One slip, and what the tool says of it."""

    fit: str  # of the example workbook; "" where a file cannot be read at all
    changes: tuple[Change, ...]  # none: the fit as it stands there
    finding: Finding


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleEntry:
    """One rule. Without an example it looks for a fault of the tool itself."""

    code: str
    what: Message
    why: Message
    way_out: Message
    allowed: Message | None  # said where there is no example
    examples: tuple[Example, ...]
    sources: tuple[SourceLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleFamily:
    """The rules of one subject: the letters before the number of a code."""

    id: str  # "OC"
    title: Message
    rules: tuple[RuleEntry, ...]
