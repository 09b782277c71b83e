"""The text of a vehicle file that is being written: its open places, and how one is filled.

The file itself is all that a draft remembers. An open place is `key: ???` with the meaning of the
key behind it; an answer takes the mark's place and touches no other line, so that what a person
wrote by hand in between stays. The reader refuses the mark with its line.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from typing import Final

from pydantic import BaseModel

from baybook.desk.fields import Field, fields_of
from baybook.desk.schema import modeline
from baybook.desk.sheet_order import nouns_surveyed, parts
from baybook.intake.document import OPEN
from baybook.intake.source import Source
from baybook.intake.tree import Branch, Node, Row, Scalar, grow
from baybook.job import Job
from baybook.vehicle import Vehicle

_LINE: Final = re.compile(r"(?P<head> *(?:- )?[a-z0-9_-]+:) (?P<value>.*?)(?P<comment>  +#.*)?")
_WAS: Final = re.compile(r"  # was: (.*)$")
_ENTRY: Final = re.compile(r" *- (?:\{.*\}|\[.*\]|[^:#]+)")
# Of a vehicle that another is drafted from: what holds for the new one as it stands.
_KEPT: Final = re.compile(r"format|fits\.\d+\.(?!checked|approvals|refused).*")

_HEAD: Final = """\
{modeline}
# A draft: `???` is still to be answered, and refused until then. `baybook draft {name}` goes on.
#
# Every figure says why it may be believed: `basis:` names one of the `bases:` below, and holds for
# all figures of the mapping it stands in; the nearest one wins. A figure that needs one of its own:
#     low: {{value: 12.3 V, basis: drive, note: lights and blower on}}
# What nobody knows is written `unknown`, with the basis of who looked. A blank is an error.
# Left and right are the vehicle's own, seen in the direction of travel.

format: 1

