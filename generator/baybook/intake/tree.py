"""Text of a YAML file → a tree that knows the place of everything in it.

Built from the parser's events, with a stack instead of recursion. YAML would turn `no` into false,
`12:30` into 750, `010` into 8 and a blank into nothing; here every scalar stays the text
that was written, and the model that needs it says what it is to be. Whatever makes a file read
differently from how it looks (anchors, aliases, merge keys, tags, several documents) is refused.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any, TypeAlias

import yaml

from baybook.finding import Finding, Name, Value
from baybook.intake.glyphs import unprintable
from baybook.intake.problems import problem, shown
from baybook.intake.source import Source
from baybook.quantity import Mark

DEEPEST = 40
MOST_NODES = 50_000
LONGEST_TEXT = 400  # four lines of a sheet; the example's longest has a hundred
CURLED = frozenset("“”„‟‘’‚‛«»‹›")  # what an editor for letters makes of a straight quote
LONGEST_WORD = 100  # an address; what has no space cannot be parted in two lines


class Scalar(str):
    """A text of a file; `basis` is the name of the basis that applies to it, "" for none."""

    __slots__ = ("basis", "mark", "plain", "told")

    basis: str
    mark: Mark
    plain: bool  # written without quotes
    told: bool  # a finding says already what is wrong with it

    @classmethod
    def at(cls, mark: Mark, text: str = "", *, plain: bool = True) -> Scalar:
        scalar = cls(text)
        scalar.mark, scalar.plain, scalar.basis, scalar.told = mark, plain, "", False
        return scalar


class Branch(dict[str, "Node"]):
    """A mapping of a file, with the place of each key."""

    def __init__(self, mark: Mark) -> None:
        super().__init__()
        self.mark = mark
        self.keys_at: dict[str, Mark] = {}


class Row(list["Node"]):
    """A list of a file."""

    def __init__(self, mark: Mark) -> None:
        super().__init__()
        self.mark = mark


Node: TypeAlias = Scalar | Branch | Row


@dataclass(slots=True)
class _Open:
    """A mapping or list that is still being read."""

    holder: Branch | Row
    key: str | None = None  # a key that waits for its value
    keep: bool = True  # False: the key is refused, its value is dropped


@dataclass(slots=True)
class _Builder:
    name: str
    prefix: str
    findings: list[Finding] = field(default_factory=list)
    stack: list[_Open] = field(default_factory=list)
    top: Node | None = None
    nodes: int = 0
    documents: int = 0
    long_quotes: dict[int, Mark] = field(default_factory=dict)  # by the line where they end

    def take(self, event: yaml.Event) -> bool:
        """Take one event; False when there is no sense in reading on."""
        if isinstance(event, (yaml.ScalarEvent, yaml.CollectionStartEvent)):  # nearly all
            mark = self._mark(event)
            self._check_marks(event, mark)
            return self._node(event, mark)
        if isinstance(event, yaml.CollectionEndEvent):
            self.stack.pop()
        elif isinstance(event, yaml.DocumentStartEvent):
            return self._document(event, self._mark(event))
        elif isinstance(event, yaml.AliasEvent):
            alias = Scalar.at(self._mark(event))
            alias.told = True
            self._refuse("alias", alias.mark, f"*{event.anchor}")
            self._place(alias)
        return True

    def _node(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent, mark: Mark) -> bool:
        self.nodes += 1
        if self.nodes > MOST_NODES or len(self.stack) >= DEEPEST:
            self._refuse("deep" if len(self.stack) >= DEEPEST else "many", mark)
            return False
        if isinstance(event, yaml.ScalarEvent):
            scalar = Scalar.at(mark, event.value, plain=event.implicit[0])
            self._place(scalar)
            self._check_text(scalar)
            if not event.implicit[0]:
                self._remember(event, mark)
            return True
        holder = Branch(mark) if isinstance(event, yaml.MappingStartEvent) else Row(mark)
        self._place(holder)
        self.stack.append(_Open(holder))
        return True

    def _check_text(self, scalar: Scalar) -> None:
        """Refuse what no sheet can show: a sign that the font lacks, a text beyond any line."""
        strange = unprintable(scalar)
        if strange:
            named = ", ".join(f"U+{ord(sign):04X}" for sign in strange)
            self._say("DA-17", "sign", scalar.mark, found=Name(named))
        elif scalar.plain and scalar[:1] in CURLED:
            self._say("DA-03", "curled-quote", scalar.mark, found=shown(str(scalar)))
        elif len(scalar) > LONGEST_WORD and _endless(scalar):
            self._say("DA-09", "text-length", scalar.mark, found=shown(str(scalar)))
        else:
            return
        scalar.told = True

    def _place(self, item: Node) -> None:
        """Put a finished scalar or a fresh collection where it belongs."""
        if not self.stack:
            self.top = item
            return
        top = self.stack[-1]
        if isinstance(top.holder, Row):
            item.mark = _inside(item.mark, top.holder, str(len(top.holder)))
            top.holder.append(item)
        elif top.key is None:
            self._key(top, top.holder, item)
        else:
            item.mark = _inside(item.mark, top.holder, top.key)
            if top.keep:
                top.holder[top.key] = item
            top.key = None

    def _key(self, top: _Open, branch: Branch, item: Node) -> None:
        """Take a key, or say what is wrong with it and drop the value that follows."""
        top.key, top.keep = (str(item) if isinstance(item, Scalar) else "?"), False
        where = _inside(item.mark, branch, top.key)
        if not isinstance(item, Scalar):
            self._say("DA-09", "key-form", where)
        elif item == "<<":
            self._refuse("merge", where, "<<")
        elif not item:
            self._say("DA-08", "key-blank", where)
        elif item in branch.keys_at:
            first = branch.keys_at[top.key].line
            self._say("DA-05", "twice", where, found=Name(top.key), line=first)
        else:
            top.keep = True
            branch.keys_at[top.key] = where

    def _remember(self, event: yaml.ScalarEvent, mark: Mark) -> None:
        """Keep a quoted text of several lines: it may be one whose quote was forgotten."""
        end: Any = event.end_mark
        if event.style in ("'", '"') and end.line + 1 > mark.line:
            self.long_quotes[end.line + 1] = mark

    def _document(self, event: yaml.DocumentStartEvent, mark: Mark) -> bool:
        self.documents += 1
        if self.documents > 1:
            self._refuse("documents", mark, "---")
            return False
        if event.version or event.tags:
            self._refuse("directive", mark, "%")
        return True

    def _check_marks(self, event: yaml.ScalarEvent | yaml.CollectionStartEvent, mark: Mark) -> None:
        if event.anchor:
            self._refuse("anchor", mark, f"&{event.anchor}")
        if event.tag:
            self._refuse("tag", mark, event.tag)

    def _refuse(self, reason: str, mark: Mark, found: str = "") -> None:
        self._say("DA-04", reason, mark, found=shown(found))

    def _say(self, code: str, reason: str, mark: Mark, **values: Value) -> None:
        at = f"{self.prefix}.{mark.path}" if mark.path else self.name
        self.findings.append(problem(code, reason, mark, at=at, **values))

    def _mark(self, event: yaml.Event) -> Mark:
        start: Any = event.start_mark  # the parser always sets it
        return Mark(self.name, start.line + 1, start.column + 1)


def _endless(text: str) -> bool:
    return len(text) > LONGEST_TEXT or any(len(word) > LONGEST_WORD for word in text.split())


def _inside(mark: Mark, holder: Branch | Row, key: str) -> Mark:
    """Return the mark with its path below the holder's."""
    above = holder.mark.path
    return Mark(mark.file, mark.line, mark.column, f"{above}.{key}" if above else key)


