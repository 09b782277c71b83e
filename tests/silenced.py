"""Rules switched off, one at a time: a silent one finds nothing, whoever asks it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FunctionType
from typing import Any

from baybook.checks import RULES
from baybook.checks.steps_order import ORDER
from baybook.checks.steps_sheet import SHEET


def rules() -> dict[str, Callable[..., Iterator[Any]]]:
    """Return every rule of both gates by its code; those of the steps say it in their docstring."""
    steps = {(rule.__doc__ or "").partition(":")[0]: rule for rule in (*ORDER, *SHEET)}
    return {**RULES, **steps}


def silence(rule: Callable[..., Iterator[Any]]) -> None:
    """Let a rule find nothing. It stays in the registry, and in every list made of it."""
    assert isinstance(rule, FunctionType)
    assert not rule.__code__.co_freevars, "a rule that holds other values cannot be exchanged"
    rule.__code__ = _nothing.__code__


@contextmanager
def silenced(code: str) -> Iterator[None]:
    """Silence a rule for a while."""
    rule = rules()[code]
    assert isinstance(rule, FunctionType)
    own = rule.__code__
    silence(rule)
    try:
        yield
    finally:
        rule.__code__ = own


def _nothing(_looked_at: object) -> Iterator[Any]:
    yield from ()