"""
_BASES: Final = """\
bases:
  survey:
    state: measured
    method: ???  # how it was measured, in words
    by: ???  # role of who measured
    on: ???  # the day
    instrument: ???  # id of the shop's tool
    seen: ???  # VIN part or fleet number
  manual:
    state: paper
    document: ???  # number, revision, page
    by: ???  # role of who read it
    on: ???  # the day
  plan:
    state: rule
    method: chosen by the writer for this fit
    by: ???  # role of who chose
    on: ???  # the day
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One open place of a draft."""

    path: str
    line: int  # from 1
    field: Field
    was: str  # what stood there in the vehicle it is drafted from
    based: bool  # a mapping above names the basis of its figures


def skeleton(name: str) -> str:
    """Return a new vehicle file with every place open."""
    top = [field for field in fields_of(Vehicle) if field.name not in ("format", "variant_of")]
    text = _HEAD.format(modeline=modeline("vehicle", 2), name=name)
    after_blank = False
    for field in top:
        block = _BASES if field.name == "bases" else "".join(_open_field(field, 0))
        if field.group and not after_blank:
            text += "\n"
        text += block + ("\n" if field.group else "")
        after_blank = bool(field.group)
    return text.rstrip("\n") + "\n"


def _open_field(field: Field, indent: int, *, based: bool = False) -> Iterator[str]:
    pad = " " * indent
    if field.group and field.required and not field.many:
        yield f"{pad}{field.name}:\n"
        yield from noun_lines(field.group, indent + 2, based=based)
    else:
        optional = "" if field.required else "optional: "
        yield f"{pad}{field.name}: {OPEN}  # {optional}{field.description}\n"


def noun_lines(noun: type[BaseModel], indent: int, *, based: bool = False) -> Iterator[str]:
    """Yield the lines of one mapping, every key of it open.

    based  a mapping above names the basis of its figures
    """
    own = "" if based else _basis_of(noun)
    for at, field in enumerate(fields_of(noun)):
        yield from _open_field(field, indent, based=based or bool(own))
        if at == 0 and own:  # a list's dash stands before the first key, which is a plain one
            yield f"{' ' * indent}basis: {own}\n"


def _basis_of(noun: type[BaseModel]) -> str:
    if noun is Job:
        return "plan"
    return "survey" if any(field.kind == "figure" for field in fields_of(noun)) else ""


def open_places(text: str) -> tuple[Place, ...]:
    """Return what is still open, in the order of the survey sheet, the jobs last.

    Raises ValueError for a text that is no YAML: its faults are for `check` to tell.
    """
    tree, _ = grow(Source("draft", text), "vehicle")
    if tree is None:
        raise ValueError("the file cannot be read; `baybook check` says where")
    lines = text.splitlines()
    found = []
    for scalar, based in _open_scalars(tree, based=False):
        field = field_at(scalar.mark.path)
        if field is not None:
            was = _WAS.search(lines[scalar.mark.line - 1])
            found.append(
                Place(
                    path=scalar.mark.path, line=scalar.mark.line, field=field,
                    was=was[1] if was else "", based=based,
                )
            )  # fmt: skip
    order = _order()
    return tuple(sorted(found, key=lambda place: (_rank(place.field, order), place.line)))


def _open_scalars(node: Node, *, based: bool) -> Iterator[tuple[Scalar, bool]]:
    if isinstance(node, Scalar):
        if node == OPEN:
            yield node, based
        return
    based = based or (isinstance(node, Branch) and "basis" in node)
    for item in node.values() if isinstance(node, Branch) else node:
        yield from _open_scalars(item, based=based)


@cache
def _order() -> dict[str, int]:
    surveyed = nouns_surveyed()
    return {noun: at for at, part in enumerate(parts()) for noun in part.nouns if noun in surveyed}


def _rank(field: Field, order: dict[str, int]) -> int:
    if field.name == "fits":
        return len(order) + 1
    noun = field.group.__name__ if field.group else field.owner
    return order.get(noun, len(order) + 1)


def field_at(path: str) -> Field | None:
    """Return the field that a dotted path of a vehicle file leads to; None for none."""
    noun: type[BaseModel] | None = Vehicle
    field: Field | None = None
    steps = path.split(".")
    while steps:
        name = steps.pop(0)
        known = {one.name: one for one in fields_of(noun)} if noun else {}
        if name not in known:
            return None
        field = known[name]
        if field.many and steps:
            steps.pop(0)  # the entry
        noun = field.group
    return field


def filled(text: str, place: Place, value: str) -> str:
    """Return the text with the mark of a place replaced by what is written in one line."""
    return _changed(text, place, lambda head, comment: [f"{head} {value}{comment}"])


def opened(text: str, place: Place, entries: Iterable[str]) -> str:
    """Return the text with a group opened, every key below it to be answered.

    entries  its ids for a mapping, anything once for each of a list, and for one group nothing
    """
    group = place.field.group
    assert group is not None  # noqa: S101 - only a group is opened
    names = list(entries)

    def below(indent: int) -> list[str]:
        return "".join(noun_lines(group, indent, based=place.based)).splitlines()

    def block(head: str, comment: str) -> list[str]:
        pad = len(head) - len(head.lstrip(" -"))
        lines = [f"{head}{comment}"]
        if place.field.many == "map":
            for name in names:
                lines += [f"{' ' * (pad + 2)}{name}:", *below(pad + 4)]
        elif place.field.many == "list":
            for _ in names:
                first, *rest = below(pad + 4)
                lines += [f"{' ' * (pad + 2)}- {first.lstrip()}", *rest]
        else:
            lines += below(pad + 2)
        return lines

    return _changed(text, place, block)


def left_out(text: str, place: Place) -> str:
    """Return the text without the line of a place."""
    return _changed(text, place, lambda _head, _comment: [])


def _changed(text: str, place: Place, change: Callable[[str, str], list[str]]) -> str:
    lines = text.split("\n")
    found = _LINE.fullmatch(lines[place.line - 1])
    if found is None:
        raise ValueError(f"line {place.line} is not of the form `key: {OPEN}`")
    comment = _WAS.sub("", found["comment"] or "")
    lines[place.line - 1 : place.line] = change(found["head"], comment)
    return "\n".join(lines)


def taken_over(text: str, name: str, source: str) -> str:
    """Return another vehicle's file as a draft: each value open, what was there behind it.

    What was measured on one vehicle is not known of the next: nothing counts until it is answered.
    """
    lines = list(_folded(text.split("\n")))
    tree, _ = grow(Source("draft", "\n".join(lines)), "vehicle")
    paths = {} if tree is None else dict(_line_paths(tree))
    head = (
        f"# A draft from {source}: `{OPEN}` is still to be answered, and refused until then. "
        f"`baybook draft {name}` goes on."
    )
    made = [_reopened(line, paths.get(at, "format")) for at, line in enumerate(lines, start=1)]
    return "\n".join([made[0], head, *made[1:]])


def _folded(lines: list[str]) -> Iterator[str]:
    """Yield the lines with each block of entries of a line each folded into one: `[a, b]`."""
    at = 0
    while at < len(lines):
        below = at + 1
        while below < len(lines) and _ENTRY.fullmatch(lines[below]):
            below += 1
        entries = [line.strip().removeprefix("- ") for line in lines[at + 1 : below]]
        if entries and re.fullmatch(r" *(?:- )?[a-z_]+:", lines[at]):
            yield f"{lines[at]} [{', '.join(map(_in_flow, entries))}]"
            at = below
        else:
            yield lines[at]
            at += 1


def _in_flow(entry: str) -> str:
    return entry if entry[0] in "{['\"" else json.dumps(entry, ensure_ascii=False)


def _line_paths(node: Node) -> Iterator[tuple[int, str]]:
    """Yield the path of the key that stands first in each line."""
    if isinstance(node, Branch):
        for key, item in node.items():
            mark = node.keys_at[key]
            yield from reversed([*_line_paths(item), (mark.line, mark.path)])
    elif isinstance(node, Row):
        for item in node:
            yield from _line_paths(item)


def _reopened(line: str, path: str) -> str:
    found = _LINE.fullmatch(line)
    if found is None or not found["value"] or found["value"].startswith("#"):
        return line
    if _KEPT.fullmatch(path) or path.endswith(("basis", ".state")):
        return line
    return f"{found['head']} {OPEN}{found['comment'] or ''}  # was: {found['value']}"