def grow(source: Source, prefix: str) -> tuple[Branch | None, tuple[Finding, ...]]:
    """Return the tree of a file and what is wrong with its form.

    prefix   what findings call the top of this file: `shop`, `vehicle`, `charger`

    No tree: the file cannot be read on. A tree beside findings: the rest of it is worth checking,
    so that a person gets all faults of a file at once.
    """
    if tab := _first_tab(source):
        return None, (tab,)
    builder = _Builder(source.name, prefix)
    try:
        for event in _events(source.text):
            if not builder.take(event):
                return None, tuple(builder.findings)
    except yaml.YAMLError as error:
        # A text that is endless because its quote is open is told as the open quote.
        found = [f for f in builder.findings if f.way_out.id != "data.text-length.way_out"]
        return None, (*found, _broken(error, source, builder.long_quotes))
    if not isinstance(builder.top, Branch):
        findings = builder.findings or [problem("DA-09", "no-mapping", Mark(source.name, 1, 1))]
        return None, tuple(findings)
    return builder.top, tuple(builder.findings)


def _events(text: str) -> Iterator[yaml.Event]:
    yield from yaml.parse(text, Loader=yaml.CSafeLoader)


def _first_tab(source: Source) -> Finding | None:
    """Find a tab: YAML takes it in some places and not in others, and nobody sees which."""
    for number, line in enumerate(source.text.splitlines(), start=1):
        if "\t" in line:
            return problem("DA-03", "tab", Mark(source.name, number, line.index("\t") + 1))
    return None


# What the parser says, and which slip is nearly always behind it.
_SLIPS = (
    ("mapping values are not allowed", "colon"),
    ("could not find expected ':'", "no-colon"),
    ("did not find expected key", "indent"),
    ("did not find expected '-'", "indent"),
    ("block sequence entries are not allowed", "indent"),
    ("unexpected end of stream", "quote"),
    ("unexpected document indicator", "quote"),
    ("unknown escape character", "escape"),
    ("expected hexadecimal", "escape"),
    ("cannot start any token", "first-sign"),
    ("did not find expected ',' or", "bracket"),
    ("did not find expected node content", "bracket"),
    ("control characters", "control"),
    ("special characters", "control"),
)


def _broken(error: yaml.YAMLError, source: Source, quotes: Mapping[int, Mark]) -> Finding:
    said = str(error)
    reason = next((reason for part, reason in _SLIPS if part in said), "syntax")
    place = getattr(error, "problem_mark", None)
    if place is None:
        return problem("DA-03", reason, _control_mark(source))
    lines = source.text.splitlines() or [""]
    line = min(place.line, len(lines) - 1)
    mark = Mark(source.name, line + 1, place.column + 1)
    if line + 1 in quotes:  # the parser stumbles where the next quote stands, far from the slip
        mark, reason = quotes[line + 1], "quote"
        line = mark.line - 1
    return problem("DA-03", reason, mark, found=shown(lines[line].strip()))


def _control_mark(source: Source) -> Mark:
    """Return the place of the first sign that no text file should hold."""
    for number, line in enumerate(source.text.split("\n"), start=1):
        for column, sign in enumerate(line, start=1):
            if not sign.isprintable() and sign not in "\r\u00a0\u202f\u2009\u00ad":
                return Mark(source.name, number, column)
    return Mark(source.name, 1, 1)


def texts_in(node: Node) -> Iterator[str]:
    """Yield every key and every text of a tree."""
    if isinstance(node, Scalar):
        yield str(node)
        return
    if isinstance(node, Branch):
        yield from node
    for item in node.values() if isinstance(node, Branch) else node:
        yield from texts_in(item)
