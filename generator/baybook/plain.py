"""Nouns as plain JSON, and the fingerprints made from it.

A fingerprint depends on what a noun says, not on where it stands: marks (file, line)
are left out, floats count to twelve significant digits.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator, Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from functools import cache
from typing import Any

from pydantic import BaseModel

from baybook.design import CheckedDesign, Refusal
from baybook.quantity import Mark


def plain(node: object, *, marks: bool = True) -> Any:  # noqa: ANN401 - JSON of any shape
    """Return `node` as dicts, lists, strings and numbers; without its marks if asked."""
    kind = type(node)
    if kind in _LEAVES:
        return node
    if isinstance(node, (tuple, list)):
        return [plain(item, marks=marks) for item in node if marks or type(item) is not Mark]
    if isinstance(node, Enum):
        return str(node.value)
    if isinstance(node, date):
        return node.isoformat()
    if isinstance(node, Mapping):
        return {str(key): plain(value, marks=marks) for key, value in node.items()}
    pairs = [(name, getattr(node, name)) for name in _names(type(node))]  # type: ignore[arg-type]
    return {
        name: plain(value, marks=marks) for name, value in pairs if marks or type(value) is not Mark
    }


_LEAVES = frozenset({str, int, float, bool, type(None)})


@cache
def _names(kind: type) -> tuple[str, ...]:
    if issubclass(kind, BaseModel):
        return tuple(kind.model_fields)
    if is_dataclass(kind):
        return tuple(f.name for f in fields(kind))
    raise TypeError(f"no plain form for {kind.__name__}")


def fingerprint(node: object) -> str:
    """Return twelve hex digits that change when anything `node` says changes.

    Floats count to twelve significant digits: the last ones may differ between machines.
    """
    text = json.dumps(_steady(plain(node, marks=False)), sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()[:12]


def text_fingerprint(told: object) -> str:
    """Return twelve hex digits that change when anything a reader sees of `told` changes.

    told  a told form: every figure in it stands as text too, so that numbers need no look
    """
    digest = hashlib.sha256()
    for text in _texts(told):
        digest.update(text.encode())
        digest.update(b"\0")
    return digest.hexdigest()[:12]


def _texts(node: object) -> Iterator[str]:
    if isinstance(node, str):
        yield node
    elif isinstance(node, dict):
        for value in node.values():
            yield from _texts(value)
    elif isinstance(node, list):
        for value in node:
            yield from _texts(value)


def figures_fingerprint(outcome: CheckedDesign | Refusal) -> str:
    """Return the fingerprint of every figure with its inputs, and of what the rules said."""
    if isinstance(outcome, Refusal):
        return fingerprint([outcome.figures, outcome.candidates, outcome.findings])
    design = outcome.design
    parts = [design.choice, design.circuit, design.figures, design.candidates, outcome.findings]
    return fingerprint(parts)


def _steady(node: Any) -> Any:  # noqa: ANN401
    kind = type(node)
    if kind is float:
        return float(f"{node:.12g}")
    if kind is dict:
        return {key: _steady(value) for key, value in node.items()}
    if kind is list:
        return [_steady(item) for item in node]
    return node
