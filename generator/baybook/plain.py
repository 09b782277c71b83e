"""Nouns as plain JSON, and the fingerprints made from it.

A fingerprint depends on what a noun says, not on where it stands: marks (file, line)
are left out, floats count to twelve significant digits.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date
from enum import Enum
from typing import Any

from pydantic import BaseModel

from baybook.design import CheckedDesign, Refusal
from baybook.quantity import Mark


def plain(node: object, *, marks: bool = True) -> Any:  # noqa: ANN401 - JSON of any shape
    """Return `node` as dicts, lists, strings and numbers; without its marks if asked."""
    if isinstance(node, Enum):
        return str(node.value)
    if node is None or isinstance(node, (str, bool, int, float)):
        return node
    if isinstance(node, date):
        return node.isoformat()
    if isinstance(node, Mapping):
        return {str(key): plain(value, marks=marks) for key, value in node.items()}
    if isinstance(node, (tuple, list)):
        return [plain(item, marks=marks) for item in node if marks or not isinstance(item, Mark)]
    pairs = [(name, getattr(node, name)) for name in _names(node)]
    return {
        name: plain(value, marks=marks)
        for name, value in pairs
        if marks or not isinstance(value, Mark)
    }


def _names(node: object) -> list[str]:
    if isinstance(node, BaseModel):
        return list(type(node).model_fields)
    if is_dataclass(node):
        return [f.name for f in fields(node)]
    raise TypeError(f"no plain form for {type(node).__name__}")


def fingerprint(node: object) -> str:
    """Return twelve hex digits that change when anything `node` says changes."""
    text = json.dumps(_steady(plain(node, marks=False)), sort_keys=True, ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()[:12]


def figures_fingerprint(outcome: CheckedDesign | Refusal) -> str:
    """Return the fingerprint of every figure with its inputs, and of what the rules said."""
    if isinstance(outcome, Refusal):
        return fingerprint([outcome.figures, outcome.candidates, outcome.findings])
    design = outcome.design
    parts = [design.choice, design.circuit, design.figures, design.candidates, outcome.findings]
    return fingerprint(parts)


def _steady(node: Any) -> Any:  # noqa: ANN401
    if isinstance(node, float):
        return float(f"{node:.12g}")
    if isinstance(node, dict):
        return {key: _steady(value) for key, value in node.items()}
    if isinstance(node, list):
        return [_steady(item) for item in node]
    return node
