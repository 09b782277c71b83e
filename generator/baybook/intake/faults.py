"""Faults that any file may have."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from baybook.finding import Finding, Name
from baybook.intake.document import Document
from baybook.intake.problems import problem
from baybook.quantity import Quantity


def judge_at(document: Document[Any], path: str, figure: Quantity) -> Iterator[Finding]:
    """Yield a fault where a figure may be nought at the low end of its tolerance."""
    if figure.low <= 0:
        at, found = f"{document.prefix}.{path}", Name(figure.written)
        yield problem("DA-15", "nought", document.mark(path), at=at, found=found)


def empty(document: Document[Any], path: str) -> Finding:
    """Return the fault of a list that may not be empty."""
    return problem("DA-08", "empty-list", document.mark(path), at=f"{document.prefix}.{path}")
