"""Nouns as plain JSON, and the fingerprints made from it.

A fingerprint depends on what a noun says, not on where it stands: marks (file, line)
are left out, floats count to twelve significant digits.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from functools import cache
from typing import Any

from pydantic import BaseModel

from baybook.design import CheckedDesign, Refusal
from baybook.finding import Amount
from baybook.quantity import Mark

# Most of a tree by far: passed on at a glance, before the questions below.
_AS_IS = frozenset({str, int, bool, type(None)})


def plain(node: object, *, marks: bool = True) -> Any:  # noqa: ANN401 - JSON of any shape
    """Return `node` as dicts, lists, strings and numbers; without its marks if asked."""
    return _plain(node, marks, steady=False)


def _plain(node: Any, marks: bool, *, steady: bool) -> Any:  # noqa: ANN401
    kind = type(node)
    if kind in _AS_IS:
        return node
    if kind is float:
        return float(f"{node:.12g}") if steady else node
    if kind is tuple or kind is list:
        kept = node if marks else [item for item in node if type(item) is not Mark]
        return [_plain(item, marks, steady=steady) for item in kept]
    if names := _names(kind):  # type: ignore[arg-type]
        said = {
            name: value if type(value) in _AS_IS else _plain(value, marks, steady=steady)
            for name in names
            for value in [getattr(node, name)]
            if marks or type(value) is not Mark
        }
        # The careful side says how a figure is told a second time; the figure is the same.
        return said | {"side": ""} if steady and kind is Amount else said
    if isinstance(node, Mapping):
        return {str(key): _plain(value, marks, steady=steady) for key, value in node.items()}
    return _scalar(node)


def _scalar(node: object) -> str | float:
    if isinstance(node, Enum):
        return str(node.value)
    if isinstance(node, (str, int, float)):
        return node
    if isinstance(node, date):
        return node.isoformat()
    raise TypeError(f"no plain form for {type(node).__name__}")


@cache
def _names(kind: type) -> tuple[str, ...]:
    """Return the fields of a noun, none for what is not one."""
    if issubclass(kind, BaseModel):
        return tuple(kind.model_fields)
    return tuple(f.name for f in fields(kind)) if is_dataclass(kind) else ()


def fingerprint(node: object) -> str:
    """Return twelve hex digits that change when anything `node` says changes.

    Floats count to twelve significant digits: the last ones may differ between machines.
    """
    tree = _plain(node, marks=False, steady=True)  # a new one, without a circle
    text = json.dumps(tree, sort_keys=True, ensure_ascii=False, check_circular=False)
    return hashlib.sha256(text.encode()).hexdigest()[:12]


def text_fingerprint(told: object) -> str:
    """Return twelve hex digits that change when anything a reader sees of `told` changes.

    told  a told form: every figure in it stands as text too, so that numbers need no look
    """
    texts: list[str] = []
    _collect([told], texts)
    ended = "\0".join((*texts, ""))  # each text with its end
    return hashlib.sha256(ended.encode()).hexdigest()[:12]


def _collect(nodes: Iterable[object], texts: list[str]) -> None:
    """Put the texts of trees into a list, in their order: a tree has some 200,000 nodes."""
    for node in nodes:
        if isinstance(node, str):
            texts.append(node)
        elif isinstance(node, dict):
            _collect(node.values(), texts)
        elif isinstance(node, list):
            _collect(node, texts)


def figures_fingerprint(outcome: CheckedDesign | Refusal) -> str:
    """Return the fingerprint of every figure with its inputs, and of what the rules said."""
    if isinstance(outcome, Refusal):
        return fingerprint([outcome.figures, outcome.candidates, outcome.findings])
    design = outcome.design
    parts = [design.choice, design.circuit, design.figures, design.candidates, outcome.findings]
    return fingerprint(parts)
